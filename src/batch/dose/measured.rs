//! How strongly a product buffers by its readings alone, where their course agrees with itself.
//!
//! A formula that hides more buffer than lotions are taken to hold would stop at its bound for good. Readings with a checked
//! meter, each after a further dose, measure what it takes up; while one step tells the same as the step before, the course is a
//! titration and no mistake. Every figure here is a choice of ours (`custom`: common practice, no source).

use super::{Chemistry, MolPerKg, ReplayedLog};
use crate::batch::{Instrument, PhReading};

/// The most that all doses may bring on the word of such a course, in acid or base: a third more than a strong hidden buffer of
/// 0.3 mol/kg.
pub(super) const MOST_MEASURED: MolPerKg = MolPerKg(0.4);
/// Of what the measured capacity says is missing, a dose brings so much: where a buffer ends, the next step takes up less.
pub(super) const OF_MISSING: f64 = 0.4;
/// A step that moved the pH by less measures nothing, so doses are taken together until they did: four times the error of a
/// meter.
const LEAST_STEP: f64 = 0.2;
/// A reading may lie so far on the wrong side of the one before: what two readings are wrong by together, and a little.
const WRONG_WAY: f64 = 0.15;
/// The newest step takes up at most so many times what the one before did, or the other way round.
const ALIKE: f64 = 3.0;

/// The lesser capacity of the newest two steps that a checked meter measured, in mol/kg and unit of pH; nothing where there are
/// fewer, where the pH went the wrong way, or where the two disagree.
pub(super) fn capacity(chemistry: &Chemistry, course: &ReplayedLog, down: bool) -> Option<f64> {
    let newest = course.readings.last()?;
    let counts = |reading: &&PhReading| {
        reading.checked && reading.instrument == Instrument::Meter && reading.dilution == newest.dilution
    };
    let way = if down { 1.0 } else { -1.0 };
    let points = course.readings.iter().filter(counts).map(|reading| {
        let each = reading.added.iter().enumerate();
        (each.map(|(n, x)| x.0 * chemistry.delivers(n, newest.ph) * way).sum::<f64>(), reading.ph * way)
    });
    let mut points: Vec<(f64, f64)> = points.collect();
    crate::quantity::sort_by(&mut points, |a, b| a.0.total_cmp(&b.0));
    let mut steps: Vec<f64> = Vec::new();
    let mut from = *points.first()?;
    for (went, ph) in points {
        let moved = from.1 - ph;
        if moved <= -WRONG_WAY {
            return None;
        }
        if moved >= LEAST_STEP && went > from.0 {
            steps.push((went - from.0) / moved);
            from = (went, ph);
        }
    }
    let [.., before, newest] = steps.as_slice() else { return None };
    let (least, most) = (before.min(*newest), before.max(*newest));
    (most <= least * ALIKE).then_some(least)
}
