//! What of a formula is water, and which acids, bases and salts are dissolved in it.

use crate::facts::{
    Acid, Composition, Contained, Ingredient, Origin, Part, Shelf, Solvent, UNCOUNTED, acid, acid_named, carries, fold,
    preservative, read_composition,
};
use crate::formula::{Choice, Formula, LineId, PhaseKind};
use crate::quantity::{Percent, Quantity};
use crate::sheet::Totals;

/// An amount in mol per kg of product, with the range that grades and suppliers leave.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Amount {
    /// Least.
    pub low: f64,
    /// Middle.
    pub middle: f64,
    /// Greatest.
    pub high: f64,
}

/// One acid, base or salt of the formula.
#[derive(Debug, Clone, Copy)]
pub struct Known {
    /// The line that brings it.
    pub line: LineId,
    /// What it is.
    pub row: &'static Acid,
    /// How much of it there is.
    pub amount: Amount,
}

/// The water of a formula and what moves its pH.
#[derive(Debug, Clone, Default)]
pub struct WaterPhase {
    /// kg of water per kg of product.
    pub water: f64,
    /// What is known to move the pH.
    pub known: Vec<Known>,
    /// Lines that move or hold the pH in a way that no constants tell: gums, proteins, extracts, soaps, and whatever
    /// the shelf does not know.
    pub unseen: Vec<LineId>,
    /// Share of the product that is glycerin, glycols and other things that make water less of a water.
    pub polyols: f64,
}

/// Gathers it. Lines without a readable share are left out.
pub fn water_phase(formula: &Formula, totals: &Totals, shelf: &Shelf) -> WaterPhase {
    let mut phase = WaterPhase::default();
    for (kind, line) in formula.lines().map(|(phase, line)| (phase.kind, line)) {
        let Some(share) = totals.share_of(line.id).filter(|share| share.units() > 0) else { continue };
        let part = fraction(share);
        let Some(ingredient) = line.choice.id().and_then(|id| shelf.entry(id)) else {
            if matches!(&line.choice, Choice::Named(_) | Choice::Known(_)) && kind != PhaseKind::Oil {
                phase.unseen.push(line.id);
            }
            continue;
        };
        if let Some(stated) = stated_parts(&ingredient) {
            if add_stated(&stated, line.id, part, &mut phase) {
                phase.unseen.push(line.id);
            }
            continue;
        }
        phase.water += part * water_of(&ingredient);
        if carries(&ingredient) == Some(Solvent::Water) && water_of(&ingredient) == 0.0 {
            phase.polyols += part;
        }
        let seen = phase.known.len();
        add(&ingredient, line.id, part, &mut phase.known);
        let blind = match ingredient.links().acid_base {
            Some(link) => link == UNCOUNTED,
            // The maker's own entry may be anything; in the oil it hardly moves the water.
            None => ingredient.is_own() && kind != PhaseKind::Oil && seen == phase.known.len(),
        };
        if blind {
            phase.unseen.push(line.id);
        }
    }
    phase
}

fn fraction(share: Percent) -> f64 {
    share.units() as f64 / Percent::WHOLE.units() as f64
}

/// kg of water per kg of an ingredient: all of water and of watery liquids, else what its composition says.
fn water_of(ingredient: &Ingredient) -> f64 {
    let watery = ingredient.links().acid_base == Some(UNCOUNTED) && carries(ingredient) == Some(Solvent::Water);
    if ingredient.id().as_str() == "water" || watery {
        return 1.0;
    }
    let text = ingredient.components().map_or("", |components| components.value);
    let stated = text.split(';').filter_map(|part| part.trim().strip_prefix("water "));
    stated.filter_map(leading_percent).map(|percent| percent / 100.0).next().unwrap_or(0.0)
}

/// The number that a text begins with, if it is a percent.
fn leading_percent(text: &str) -> Option<f64> {
    let end = text.find(|c: char| !(c.is_ascii_digit() || c == '.')).unwrap_or(text.len());
    text.get(..end)?.parse().ok().filter(|percent| (0.0..=100.0).contains(percent))
}

/// The strength that the maker's own composition states: the first number in it ("citric acid 50; water 50").
fn stated_strength(ingredient: &Ingredient) -> Option<f64> {
    let components = ingredient.components().filter(|components| components.origin == Origin::Maker)?;
    let first = components.value.split(';').next()?;
    leading_percent(first.get(first.find(|c: char| c.is_ascii_digit())?..)?).map(|percent| percent / 100.0)
}

/// What the maker says that a blend consists of. An acid or base in one piece is not among these: there the number that
/// the maker typed is its strength.
fn stated_parts(ingredient: &Ingredient) -> Option<Composition> {
    let single = ingredient.links().acid_base.is_some_and(|link| link != UNCOUNTED);
    let text = ingredient.components().filter(|text| text.origin == Origin::Maker && !single)?;
    Some(read_composition(text.value))
}

/// Adds those parts: water, and what moves a pH. True if there is anything else among them, or a line that could not be
/// read: it may move the pH, and nobody knows how.
fn add_stated(stated: &Composition, line: LineId, part: f64, phase: &mut WaterPhase) -> bool {
    let mut more = !stated.unread.is_empty() || stated.items.is_empty();
    for Contained { name, low, high, .. } in &stated.items {
        let (low, high, key) = (part * fraction(*low), part * fraction(*high), fold(name));
        if matches!(key.trim(), "water" | "aqua") {
            phase.water += f64::midpoint(low, high);
        } else if let Some(row) = acid_named(&key) {
            phase.known.push(Known { line, row, amount: amount(row, low, high) });
        } else {
            more = true;
        }
    }
    more
}

/// Adds what an ingredient brings: its own row, or those of a blend's parts.
fn add(ingredient: &Ingredient, line: LineId, part: f64, known: &mut Vec<Known>) {
    if let Some(row) = ingredient.links().acid_base.and_then(acid) {
        let (low, high) = match stated_strength(ingredient) {
            Some(strength) => (strength, strength),
            None => row.assay,
        };
        known.push(Known { line, row, amount: amount(row, part * low, part * high) });
        return;
    }
    let parts = ingredient.links().preservative.and_then(preservative).map_or(&[][..], |row| &row.parts);
    for Part { id, low, high } in parts {
        if let Some(row) = acid(id) {
            known.push(Known { line, row, amount: amount(row, part * fraction(*low), part * fraction(*high)) });
        }
    }
}

/// mol per kg of product, from kg of substance per kg of product.
fn amount(row: &Acid, low: f64, high: f64) -> Amount {
    let moles = |mass: f64| mass * 1000.0 / row.mass;
    Amount { low: moles(low), middle: moles(f64::midpoint(low, high)), high: moles(high) }
}
