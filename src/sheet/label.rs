//! What the label's list of ingredients says: in falling order, blends split, those under one percent behind, colourants
//! last, powders in nano form marked.
//!
//! Source of the order: Regulation (EC) 1223/2009 Article 19(1)(g), read in part; 21 CFR 701.3 for the United States.

use super::parts::undecided;
use super::{AllergenSum, FormulaComposition, Lye, SubstanceShare, Totals, allergen_sums};
use crate::facts::{Alkali, SubstanceClass, fold, in_class, us_name};
use crate::formula::{Choice, Formula, Region};
use crate::names::allergen_named;
use crate::quantity::{Mass, Percent, Quantity, mul_div_nearest, sort_by};
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
    /// Fats and lye stand in it as weighed; in the product they are soap and glycerin.
    Saponified,
    /// The lye could not be worked out, so it is not in the list.
    NoLye,
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

/// The lye that is added to a formula, by names on labels, in percent of the formula before it.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct AddedLye {
    /// The alkalis; none where the lye could not be worked out.
    pub alkalis: Vec<(&'static str, Percent)>,
    /// Its water, with what the formula has of its own.
    pub water: Percent,
}

impl AddedLye {
    /// In a batch.
    pub fn of(lye: &Lye, batch: Mass) -> Self {
        let share = |mass: Mass| {
            let units = mul_div_nearest(mass.units(), Percent::WHOLE.units(), batch.units().max(1));
            Percent::from_units(units)
        };
        let alkalis = lye.alkalis.iter().map(|dose| (lye_label(dose.alkali), share(dose.weigh)));
        Self { alkalis: alkalis.collect(), water: share(lye.water) }
    }

    /// What it adds to the substances of a formula.
    fn parts(&self, composition: &FormulaComposition) -> Vec<(&'static str, Percent)> {
        let key = fold(WATER);
        let there = composition.middle(&|one| !one.inside && one.key == key);
        let more = Percent::from_units(self.water.minus(there).units().max(0));
        self.alkalis.iter().copied().chain([(WATER, more)]).filter(|(_, share)| share.units() > 0).collect()
    }
}

/// The name of an alkali on labels.
pub const fn lye_label(alkali: Alkali) -> &'static str {
    match alkali {
        Alkali::Sodium => "Sodium Hydroxide",
        Alkali::Potassium => "Potassium Hydroxide",
    }
}

const WATER: &str = "Aqua";

/// Makes the list: as weighed, with the lye where fats are turned into soap.
pub fn label(
    formula: &Formula,
    totals: &Totals,
    composition: &FormulaComposition,
    shelf: &Shelf,
    lye: Option<&AddedLye>,
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
        } else if is_colour(&substance.key) && colours(formula, substance, shelf) {
            add(&substance.name, &substance.key, substance.middle(), ListedKind::Colourant);
        } else {
            let (name, key) = as_allergen(substance, &allergens).unwrap_or((&substance.name, substance.key.clone()));
            add(name, &key, substance.middle(), ListedKind::Ingredient);
        }
    }
    let added = lye.map_or_else(Vec::new, |lye| lye.parts(composition));
    for (name, share) in &added {
        add(name, &fold(name), *share, ListedKind::Ingredient);
    }
    for sum in allergens.iter().filter(|sum| sum.named) {
        // An allergen that is an ingredient of its own (a preservative) is in the list already.
        let there = composition.substances.iter().any(|substance| {
            !substance.inside
                && (fold(sum.allergen.name) == substance.key
                    || allergen_named(&substance.name).is_some_and(|row| row.name == sum.allergen.name))
                && !composition.scents.iter().any(|scent| scent.line == substance.line)
        });
        if !there {
            add(sum.allergen.name, &fold(sum.allergen.name), sum.share, ListedKind::Allergen);
        }
    }
    let whole: Percent = added.iter().map(|(_, share)| *share).sum::<Percent>().plus(Percent::WHOLE);
    for one in &mut listed {
        one.under_one = mul_div_nearest(one.share.units(), Percent::WHOLE.units(), whole.units()) < ONE.units();
    }
    sort_by(&mut listed, |a, b| {
        order(a).cmp(&order(b)).then_with(|| b.share.cmp(&a.share)).then_with(|| a.name.cmp(&b.name))
    });
    let mut open = open(formula, totals, composition, shelf);
    if let Some(lye) = lye {
        open.push(Open::Saponified);
        open.extend(lye.alkalis.is_empty().then_some(Open::NoLye));
    }
    Label { ingredients: listed, allergens, open }
}

/// The name and key under which law has an ingredient named that is an allergen of the label, such as an extract.
fn as_allergen<'a>(substance: &SubstanceShare, sums: &'a [AllergenSum]) -> Option<(&'a str, String)> {
    let row = allergen_named(&substance.name)?;
    let sum = sums.iter().find(|sum| sum.named && sum.allergen.name == row.name)?;
    Some((sum.allergen.name, fold(sum.allergen.name)))
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

/// Whether what has a number of the colour index is there to colour. Only such substances may stand last (Article 19(1)(g)):
/// what protects the skin stands by its weight, and so does a name with its number behind it of which nothing is known.
fn colours(formula: &Formula, substance: &SubstanceShare, shelf: &Shelf) -> bool {
    let entry = formula.line(substance.line).and_then(|line| line.choice.id()).and_then(|id| shelf.entry(id));
    match entry.filter(|entry| !entry.functions().is_empty()) {
        Some(entry) => entry.has_function("Colorant") && !PROTECTING.iter().any(|name| entry.has_function(name)),
        None => substance.key.trim_start().starts_with("ci "),
    }
}

/// Functions for which a white pigment is used as more than a colour.
const PROTECTING: [&str; 3] = ["Skin protecting", "UV absorber", "UV filter"];

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
