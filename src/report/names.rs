//! What a name was read as, for other programs.

use serde_json::json;

use crate::names::{Doubt, Meaning, NameReading, Sureness, as_label, recognise};
use crate::quantity::Quantity;

/// One name as one line of JSON: the contract of `cargo task names`. An ingredient that is also an allergen of the label is told
/// by its name on labels.
pub fn name_report(text: &str) -> String {
    let reading = recognise(text, None);
    json!({
        "text": text,
        "certain": reading.is_certain(),
        "means": reading.means.iter().map(meaning).collect::<Vec<_>>(),
        "candidates": reading.candidates.iter().map(meaning).collect::<Vec<_>>(),
        "share_percent": reading.share.map(|share| share.canonical()),
        "why": why(&reading),
    })
    .to_string()
}

fn meaning(means: &Meaning) -> String {
    match &as_label(means) {
        Meaning::Material(id) => (*id).to_owned(),
        Meaning::Allergen(name) => format!("allergen:{name}"),
        Meaning::Inci(name) => format!("inci:{name}"),
    }
}

fn why(reading: &NameReading) -> String {
    match &reading.doubt {
        None => sure(reading.sureness).to_owned(),
        Some(Doubt::Empty) => "there is no name to read".to_owned(),
        Some(Doubt::Unknown) => "no name that is known here".to_owned(),
        Some(Doubt::Part(part)) => format!("\u{201c}{part}\u{201d} in it is not known here"),
        Some(Doubt::Several) => "the name belongs to several; say which".to_owned(),
        Some(Doubt::Near) => "it is not quite a name that is known here; say whether it is this".to_owned(),
        Some(Doubt::Mistyped(number)) => format!("the check digit of {number} is wrong; look at the number again"),
        Some(Doubt::Disagree(number)) => format!("the name and the number {number} say two things; check both"),
    }
}

const fn sure(sureness: Option<Sureness>) -> &'static str {
    match sureness {
        Some(Sureness::Exact) => "exact",
        Some(Sureness::Number) => "by its number",
        Some(Sureness::Synonym) => "by synonym",
        Some(Sureness::Spelling) => "misspelt, and near to one name only",
        Some(Sureness::Likely) | None => "likely",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn name_report_is_one_line_that_says_what_was_read() {
        let read = |text| serde_json::from_str::<serde_json::Value>(&name_report(text)).unwrap();
        let dilution = read("Citric acid 50% solution");
        assert_eq!(dilution["means"], json!(["citric-acid", "water"]));
        assert_eq!((&dilution["certain"], &dilution["share_percent"]), (&json!(true), &json!("50")));
        let mistyped = read("56-81-6");
        assert_eq!((&mistyped["certain"], &mistyped["means"]), (&json!(false), &json!([])));
        assert!(mistyped["why"].as_str().unwrap().contains("56-81-6"));
        assert!(!name_report("a\nb").contains('\n'));
    }
}
