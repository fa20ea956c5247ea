//! Doses too small for the scale, and the premix that makes them weighable, where one can be made.

use super::{HandLine, Premixes, WeighLine};
use crate::formula::LineId;
use crate::quantity::{Mass, Percent, Quantity, mul_div_floor, mul_div_nearest, sort_by};
use crate::shelf::{Ingredient, carries, dissolves_in, premix_strength};

/// A dose diluted in a carrier of the same phase, so that a portion of it can be weighed.
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

impl Premix {
    /// What of the portion is the diluted ingredient. Exact: every dilution divides a whole step of a scale.
    pub fn dose(&self) -> Mass {
        Mass::from_units(self.portion.units() / self.times)
    }

    /// What of the portion is carrier.
    pub fn carried(&self) -> Mass {
        self.portion.minus(self.dose())
    }
}

/// What can be done about a dose that the scale cannot weigh well.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PremixAdvice {
    /// Dilute it first.
    Make(Premix),
    /// No premix is made: the smallest batch at which it can be weighed as it is.
    LargerBatch(Mass),
}

/// The dilutions that are tried: round numbers that can be done in the head.
const TIMES: [i64; 9] = [2, 5, 10, 20, 50, 100, 200, 500, 1000];

/// A dose that a scale weighs within this relative error is weighed as it is, unless the maker wants premixes: a tenth, a
/// choice of this program. A premix is more work, and has errors of its own.
pub const ROUGHLY: Percent = Percent::millionths(10_000_000);

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

/// What is known of the batch and its scale.
pub(super) struct BatchOnScale<'a> {
    /// What the shelf has for each line.
    pub(super) entries: &'a [Option<Ingredient>],
    /// How many steps each line may go up.
    pub(super) room: &'a [i64],
    /// The scale's step.
    pub(super) step: Mass,
    /// The least mass that it weighs within the accepted error.
    pub(super) least: Mass,
    /// The least mass that it weighs roughly.
    pub(super) rough: Mass,
    /// The batch in all.
    pub(super) batch: Mass,
    /// What there is of the lines in hand.
    pub(super) hand: &'a [HandLine],
    /// The maker's wish.
    pub(super) wish: Premixes,
}

/// What a line has given to the premixes found so far.
#[derive(Clone, Copy)]
struct Given {
    /// What is left to weigh on the line itself.
    left: Mass,
    /// The premixes that it carries, in all.
    made: Mass,
    /// How many they are.
    count: i64,
}

impl BatchOnScale<'_> {
    /// Fills in the advice for every line below the least mass, and what the premixes make of the lines' masses.
    pub(super) fn advise(&self, lines: &mut [WeighLine]) {
        let mut given: Vec<Given> =
            lines.iter().map(|line| Given { left: line.mass, made: Mass::ZERO, count: 0 }).collect();
        for n in 0..lines.len() {
            if lines[n].share.units() == 0 || lines[n].exact >= self.least {
                continue;
            }
            let found =
                self.carriers(lines, n).into_iter().find_map(|c| Some((c, self.premix(lines, n, c, given[c])?)));
            lines[n].premix = Some(match found {
                Some((c, premix)) => {
                    let Given { made, count, .. } = given[c];
                    let made = made.plus(premix.active).plus(premix.carrier_mass);
                    given[c] = Given { left: premix.carrier_line, made, count: count + 1 };
                    PremixAdvice::Make(premix)
                }
                None => PremixAdvice::LargerBatch(smallest_batch(self.step, self.least, self.batch, lines[n].share)),
            });
        }
        settle(lines, &given);
    }

    fn entry(&self, n: usize) -> Option<&Ingredient> {
        self.entries.get(n)?.as_ref()
    }

    /// The lines that may carry line `n`, the heaviest first: liquids of its own phase that it dissolves in. What another
    /// phase holds was heated or emulsified before, or is not there yet.
    fn carriers(&self, lines: &[WeighLine], n: usize) -> Vec<usize> {
        let wished = match self.wish {
            Premixes::Needed => lines[n].exact < self.rough,
            Premixes::Wanted => true,
            Premixes::Without => false,
        };
        let Some(solvent) = self.entry(n).filter(|_| wished).and_then(dissolves_in) else { return Vec::new() };
        let mut found: Vec<usize> = (0..lines.len())
            .filter(|&c| c != n && lines[c].phase == lines[n].phase && lines[c].exact >= self.least)
            .filter(|&c| self.entry(c).and_then(carries) == Some(solvent))
            .collect();
        sort_by(&mut found, |a, b| lines[*b].mass.cmp(&lines[*a].mass));
        found
    }

    /// The smallest dilution that is no stronger than the table allows and whose portion can be weighed, if the carrier's
    /// line is large enough for the whole premix.
    fn premix(&self, lines: &[WeighLine], n: usize, c: usize, given: Given) -> Option<Premix> {
        let (dose, carrier) = (&lines[n], &lines[c]);
        let strength = premix_strength(self.entry(n)?)?.units();
        let fits = |times: &i64| {
            times * strength >= Percent::WHOLE.units()
                && dose.exact.units().saturating_mul(*times) >= self.least.units()
        };
        let times = TIMES.into_iter().find(fits)?;
        // Of what may be capped no portion is rounded up.
        let steps = if self.room[n] < i64::MAX {
            mul_div_floor(self.batch.units(), dose.share.units() * times, Percent::WHOLE.units()) / self.step.units()
        } else {
            mul_div_nearest(dose.exact.units() * times, 1, self.step.units())
        };
        let portion = Mass::from_units(steps * self.step.units());
        let carrier_line = given.left.minus(portion.minus(dose.mass));
        // The premix must hold at least the portion, also where the dose is just under what can be weighed.
        let active = Mass::from_units(self.least.units().max(up_to_step(dose.exact.units(), self.step)));
        let carrier_mass = Mass::from_units(active.units() * (times - 1));
        let made = active.plus(carrier_mass);
        let in_hand =
            |line: LineId, wanted: Mass| self.hand.iter().all(|hand| hand.line != line || wanted <= hand.mass);
        let enough = given.made.plus(made) <= carrier.mass
            && carrier_line >= self.least
            // What the premix leaves uneven goes to the carrier: less than a step each time.
            && given.count < self.room[c]
            && in_hand(dose.line, active)
            && in_hand(carrier.line, given.made.plus(made).plus(carrier_line));
        enough.then_some(Premix { carrier: carrier.line, times, active, carrier_mass, portion, carrier_line })
    }
}

/// What goes onto the scale, and how much of each ingredient that brings. A carrier that serves twice shows in both
/// premixes what is left in the end.
fn settle(lines: &mut [WeighLine], given: &[Given]) {
    let carriers: Vec<(LineId, Mass)> = lines.iter().zip(given).map(|(line, given)| (line.line, given.left)).collect();
    let mut brought: Vec<(LineId, Mass)> = Vec::new();
    for line in lines.iter_mut() {
        if let Some(PremixAdvice::Make(premix)) = &mut line.premix {
            if let Some((_, left)) = carriers.iter().find(|(id, _)| *id == premix.carrier) {
                premix.carrier_line = *left;
            }
            brought.push((premix.carrier, premix.carried()));
            (line.on_scale, line.mass) = (premix.portion, premix.dose());
        }
    }
    for (line, given) in lines.iter_mut().zip(given).filter(|(_, given)| given.count > 0) {
        let carried: Mass = brought.iter().filter(|(id, _)| *id == line.line).map(|(_, mass)| *mass).sum();
        (line.on_scale, line.mass) = (given.left, given.left.plus(carried));
    }
}

/// The smallest batch, none smaller than `batch`, of which a share is at least `least`.
fn smallest_batch(step: Mass, least: Mass, batch: Mass, share: Percent) -> Mass {
    let exact = i128::from(least.units()) * i128::from(Percent::WHOLE.units());
    let share = i128::from(share.units());
    let up = (exact + share - 1) / share;
    // Not `clamp`: it panics where a batch is larger than a mass may be.
    Mass::from_units(up_to_step(up.max(batch.units().into()).min(Mass::MAX.into()) as i64, step))
}
