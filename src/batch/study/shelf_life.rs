//! How long a batch keeps: what ends it, the first of that, and what was seen so far. What was seen to hold is evidence and no
//! limit; a sample that did not hold ends it at the last look before.

use super::{ConditionKind, CriterionState, LotEnd, LotEndBasis, Study, StudyLot, judge_pull, lot_ends};
use crate::batch::BatchRecord;
use crate::facts::{Months, OxidationOutlook};
use crate::quantity::{Day, sort_by};
use crate::sheet::{Figures, oil_phase, totals};
use crate::shelf::Shelf;

/// What ends the shelf life.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ShelfLimit {
    /// A lot that went in is good no longer: which, and where that comes from.
    Lot(StudyLot, LotEndBasis),
    /// The maker's own rule: so many months after making.
    Rule(Months),
    /// A sample at room temperature was outside its limits: its day is that of the last one before that was not.
    Sample,
}

/// What a study has seen so far under one condition.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct StabilityEvidence {
    /// Up to which day after its beginning every sample that was looked at was not outside its limits.
    pub days: i64,
    /// On which day after its beginning a sample was, if one was.
    pub outside_after: Option<i64>,
}

/// How long a batch keeps.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ShelfLife {
    /// What ends it, the first one first: that one binds.
    pub limits: Vec<(Day, ShelfLimit)>,
    /// Every lot that went in, and how long it keeps.
    pub lots: Vec<LotEnd>,
    /// How soon its oils go rancid, by their acids. That is a class and no day, so it ends nothing. `None` where it has no oils,
    /// or where its record is not at hand.
    pub outlook: Option<OxidationOutlook>,
    /// What was seen so far at room temperature.
    pub evidence: StabilityEvidence,
}

impl ShelfLife {
    /// The last day of use: that of what ends first. `None` if nothing is known to end, or where a sample at room temperature
    /// did not hold: before it is known why, no day of use follows.
    pub fn best_before(&self) -> Option<Day> {
        self.limits.first().map(|(day, _)| *day).filter(|_| self.evidence.outside_after.is_none())
    }

    /// How many lots that are known by name have no known end.
    pub fn lots_without_end(&self) -> usize {
        self.lots.iter().filter(|end| !end.is_unnamed() && end.ends.is_empty()).count()
    }

    /// Of how many ingredients nobody noted which lot went in, nor when it ends.
    pub fn without_lot(&self) -> usize {
        self.lots.iter().filter(|end| end.is_unnamed() && end.ends.is_empty()).count()
    }
}

/// Of the batch of a study, by its record where that is at hand, and by the shelf as it is now. Of all lots only the one that
/// ends first is a limit.
pub fn shelf_life(study: &Study, record: Option<&BatchRecord>, shelf: &Shelf) -> ShelfLife {
    let lots = lot_ends(study, record, shelf);
    let ends = lots.iter().filter_map(|end| Some((*end.ends.first()?, &end.lot)));
    let first = ends.reduce(|first, other| if other.0.0 < first.0.0 { other } else { first });
    let rule = study.rule.map(|months| (months.after(study.basis.made), ShelfLimit::Rule(months)));
    let evidence = seen_so_far(study, ConditionKind::Room);
    let failed = evidence.outside_after.map(|_| (study.basis.began.plus_days(evidence.days), ShelfLimit::Sample));
    let lot = first.map(|((day, basis), lot)| (day, ShelfLimit::Lot(lot.clone(), basis)));
    let mut limits: Vec<_> = failed.into_iter().chain(lot).chain(rule).collect();
    sort_by(&mut limits, |a, b| a.0.cmp(&b.0));
    let outlook = record.and_then(|record| outlook(record, shelf));
    ShelfLife { limits, lots, outlook, evidence }
}

/// What the oils that the batch was made from are like, by what is known of them now.
fn outlook(record: &BatchRecord, shelf: &Shelf) -> Option<OxidationOutlook> {
    let formula = &record.made_from.as_ref()?.formula;
    oil_phase(formula, &totals(formula), shelf).figures.as_ref().and_then(Figures::outlook)
}

/// What was seen under a condition. A sample of which nothing could be judged is no evidence.
pub fn seen_so_far(study: &Study, condition: ConditionKind) -> StabilityEvidence {
    let mut found = StabilityEvidence::default();
    for seen in study.first(condition) {
        let after = seen.on.number() - study.basis.began.number();
        match judge_pull(study, seen) {
            CriterionState::Outside => {
                found.outside_after = Some(after);
                break;
            }
            CriterionState::NotJudged => {}
            CriterionState::Within | CriterionState::Care => found.days = found.days.max(after),
        }
    }
    found
}
