//! What a formula consists of, substance by substance: blends split, fragrance opened as far as its supplier's statement
//! goes.
//!
//! Every share comes as a range. Checks of limits count its upper end, everything else the middle. The sum over all lines
//! counts: a preservative may come with a blend, a booster's solvent and a fragrance at once.

use super::Totals;
use super::components::Component;
use super::identity::{Named, Recognition};
use super::parts::LineParts;
use crate::facts::{Preservative, Provenance, allergen, fold, oil_contents, preservative_named};
use crate::formula::{Formula, Line, LineId};
use crate::names::Meaning;
use crate::quantity::{Day, Percent, Quantity};
use crate::shelf::{Composition, Contained, Ingredient, Shelf, read_composition};

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
    /// Its INCI name or name on labels; what was written, where nobody is certain what that is.
    pub name: String,
    /// The name folded, for comparing.
    pub key: String,
    /// How it is known that it is this.
    pub recognition: Recognition,
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
    /// A share of one line, of least and greatest.
    pub fn new(named: &Named, (low, high): (Percent, Percent), line: LineId, trust: Trust) -> Self {
        Self {
            name: named.name.clone(),
            key: fold(&named.name),
            recognition: named.recognition.clone(),
            low,
            high,
            line,
            trust,
            inside: false,
        }
    }

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

    /// The names of which nothing is certain, each once, with what they may mean, the likeliest first. Of what is in a
    /// supplier's statement its own finding tells.
    pub fn unrecognised(&self) -> Vec<(&SubstanceShare, &[Meaning])> {
        let mut all: Vec<(&SubstanceShare, &[Meaning])> = Vec::new();
        for one in self.substances.iter().filter(|one| !one.inside && !one.recognition.is_certain()) {
            let candidates: &[Meaning] = if let Recognition::Asked(some) = &one.recognition { some } else { &[] };
            if all.iter().all(|(known, _)| known.key != one.key) {
                all.push((one, candidates));
            }
        }
        all
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

/// Splits a formula. Lines without a share or a name bring nothing.
pub fn composition(formula: &Formula, totals: &Totals, shelf: &Shelf) -> FormulaComposition {
    let mut composition = FormulaComposition::default();
    for (_, line) in formula.lines() {
        let Some(share) = totals.share_of(line.id).filter(|share| share.units() > 0) else { continue };
        composition.take(line, share, shelf);
    }
    composition
}

impl FormulaComposition {
    /// Adds what a line brings.
    fn take(&mut self, line: &Line, share: Percent, shelf: &Shelf) {
        let Some(parts) = LineParts::of(&line.choice, shelf) else { return };
        let entry = line.choice.id().and_then(|id| shelf.entry(id));
        for part in &parts.components {
            let (low, high) = (share.of(part.low), share.of(part.high));
            self.push(SubstanceShare::new(&part.named, (low, high), line.id, parts.trust));
        }
        self.blends.extend(parts.blend.map(|row| SoldBlend { line: line.id, share, row }));
        let statement = entry.as_ref().and_then(|entry| self.take_lot(line, share, entry, &parts));
        if statement.is_none() {
            self.take_usual(line.id, share, &parts);
        }
        if parts.trust == Trust::Open && !parts.scent {
            self.open.push(line.id);
        }
        if parts.scent {
            self.scents.push(Scent { line: line.id, share, statement });
        }
    }

    /// Adds what essential oils hold as a rule of substances that the law caps.
    fn take_usual(&mut self, line: LineId, share: Percent, parts: &LineParts) {
        for part in &parts.components {
            let (low, high) = (share.of(part.low), share.of(part.high));
            for content in oil_contents(&fold(&part.named.name)) {
                let named = Named::listed(content.substance);
                let within =
                    SubstanceShare::new(&named, (low.of(content.low), high.of(content.high)), line, Trust::Table);
                self.push(SubstanceShare { inside: true, ..within });
            }
        }
    }

    /// Adds what the statement of the lot that counts brings, and gives it back.
    fn take_lot(&mut self, line: &Line, share: Percent, entry: &Ingredient, parts: &LineParts) -> Option<Composition> {
        let lot = entry.counted(&line.lot)?;
        self.lots.push(UsedLot {
            line: line.id,
            material: entry.label().to_owned(),
            name: lot.lot.to_owned(),
            day: lot.day,
            chosen: lot.chosen,
            of: lot.of,
            stated: lot.statement.is_some(),
        });
        let read = read_composition(lot.statement?);
        for item in &read.items {
            let named = item_named(item);
            if !parts.components.iter().any(|part| is_itself(part, &named)) {
                let (low, high) = (share.of(item.low), share.of(item.high));
                let within = SubstanceShare::new(&named, (low, high), line.id, Trust::Maker);
                self.push(SubstanceShare { inside: true, ..within });
            }
        }
        self.statements.push(Stated { line: line.id, share, read: read.clone() });
        Some(read)
    }

    /// What a paper says is not present is not there: no rule may speak of it.
    fn push(&mut self, share: SubstanceShare) {
        if share.high > Percent::ZERO {
            self.substances.push(share);
        }
    }
}

/// A substance of a statement, named as labels and rules name it, whatever its supplier calls it.
fn item_named(item: &Contained) -> Named {
    match item.known() {
        Some(name) => Named::listed(&name),
        None => Named::open(&item.name),
    }
}

/// Whether a part of a material is the very substance that its statement names: lavender oil in lavender oil.
fn is_itself(part: &Component, named: &Named) -> bool {
    let allergens = || Some((allergen(&part.named.name)?.name, allergen(&named.name)?.name));
    fold(&part.named.name) == fold(&named.name) || allergens().is_some_and(|(part, named)| part == named)
}

#[cfg(test)]
mod tests;
