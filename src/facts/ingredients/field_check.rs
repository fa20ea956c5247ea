//! Whether a text gives a value for a field, for all fields that hold one number, one word or free text.

use super::field::choice;
use crate::facts::{FatKind, Field, FieldKind, Hlb, Iv, Months, Sv, UsualPhase};
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
    /// No sum of money.
    Money,
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

/// Whether a text gives a value for a field that holds no list. What lists may hold stands in the tables of functions and
/// names, which the first part of the program does not have.
///
/// # Errors
/// What is wrong with it.
pub(crate) fn check_single(field: Field, text: &str) -> Result<(), FieldProblem> {
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

/// [`check_single`] of fields that are neither a number nor a list.
fn words_of(shape: FieldKind, text: &str) -> Result<(), FieldProblem> {
    match shape {
        FieldKind::YesNo => one_of(text, &YES_NO),
        FieldKind::FatKind => one_of(text, &FAT_KINDS),
        FieldKind::Phase => one_of(text, &PHASES),
        FieldKind::Solubility => {
            let lower = text.to_ascii_lowercase();
            let told = SOLVENTS.iter().any(|solvent| lower.contains(solvent));
            if told { Ok(()) } else { Err(FieldProblem::Solubility) }
        }
        _ => Ok(()),
    }
}

/// Whether a typed text of words counts. Numbers are judged where they are read, and lists by who needs them: asked for
/// every field, this would bring all their readers and tables into the first part of the program.
pub(crate) fn words_count(field: Field, text: &str) -> bool {
    text.trim().is_empty() || words_of(field.shape(), text).is_ok()
}

fn one_of(text: &str, words: &'static [&'static str]) -> Result<(), FieldProblem> {
    if words.contains(&choice(text).as_str()) { Ok(()) } else { Err(FieldProblem::Choice(words)) }
}

pub(crate) fn readable<Q: Quantity>(text: &str) -> Result<(), FieldProblem> {
    match Q::read(text) {
        Parsed::Empty | Parsed::Value(_) => Ok(()),
        Parsed::Unread(problem) => Err(FieldProblem::Number(Q::KIND, problem)),
        // Cannot happen for the quantities above: a thousandfold value is out of their range or their places are too
        // few.
        Parsed::Ambiguous { .. } => Err(FieldProblem::Number(Q::KIND, ParseProblem::TwoDecimalSigns)),
    }
}
