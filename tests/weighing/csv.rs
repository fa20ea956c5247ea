//! The weigh sheet as it leaves for a spreadsheet.

use hundred_parts::desk::{DocId, OpenDocument, ShelfDocument, read_document};
use hundred_parts::facts::{Field, IngredientId};
use hundred_parts::paper::{lye_facts, weigh_facts};
use hundred_parts::quantity::Timestamp;
use hundred_parts::shelf::Shelf;
use hundred_parts::words;

fn csv(document: &str, shelf: &mut Shelf) -> String {
    let document = read_document(document, shelf).unwrap_or_else(|problem| panic!("{problem}"));
    let open = OpenDocument::new(DocId::random(0), document, ShelfDocument::from(shelf.clone()), Timestamp::default());
    let (derived, formula) = (open.derive(), &open.state().formula);
    let paper = weigh_facts(formula, derived.sheet.weigh.as_ref().unwrap(), open.shelf());
    let lye = derived.sheet.lye.map(|found| {
        found
            .map(|lye| lye_facts(formula, &lye, open.shelf()))
            .map_err(|why| words::lye::no_lye(&why, "X", words::DecimalSign::Point))
    });
    words::weigh_csv(&paper, lye.as_ref().map(Result::as_ref))
}

/// Records and their fields, by RFC 4180 section 2 with every field in quotes.
fn records(text: &str) -> Vec<Vec<String>> {
    let record = |line: &str| {
        let inside = line.strip_prefix('"').and_then(|line| line.strip_suffix('"')).unwrap_or_else(|| panic!("{line}"));
        inside.split("\",\"").map(|cell| cell.replace("\"\"", "\"")).collect()
    };
    text.strip_suffix("\r\n").unwrap().split("\r\n").map(record).collect()
}

const SOAP: &str = r#"{"format":"hundred-parts","version":1,"formula":{"title":"Bar","use":"soap","area":"hand","pack":"bar","phases":[{"name":"Oils","kind":"oil","lines":[{"ingredient":"olive","percent":"fill-up"},{"ingredient":"coconut","percent":"25"}]}]},"batch":{"mass_g":"1000","readability_g":"1"}LYE}"#;

#[test]
fn soap_has_its_lye_and_water() {
    let rows = records(&csv(&SOAP.replace("LYE", ""), &mut Shelf::default()));
    let report: serde_json::Value =
        serde_json::from_str(&hundred_parts::report::sheet_report(&SOAP.replace("LYE", "")).unwrap()).unwrap();
    let lye = &report["lye"];
    let grams: Vec<(&str, &str)> = rows[3..].iter().map(|row| (row[1].as_str(), row[4].as_str())).collect();
    let alkali = lye["alkalis"][0]["weigh_g"].as_str().unwrap();
    assert_eq!(grams.len(), 2, "{rows:?}");
    assert!(grams[0].0.to_lowercase().contains("sodium hydroxide"), "{grams:?}");
    assert_eq!((grams[0].1, grams[1].1), (alkali, lye["water_g"].as_str().unwrap()));
    assert!(rows[3][7].starts_with("Purity "), "{rows:?}");
    assert!(rows.iter().all(|row| row.len() == 8));
}

#[test]
fn soap_without_a_lye_says_why() {
    let document = SOAP.replace("LYE", r#","lye":{"discount_percent":"0"}"#);
    let rows = records(&csv(&document, &mut Shelf::default()));
    let last = rows.last().unwrap();
    assert_eq!((last[0].as_str(), last[1].as_str(), last[4].as_str()), ("Lye", "No lye is calculated", ""));
    assert!(last[7].len() > 20, "{last:?}");
}

#[test]
fn lotion_has_what_goes_onto_the_scale_first_and_no_lye() {
    let document = r#"{"format":"hundred-parts","version":1,"formula":{"title":"T","phases":[{"name":"W","kind":"water","lines":[{"ingredient":"water","percent":"fill-up"},{"ingredient":"panthenol-75","percent":"0.05"}]}]},"batch":{"mass_g":"100","readability_g":"0.01"}}"#;
    let rows = records(&csv(document, &mut Shelf::default()));
    assert_eq!(rows.len(), 3);
    assert_eq!(&rows[0][4..6], ["Grams to weigh", "Grams of it in the batch"]);
    assert_eq!(&rows[1][4..6], ["99.5", "99.95"]);
    assert_eq!(&rows[2][4..6], ["0.5", "0.05"]);
}

/// Names are the maker's own, and may come from a file of someone else's.
#[test]
fn no_name_starts_a_formula_in_any_locale() {
    let mut shelf = Shelf::default();
    let id = IngredientId::parse("glycerin").unwrap();
    shelf.set(&id, Field::Name, "\u{200b}\u{feff}=HYPERLINK(1)");
    let document = r#"{"format":"hundred-parts","version":1,"formula":{"title":"T","phases":[{"name":";=1+1","kind":"water","lines":[{"ingredient":"water","percent":"fill-up","note":"\u00ad@x"},{"ingredient":"glycerin","percent":"4","note":"a;=2\t=3"}]}]},"batch":{"mass_g":"100"}}"#;
    let text = csv(document, &mut shelf);
    assert!(text.contains("\"'=HYPERLINK(1)\"") && text.contains("\"'@x\"") && text.contains("\";=1+1\""), "{text}");
    for cell in records(&text)[1..].iter().flatten() {
        assert!(!cell.starts_with(['=', '+', '@', '\t']), "{cell:?}");
    }
}
