//! The reference rule: the product as one pool of weak acid and nothing known of its formula.
//!
//! `cargo task bench` runs it beside the page's own rule, `tests/chemistry/reference.rs` checks it against the vectors of
//! its script. It is a rule for any product, so it starts with a guess and walks carefully.

use hundred_parts::batch::dose::{Titrant, Water};
use hundred_parts::facts::Acid;

const LN10: f64 = core::f64::consts::LN_10;
/// Share of the way from the certain dose to the best guess.
const SHARE: f64 = 0.5;
/// Standard uncertainties by which readings are shifted to the careful side.
const SHIFT: f64 = 1.645;
/// Pools whose chi-squared is within this of the best are admitted: 95 % for one parameter.
const ADMITTED: f64 = 3.84;

/// What the rule says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Step {
    /// Add the increment.
    Add,
    /// Add it, a quarter of the last: the bracket is closed but the target not reached.
    Creep,
    /// The same again: no estimate is possible yet.
    Repeat,
    /// At the target.
    Stop,
    /// The pH moved the wrong way.
    Refuse,
}

/// What to add, mol per kg of product, and the totals that it rests on.
#[derive(Debug, Clone, Copy)]
pub(crate) struct OnePool {
    /// What to do.
    pub(crate) step: Step,
    /// How much more.
    pub(crate) increment: f64,
    /// The total that reaches the target if the product takes up nothing more.
    pub(crate) certain: f64,
    /// The smallest total over admitted pools in the careful corner.
    pub(crate) low: f64,
    /// The likeliest total.
    pub(crate) best: f64,
    /// The largest.
    pub(crate) high: f64,
}

struct Rule<'a> {
    titrant: Titrant,
    law: Water,
    water: f64,
    u: f64,
    points: &'a [(f64, f64)],
}

/// Standard uncertainty of a reading from its half width, with 0.03 for mixing and drift.
pub(crate) fn uncertainty(half_width: f64) -> f64 {
    (half_width * half_width / 3.0 + 0.03 * 0.03).sqrt()
}

/// The rule. `start` is the pH before, `points` the totals in mol per kg of product with the pH after each, `water` kg
/// per kg of product, `half_width` the reading's.
pub(crate) fn one_pool(
    row: &Acid,
    start: f64,
    points: &[(f64, f64)],
    target: f64,
    water: f64,
    half_width: f64,
) -> OnePool {
    let u = uncertainty(half_width);
    let law = Water::default();
    let rule = Rule { titrant: Titrant::new(row, &law), law, water, u, points };
    let sign = if target < start { 1.0 } else { -1.0 };
    let (now, read) = points.last().copied().unwrap_or((0.0, start));
    let before = points.len().checked_sub(2).and_then(|n| points.get(n)).map_or(0.0, |point| point.0);
    let none = |step, increment| OnePool { step, increment, certain: now, low: now, best: now, high: now };
    let moved = sign * (start - read);
    let clear = 2.0 * 2f64.sqrt() * u;
    if sign * (read - target) <= u {
        return none(Step::Stop, 0.0);
    }
    if moved <= -clear {
        return none(Step::Refuse, 0.0);
    }
    if moved < clear {
        return none(Step::Repeat, now - before);
    }
    let growth = if sign > 0.0 { 1.0 } else { 0.5 };
    let certain = rule.total(rule.taken_up(now, read, start), target, start);
    let admitted = rule.admitted(start, 0.0);
    let mut totals: Vec<(f64, f64)> = admitted
        .iter()
        .map(|pool| (rule.total(pool.takes(target, start), target, start), (-pool.chi / 2.0).exp()))
        .collect();
    totals.sort_by(|a, b| a.0.total_cmp(&b.0));
    let (first, last) = (totals.first().map_or(now, |t| t.0), totals.last().map_or(now, |t| t.0));
    let all: f64 = totals.iter().map(|t| t.1).sum();
    let mut sum = 0.0;
    let best = totals
        .iter()
        .find(|t| {
            sum += t.1;
            sum >= all / 2.0
        })
        .map_or(now, |t| t.0);
    // The careful corner: the first reading further away, the later ones nearer the target.
    let shift = sign * SHIFT * u;
    let far = start + shift;
    let near = read - shift;
    let (low, certain_there) = if sign * (near - target) > 0.0 {
        let pools = rule.admitted(far, shift);
        let least = pools.iter().map(|pool| rule.total(pool.takes(target, far), target, far));
        (least.fold(first, f64::min), rule.total(rule.taken_up(now, near, far), target, far))
    } else {
        (now, now)
    };
    let want = certain + SHARE * (best - certain);
    let total = if low < want { want.min(low.max(now)) } else { want };
    let mut increment = (total.max(certain_there) - now).min(growth * now).max(0.0);
    if (read - target).abs() <= 0.3 && sign > 0.0 && row.system().is_some() {
        increment = increment.max((0.35 * (best - now)).min(growth * now));
    }
    let mut step = Step::Add;
    if increment <= 0.02 * now {
        (increment, step) = (0.25 * (now - before), Step::Creep);
    }
    OnePool { step, increment, certain, low, best, high: last }
}

/// One admitted pool: its constant (none: flat buffering), its amount, and how well it fits.
struct Pool {
    constant: Option<f64>,
    amount: f64,
    chi: f64,
}

fn protonated(constant: f64, ph: f64) -> f64 {
    1.0 / (1.0 + 10f64.powf(ph - constant))
}

/// Equivalents that one mole of a pool takes up between two pH.
fn unit(constant: Option<f64>, ph: f64, start: f64) -> f64 {
    constant.map_or(start - ph, |constant| protonated(constant, ph) - protonated(constant, start))
}

impl Pool {
    fn takes(&self, ph: f64, start: f64) -> f64 {
        self.amount * unit(self.constant, ph, start)
    }
}

impl Rule<'_> {
    fn water_takes(&self, ph: f64, start: f64) -> f64 {
        self.water * (self.law.excess(ph).0 - self.law.excess(start).0)
    }

    /// What the product took up, mol per kg.
    fn taken_up(&self, x: f64, ph: f64, start: f64) -> f64 {
        x * self.titrant.delivers(ph) - self.water_takes(ph, start)
    }

    /// The total that reaches a pH if the product takes up so much.
    fn total(&self, takes: f64, ph: f64, start: f64) -> f64 {
        (takes + self.water_takes(ph, start)) / self.titrant.delivers(ph)
    }

    /// The pools that fit, with all readings moved by `-shift`.
    fn admitted(&self, start: f64, shift: f64) -> Vec<Pool> {
        let points: Vec<(f64, f64)> = self.points.iter().map(|(x, ph)| (*x, ph - shift)).collect();
        let took: Vec<f64> = points.iter().map(|(x, ph)| self.taken_up(*x, *ph, start)).collect();
        let own: Vec<f64> = points
            .iter()
            .map(|(x, ph)| {
                let slope = (self.titrant.delivers(ph + 0.005) - self.titrant.delivers(ph - 0.005)) / 0.01;
                (x * slope).abs() - self.water * self.law.excess(*ph).1
            })
            .collect();
        let grid = (0..86).map(|n| Some(2.5 + 0.1 * f64::from(n))).chain([None]);
        let mut pools: Vec<Pool> = Vec::new();
        for constant in grid {
            let units: Vec<f64> = points.iter().map(|(_, ph)| unit(constant, *ph, start)).collect();
            if units.iter().all(|unit| unit.abs() < 1e-9) {
                continue;
            }
            if let ([took], [unit]) = (took.as_slice(), units.as_slice()) {
                pools.push(Pool { constant, amount: (took / unit).max(0.0), chi: 0.0 });
                continue;
            }
            let slopes: Vec<f64> = points
                .iter()
                .map(|(_, ph)| {
                    constant.map_or(1.0, |constant| {
                        let share = protonated(constant, *ph);
                        LN10 * share * (1.0 - share)
                    })
                })
                .collect();
            let fit = |weights: &[f64]| {
                let (mut top, mut bottom) = (0.0, 0.0);
                for ((took, unit), weight) in took.iter().zip(&units).zip(weights) {
                    top += weight * took * unit;
                    bottom += weight * unit * unit;
                }
                (top / bottom).max(0.0)
            };
            let mut amount = fit(&vec![1.0; took.len()]);
            let mut weights = Vec::new();
            for _ in 0..4 {
                weights = slopes.iter().zip(&own).map(|(s, o)| ((amount * s + o) * self.u).powi(-2)).collect();
                amount = fit(&weights);
            }
            let miss = |(took, unit): (&f64, &f64)| took - amount * unit;
            let chi = took.iter().zip(&units).map(miss).zip(&weights).map(|(miss, w)| w * miss * miss).sum();
            pools.push(Pool { constant, amount, chi });
        }
        let best = pools.iter().map(|pool| pool.chi).fold(f64::INFINITY, f64::min);
        pools.retain(|pool| pool.chi - best <= ADMITTED);
        pools
    }
}
