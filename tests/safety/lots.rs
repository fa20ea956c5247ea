//! Lots: a statement of its own for each, the one that counts, and that it is named wherever it counts.

use crate::made::*;
use hundred_parts::desk::{Action, DocId, OpenDocument, ShelfAction, ShelfDocument, demo, document_text, read_export};
use hundred_parts::facts::{Field, IngredientId};
use hundred_parts::formula::LineId;
use hundred_parts::paper::{LABEL_FORMATS, Which};
use hundred_parts::quantity::Timestamp;
use hundred_parts::rules::Grade;
use hundred_parts::shelf::{LotField, Shelf};
use hundred_parts::words;

fn lavender() -> IngredientId {
    IngredientId::parse("lavender-essential-oil").unwrap()
}

fn now() -> Timestamp {
    Timestamp::from_millis(0)
}

/// The worked example with 0.3 % of lavender oil, of which two lots are on the shelf beside the card's own.
fn workshop() -> (OpenDocument, LineId) {
    let mut open = OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), now());
    let phase = open.state().formula.phases()[2].id;
    open.act(Action::AddLine(phase, 99), now());
    let line = open.state().formula.phases()[2].lines.last().unwrap().id;
    open.act(Action::ChooseLine(line, lavender()), now());
    open.act(Action::ShareLine(line, "0.3".into()), now());
    // The figures are invented for this test.
    for (field, text) in [(Field::AllergenStatement, "Linalool 30 %\nCoumarin 1 %"), (Field::Lot, "L5")] {
        open.act_on_shelf(ShelfAction::Set(lavender(), field, text.into()), now());
    }
    for (n, lot) in [("L7", "2026-05-03", "Linalool 35 %"), ("L6", "2025-11-20", "Geraniol 2 %")].iter().enumerate() {
        open.act_on_shelf(ShelfAction::AddLot(lavender()), now());
        for (field, text) in LotField::ALL.into_iter().zip([lot.0, lot.1, lot.2]) {
            open.act_on_shelf(ShelfAction::SetLot(lavender(), n, field, text.into()), now());
        }
    }
    (open, line)
}

fn named(open: &OpenDocument) -> Vec<&'static str> {
    let sheet = open.derive().sheet;
    // Benzyl alcohol comes with the example's preservative.
    let wanted = |name: &&str| *name != "Benzyl Alcohol";
    let named = sheet.label.allergens.iter().filter(|sum| sum.named && !sum.allergen.oil).map(|sum| sum.allergen.name);
    named.filter(wanted).collect()
}

fn papers(open: &OpenDocument) -> Vec<String> {
    let derived = open.derive();
    Which::HANDED_OVER.map(|which| words::paper(which, LABEL_FORMATS[4], open, &derived).unwrap().text()).to_vec()
}

#[test]
fn lots_the_newest_counts_and_a_formula_may_name_another() {
    let (mut open, line) = workshop();
    assert_eq!(named(&open), ["Linalool"], "lot L7 is the newest");
    open.act(Action::LotOfLine(line, "L6".into()), now());
    assert_eq!(named(&open), ["Geraniol"]);
    open.act(Action::LotOfLine(line, "L5".into()), now());
    assert_eq!(named(&open), ["Coumarin", "Linalool"]);
    // A lot that is not there stops the label; another ingredient forgets the choice.
    open.act(Action::LotOfLine(line, "L9".into()), now());
    let stop = open.derive().findings.into_iter().find(|finding| key(finding) == "no-statement").unwrap();
    assert_eq!(stop.grade, Grade::Stop);
    assert!(
        words::finding(&stop, &[], words::DecimalSign::Point)
            .contains("lot L9, chosen for this formula, with no statement entered")
    );
    open.act(Action::ChooseLine(line, IngredientId::parse("parfum").unwrap()), now());
    open.act(Action::ChooseLine(line, lavender()), now());
    assert_eq!(named(&open), ["Linalool"]);
}

#[test]
fn lots_a_newer_one_without_a_statement_stops_the_label() {
    let (mut open, _) = workshop();
    open.act_on_shelf(ShelfAction::AddLot(lavender()), now());
    assert_eq!(named(&open), ["Linalool"], "a blank lot changes nothing");
    open.act_on_shelf(ShelfAction::SetLot(lavender(), 2, LotField::Name, "L8".into()), now());
    assert_eq!(named(&open), ["Linalool"], "one without a day is not known to be newer");
    open.act_on_shelf(ShelfAction::SetLot(lavender(), 2, LotField::Date, "2026-10-01".into()), now());
    assert!(named(&open).is_empty());
    assert!(open.derive().findings.iter().any(|one| key(one) == "no-statement" && one.grade == Grade::Stop));
    open.act_on_shelf(ShelfAction::RemoveLot(lavender(), 2), now());
    assert_eq!(named(&open), ["Linalool"]);
    open.undo_shelf(now());
    assert!(named(&open).is_empty(), "taking a lot away is undone like anything else");
}

#[test]
fn lots_are_named_in_findings_on_every_paper_and_in_the_report() {
    let (mut open, line) = workshop();
    let named = "Lavender essential oil, lot L7 of 2026-05-03, the newest of 3";
    let finding = open.derive().findings.into_iter().find(|finding| key(finding) == "allergens-named").unwrap();
    assert!(words::finding(&finding, &[], words::DecimalSign::Point).ends_with(&format!("Counted from {named}.")));
    for text in papers(&open) {
        assert!(text.contains("lot L7 of 2026-05-03, the newest of 3"), "{text}");
    }
    open.act(Action::LotOfLine(line, "L6".into()), now());
    for text in papers(&open) {
        assert!(text.contains("lot L6 of 2025-11-20, chosen for this formula") && !text.contains("L7"), "{text}");
    }
    let text = document_text(open.document(), open.shelf());
    let report: serde_json::Value = serde_json::from_str(&hundred_parts::report::sheet_report(&text).unwrap()).unwrap();
    let lots = &report["label"]["lots"];
    assert_eq!((&lots[0]["lot"], &lots[0]["chosen"], &lots[0]["of"]), (&"L6".into(), &true.into(), &3.into()));
    // A scent's other findings are not about what a statement says, and name no lot.
    let other = open.derive().findings.into_iter().find(|finding| finding.rule == "fragrance").unwrap();
    assert!(other.detail.lots.is_empty());
}

#[test]
fn lots_come_back_from_files_and_stay_out_of_links_without_notes() {
    let (mut open, line) = workshop();
    open.act(Action::LotOfLine(line, "L6".into()), now());
    let text = document_text(open.document(), open.shelf());
    let again = read_export(&text).unwrap();
    assert_eq!(again.documents[0].state.formula.line(line).unwrap().lot, "L6");
    assert_eq!(again.shelf.lots_of(&lavender()), open.shelf().lots_of(&lavender()));
    assert_eq!(document_text(&again.documents[0], &again.shelf), text);
    let link = |notes| {
        hundred_parts::desk::decode(&hundred_parts::desk::encode(open.state(), open.shelf(), notes).unwrap()).unwrap()
    };
    let lot = |notes: bool| link(notes).documents[0].state.formula.line(line).unwrap().lot.clone();
    assert_eq!((lot(true).as_str(), lot(false).as_str()), ("L6", ""));
}

/// A document from before there were lots: its one statement counts, as it always did.
#[test]
fn lots_a_document_without_any_opens_as_before() {
    let text = r#"{"format":"hundred-parts","version":1,"formula":{"use":"leave-on","phases":[{"lines":[
        {"ingredient":"water","percent":"fill-up"},{"ingredient":"lavender-essential-oil","percent":"0.3"}]}]},
        "shelf":[{"id":"lavender-essential-oil","own":false,"values":{"allergen_statement":"Linalool 35 %","lot":"L5"}}]}"#;
    let mut shelf = Shelf::default();
    let document = hundred_parts::desk::read_document(text, &mut shelf).unwrap();
    assert!(shelf.lots().next().is_none());
    let open = OpenDocument::new(DocId::random(1), document, shelf.into(), now());
    assert_eq!(named(&open), ["Linalool"]);
    let lot = open.derive().sheet.composition.lots.remove(0);
    assert_eq!((words::lot(&lot).as_str(), lot.of), ("lot L5", 1));
}
