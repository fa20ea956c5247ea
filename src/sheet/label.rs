//! What the label's list of ingredients says: in falling order, blends split, those under one percent behind, colourants
//! last, powders in nano form marked.
//!
//! Source of the order: Regulation (EC) 1223/2009 Article 19(1)(g), read in part; 21 CFR 701.3 for the United States.

use super::parts::undecided;
use super::{AllergenSum, FormulaComposition, Totals, allergen_sums};
use crate::facts::{SubstanceClass, fold, in_class, us_name};
use crate::formula::{Choice, Formula, Region};
use crate::quantity::{Percent, sort_by};
use crate::shelf::Shelf;

/// One name in the list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Listed {
    /// As printed.
    pub name: String,
    /// The middle of its share.
    pub share: Percent,
    /// True below one percent, where the order is free.
    pub under_one: bool,
    /// Why it is there.
    pub kind: ListedKind,
}

/// Why a name is in the list.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum ListedKind {
    /// An ingredient.
    Ingredient,
    /// Fragrance or essential oils, all together.
    Parfum,
    /// A fragrance allergen above its threshold.
    Allergen,
    /// A colourant.
    Colourant,
}

/// What is open about the list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Open {
    /// A line without an INCI name, by its name.
    NoInci(String),
    /// A line that is not on the shelf, by its name.
    OffShelf(String),
    /// A line that offers two names; the first was taken.
    TwoNames(String),
    /// A part of a material that may be either of two things, as it was written.
    Undecided(String),
    /// A blend of which the shares are not known, by its names: its place in the order is a guess.
    Shares(String),
    /// A fragrance or oil without its supplier's statement, by its name.
    NoStatement(String),
    /// Lines of such a statement that were not understood, by the name of the fragrance.
    StatementUnread(String, usize),
    /// Names in such a statement that were not recognised, by the name of the material, with them.
    NamesUnrecognised(String, Vec<String>),
    /// A powder that may be in nano form: the maker must say, by its name.
    Nano(String),
    /// The sum is not a hundred: shares may change.
    NotWhole,
    /// Fats stand in it as weighed; in the product they are soap and glycerin.
    Saponified,
}

/// The list.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Label {
    /// In the order in which it is printed.
    pub ingredients: Vec<Listed>,
    /// All allergens of the product, named or not.
    pub allergens: Vec<AllergenSum>,
    /// What is open.
    pub open: Vec<Open>,
}

impl Label {
    /// The names in their order.
    pub fn names(&self) -> Vec<&str> {
        self.ingredients.iter().map(|listed| listed.name.as_str()).collect()
    }
}

/// What stands behind the name of what is in nano form.
pub const NANO: &str = " (nano)";

const ONE: Percent = Percent::millionths(1_000_000);

/// Makes the list. `saponified` says that fats of the formula are turned into soap.
pub fn label(
    formula: &Formula,
    totals: &Totals,
    composition: &FormulaComposition,
    shelf: &Shelf,
    saponified: bool,
) -> Label {
    let about = &formula.about;
    let allergens = allergen_sums(about, composition);
    let mut listed: Vec<Listed> = Vec::new();
    let nano = formula.papers.nano() == Some(true);
    // Folded, in the order in which they were first met.
    let mut keys: Vec<String> = Vec::new();
    let mut add = |plain: &str, key: &str, share: Percent, kind: ListedKind| {
        let mark = if nano && in_class(SubstanceClass::Nano, key).is_some() { NANO } else { "" };
        let name = shown(plain, about.region) + mark;
        let key = if name == plain { key.to_owned() } else { fold(&name) };
        let at = keys.iter().position(|known| *known == key);
        match at.and_then(|at| listed.get_mut(at)) {
            Some(known) => {
                known.share = known.share.plus(share);
                known.kind = known.kind.min(kind);
            }
            None => {
                keys.push(key);
                listed.push(Listed { name, share, under_one: false, kind });
            }
        }
    };
    for substance in composition.substances.iter().filter(|substance| !substance.inside) {
        if composition.scents.iter().any(|scent| scent.line == substance.line) {
            add("Parfum", " parfum", substance.middle(), ListedKind::Parfum);
        } else if is_colour(&substance.key) {
            add(&substance.name, &substance.key, substance.middle(), ListedKind::Colourant);
        } else {
            add(&substance.name, &substance.key, substance.middle(), ListedKind::Ingredient);
        }
    }
    for sum in allergens.iter().filter(|sum| sum.named) {
        // An allergen that is an ingredient of its own (a preservative) is in the list already.
        let there = composition.substances.iter().any(|substance| {
            !substance.inside
                && fold(sum.allergen.name) == substance.key
                && !composition.scents.iter().any(|scent| scent.line == substance.line)
        });
        if !there {
            add(sum.allergen.name, &fold(sum.allergen.name), sum.share, ListedKind::Allergen);
        }
    }
    for one in &mut listed {
        one.under_one = one.share < ONE;
    }
    sort_by(&mut listed, |a, b| {
        order(a).cmp(&order(b)).then_with(|| b.share.cmp(&a.share)).then_with(|| a.name.cmp(&b.name))
    });
    let mut open = open(formula, totals, composition, shelf);
    if saponified {
        open.push(Open::Saponified);
    }
    Label { ingredients: listed, allergens, open }
}

/// Colourants last; under one percent allergens behind the ingredients; above it everything by share.
fn order(listed: &Listed) -> u8 {
    match (listed.kind, listed.under_one) {
        (ListedKind::Colourant, _) => 3,
        (ListedKind::Allergen, true) => 2,
        (_, true) => 1,
        (_, false) => 0,
    }
}

/// Colour index numbers, alone or behind a name, by the folded name.
fn is_colour(key: &str) -> bool {
    key.split(" ci ").nth(1).is_some_and(|number| number.len() == 5 && number.bytes().all(|b| b.is_ascii_digit()))
}

fn shown(name: &str, region: Region) -> String {
    match region {
        Region::Us => us_name(name).unwrap_or(name).to_owned(),
        Region::Eu | Region::Gb | Region::Elsewhere => name.to_owned(),
    }
}

fn open(formula: &Formula, totals: &Totals, composition: &FormulaComposition, shelf: &Shelf) -> Vec<Open> {
    let mut open = Vec::new();
    if !totals.complete() || totals.total != Percent::WHOLE {
        open.push(Open::NotWhole);
    }
    for (_, line) in formula.lines() {
        let entry = match &line.choice {
            Choice::Named(name) if name.trim().is_empty() => continue,
            Choice::Named(name) => {
                open.push(Open::OffShelf(name.clone()));
                continue;
            }
            Choice::Known(id) => match shelf.entry(id) {
                Some(entry) => entry,
                None => {
                    open.push(Open::OffShelf(id.as_str().to_owned()));
                    continue;
                }
            },
        };
        let name = || entry.label().to_owned();
        let Some(inci) = entry.inci() else {
            open.push(Open::NoInci(name()));
            continue;
        };
        if inci.value.contains(" or ") {
            open.push(Open::TwoNames(inci.value.to_owned()));
        }
        if composition.open.contains(&line.id) {
            open.push(Open::Shares(inci.value.to_owned()));
        }
        if composition.scents.iter().any(|scent| scent.line == line.id && scent.statement.is_none()) {
            open.push(Open::NoStatement(name()));
        }
        for stated in composition.statements.iter().filter(|stated| stated.line == line.id) {
            if !stated.read.unread.is_empty() {
                open.push(Open::StatementUnread(name(), stated.read.unread.len()));
            }
            let unknown: Vec<String> = stated.read.unrecognised().map(|item| item.name.clone()).collect();
            if !unknown.is_empty() {
                open.push(Open::NamesUnrecognised(name(), unknown));
            }
        }
    }
    // What a maker wrote of a material may leave open what stands on the label.
    for substance in composition.substances.iter().filter(|substance| !substance.inside && undecided(&substance.name)) {
        let either = Open::Undecided(substance.name.clone());
        if !open.contains(&either) {
            open.push(either);
        }
    }
    if formula.papers.nano().is_none() {
        for substance in &composition.substances {
            if in_class(SubstanceClass::Nano, &substance.key).is_some()
                && !open.contains(&Open::Nano(substance.name.clone()))
            {
                open.push(Open::Nano(substance.name.clone()));
            }
        }
    }
    open
}
