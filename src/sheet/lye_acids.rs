//! Acids and water among the lines of a soap: acids take up alkali before any fat does, and water is that of the lye.
//!
//! A physical model, hence in floating point; every result is rounded once. An acid takes up one alkali for each of its
//! groups that is weaker than the soap is alkaline (`alkalis.csv`), less those that a salt of it has given up already. A free
//! fatty acid takes up what its acid value says.

use super::ph::{Electrolyte, WaterPhase};
use crate::facts::{Acid, AcidValue, Alkali, Span, Sv, acid_named, acid_value, fold};
use crate::formula::{Choice, Line};
use crate::quantity::{Mass, Percent, Quantity, mul_div_nearest};
use crate::shelf::{Ingredient, Shelf};

use super::parts::LineParts;

/// An acid of the formula and what it takes up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LyeAcid {
    /// Its line.
    pub line: crate::formula::LineId,
    /// How much there is of what was weighed.
    pub mass: Mass,
    /// What it takes up, in terms of KOH: at least and at most.
    pub takes: Span<Mass>,
    /// The same in the middle.
    pub typical: Mass,
    /// A free fatty acid, which makes soap as fats do: the discount is of it too.
    pub fatty: bool,
    /// True if what that rests on was seen in its source.
    pub verified: bool,
}

/// What is known about a line that is no fat.
pub(super) enum AcidLine {
    /// It takes up no alkali that matters, or nobody would take it for an acid.
    None,
    /// It takes up this much.
    Takes(LyeAcid),
    /// It goes by the name of an acid, and nothing tells how much that takes up.
    Unknown,
}

/// What a line takes up. `share` is that of the product, of which `mass` was weighed.
pub(super) fn acid_line(line: &Line, (mass, share): (Mass, Percent), water: &WaterPhase, shelf: &Shelf) -> AcidLine {
    let entry = match &line.choice {
        Choice::Named(name) => return if says_acid(name) { AcidLine::Unknown } else { AcidLine::None },
        Choice::Known(id) => shelf.entry(id),
    };
    let Some(entry) = entry else { return AcidLine::None };
    let names = names(&entry);
    if let Some(value) = names.iter().find_map(|name| acid_value(name)) {
        return AcidLine::Takes(fatty(line, mass, value));
    }
    let known: Vec<&Electrolyte> = water.known.iter().filter(|known| known.line == line.id).collect();
    // The maker's own entry has no link; one that goes by the name of an acid is one.
    let named = names.iter().find_map(|name| acid_named(&fold(name))).filter(|_| known.is_empty());
    if known.is_empty() && named.is_none() {
        return if names.iter().any(|name| says_acid(name)) { AcidLine::Unknown } else { AcidLine::None };
    }
    // mol in each kg of the product, and so in what was weighed of the line.
    let kilograms = mass.units() as f64 / 1e9 / (share.units().max(1) as f64 / Percent::WHOLE.units() as f64);
    let mut moles = [0.0; 3];
    let mut seen = true;
    for one in known {
        let groups = groups(one.row);
        let amounts = [one.amount.low, one.amount.middle, one.amount.high];
        moles.iter_mut().zip(amounts).for_each(|(sum, amount)| *sum += amount * groups * kilograms);
        seen &= one.row.provenance.is_verified() || groups <= 0.0;
    }
    if let Some(row) = named {
        let (low, high) = row.assay;
        let each = mass.units() as f64 / 1e6 / row.mass * groups(row);
        moles.iter_mut().zip([low, f64::midpoint(low, high), high]).for_each(|(sum, part)| *sum += each * part);
        seen &= row.provenance.is_verified();
    }
    let [low, typical, high] = moles.map(as_potassium);
    if high <= Mass::ZERO {
        return AcidLine::None;
    }
    let takes = Span { low, high };
    AcidLine::Takes(LyeAcid { line: line.id, mass, takes, typical, fatty: false, verified: seen })
}

fn fatty(line: &Line, mass: Mass, value: AcidValue) -> LyeAcid {
    // Hundredths of milligrams per gram are parts of 100 000.
    let of = |value: Sv| Mass::from_units(mul_div_nearest(mass.units(), value.units(), 100_000));
    let takes = Span { low: of(value.span.low), high: of(value.span.high) };
    LyeAcid {
        line: line.id,
        mass,
        takes,
        typical: of(value.typical),
        fatty: true,
        verified: value.provenance.is_verified(),
    }
}

/// How many alkali one of it takes up in a soap.
fn groups(row: &'static Acid) -> f64 {
    // A soap is at least as alkaline as this; a group that gives up its proton only above is not counted on.
    let ph = Alkali::Sodium.row().map_or(0.0, |row| row.ph.0.units() as f64 / 100.0);
    let (steps, charge) = row
        .system()
        .map_or((0, 0), |system| (system.steps.iter().filter(|step| step.pka < ph).count() as i32, system.charge));
    f64::from((steps - charge - row.ion).max(0))
}

fn as_potassium(moles: f64) -> Mass {
    Mass::from_units((moles * Alkali::Potassium.molar_mass() as f64 * 100.0).round() as i64)
}

/// The names under which it may be known: those of its label, else what makers call it.
fn names(entry: &Ingredient) -> Vec<String> {
    let names: Vec<String> = LineParts::named(entry).into_iter().map(|named| named.name).collect();
    if names.is_empty() { vec![entry.label().to_owned()] } else { names }
}

fn says_acid(name: &str) -> bool {
    fold(name).split(' ').any(|word| word == "acid")
}

/// The water of the formula in what was weighed of it.
pub(super) fn water_in(batch: Mass, water: &WaterPhase, step: Mass) -> Mass {
    let exact = Mass::from_units((batch.units() as f64 * water.water).round() as i64);
    Mass::from_units(mul_div_nearest(exact.units(), 1, step.units()).saturating_mul(step.units()))
}
