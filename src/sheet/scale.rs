//! How large the batch is: from jars, a mass, what is in hand, or a vessel.

use super::{BatchBasis, Fill, Plan, PlanField, Totals};
use crate::formula::LineId;
use crate::quantity::{Mass, Percent, Quantity, Typed, mul_div_floor, mul_div_nearest, sort_by};

/// The size of a batch.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Batch {
    /// What the plan comes to, exactly.
    pub asked: Mass,
    /// The same in whole steps of the scale: what the weighed masses sum to.
    pub mass: Mass,
    /// For what is in hand: each line, with the batch it would allow. The first one runs out first.
    pub hand: Vec<HandLine>,
}

/// What one line in hand allows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct HandLine {
    /// Which line.
    pub line: LineId,
    /// What there is of it.
    pub mass: Mass,
    /// The batch that this alone would allow.
    pub allows: Mass,
}

/// Why a plan gives no batch.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ScaleProblem {
    /// A field is empty that this way of scaling needs.
    Missing(PlanField),
    /// A field is there but cannot be read or used.
    Unread(PlanField),
    /// None of the lines in hand is part of the formula.
    NothingInHand,
    /// The batch comes to less than one step of the scale.
    TooSmall,
    /// The batch comes to more than a mass can hold (1000 kg).
    TooLarge,
}

/// The batch that a plan asks for.
///
/// # Errors
/// What is missing or unread, named by field.
pub fn batch(plan: &Plan, totals: &Totals) -> Result<Batch, ScaleProblem> {
    let step = plan.step_value().ok_or(unusable(&plan.step, PlanField::Step))?;
    let (asked, hand, up) = match plan.basis {
        BatchBasis::Jars => (from_jars(plan)?, Vec::new(), true),
        BatchBasis::Mass => (need(&plan.mass, PlanField::Mass)?, Vec::new(), false),
        BatchBasis::InHand => {
            let hand = from_hand(plan, totals)?;
            (hand[0].allows, hand, false)
        }
        BatchBasis::Vessel => (from_vessel(plan)?, Vec::new(), false),
    };
    if asked.units() > Mass::MAX {
        return Err(ScaleProblem::TooLarge);
    }
    let steps = match plan.basis {
        // Jars must all be filled, so up; a vessel or what is in hand must not be exceeded, so down.
        _ if up => (asked.units() + step.units() - 1) / step.units(),
        BatchBasis::Mass => mul_div_nearest(asked.units(), 1, step.units()),
        _ => asked.units() / step.units(),
    };
    if steps == 0 {
        return Err(ScaleProblem::TooSmall);
    }
    let mass = Mass::from_units(steps.saturating_mul(step.units()));
    // Rounding up may leave the range as well.
    if mass.units() > Mass::MAX {
        return Err(ScaleProblem::TooLarge);
    }
    Ok(Batch { asked, mass, hand })
}

fn unusable<T: Quantity>(typed: &Typed<T>, field: PlanField) -> ScaleProblem {
    if typed.is_empty() { ScaleProblem::Missing(field) } else { ScaleProblem::Unread(field) }
}

fn need<T: Quantity>(typed: &Typed<T>, field: PlanField) -> Result<T, ScaleProblem> {
    typed.value().ok_or(unusable(typed, field))
}

/// A share that means nothing when it is empty.
fn share_or_none(typed: &Typed<Percent>, field: PlanField) -> Result<Percent, ScaleProblem> {
    if typed.is_empty() { Ok(Percent::ZERO) } else { need(typed, field) }
}

/// N × F × (1 + loss): the loss is a share of what is filled, so 3 % on 1200 g makes 1236 g.
fn from_jars(plan: &Plan) -> Result<Mass, ScaleProblem> {
    let jars = need(&plan.jars, PlanField::Jars)?.units();
    let fill = match &plan.fill {
        Fill::Mass(mass) => need(mass, PlanField::Fill)?,
        Fill::Volume(volume) => need(volume, PlanField::Fill)?.at(need(&plan.density, PlanField::Density)?),
    };
    let loss = share_or_none(&plan.loss, PlanField::Loss)?;
    let filled = fill.units().checked_mul(jars).ok_or(ScaleProblem::TooLarge)?;
    Ok(Mass::from_units(mul_div_nearest(filled, Percent::WHOLE.plus(loss).units(), Percent::WHOLE.units())))
}

fn from_vessel(plan: &Plan) -> Result<Mass, ScaleProblem> {
    let brim = need(&plan.vessel, PlanField::Vessel)?.at(need(&plan.density, PlanField::Density)?);
    let room = share_or_none(&plan.head_room, PlanField::HeadRoom)?;
    Ok(brim.share(Percent::WHOLE.minus(room)))
}

fn from_hand(plan: &Plan, totals: &Totals) -> Result<Vec<HandLine>, ScaleProblem> {
    if plan.in_hand.iter().any(|hand| hand.mass.is_unread()) {
        return Err(ScaleProblem::Unread(PlanField::InHand));
    }
    let mut hand: Vec<HandLine> = plan
        .in_hand
        .iter()
        .filter_map(|hand| {
            let share = totals.share_of(hand.line).filter(|share| share.units() > 0)?;
            let mass = hand.mass.value()?;
            let allows = mul_div_floor(mass.units(), Percent::WHOLE.units(), share.units());
            Some(HandLine { line: hand.line, mass, allows: Mass::from_units(allows) })
        })
        .collect();
    sort_by(&mut hand, |a, b| a.allows.cmp(&b.allows));
    if hand.is_empty() { Err(ScaleProblem::NothingInHand) } else { Ok(hand) }
}
