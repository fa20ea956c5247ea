//! Lots: a statement of its own for each, the one that counts, and that it is named wherever it counts.

use crate::made::*;
use hundred_parts::desk::{Action, Bench, Cupboard, DocId, Moment, ShelfAction, demo, document_text, read_export};
use hundred_parts::facts::{Field, IngredientId, LotField, Shelf};
use hundred_parts::formula::LineId;
use hundred_parts::paper::{LABEL_FORMATS, Which};
use hundred_parts::rules::Grade;
use hundred_parts::words;

fn lavender() -> IngredientId {
    IngredientId::parse("lavender-essential-oil").unwrap()
}

fn now() -> Moment {
    Moment::from_millis(0)
}

/// The worked example with 0.3 % of lavender oil, of which two lots are on the shelf beside the card's own.
fn workshop() -> (Bench, LineId) {
    let mut bench = Bench::new(DocId::random(1), demo(), Cupboard::default(), now());
    let phase = bench.state().formula.phases()[2].id;
    bench.act(Action::AddLine(phase, 99), now());
    let line = bench.state().formula.phases()[2].lines.last().unwrap().id;
    bench.act(Action::ChooseLine(line, lavender()), now());
    bench.act(Action::ShareLine(line, "0.3".into()), now());
    // The figures are invented for this test.
    for (field, text) in [(Field::AllergenStatement, "Linalool 30 %\nCoumarin 1 %"), (Field::Lot, "L5")] {
        bench.act_on_shelf(ShelfAction::Set(lavender(), field, text.into()), now());
    }
    for (n, lot) in [("L7", "2026-05-03", "Linalool 35 %"), ("L6", "2025-11-20", "Geraniol 2 %")].iter().enumerate() {
        bench.act_on_shelf(ShelfAction::AddLot(lavender()), now());
        for (field, text) in LotField::ALL.into_iter().zip([lot.0, lot.1, lot.2]) {
            bench.act_on_shelf(ShelfAction::SetLot(lavender(), n, field, text.into()), now());
        }
    }
    (bench, line)
}

fn named(bench: &Bench) -> Vec<&'static str> {
    let sheet = bench.derive().sheet;
    // Benzyl alcohol comes with the example's preservative.
    let wanted = |name: &&str| *name != "Benzyl Alcohol";
    let named = sheet.label.allergens.iter().filter(|sum| sum.named && !sum.allergen.oil).map(|sum| sum.allergen.name);
    named.filter(wanted).collect()
}

fn papers(bench: &Bench) -> Vec<String> {
    let derived = bench.derive();
    Which::ALL.map(|which| words::paper(which, LABEL_FORMATS[4], bench, &derived).text()).to_vec()
}

#[test]
fn lots_the_newest_counts_and_a_formula_may_name_another() {
    let (mut bench, line) = workshop();
    assert_eq!(named(&bench), ["Linalool"], "lot L7 is the newest");
    bench.act(Action::LotOfLine(line, "L6".into()), now());
    assert_eq!(named(&bench), ["Geraniol"]);
    bench.act(Action::LotOfLine(line, "L5".into()), now());
    assert_eq!(named(&bench), ["Coumarin", "Linalool"]);
    // A lot that is not there stops the label; another ingredient forgets the choice.
    bench.act(Action::LotOfLine(line, "L9".into()), now());
    let stop = bench.derive().findings.into_iter().find(|finding| key(finding) == "no-statement").unwrap();
    assert_eq!(stop.grade, Grade::Stop);
    assert!(words::finding(&stop, &[]).contains("lot L9, chosen for this formula, of which no statement was entered"));
    bench.act(Action::ChooseLine(line, IngredientId::parse("parfum").unwrap()), now());
    bench.act(Action::ChooseLine(line, lavender()), now());
    assert_eq!(named(&bench), ["Linalool"]);
}

#[test]
fn lots_a_newer_one_without_a_statement_stops_the_label() {
    let (mut bench, _) = workshop();
    bench.act_on_shelf(ShelfAction::AddLot(lavender()), now());
    assert_eq!(named(&bench), ["Linalool"], "a blank lot changes nothing");
    bench.act_on_shelf(ShelfAction::SetLot(lavender(), 2, LotField::Name, "L8".into()), now());
    assert_eq!(named(&bench), ["Linalool"], "one without a day is not known to be newer");
    bench.act_on_shelf(ShelfAction::SetLot(lavender(), 2, LotField::Date, "2026-10-01".into()), now());
    assert!(named(&bench).is_empty());
    assert!(bench.derive().findings.iter().any(|one| key(one) == "no-statement" && one.grade == Grade::Stop));
    bench.act_on_shelf(ShelfAction::RemoveLot(lavender(), 2), now());
    assert_eq!(named(&bench), ["Linalool"]);
    bench.undo_shelf(now());
    assert!(named(&bench).is_empty(), "taking a lot away is undone like anything else");
}

#[test]
fn lots_are_named_in_findings_on_every_paper_and_in_the_report() {
    let (mut bench, line) = workshop();
    let named = "Lavender essential oil, lot L7 of 2026-05-03, the newest of 3";
    let finding = bench.derive().findings.into_iter().find(|finding| key(finding) == "allergens-named").unwrap();
    assert!(words::finding(&finding, &[]).ends_with(&format!("Counted from {named}.")));
    for text in papers(&bench) {
        assert!(text.contains("lot L7 of 2026-05-03, the newest of 3"), "{text}");
    }
    bench.act(Action::LotOfLine(line, "L6".into()), now());
    for text in papers(&bench) {
        assert!(text.contains("lot L6 of 2025-11-20, chosen for this formula") && !text.contains("L7"), "{text}");
    }
    let text = document_text(bench.document(), bench.shelf());
    let report: serde_json::Value = serde_json::from_str(&words::sheet_report(&text).unwrap()).unwrap();
    let lots = &report["label"]["lots"];
    assert_eq!((&lots[0]["lot"], &lots[0]["chosen"], &lots[0]["of"]), (&"L6".into(), &true.into(), &3.into()));
    // A scent's other findings are not about what a statement says, and name no lot.
    let other = bench.derive().findings.into_iter().find(|finding| finding.rule == "fragrance").unwrap();
    assert!(other.detail.lots.is_empty());
}

#[test]
fn lots_come_back_from_files_and_stay_out_of_links_without_notes() {
    let (mut bench, line) = workshop();
    bench.act(Action::LotOfLine(line, "L6".into()), now());
    let text = document_text(bench.document(), bench.shelf());
    let again = read_export(&text).unwrap();
    assert_eq!(again.documents[0].state.formula.line(line).unwrap().lot, "L6");
    assert_eq!(again.shelf.lots_of(&lavender()), bench.shelf().lots_of(&lavender()));
    assert_eq!(document_text(&again.documents[0], &again.shelf), text);
    let link = |notes| {
        hundred_parts::desk::decode(&hundred_parts::desk::encode(bench.state(), bench.shelf(), notes).unwrap()).unwrap()
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
    let bench = Bench::new(DocId::random(1), document, shelf.into(), now());
    assert_eq!(named(&bench), ["Linalool"]);
    let lot = bench.derive().sheet.makeup.lots.remove(0);
    assert_eq!((words::lot(&lot).as_str(), lot.of), ("lot L5", 1));
}
