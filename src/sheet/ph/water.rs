//! What of a formula is water, and which acids, bases and salts are dissolved in it.

use crate::facts::{Acid, BlendPart, Solvent, UNCOUNTED, acid, acid_named, fold, preservative};
use crate::formula::{Choice, Formula, LineId, PhaseKind};
use crate::quantity::{Percent, Quantity};
use crate::sheet::Totals;
use crate::sheet::components::{Component, read_parts};
use crate::shelf::{Composition, Contained, Ingredient, Shelf, carries, read_composition};

/// An amount in mol per kg of product, with the range that grades and suppliers leave.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MolalityRange {
    /// Least.
    pub low: f64,
    /// Middle.
    pub middle: f64,
    /// Greatest.
    pub high: f64,
}

/// One acid, base or salt of the formula.
#[derive(Debug, Clone, Copy)]
pub struct Electrolyte {
    /// The line that brings it.
    pub line: LineId,
    /// What it is.
    pub row: &'static Acid,
    /// How much of it there is.
    pub amount: MolalityRange,
}

/// The water of a formula and what moves its pH.
#[derive(Debug, Clone, Default)]
pub struct WaterPhase {
    /// kg of water per kg of product.
    pub water: f64,
    /// What is known to move the pH.
    pub known: Vec<Electrolyte>,
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
    let parts =
        ingredient.components().and_then(|text| parts_of(text.value, text.provenance.is_makers())).unwrap_or_default();
    parts.iter().filter(|item| is_water(&item.name)).map(middle).sum()
}

fn is_water(name: &str) -> bool {
    matches!(fold(name).trim(), "water" | "aqua")
}

/// The parts of a composition of which every part has a share, or takes the rest; those that a maker wrote by their label names.
fn parts_of(text: &str, makers: bool) -> Option<Vec<Contained>> {
    let whole = |part: Component| Contained { name: part.named.name, cas: None, low: part.low, high: part.high };
    Some(read_parts(text, &[], makers)?.into_iter().map(whole).collect())
}

fn middle(item: &Contained) -> f64 {
    f64::midpoint(fraction(item.low), fraction(item.high))
}

/// What the maker says that an ingredient consists of. Of an acid or base in one piece the number alone is enough, and
/// the one part that is no water is that acid, whatever it is called.
fn stated_parts(ingredient: &Ingredient) -> Option<Composition> {
    let text = ingredient.components().filter(|text| text.provenance.is_makers())?.value;
    let row = ingredient.links().acid_base.and_then(acid);
    let strength = row.filter(|_| !text.contains(char::is_alphabetic)).map(|row| format!("{} {text}", row.id));
    let text = strength.as_deref().unwrap_or(text);
    let parts = parts_of(text, true).map(|items| Composition { items, unread: Vec::new() });
    let mut stated = parts.unwrap_or_else(|| read_composition(text));
    let Some(row) = row else { return Some(stated) };
    let mut others = stated.items.iter_mut().filter(|item| !is_water(&item.name));
    if let (Some(only), None) = (others.next(), others.next()) {
        row.id.clone_into(&mut only.name);
    }
    Some(stated)
}

/// Adds those parts: water, and what moves a pH. True if there is anything else among them, or a line that could not be
/// read: it may move the pH, and nobody knows how.
fn add_stated(stated: &Composition, line: LineId, part: f64, phase: &mut WaterPhase) -> bool {
    let mut more = !stated.unread.is_empty() || stated.items.is_empty();
    for item in &stated.items {
        let (low, high) = (part * fraction(item.low), part * fraction(item.high));
        if is_water(&item.name) {
            phase.water += part * middle(item);
        } else if let Some(row) = acid(&item.name).or_else(|| acid_named(&fold(&item.name))) {
            phase.known.push(Electrolyte { line, row, amount: amount(row, low, high) });
        } else {
            more = true;
        }
    }
    more
}

/// Adds what an ingredient brings: its own row, or those of a blend's parts.
fn add(ingredient: &Ingredient, line: LineId, part: f64, known: &mut Vec<Electrolyte>) {
    if let Some(row) = ingredient.links().acid_base.and_then(acid) {
        let (low, high) = row.assay;
        known.push(Electrolyte { line, row, amount: amount(row, part * low, part * high) });
        return;
    }
    let parts = ingredient.links().preservative.and_then(preservative).map_or(&[][..], |row| &row.parts);
    for BlendPart { id, low, high } in parts {
        if let Some(row) = acid(id) {
            known.push(Electrolyte { line, row, amount: amount(row, part * fraction(*low), part * fraction(*high)) });
        }
    }
}

/// mol per kg of product, from kg of substance per kg of product.
fn amount(row: &Acid, low: f64, high: f64) -> MolalityRange {
    let moles = |mass: f64| mass * 1000.0 / row.mass;
    MolalityRange { low: moles(low), middle: moles(f64::midpoint(low, high)), high: moles(high) }
}
