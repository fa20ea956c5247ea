//! What was seen, criterion by criterion. That all is within its limits says so of the days that were looked at and of no
//! other: no state here means that a product is stable.

use super::{ConditionKind, Pull, Separation, Study, StudyPull};
use crate::facts::stability_figures;
use crate::quantity::{Ph, Quantity, keyed};

keyed! {
    /// What is looked at.
    StudyCriterion {
        /// How it looks.
        Appearance = "appearance",
        /// Its colour.
        Colour = "colour",
        /// How it smells.
        Odour = "odour",
        /// Its pH.
        Ph = "ph",
        /// How thick it is.
        Viscosity = "viscosity",
        /// How much weight the pack lost.
        WeightLoss = "weight-loss",
        /// Whether something came out.
        Separation = "separation",
    }
}

/// How a sample stands by one criterion. In the order in which one outweighs another.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum CriterionState {
    /// It was not looked at, or there is nothing to hold it against.
    NotJudged,
    /// Within the limits.
    Within,
    /// To be looked into.
    Care,
    /// Outside the limits.
    Outside,
}

/// What a study has seen by one criterion.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StudyVerdict {
    /// Which.
    pub criterion: StudyCriterion,
    /// The gravest of what was seen.
    pub state: CriterionState,
    /// How many samples were judged by it.
    pub judged: usize,
    /// Where it was first as grave as that; nothing while all is within or nothing was judged.
    pub at: Option<Pull>,
}

/// All criteria, in their order.
pub fn verdicts(study: &Study) -> Vec<StudyVerdict> {
    let one = |criterion: &StudyCriterion| {
        let judged = study.seen.iter().map(|seen| (judge(study, seen, *criterion), seen.pull));
        let judged: Vec<_> = judged.filter(|(state, _)| *state > CriterionState::NotJudged).collect();
        let state = judged.iter().map(|(state, _)| *state).max().unwrap_or(CriterionState::NotJudged);
        let at = judged.iter().find(|(found, _)| *found == state).map(|(_, pull)| *pull);
        let at = at.filter(|_| state > CriterionState::Within);
        StudyVerdict { criterion: *criterion, state, judged: judged.len(), at }
    };
    StudyCriterion::ALL.iter().map(one).collect()
}

/// The gravest state of one sample.
pub fn judge_pull(study: &Study, seen: &StudyPull) -> CriterionState {
    let states = StudyCriterion::ALL.iter().map(|criterion| judge(study, seen, *criterion));
    states.max().unwrap_or(CriterionState::NotJudged)
}

fn judge(study: &Study, of: &StudyPull, criterion: StudyCriterion) -> CriterionState {
    let (seen, limits) = (&of.seen, &study.plan.limits);
    let state = match criterion {
        StudyCriterion::Appearance => seen.appearance.and_then(change),
        StudyCriterion::Colour => seen.colour.and_then(change),
        StudyCriterion::Odour => seen.odour.and_then(change),
        StudyCriterion::Ph => seen.ph.and_then(|ph| acidity(study, of, ph)),
        StudyCriterion::Viscosity => seen.viscosity.zip(limits.viscosity).map(|(value, range)| within(value, range)),
        StudyCriterion::WeightLoss => study
            .weight_loss(of)
            .zip(limits.weight_loss)
            .map(|(lost, most)| if lost > most { CriterionState::Care } else { CriterionState::Within }),
        StudyCriterion::Separation => seen.separation.map(|separation| match separation {
            Separation::None => CriterionState::Within,
            Separation::Drops => CriterionState::Care,
            Separation::Layer => CriterionState::Outside,
        }),
    };
    state.unwrap_or(CriterionState::NotJudged)
}

fn change(score: u8) -> Option<CriterionState> {
    let figures = stability_figures()?;
    Some(match score {
        score if score >= figures.change_outside => CriterionState::Outside,
        score if score >= figures.change_care => CriterionState::Care,
        _ => CriterionState::Within,
    })
}

fn within<T: PartialOrd>(value: T, (low, high): (T, T)) -> CriterionState {
    if value < low || value > high { CriterionState::Outside } else { CriterionState::Within }
}

/// The pH against the limits, and against the first reading of the same condition or, where that has none, of the whole study.
fn acidity(study: &Study, of: &StudyPull, ph: Ph) -> Option<CriterionState> {
    let held = study.plan.limits.ph.map(|range| within(ph, range));
    let own = study.first(of.pull.condition).find_map(with_ph);
    let before = |found: &(&StudyPull, Ph)| found.0.entry != of.entry && found.0.pull.due <= of.pull.due;
    let first = own.filter(before).or_else(|| study.first(ConditionKind::Room).find_map(with_ph)).filter(before);
    let drift = first.and_then(|(_, first)| {
        let (figures, drift) = (stability_figures()?, (ph.units() - first.units()).abs());
        Some(match drift {
            drift if drift > figures.ph_outside.units() => CriterionState::Outside,
            drift if drift > figures.ph_care.units() => CriterionState::Care,
            _ => CriterionState::Within,
        })
    });
    held.into_iter().chain(drift).max()
}

fn with_ph(seen: &StudyPull) -> Option<(&StudyPull, Ph)> {
    seen.seen.ph.map(|ph| (seen, ph))
}
