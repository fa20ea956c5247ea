//! The record of a batch on paper, in the bundle and on the label, against numbers worked by hand.

use hundred_parts::desk::{Action, DocId, OpenDocument, read_document};
use hundred_parts::formula::PaperField;
use hundred_parts::paper::{LABEL_FORMATS, Which};
use hundred_parts::quantity::Timestamp;
use hundred_parts::shelf::Shelf;
use hundred_parts::words;

fn now() -> Timestamp {
    Timestamp::from_millis(0)
}

fn opened(text: &str) -> OpenDocument {
    let mut shelf = Shelf::default();
    let document = read_document(text, &mut shelf).unwrap();
    OpenDocument::new(DocId::random(1), document, shelf.into(), now())
}

/// A formula with one batch. It was made by an older text of the formula, as its only line told then.
fn whole() -> OpenDocument {
    opened(include_str!("../formats/version-1-methods.json"))
}

fn text(open: &OpenDocument, which: Which) -> String {
    words::paper(which, LABEL_FORMATS[0], open, &open.derive()).unwrap().text()
}

fn has(text: &str, wanted: &[&str]) {
    for one in wanted {
        assert!(text.contains(one), "{one:?} is not in:\n{text}");
    }
}

#[test]
fn record_has_every_group_with_its_figures() {
    let text = text(&whole(), Which::Record);
    has(
        &text,
        &[
            "Batch record: S2911 \u{b7} Slipway foot cream",
            "Product | Slipway foot cream | Batch | S2911",
            "618\u{202f}g, changed to 649\u{202f}g",
            "2026-11-29 09:00 (UTC) | Made by | Ada Marsh",
            "deadbeef",
            "09:01 Line clearance: Bench clean, nothing of another product",
            "Ingredient | To weigh, g | Weighed, g | Difference, g | Found | Lot",
            "Water\nAqua | 447.8 | 447.8 | 0.0 | ticked | still",
            "Glycerin | 201.2 | 201.2 | 0.0 | from the scale | L7 \u{b7} good until 2027-06-30",
            "09:05 | Deviation: glycerin 5 % over | The rest is scaled to it.",
            "09:06 | Batch size changed to 649\u{202f}g | Why: Hand slipped",
            "09:11 | Timer set: 20\u{202f}min",
            "09:16 | Filled 2 packs | 47.9\u{202f}g to 50.4\u{202f}g \u{b7} none below 45.5\u{202f}g",
            "Theoretical | 649\u{202f}g | 100\u{202f}%",
            "Filled (yield) | 98.3\u{202f}g | 15.1\u{202f}%",
            "Taken out | 100\u{202f}g | 15.4\u{202f}%",
            "Not accounted for | 438.7\u{202f}g | 67.6\u{202f}%",
            "average 49.15\u{202f}g",
            "Below 45.5\u{202f}g (nominal content less the tolerable negative error): none. Below 41\u{202f}g",
            "Each pack in order, g: 50.4  47.9",
            "Released \u{b7} 2026-11-29 09:21 \u{b7} decided by Ada Marsh",
            "Retained sample: One jar, cupboard",
            "A little thinner than last time.",
            "This seal does not hold",
            "SHA-256 0000000000000000000000000000000000000000000000000000000000000000",
            words::NO_ASSESSMENT,
        ],
    );
}

#[test]
fn times_of_a_record_are_those_of_the_makers_clock() {
    let open = whole();
    let paper = words::paper_by_clock(Which::Record, LABEL_FORMATS[0], &open, &open.derive(), |_| -600).unwrap();
    has(&paper.text(), &["2026-11-28 23:00 (UTC\u{2212}10:00)", "23:21 | Released"]);
}

#[test]
fn bundle_has_the_record_after_the_method_and_says_what_it_has_not() {
    let bundle = text(&whole(), Which::Bundle);
    has(&bundle, &["Batch record", "09:16 | Filled 2 packs", "that of the last batch is in this bundle"]);
    assert!(bundle.find("Batch record\nSpecification").is_some(), "in the contents, after the method:\n{bundle}");
    let without = opened(r#"{"format":"hundred-parts","version":1,"formula":{"title":"Salve","phases":[]}}"#);
    let bundle = text(&without, Which::Bundle);
    has(&bundle, &["Batch records: none was kept here."]);
    let why = words::paper(Which::Record, LABEL_FORMATS[0], &without, &without.derive()).unwrap_err();
    assert_eq!(why, words::record::NO_RECORD);
}

/// A formula with the very lines that its batch was made from.
fn of_the_batch() -> OpenDocument {
    let file: serde_json::Value = serde_json::from_str(include_str!("../formats/version-1-methods.json")).unwrap();
    let mut same = file.clone();
    same["formula"]["phases"] = file["records"][0]["made_from"]["formula"]["phases"].clone();
    same["formula"].as_object_mut().unwrap().remove("method");
    opened(&same.to_string())
}

#[test]
fn label_takes_code_and_day_of_the_batch_where_none_was_typed() {
    let mut open = of_the_batch();
    has(&text(&open, Which::Label), &["Batch S2911, made 2026-11-29"]);
    assert!(!text(&open, Which::Bundle).contains("The batch code."), "nothing is missing");
    open.act(Action::Paper(PaperField::BatchCode, "K 12".into()), now());
    let typed = text(&open, Which::Label);
    assert!(typed.contains("Batch K 12") && !typed.contains("S2911"), "{typed}");
}

#[test]
fn label_of_another_formula_than_was_made_has_no_code() {
    assert!(!text(&whole(), Which::Label).contains("S2911"), "its lines have changed since");
}
