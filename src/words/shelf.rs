//! What is said below a field of the shelf: where its value is from, or why what was typed is not used.

use super::{FieldText, page, problem};
use crate::facts::{Field, FieldProblem};
use crate::shelf::Ingredient;

/// A field of the shelf: its text as typed, and what stands below it.
pub fn shelf_field(entry: &Ingredient, field: Field) -> FieldText {
    let text = entry.cell(field).map_or("", |cell| cell.text).to_owned();
    match entry.unread(field) {
        Some(why) => FieldText { note: unread(entry, field, &text, &why), text, unread: true, ..FieldText::default() },
        None => FieldText { note: basis(entry, field).unwrap_or_default(), text, ..FieldText::default() },
    }
}

/// What a row of the list says of an ingredient: whose it is, its lot, and whether a document is missing.
pub fn shelf_note(entry: &Ingredient) -> String {
    let lot = entry.text(Field::Lot).map(|lot| format!("lot {}", lot.value));
    let yours = entry.is_own().then(|| page::YOURS.to_owned());
    let paper = (entry.in_hand() && !entry.has_document()).then(|| "no document".to_owned());
    [yours, lot, paper].into_iter().flatten().collect::<Vec<_>>().join(" \u{b7} ")
}

/// Where a value is from, if that is to be said.
fn basis(entry: &Ingredient, field: Field) -> Option<String> {
    let known = entry.cell(field)?.provenance;
    if known.is_makers() {
        let table = entry.original(field).map(|cell| format!(" {}{}", page::TABLE_SAYS, cell.text));
        return Some(format!("{}{}", page::OVERRIDDEN, table.unwrap_or_default()));
    }
    (!known.holds()).then(|| page::FROM_MEMORY.to_owned())
}

/// What was read, what was expected, what counts instead, what to do.
fn unread(entry: &Ingredient, field: Field, text: &str, why: &FieldProblem) -> String {
    let quoted = |text: &str| format!("\u{201c}{}\u{201d}", text.trim().chars().take(40).collect::<String>());
    let all = |texts: &[String]| texts.iter().take(3).map(|text| quoted(text)).collect::<Vec<_>>().join(", ");
    let said = match why {
        FieldProblem::Number(kind, why) => problem(text, *kind, why),
        FieldProblem::Choice(words) => format!(
            "{} is not one of the choices. Expected {}, such as {}.",
            quoted(text),
            either(words),
            words.first().unwrap_or(&"")
        ),
        FieldProblem::Functions(unknown) => format!(
            "Not known as a function: {}. Expected functions in the terms of CosIng, with a semicolon between them, such as Humectant; Skin conditioning.",
            all(unknown)
        ),
        FieldProblem::Solubility => format!(
            "{} does not name a solvent. Expected water, oil, glycols or alcohol, such as oil (melts at 60\u{202f}\u{b0}C).",
            quoted(text)
        ),
        FieldProblem::Money => format!(
            "{} is not a price. Expected a sum in any currency, such as 12.50 EUR, and 1234 or 1234.0 for a thousand and more.",
            quoted(text)
        ),
        FieldProblem::Parts(parts) => format!(
            "No percentage can be read for {}. Expected each part with its percentage, and a semicolon between them, such as Panthenol 75; Aqua 25.",
            all(parts)
        ),
    };
    let counts = match (entry.counted_provenance(field), entry.original(field)) {
        (Some(known), _) if known.is_makers() => "What is known of it counts.".to_owned(),
        (Some(_), Some(cell)) => {
            format!("It is not used; the table\u{2019}s value counts: {}.", super::safety::ended(cell.text))
        }
        _ if !field.gives_way() => "It is not used, and nothing is calculated from it.".to_owned(),
        _ => "It is not used, so no value counts here.".to_owned(),
    };
    format!("{said} {counts} Correct it, or empty the field.")
}

/// Words to choose from, as a list.
fn either(words: &[&str]) -> String {
    match words {
        [others @ .., last] if !others.is_empty() => format!("{} or {last}", others.join(", ")),
        _ => words.concat(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::facts::IngredientId;
    use crate::shelf::Shelf;

    fn of(id: &str, field: Field, text: &str) -> FieldText {
        let mut shelf = Shelf::default();
        let id = IngredientId::parse(id).unwrap();
        shelf.set(&id, field, text);
        shelf_field(&shelf.entry(&id).unwrap(), field)
    }

    #[test]
    fn shelf_field_says_what_was_read_what_was_expected_and_what_counts() {
        for (field, text, expected) in [
            (
                Field::Max,
                "abc",
                "\u{201c}abc\u{201d} is not a number. Expected a percentage, such as 4.5. It is not used; the table\u{2019}s value counts: 20. Correct it, or empty the field.",
            ),
            (
                Field::InHand,
                "maybe",
                "\u{201c}maybe\u{201d} is not one of the choices. Expected yes or no, such as yes. It is not used, so no value counts here. Correct it, or empty the field.",
            ),
            (
                Field::UsualPhase,
                "pan",
                "\u{201c}pan\u{201d} is not one of the choices. Expected water, oil, cool-down or lye, such as water. It is not used; the table\u{2019}s value counts: water. Correct it, or empty the field.",
            ),
            (
                Field::Functions,
                "Humectant; wobble",
                "Not known as a function: \u{201c}wobble\u{201d}. Expected functions in the terms of CosIng, with a semicolon between them, such as Humectant; Skin conditioning. What is known of it counts. Correct it, or empty the field.",
            ),
        ] {
            let shown = of("glycerin", field, text);
            assert_eq!((shown.text.as_str(), shown.unread, shown.note.as_str()), (text, true, expected));
        }
    }

    /// Of every kind: what is not understood is said with an example, and never called the maker's value.
    #[test]
    fn shelf_field_never_calls_your_value_what_is_not_used() {
        for field in Field::ALL {
            for text in ["abc", "maybe", "1.2.3", "\u{221e}", "?"] {
                let shown = of("olive", field, text);
                assert_eq!(shown.text, text, "what was typed stays");
                assert_eq!(shown.unread, crate::shelf::check(field, text).is_err(), "{field:?} {text}");
                if shown.unread {
                    assert!(!shown.note.contains(page::OVERRIDDEN), "{field:?}: {}", shown.note);
                    assert!(shown.note.contains("such as") || shown.note.contains("Use at most"), "{}", shown.note);
                    assert!(shown.note.ends_with("Correct it, or empty the field."), "{}", shown.note);
                }
            }
        }
        assert!(of("glycerin", Field::Max, "12").note.starts_with(page::OVERRIDDEN));
        assert!(of("glycerin", Field::Notes, "abc").note.starts_with(page::OVERRIDDEN), "any text is one");
    }
}
