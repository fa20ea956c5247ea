//! How long a batch keeps: what ends it, the first of that, and what was seen so far. What was seen to hold is evidence and no
//! limit; a sample that did not hold ends it at the last look before.

use super::{ConditionKind, CriterionState, Study, StudyLot, judge_pull};
use crate::facts::Months;
use crate::quantity::{Day, Quantity, sort_by};

/// What ends the shelf life.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ShelfLimit {
    /// A lot that went in is good no longer.
    Lot(StudyLot),
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
    /// How many of the lots have no known end.
    pub lots_without_end: usize,
    /// What was seen so far at room temperature.
    pub evidence: StabilityEvidence,
}

impl ShelfLife {
    /// The last day of use: that of what ends first. `None` if nothing is known to end, or where a sample at room temperature
    /// did not hold: before it is known why, no day of use follows.
    pub fn best_before(&self) -> Option<Day> {
        self.limits.first().map(|(day, _)| *day).filter(|_| self.evidence.outside_after.is_none())
    }
}

/// Of the batch of a study. Of all lots only the one that ends first is told.
pub fn shelf_life(study: &Study) -> ShelfLife {
    let ends = study.lots.iter().filter_map(|lot| Some((lot.expiry?, lot)));
    let first = ends.reduce(|first, other| if other.0 < first.0 { other } else { first });
    let rule = study.rule.and_then(|months| {
        Some((study.basis.made.plus_months(u32::try_from(months.units()).ok()?), ShelfLimit::Rule(months)))
    });
    let evidence = seen_so_far(study, ConditionKind::Room);
    let failed = evidence.outside_after.map(|_| (study.basis.began.plus_days(evidence.days), ShelfLimit::Sample));
    let lot = first.map(|(day, lot)| (day, ShelfLimit::Lot(lot.clone())));
    let mut limits: Vec<_> = failed.into_iter().chain(lot).chain(rule).collect();
    sort_by(&mut limits, |a, b| a.0.cmp(&b.0));
    let lots_without_end = study.lots.iter().filter(|lot| lot.expiry.is_none()).count();
    ShelfLife { limits, lots_without_end, evidence }
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
