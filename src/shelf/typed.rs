//! Whether what a maker typed into a field of the shelf gives a value for it.
//!
//! What gives none stays as it was typed and is not used: the table's value counts, if it has one and gives way.

use crate::facts::{Field, FieldKind, FieldProblem, check_single, is_function, named_functions, readable};
use crate::quantity::{Money, Percent};
use crate::shelf::read_composition;

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
        FieldKind::Money => Money::read(text).map(|_| ()).map_err(|_| FieldProblem::Money),
        _ => check_single(field, text),
    }
}

/// Whether anything of a typed text counts.
pub(super) fn counts(field: Field, text: &str) -> bool {
    match check(field, text) {
        Ok(()) => true,
        Err(FieldProblem::Functions(unknown)) => unknown.len() < named_functions(text).count(),
        Err(_) => false,
    }
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Kind, ParseProblem};

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
            (Field::UsualPhase, "butter", Err(FieldProblem::Choice(&["water", "oil", "cool-down", "lye"]))),
            (Field::InHand, "maybe", Err(FieldProblem::Choice(&["yes", "no"]))),
            (Field::InHand, "Yes", Ok(())),
            (Field::Price, "7.20 EUR", Ok(())),
            (Field::Price, "cheap", Err(FieldProblem::Money)),
            (
                Field::FatKind,
                "butter",
                Err(FieldProblem::Choice(&["triglyceride", "wax-ester", "sterol-ester", "hydrocarbon"])),
            ),
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
