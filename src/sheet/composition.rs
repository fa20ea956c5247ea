//! What a formula consists of, substance by substance: blends split, fragrance opened as far as its supplier's statement
//! goes.
//!
//! Every share comes as a range. Checks of limits count its upper end, everything else the middle. The sum over all lines
//! counts: a preservative may come with a blend, a booster's solvent and a fragrance at once.

use crate::facts::{
    Allergen, Preservative, PreservativeGroup, Provenance, allergen, fold, preservative, preservative_named,
};
use crate::formula::{Choice, Formula, Line, LineId};
use crate::quantity::{Day, Percent, Quantity};
use crate::shelf::{Composition, Ingredient, Shelf, read_composition};

use super::Totals;
use super::components::{Component, read_parts, rest_of};

/// How it is known what a line holds, the best known first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Trust {
    /// The line is this substance and nothing else.
    Plain,
    /// The maker's entry, from a supplier's document.
    Maker,
    /// The table's usual ranges, from memory: they may warn but never stop.
    Table,
    /// Nothing is known but the name: up to the whole line may be this.
    Open,
}

impl Trust {
    /// Whether a Stop may rest on it.
    pub const fn holds(self) -> bool {
        match self {
            Self::Plain => true,
            Self::Maker => Provenance::Maker.may_stop(),
            Self::Table => Provenance::Memory.may_stop(),
            Self::Open => false,
        }
    }
}

/// Share range that one line contributes to one INCI substance.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SubstanceShare {
    /// Its INCI name, or the supplier's name where no other is known.
    pub name: String,
    /// The name folded, for comparing.
    pub key: String,
    /// Least share of the product.
    pub low: Percent,
    /// Greatest share of the product, above nothing.
    pub high: Percent,
    /// The line that brings it.
    pub line: LineId,
    /// How that is known.
    pub trust: Trust,
    /// True if it is inside another share: an allergen within a fragrance. The label's list does not count it again.
    pub inside: bool,
}

impl SubstanceShare {
    /// The middle of its range.
    pub fn middle(&self) -> Percent {
        Percent::from_units(self.low.plus(self.high).units() / 2)
    }

    /// Its row in the table of preservatives.
    pub fn preservative(&self) -> Option<&'static Preservative> {
        preservative_named(&self.key)
    }
}

/// All substances of a formula.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct FormulaComposition {
    /// Line by line.
    pub substances: Vec<SubstanceShare>,
    /// Lines that are a blend of which the parts' shares are not known.
    pub open: Vec<LineId>,
    /// Lines that are fragrance or essential oil, with their share.
    pub scents: Vec<Scent>,
    /// Lines of which a supplier's statement counts, whatever they are.
    pub statements: Vec<Stated>,
    /// Lines that are a mixture of preservatives as sold.
    pub blends: Vec<SoldBlend>,
    /// Which lot of a line's material counts, where a supplier's statement was entered for any.
    pub lots: Vec<UsedLot>,
}

/// The lot of a line's material that counts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UsedLot {
    /// Which line.
    pub line: LineId,
    /// What the maker calls the material.
    pub material: String,
    /// What the lot is called; empty if its statement names none.
    pub name: String,
    /// Its day, if one was entered.
    pub day: Option<Day>,
    /// True if the formula names it; else it is the newest.
    pub chosen: bool,
    /// How many lots there are to choose from.
    pub of: usize,
    /// True if something is stated of it.
    pub stated: bool,
}

/// A line that is a mixture of preservatives as sold, whoever says what it consists of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SoldBlend {
    /// Which line.
    pub line: LineId,
    /// Its share.
    pub share: Percent,
    /// Its row.
    pub row: &'static Preservative,
}

/// A line that is fragrance or essential oil.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Scent {
    /// Which line.
    pub line: LineId,
    /// Its share.
    pub share: Percent,
    /// What its supplier states; none if nothing was entered.
    pub statement: Option<Composition>,
}

/// A line of which a supplier's statement counts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stated {
    /// Which line.
    pub line: LineId,
    /// Its share.
    pub share: Percent,
    /// What was read of the statement.
    pub read: Composition,
}

impl FormulaComposition {
    /// The shares of a substance, by folded name.
    pub fn of<'a>(&'a self, key: &'a str) -> impl Iterator<Item = &'a SubstanceShare> {
        self.substances.iter().filter(move |substance| substance.key == key)
    }

    /// The greatest share that the shares for which `wanted` holds come to.
    pub fn most(&self, wanted: &dyn Fn(&SubstanceShare) -> bool) -> Percent {
        self.substances.iter().filter(|substance| wanted(substance)).map(|substance| substance.high).sum()
    }

    /// The least share that they come to.
    pub fn least(&self, wanted: &dyn Fn(&SubstanceShare) -> bool) -> Percent {
        self.substances.iter().filter(|substance| wanted(substance)).map(|substance| substance.low).sum()
    }

    /// The lot that counts for a line.
    pub fn lot(&self, line: LineId) -> Option<&UsedLot> {
        self.lots.iter().find(|lot| lot.line == line)
    }

    /// The middle of what they come to.
    pub fn middle(&self, wanted: &dyn Fn(&SubstanceShare) -> bool) -> Percent {
        self.substances.iter().filter(|substance| wanted(substance)).map(SubstanceShare::middle).sum()
    }
}

/// Splits a formula. Lines without a share or a known name bring nothing.
pub fn composition(formula: &Formula, totals: &Totals, shelf: &Shelf) -> FormulaComposition {
    let mut composition = FormulaComposition::default();
    for (_, line) in formula.lines() {
        let Some(share) = totals.share_of(line.id).filter(|share| share.units() > 0) else { continue };
        let Some(entry) = known(line, shelf) else { continue };
        split(&mut composition, line, share, &entry, shelf);
    }
    composition
}

fn known(line: &Line, shelf: &Shelf) -> Option<Ingredient> {
    match &line.choice {
        Choice::Known(id) => shelf.entry(id),
        Choice::Named(_) => None,
    }
}

fn split(composition: &mut FormulaComposition, of: &Line, share: Percent, entry: &Ingredient, shelf: &Shelf) {
    let line = of.id;
    let names = label_names(entry);
    let (components, trust) = components(entry, &names, shelf);
    let mut push = |name: &str, low: Percent, high: Percent, trust: Trust, inside: bool| {
        let (low, high) = (share.of(low), share.of(high));
        // What a paper says is not present is not there: no rule may speak of it.
        if high > Percent::ZERO {
            composition.substances.push(SubstanceShare {
                name: name.to_owned(),
                key: fold(name),
                low,
                high,
                line,
                trust,
                inside,
            });
        }
    };
    for component in &components {
        push(&component.name, component.low, component.high, trust, false);
    }
    composition.blends.extend(blend_of(entry).map(|row| SoldBlend { line, share, row }));
    let scented = entry.has_function("Fragrance");
    let lot = entry.counted(&of.lot);
    let statement = lot.and_then(|lot| lot.statement).map(read_composition);
    for item in statement.iter().flat_map(|statement| &statement.items) {
        // A substance is named as labels and rules name it, whatever its supplier calls it.
        let name = item.known_name();
        let itself = |component: &Component| {
            fold(&component.name) == fold(name) || is_same_allergen(&component.name, item.allergen())
        };
        if !components.iter().any(itself) {
            push(name, item.low, item.high, Trust::Maker, true);
        }
    }
    if let Some(lot) = lot {
        composition.lots.push(UsedLot {
            line,
            material: entry.label().to_owned(),
            name: lot.lot.to_owned(),
            day: lot.day,
            chosen: lot.chosen,
            of: lot.of,
            stated: lot.statement.is_some(),
        });
    }
    if let Some(read) = statement.clone() {
        composition.statements.push(Stated { line, share, read });
    }
    if trust == Trust::Open && !scented {
        composition.open.push(line);
    }
    if scented {
        composition.scents.push(Scent { line, share, statement });
    }
}

/// Whether a part of a material is the very allergen that its statement names: lavender oil in lavender oil.
fn is_same_allergen(part: &str, named: Option<&Allergen>) -> bool {
    named.is_some_and(|named| allergen(part).is_some_and(|part| part.name == named.name))
}

/// The names of all that a material consists of, as far as that is known.
pub fn consists_of(entry: &Ingredient, shelf: &Shelf) -> Vec<String> {
    components(entry, &label_names(entry), shelf).0.into_iter().map(|component| component.name).collect()
}

/// The names of an ingredient on a label, `or` resolved to the first.
pub(super) fn label_names(entry: &Ingredient) -> Vec<String> {
    let text = entry.inci().map_or("", |inci| inci.value);
    let name = |part: &str| part.split(" or ").next().unwrap_or(part).trim().to_owned();
    text.split(';').map(name).filter(|name| !name.is_empty()).collect()
}

/// The row of a mixture of preservatives as sold.
fn blend_of(entry: &Ingredient) -> Option<&'static Preservative> {
    entry.links().preservative.and_then(preservative).filter(|row| row.group == PreservativeGroup::Blend)
}

/// The parts of a material, and how they are known.
fn components(entry: &Ingredient, names: &[String], shelf: &Shelf) -> (Vec<Component>, Trust) {
    let whole = |name: &String| Component { name: name.clone(), low: Percent::WHOLE, high: Percent::WHOLE };
    let stated = entry.components().filter(|text| text.provenance.is_makers());
    if let Some(components) = stated.and_then(|text| read_parts(text.value, names)) {
        return (components, Trust::Maker);
    }
    if let Some(row) = blend_of(entry)
        && stated.is_none()
        && !row.parts.is_empty()
    {
        return (blend_pieces(row, names, shelf), Trust::Table);
    }
    if let [only] = names {
        // Solutions of one named substance (an acid, a lye) are known by their parts; a plain one is itself, and so is one
        // whose parts have no other name on a label ("potassium or sodium stearate" in a self-emulsifying grade).
        let parts = entry.components().and_then(|text| read_parts(text.value, names));
        return match parts.filter(|parts| !parts.iter().any(|part| undecided(&part.name))) {
            Some(parts) if parts.len() > 1 => (parts, Trust::Table),
            _ => (vec![whole(only)], Trust::Plain),
        };
    }
    match entry.components().and_then(|text| read_parts(text.value, names)) {
        Some(components) => (components, Trust::Table),
        None => {
            let open = |name: &String| Component { name: name.clone(), low: Percent::ZERO, high: Percent::WHOLE };
            (names.iter().map(open).collect(), Trust::Open)
        }
    }
}

/// A part that may be either of two things is no name of a label.
pub(super) fn undecided(name: &str) -> bool {
    name.contains(" or ")
}

/// The parts of a blend of the preservative table; what it does not name shares the rest.
fn blend_pieces(row: &Preservative, names: &[String], shelf: &Shelf) -> Vec<Component> {
    let mut components = Vec::new();
    for part in &row.parts {
        let entry = crate::facts::IngredientId::parse(part.id).ok().and_then(|id| shelf.entry(&id));
        let names = entry.map(|entry| label_names(&entry)).filter(|names| !names.is_empty());
        for name in names.unwrap_or_else(|| vec![part.id.to_owned()]) {
            components.push(Component { name, low: part.low, high: part.high });
        }
    }
    let rest: Vec<&String> =
        names.iter().filter(|name| !components.iter().any(|component| fold(&component.name) == fold(name))).collect();
    let (low, high) = rest_of(&components);
    let alone = rest.len() == 1;
    for name in rest {
        components.push(Component { name: name.clone(), low: if alone { low } else { Percent::ZERO }, high });
    }
    components
}

#[cfg(test)]
mod tests;
