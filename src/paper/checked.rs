//! Against what each ingredient was checked: as what it is known, how that is known, and the entries of the annexes of
//! Regulation (EC) No 1223/2009 that it falls under.

use super::choice_name;
use crate::compliance::{EntryCheck, Present, check, products_of};
use crate::formula::{Choice, Formula};
use crate::quantity::Percent;
use crate::sheet::{Recognition, Sheet, lye_label, makers_inci};
use crate::shelf::Shelf;

/// An entry of an annex that a substance falls under.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FoundEntry {
    /// Annex and number, such as `V/29`.
    pub title: String,
    /// It lists a name of the substance; a number alone does not decide.
    pub by_name: bool,
}

impl FoundEntry {
    /// As papers name an entry.
    pub fn of(check: &EntryCheck) -> Self {
        Self { title: check.entry.short_title(), by_name: check.by_name }
    }
}

/// One substance of a line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CheckedSubstance {
    /// As what it is known, or what was written where nobody is certain.
    pub name: String,
    /// How that is known.
    pub recognition: Recognition,
    /// What it falls under.
    pub entries: Vec<FoundEntry>,
}

/// One line of the formula.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CheckedLine {
    /// What stands in the formula.
    pub written: String,
    /// What it consists of, without what a supplier's statement names; nothing where it has no share or is not on the shelf.
    pub substances: Vec<CheckedSubstance>,
}

impl CheckedLine {
    /// Whether all that it consists of is recognised, so that what the annexes say of it can be looked up.
    pub fn is_recognised(&self) -> bool {
        !self.substances.is_empty() && self.substances.iter().all(|one| one.recognition.is_certain())
    }
}

/// Against what a formula was checked.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Checked {
    /// Line by line.
    pub lines: Vec<CheckedLine>,
    /// Whether the annexes were looked into.
    pub looked_up: bool,
}

impl Checked {
    /// How many lines were recognised and looked up.
    pub fn count(&self) -> usize {
        if self.looked_up { self.lines.iter().filter(|line| line.is_recognised()).count() } else { 0 }
    }
}

/// Gathers it.
pub fn checked(formula: &Formula, sheet: &Sheet, shelf: &Shelf) -> Checked {
    let lines = formula.lines().filter(|(_, line)| !line.is_blank()).map(|(_, line)| {
        let shares = sheet.composition.substances.iter().enumerate();
        let own = shares.filter(|(_, share)| share.line == line.id && !share.inside);
        let substances = own.map(|(at, share)| CheckedSubstance {
            name: share.name.clone(),
            recognition: share.recognition.clone(),
            entries: sheet.annexes.iter().flat_map(|check| check.entries_of(at)).map(FoundEntry::of).collect(),
        });
        CheckedLine { written: written(&line.choice, shelf), substances: substances.collect() }
    });
    let lye = lye_names(sheet).into_iter().map(|name| of_lye(name, formula, sheet.annexes.is_some()));
    Checked { lines: lines.chain(lye).collect(), looked_up: sheet.annexes.is_some() }
}

/// The alkali of a soap is no line of its formula. Its share in the product is not known: it is spent.
fn of_lye(name: &'static str, formula: &Formula, looked_up: bool) -> CheckedLine {
    let present = [Present { name, cas: None, low: Percent::ZERO, high: Percent::WHOLE }];
    let law = looked_up.then(|| check(&present, products_of(&formula.about)));
    let entries = law.iter().flat_map(|law| law.of(0)).map(FoundEntry::of).collect();
    let substance = CheckedSubstance { name: name.to_owned(), recognition: Recognition::Listed, entries };
    CheckedLine { written: format!("{name}, for the lye"), substances: vec![substance] }
}

fn lye_names(sheet: &Sheet) -> Vec<&'static str> {
    let Some(Ok(lye)) = &sheet.lye else { return Vec::new() };
    lye.alkalis.iter().map(|dose| lye_label(dose.alkali)).collect()
}

/// The name of a line, with the label name that its maker gave it.
fn written(choice: &Choice, shelf: &Shelf) -> String {
    let name = choice_name(choice, shelf);
    let entry = choice.id().and_then(|id| shelf.entry(id));
    match entry.as_ref().and_then(makers_inci).filter(|inci| *inci != name) {
        Some(inci) => format!("{name} ({inci})"),
        None => name,
    }
}
