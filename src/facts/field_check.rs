//! Whether what a maker typed into a field of the shelf gives a value for it.
//!
//! What gives none stays as it was typed and is not used: the table's value counts, if it has one and gives way. `data/functions.csv` holds
//! the functions that are known.

use std::sync::LazyLock;

use super::field::choice;
use super::{CsvTable, FatKind, Field, FieldKind, Hlb, Iv, Months, Sv, UsualPhase, read_composition};
use crate::quantity::{Celsius, Density, Kind, ParseProblem, Parsed, Percent, Ph, Quantity};

/// Why a text gives no value for a field, or only a part of one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum FieldProblem {
    /// A number of this kind that could not be read.
    Number(Kind, ParseProblem),
    /// None of these words.
    Choice(&'static [&'static str]),
    /// These are no functions that are known; any others of the text count.
    Functions(Vec<String>),
    /// No solvent is named.
    Solubility,
    /// These parts have no share that can be read.
    Parts(Vec<String>),
}

const YES_NO: [&str; 2] = ["yes", "no"];
const PHASES: [&str; 4] =
    [UsualPhase::Water.key(), UsualPhase::Oil.key(), UsualPhase::CoolDown.key(), UsualPhase::Lye.key()];
const FAT_KINDS: [&str; 4] =
    [FatKind::Triglyceride.key(), FatKind::WaxEster.key(), FatKind::SterolEster.key(), FatKind::Hydrocarbon.key()];

/// Words by which something is known to dissolve, or not to.
const SOLVENTS: [&str; 10] =
    ["water", "oil", "glycol", "glycerin", "alcohol", "ethanol", "dispers", "insolub", "neither", "nothing"];

/// Whether a typed text gives a value for a field. Nothing typed is fine: it takes an override back.
///
/// # Errors
/// What is wrong with it.
pub fn check(field: Field, text: &str) -> Result<(), FieldProblem> {
    if text.trim().is_empty() {
        return Ok(());
    }
    match field.shape() {
        FieldKind::Functions => functions(text),
        FieldKind::Parts => parts(text),
        _ => check_single(field, text),
    }
}

/// [`check`] of what is no list: of those the tables of functions and names know, which the first part of the program does
/// not have.
pub(super) fn check_single(field: Field, text: &str) -> Result<(), FieldProblem> {
    match field.shape() {
        FieldKind::Percent => readable::<Percent>(text),
        FieldKind::Ph => readable::<Ph>(text),
        FieldKind::Celsius => readable::<Celsius>(text),
        FieldKind::Density => readable::<Density>(text),
        FieldKind::Hlb => readable::<Hlb>(text),
        FieldKind::Months => readable::<Months>(text),
        FieldKind::Sv => readable::<Sv>(text),
        FieldKind::Iv => readable::<Iv>(text),
        words => words_of(words, text),
    }
}

/// [`check`] of fields that are neither a number nor a list.
fn words_of(shape: FieldKind, text: &str) -> Result<(), FieldProblem> {
    match shape {
        FieldKind::YesNo => one_of(text, &YES_NO),
        FieldKind::FatKind => one_of(text, &FAT_KINDS),
        FieldKind::Phase => one_of(text, &PHASES),
        FieldKind::Solubility => {
            let lower = text.to_lowercase();
            let told = SOLVENTS.iter().any(|solvent| lower.contains(solvent));
            if told { Ok(()) } else { Err(FieldProblem::Solubility) }
        }
        _ => Ok(()),
    }
}

/// Whether a typed text of words counts. Numbers are judged where they are read, and lists by who needs them: asked for
/// every field, this would bring all their readers and tables into the first part of the program.
pub(super) fn words_count(field: Field, text: &str) -> bool {
    text.trim().is_empty() || words_of(field.shape(), text).is_ok()
}

/// Whether a function is one that is known.
pub(super) fn is_function(name: &str) -> bool {
    FUNCTIONS.iter().any(|function| function.eq_ignore_ascii_case(name))
}

/// Whether anything of a typed text counts.
pub(super) fn counts(field: Field, text: &str) -> bool {
    match check(field, text) {
        Ok(()) => true,
        Err(FieldProblem::Functions(unknown)) => unknown.len() < named_functions(text).count(),
        Err(_) => false,
    }
}

fn one_of(text: &str, words: &'static [&'static str]) -> Result<(), FieldProblem> {
    if words.contains(&choice(text).as_str()) { Ok(()) } else { Err(FieldProblem::Choice(words)) }
}

pub(super) fn named_functions(text: &str) -> impl Iterator<Item = &str> {
    text.split([';', ',']).map(str::trim).filter(|name| !name.is_empty())
}

fn functions(text: &str) -> Result<(), FieldProblem> {
    let unknown: Vec<String> = named_functions(text).filter(|name| !is_function(name)).map(str::to_owned).collect();
    if unknown.is_empty() { Ok(()) } else { Err(FieldProblem::Functions(unknown)) }
}

/// Parts as [`Field::Components`] has them: a share behind each, or `rest`. A number alone is the strength of a solution.
fn parts(text: &str) -> Result<(), FieldProblem> {
    if !text.contains(char::is_alphabetic) {
        let strength = read_composition(&format!("strength {text}"));
        return if strength.items.is_empty() { readable::<Percent>(text) } else { Ok(()) };
    }
    let read = |part: &&str| {
        let part = part.split('(').next().unwrap_or(part).trim();
        let share = || {
            let read = read_composition(&part.replace(" about ", " "));
            read.unread.is_empty() && !read.items.is_empty()
        };
        part.ends_with(" rest") || share()
    };
    let all = text.split(';').map(str::trim).filter(|part| !part.is_empty());
    let unread: Vec<String> = all.filter(|part| !read(part)).map(str::to_owned).collect();
    if unread.is_empty() { Ok(()) } else { Err(FieldProblem::Parts(unread)) }
}

fn readable<Q: Quantity>(text: &str) -> Result<(), FieldProblem> {
    match Q::read(text) {
        Parsed::Empty | Parsed::Value(_) => Ok(()),
        Parsed::Unread(problem) => Err(FieldProblem::Number(Q::KIND, problem)),
        // Cannot happen for the quantities above: a thousandfold value is out of their range or their places are too
        // few.
        Parsed::Ambiguous { .. } => Err(FieldProblem::Number(Q::KIND, ParseProblem::TwoDecimalSigns)),
    }
}

static TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("data/functions.csv")));
static FUNCTIONS: LazyLock<Vec<&'static str>> = LazyLock::new(|| TABLE.parse(|row| row.get("name")).0);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn functions_are_sorted_sourced_and_hold_all_of_the_table() {
        let problems = TABLE.parse(|row| Ok((row.get("name")?, row.get("source")?))).1;
        assert!(problems.is_empty() && FUNCTIONS.len() > 80 && FUNCTIONS.is_sorted());
        for entry in crate::facts::Shelf::default().iter() {
            let text = entry.cell(Field::Functions).map_or("", |cell| cell.text);
            assert_eq!(check(Field::Functions, text), Ok(()), "{}", entry.id());
        }
    }

    #[test]
    fn check_says_what_is_wrong_with_each_kind() {
        let number = |kind, problem| Err(FieldProblem::Number(kind, problem));
        for (field, text, expected) in [
            (Field::Name, "<b>", Ok(())),
            (Field::Max, "", Ok(())),
            (Field::Max, " ", Ok(())),
            (Field::Max, "1,5 %", Ok(())),
            (Field::UseLow, "abc", number(Kind::Percent, ParseProblem::NotANumber)),
            (Field::Max, "1.5.", number(Kind::Percent, ParseProblem::TwoDecimalSigns)),
            (Field::Max, "-1", number(Kind::Percent, ParseProblem::Negative)),
            (Field::PhMin, "4.55", Ok(())),
            (Field::PhMin, "4.555", number(Kind::Ph, ParseProblem::TooFine { places: 2 })),
            (Field::HeatMax, "70 \u{b0}C", Ok(())),
            (Field::Density, "0.91 g/mL", Ok(())),
            (Field::Density, "0.91 kg", number(Kind::Density, ParseProblem::UnknownUnit)),
            (Field::RequiredHlb, "eight", number(Kind::Hlb, ParseProblem::NotANumber)),
            (Field::ShelfLifeMonths, "1.5", number(Kind::Months, ParseProblem::TooFine { places: 0 })),
            (Field::UsualPhase, "oil", Ok(())),
            (Field::UsualPhase, "Cool down", Ok(())),
            (Field::UsualPhase, "butter", Err(FieldProblem::Choice(&PHASES))),
            (Field::InHand, "maybe", Err(FieldProblem::Choice(&YES_NO))),
            (Field::InHand, "Yes", Ok(())),
            (Field::FatKind, "butter", Err(FieldProblem::Choice(&FAT_KINDS))),
            (Field::Functions, "Humectant; solvent", Ok(())),
            (Field::Functions, "Humectant; wobble", Err(FieldProblem::Functions(vec!["wobble".into()]))),
            (Field::Solubility, "water (limited)", Ok(())),
            (Field::Solubility, "abc", Err(FieldProblem::Solubility)),
            (Field::Components, "Panthenol 75; Aqua 25", Ok(())),
            (Field::Components, "phenoxyethanol 88-92; water rest", Ok(())),
            (Field::Components, "88", Ok(())),
            (Field::Components, "80-90 %", Ok(())),
            (Field::Components, "12.5.", number(Kind::Percent, ParseProblem::TwoDecimalSigns)),
            (Field::Components, "Panthenol; Aqua 25", Err(FieldProblem::Parts(vec!["Panthenol".into()]))),
        ] {
            assert_eq!(check(field, text), expected, "{field:?} {text:?}");
        }
        assert!(counts(Field::Functions, "Humectant; wobble") && !counts(Field::Functions, "wobble, clomp"));
    }
}
