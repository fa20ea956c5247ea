//! Doses too small for the scale, and the premix that makes them weighable.

use super::WeighLine;
use crate::facts::{Ingredient, carries, dissolves_in};
use crate::formula::LineId;
use crate::quantity::{Mass, Percent, Quantity, mul_div_floor, mul_div_nearest, sort_by};

/// A dose diluted in a carrier of the same formula, so that a portion of it can be weighed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Premix {
    /// The line that carries it.
    pub carrier: LineId,
    /// How many times the dose is diluted.
    pub times: i64,
    /// The active to weigh into the premix.
    pub active: Mass,
    /// The carrier to weigh into the premix.
    pub carrier_mass: Mass,
    /// The portion of the premix that goes into the batch.
    pub portion: Mass,
    /// What is then left to weigh on the carrier's own line, over all premixes that it carries.
    pub carrier_line: Mass,
}

/// What can be done about a dose that the scale cannot weigh well.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PremixAdvice {
    /// Dilute it first.
    Make(Premix),
    /// No line of the formula can carry it: the smallest batch at which it can be weighed as it is.
    LargerBatch(Mass),
}

/// The dilutions that are tried: round numbers that can be done in the head.
const TIMES: [i64; 9] = [2, 5, 10, 20, 50, 100, 200, 500, 1000];

/// The least mass that a scale weighs within `tolerance`: 2 s ÷ p, or 2 × 0.41 d ÷ p where that is more, rounded up to a
/// step.
///
/// s is the scale's repeatability (zero where it is not known), d its step and p the accepted relative error; 0.41 d is the standard uncertainty of a difference of two
/// readings, d/√6, and 2 its coverage factor.
/// Source: USP chapter <41> (m ≥ 2 s ÷ 0.10 %, with 0.41 d where the repeatability s is smaller), as summarised by two
/// balance makers; the relative error is left to the maker, since 0.10 % is meant for assays.
pub fn least_weighable(step: Mass, repeatability: Mass, tolerance: Percent) -> Mass {
    let scatter = (step.units() * 41).max(repeatability.units().saturating_mul(100));
    let exact = mul_div_nearest(scatter.saturating_mul(2), Percent::WHOLE.units(), tolerance.units().max(1) * 100);
    Mass::from_units(up_to_step(exact, step))
}

fn up_to_step(units: i64, step: Mass) -> i64 {
    units.saturating_add(step.units() - 1) / step.units() * step.units()
}

/// Fills in the advice for every line below `least`. Of a line that is `capped` no portion is rounded up. `entries` are
/// what the shelf has for each line.
pub(super) fn advise(
    entries: &[Option<Ingredient>],
    step: Mass,
    least: Mass,
    batch: Mass,
    capped: &[bool],
    lines: &mut [WeighLine],
) {
    // What is left on each line after the premixes found so far have taken their carrier from it.
    let mut left: Vec<Mass> = lines.iter().map(|line| line.mass).collect();
    for n in 0..lines.len() {
        if lines[n].share.units() == 0 || lines[n].exact >= least {
            continue;
        }
        let found = carriers(entries, least, lines, n)
            .into_iter()
            .find_map(|c| premix(step, least, &lines[n], left[c], capped[n]).map(|p| (c, p)));
        lines[n].premix = Some(match found {
            Some((c, draft)) => {
                left[c] = draft.carrier_line;
                PremixAdvice::Make(Premix { carrier: lines[c].line, ..draft })
            }
            None => PremixAdvice::LargerBatch(smallest_batch(step, least, batch, lines[n].share)),
        });
    }
    // A carrier that serves twice: both premixes show what is left in the end.
    let finals: Vec<(LineId, Mass)> = lines.iter().zip(&left).map(|(line, left)| (line.line, *left)).collect();
    for line in lines {
        if let Some(PremixAdvice::Make(premix)) = &mut line.premix
            && let Some((_, left)) = finals.iter().find(|(id, _)| *id == premix.carrier)
        {
            premix.carrier_line = *left;
        }
    }
}

/// The lines that may carry line `n`, best first: same phase before others, then the heavier one.
fn carriers(entries: &[Option<Ingredient>], least: Mass, lines: &[WeighLine], n: usize) -> Vec<usize> {
    let Some(solvent) = entries[n].as_ref().and_then(dissolves_in) else { return Vec::new() };
    let carries = |c: usize| entries[c].as_ref().and_then(carries) == Some(solvent);
    let mut found: Vec<usize> =
        (0..lines.len()).filter(|&c| c != n && lines[c].exact >= least).filter(|&c| carries(c)).collect();
    let key = |c: usize| (lines[c].phase != lines[n].phase, -lines[c].mass.units());
    sort_by(&mut found, |a, b| key(*a).cmp(&key(*b)));
    found
}

/// The smallest dilution whose portion can be weighed, if the carrier line has enough to give.
fn premix(step: Mass, least: Mass, dose: &WeighLine, available: Mass, capped: bool) -> Option<Premix> {
    let times = TIMES.into_iter().find(|times| dose.exact.units().saturating_mul(*times) >= least.units())?;
    let round = if capped { mul_div_floor } else { mul_div_nearest };
    let portion = Mass::from_units(round(dose.exact.units() * times, 1, step.units()) * step.units());
    let carrier_line = available.minus(portion.minus(dose.mass));
    // The premix must hold at least the portion, also where the dose is just under what can be weighed.
    let active = least.units().max(up_to_step(dose.exact.units(), step));
    let (active, carrier_mass) = (Mass::from_units(active), Mass::from_units(active * (times - 1)));
    (carrier_line >= least).then_some(Premix { carrier: dose.line, times, active, carrier_mass, portion, carrier_line })
}

fn smallest_batch(step: Mass, least: Mass, batch: Mass, share: Percent) -> Mass {
    let exact = i128::from(least.units()) * i128::from(Percent::WHOLE.units());
    let share = i128::from(share.units());
    let up = (exact + share - 1) / share;
    // Not `clamp`: it panics where a batch is larger than a mass may be.
    Mass::from_units(up_to_step(up.max(batch.units().into()).min(Mass::MAX.into()) as i64, step))
}
