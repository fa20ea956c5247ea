//! The weigh sheet: the masses of one batch, in steps that the scale can show.

use super::premix::{PremixAdvice, advise};
use super::{
    Balance, Batch, Plan, PlanField, ScaleProblem, Totals, batch, fill_up_takes_rest, largest_remainder_below,
};
use crate::facts::{Ingredient, Shelf};
use crate::formula::{Formula, LineId, PhaseId};
use crate::quantity::{Mass, Percent, Quantity, mul_div_floor};

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
    /// The mass in whole steps of the scale.
    pub mass: Mass,
    /// How far rounding moved it, in percent of the line's own exact mass, in units of 0.000001 %; may be negative.
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
    /// The line with the largest rounding error, if any line has one.
    pub worst: Option<LineId>,
}

impl WeighSheet {
    /// The row of a line.
    pub fn line(&self, id: LineId) -> Option<&WeighLine> {
        self.lines.iter().find(|line| line.line == id)
    }

    /// What is put on the scale for a line when the premixes are used: the portion of its premix, or, for a carrier, its
    /// mass less what its premixes bring. Over all lines this sums to the batch.
    pub fn line_on_the_scale(&self, id: LineId) -> Mass {
        let own = self.line(id).map_or(Mass::ZERO, |line| match &line.premix {
            Some(PremixAdvice::Make(premix)) => premix.portion,
            _ => line.mass,
        });
        let brought: Mass = self
            .premixes()
            .filter(|(_, premix)| premix.carrier == id)
            .map(|(line, premix)| premix.portion.minus(line.mass))
            .sum();
        own.minus(brought)
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
    let caps: Vec<Cap> = entries.iter().map(|entry| entry.as_ref().map_or(Cap::None, cap)).collect();
    let masses = loop {
        let masses = in_steps(totals, batch.mass, step, fill_up, &caps);
        if within_hand(&batch, &masses) {
            break masses;
        }
        // Rounding up asked for more than there is: one step less.
        batch.mass = batch.mass.minus(step);
        if batch.mass <= Mass::ZERO {
            return Err(NoSheet::Plan(ScaleProblem::TooSmall));
        }
    };
    let least = super::least_weighable(step, scatter, tolerance);
    let mut lines: Vec<WeighLine> = masses
        .into_iter()
        .map(|(line, share, mass)| {
            let exact = batch.mass.share(share);
            let phase = formula.place_of(line).map_or_else(|| formula.phases()[0].id, |(phase, _)| phase);
            WeighLine { phase, line, share, exact, mass, error: error(batch.mass, share, mass), premix: None }
        })
        .collect();
    let capped: Vec<bool> = caps.iter().map(|cap| !matches!(cap, Cap::None)).collect();
    advise(&entries, step, least, batch.mass, &capped, &mut lines);
    let worst = lines
        .iter()
        .filter(|line| line.error != Percent::ZERO)
        .max_by_key(|line| line.error.units().abs())
        .map(|line| line.line);
    Ok(WeighSheet { batch, step, least, lines, worst })
}

/// Whether a line has a most that rounding must not carry it over.
#[derive(Clone, Copy)]
enum Cap {
    None,
    /// A preservative: law caps it, by a figure that stands in another table.
    Law,
    /// The most that the shelf gives for it.
    Most(Percent),
}

fn cap(entry: &Ingredient) -> Cap {
    match entry.links().preservative {
        Some(_) => Cap::Law,
        None => entry.max().map_or(Cap::None, |most| Cap::Most(most.value)),
    }
}

/// Whether a share must be rounded down to a step: a preservative always, but never down to nothing, where the scale is
/// too coarse for it and the sheet says so; any other where the step above would be more than its most.
fn held(cap: Cap, share: Percent, batch: Mass, step: Mass) -> bool {
    let below = mul_div_floor(batch.units(), share.units(), Percent::WHOLE.units()) / step.units();
    match cap {
        Cap::None => false,
        Cap::Law => below > 0,
        Cap::Most(most) => share <= most && (below + 1) * step.units() > batch.share(most).units(),
    }
}

fn in_steps(
    totals: &Totals,
    batch: Mass,
    step: Mass,
    fill_up: Option<usize>,
    caps: &[Cap],
) -> Vec<(LineId, Percent, Mass)> {
    let shares: Vec<i64> = totals.shares.iter().map(|(_, share)| share.units()).collect();
    let steps = batch.units() / step.units();
    let held: Vec<bool> =
        totals.shares.iter().zip(caps).map(|((_, share), cap)| held(*cap, *share, batch, step)).collect();
    let parts = match fill_up {
        Some(line) => fill_up_takes_rest(&shares, steps, line, &held),
        None => largest_remainder_below(&shares, steps, &held),
    };
    totals
        .shares
        .iter()
        .zip(parts)
        .map(|((line, share), part)| (*line, *share, Mass::from_units(part * step.units())))
        .collect()
}

fn within_hand(batch: &Batch, masses: &[(LineId, Percent, Mass)]) -> bool {
    batch.hand.iter().all(|hand| masses.iter().all(|(line, _, mass)| *line != hand.line || *mass <= hand.mass))
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
