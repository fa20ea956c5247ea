//! The weigh sheet: the masses of one batch, in steps that the scale can show.

use super::premix::{BatchOnScale, PremixAdvice, ROUGHLY, least_weighable};
use super::{
    Balance, Batch, Plan, PlanField, RoundedParts, ScaleProblem, Totals, batch, fill_up_takes_rest,
    largest_remainder_below,
};
use crate::formula::{Formula, LineId, PhaseId};
use crate::quantity::{Mass, Percent, Quantity, mul_div_floor};
use crate::shelf::{Ingredient, Shelf, may_be_capped};

/// One line of the weigh sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WeighLine {
    /// Its phase.
    pub phase: PhaseId,
    /// Which line.
    pub line: LineId,
    /// Its share of the formula.
    pub share: Percent,
    /// The mass to the nearest microgram, before rounding to the scale.
    pub exact: Mass,
    /// What goes onto the scale for this line, in whole steps: itself, the portion of its premix, or, of a carrier, what
    /// its premixes do not bring. Over all lines this sums to the batch.
    pub on_scale: Mass,
    /// How much of its ingredient the batch gets: the same, but where there are premixes. This, too, sums to the batch.
    pub mass: Mass,
    /// How far that is from the exact mass, in percent of it, in units of 0.000001 %; may be negative.
    pub error: Percent,
    /// What to do if the scale cannot weigh so little well.
    pub premix: Option<PremixAdvice>,
}

/// The masses of one batch.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WeighSheet {
    /// The batch.
    pub batch: Batch,
    /// The scale's step.
    pub step: Mass,
    /// The least mass the scale weighs within the accepted error.
    pub least: Mass,
    /// Every line in order.
    pub lines: Vec<WeighLine>,
    /// The line that is weighed with the largest error, if any is.
    pub worst: Option<LineId>,
    /// A line that takes whole steps, up or down, so that no other does, and how many.
    pub takes: Vec<(LineId, i64)>,
    /// Lines that rounding carries up although a rule may cap them, since no other line has room for it.
    pub raised: Vec<LineId>,
}

impl WeighSheet {
    /// The row of a line.
    pub fn line(&self, id: LineId) -> Option<&WeighLine> {
        self.lines.iter().find(|line| line.line == id)
    }

    /// The lines that are weighed through a premix.
    pub fn premixes(&self) -> impl Iterator<Item = (&WeighLine, &super::Premix)> {
        self.lines.iter().filter_map(|line| match &line.premix {
            Some(PremixAdvice::Make(premix)) => Some((line, premix)),
            _ => None,
        })
    }
}

/// Why there is no weigh sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NoSheet {
    /// The formula has no line with a share.
    Empty,
    /// Lines whose share is missing or unread.
    Open(Vec<LineId>),
    /// The formula is not 100 %.
    NotWhole(Balance),
    /// The plan gives no batch.
    Plan(ScaleProblem),
}

/// Scales a formula to the batch of a plan.
///
/// # Errors
/// Why it cannot be scaled yet. A formula that is not 100 % is never scaled.
pub fn weigh(formula: &Formula, totals: &Totals, plan: &Plan, shelf: &Shelf) -> Result<WeighSheet, NoSheet> {
    if totals.shares.is_empty() {
        return Err(NoSheet::Empty);
    }
    if !totals.complete() {
        return Err(NoSheet::Open(totals.missing.iter().chain(&totals.unread).copied().collect()));
    }
    if totals.balance != Balance::Whole {
        return Err(NoSheet::NotWhole(totals.balance));
    }
    let mut batch = batch(plan, totals).map_err(NoSheet::Plan)?;
    let step = plan.step_value().ok_or(NoSheet::Plan(ScaleProblem::Unread(PlanField::Step)))?;
    let tolerance = plan.tolerance_value().ok_or(NoSheet::Plan(ScaleProblem::Unread(PlanField::Tolerance)))?;
    let scatter = plan.repeatability_value().ok_or(NoSheet::Plan(ScaleProblem::Unread(PlanField::Repeatability)))?;
    let fill_up = formula.fill_up().and_then(|id| totals.shares.iter().position(|(line, _)| *line == id));
    let entry = |(line, _): &(LineId, Percent)| shelf.entry(formula.line(*line)?.choice.id()?);
    let entries: Vec<Option<Ingredient>> = totals.shares.iter().map(entry).collect();
    let shares: Vec<i64> = totals.shares.iter().map(|(_, share)| share.units()).collect();
    let mut tries = 0;
    let (room, parts) = loop {
        let room: Vec<i64> = entries
            .iter()
            .zip(&totals.shares)
            .map(|(entry, share)| room(entry.as_ref(), *share, &batch, step))
            .collect();
        let steps = batch.mass.units() / step.units();
        let parts = match fill_up {
            Some(line) => fill_up_takes_rest(&shares, steps, line, &room, tolerance),
            None => largest_remainder_below(&shares, steps, &room, None),
        };
        if within_hand(&batch, totals, &parts, step) {
            break (room, parts);
        }
        // No line had room for what was left, and one in hand is asked for more than there is: one step less.
        batch.mass = batch.mass.minus(step);
        tries += 1;
        if batch.mass <= Mass::ZERO || tries > TRIES {
            return Err(NoSheet::Plan(ScaleProblem::TooSmall));
        }
    };
    let least = least_weighable(step, scatter, tolerance);
    let mut lines: Vec<WeighLine> = totals
        .shares
        .iter()
        .zip(&parts.steps)
        .map(|((line, share), steps)| {
            let (exact, mass) = (batch.mass.share(*share), Mass::from_units(steps * step.units()));
            let phase = formula.place_of(*line).map_or_else(|| formula.phases()[0].id, |(phase, _)| phase);
            let error = Percent::ZERO;
            WeighLine { phase, line: *line, share: *share, exact, on_scale: mass, mass, error, premix: None }
        })
        .collect();
    let takes = lines.iter().filter_map(|line| takes(line, step)).collect();
    let rough = least_weighable(step, scatter, ROUGHLY);
    let wish = plan.premixes;
    let hand = &batch.hand;
    BatchOnScale { entries: &entries, room: &room, step, least, rough, batch: batch.mass, hand, wish }
        .advise(&mut lines);
    for line in &mut lines {
        line.error = error(batch.mass, line.share, line.mass);
    }
    let worst = lines
        .iter()
        .filter(|line| line.error != Percent::ZERO)
        .max_by_key(|line| line.error.units().abs())
        .map(|line| line.line);
    let raised = parts.raised.iter().filter_map(|n| Some(lines.get(*n)?.line)).collect();
    Ok(WeighSheet { batch, step, least, lines, worst, takes, raised })
}

/// Batches that are tried for what is in hand.
const TRIES: usize = 1000;

/// How many steps a line may be rounded up: none if a rule may cap it by a figure that stands in another table, else as
/// many as keep it within the most that the shelf gives for it, and within what is in hand.
fn room(entry: Option<&Ingredient>, (line, share): (LineId, Percent), batch: &Batch, step: Mass) -> i64 {
    if entry.is_some_and(|entry| may_be_capped(entry, share)) {
        return 0;
    }
    let mass = |share: Percent| mul_div_floor(batch.mass.units(), share.units(), Percent::WHOLE.units());
    let most = entry.and_then(Ingredient::max).map(|most| mass(most.value));
    let hand = batch.hand.iter().find(|hand| hand.line == line).map(|hand| hand.mass.units());
    let bound = most.into_iter().chain(hand).min();
    bound.map_or(i64::MAX, |bound| (bound / step.units() - mass(share) / step.units()).max(0))
}

/// A line that rounding moved by whole steps.
fn takes(line: &WeighLine, step: Mass) -> Option<(LineId, i64)> {
    let steps = line.mass.minus(line.exact).units() / step.units();
    (steps != 0).then_some((line.line, steps))
}

fn within_hand(batch: &Batch, totals: &Totals, parts: &RoundedParts, step: Mass) -> bool {
    batch.hand.iter().all(|hand| {
        let there = |((line, _), steps): (&(LineId, Percent), &i64)| {
            *line != hand.line || steps * step.units() <= hand.mass.units()
        };
        totals.shares.iter().zip(&parts.steps).all(there)
    })
}

/// (rounded − exact) ÷ exact, computed from the exact fraction and not from the microgram-rounded mass.
fn error(batch: Mass, share: Percent, mass: Mass) -> Percent {
    let whole = i128::from(Percent::WHOLE.units());
    let exact = i128::from(batch.units()) * i128::from(share.units());
    if exact == 0 {
        return Percent::ZERO;
    }
    let difference = i128::from(mass.units()) * whole - exact;
    let scaled = difference * whole;
    let nearest = (scaled * 2 + exact).div_euclid(exact * 2);
    Percent::from_units(nearest.clamp(i64::MIN.into(), i64::MAX.into()) as i64)
}
