//! Documents: what is exported comes in again, and actions are undone.

use crate::work::{PLAN_FIELDS, action, text, worked_on};
use hundred_parts::batch::study::{Study, shelf_life};
use hundred_parts::batch::{BatchStage, Decision, Making};
use hundred_parts::desk::{
    Action, BatchRef, DocId, Document, Made, OpenDocument, ShelfDocument, Snapshot, State, collection_text, demo,
    document_text, read_export,
};
use hundred_parts::facts::{Field, IngredientId};
use hundred_parts::formula::{Answer, LineId};
use hundred_parts::quantity::{Day, Quantity, Timestamp};
use hundred_parts::sheet::{LyeField, Premixes};
use hundred_parts::shelf::Shelf;
use proptest::prelude::*;

proptest! {
    #[test]
    fn undo_of_everything_is_the_beginning_and_redo_the_end(steps in prop::collection::vec(action(), 0..40)) {
        let now = Timestamp::from_millis(0);
        let mut open = worked_on(steps);
        let end = open.state().clone();
        while open.undo(now) {}
        prop_assert_eq!(open.state().write(), demo().state.write());
        while open.redo(now) {}
        prop_assert_eq!(open.state(), &end);
    }

    #[test]
    fn method_names_what_the_formula_has_and_takes_each_line_once(steps in prop::collection::vec(action(), 0..40)) {
        let open = worked_on(steps);
        let formula = &open.state().formula;
        let mut taken = Vec::new();
        for (step, lines) in formula.method().iter().zip(formula.lines_of_steps()) {
            prop_assert!(step.phase.is_none_or(|phase| formula.phase(phase).is_some()));
            prop_assert!(step.lines.iter().all(|line| formula.line(*line).is_some()));
            taken.extend(lines.into_iter().map(|line| (step.kind, line)));
        }
        let count = taken.len();
        taken.sort_unstable_by_key(|(kind, line)| (kind.key(), line.number()));
        taken.dedup();
        prop_assert_eq!(taken.len(), count);
    }

    #[test]
    fn criterion_15_export_then_import_is_the_same_document(steps in prop::collection::vec(action(), 0..40)) {
        let open = worked_on(steps);
        let mut document = open.document().clone();
        document.save_version(Timestamp::from_millis(1_000));
        let once = document_text(&document, open.shelf());
        let again = read_export(&once).map_err(|problem| TestCaseError::fail(problem.to_string()))?;
        // Characters that rearrange the page do not come in again, and nothing else changes.
        let twice = document_text(&again.documents[0], &again.shelf);
        let thrice = read_export(&twice).map_err(|problem| TestCaseError::fail(problem.to_string()))?;
        prop_assert_eq!(&document_text(&thrice.documents[0], &thrice.shelf), &twice);
        if !once.contains('\u{202e}') && !once.contains("\\u") {
            prop_assert_eq!(&twice, &once);
        }
    }
}

#[test]
fn typed_text_survives_export_to_the_letter() {
    let now = Timestamp::from_millis(0);
    let mut open = OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), now);
    let line = open.state().formula.lines().nth(1).unwrap().1.id;
    for text in ["4,50 %", "1.5x", "1.", "0,3"] {
        open.act(Action::ShareLine(line, text.into()), now);
        let again = read_export(&document_text(open.document(), open.shelf())).unwrap();
        let kept = again.documents[0].state.formula.lines().nth(1).unwrap().1.share.typed().unwrap().text().to_owned();
        assert_eq!(kept, text);
    }
}

/// A field that was emptied must not come back with its usual value: of the scale's readability that would be a guess.
#[test]
fn emptied_field_stays_empty_in_an_export() {
    let now = Timestamp::from_millis(0);
    let mut open = OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), now);
    for field in PLAN_FIELDS {
        open.act(Action::PlanText(field, String::new()), now);
    }
    open.act(Action::LyeText(LyeField::Discount, " ".into()), now);
    let once = document_text(open.document(), open.shelf());
    let again = read_export(&once).unwrap();
    assert_eq!(again.documents[0].state.plan, open.state().plan);
    assert_eq!(document_text(&again.documents[0], &again.shelf), once);
}

#[test]
fn collection_brings_every_formula_and_own_ingredients() {
    let mut shelf = Shelf::default();
    let id: IngredientId = shelf.add_own("Harbour balm base");
    shelf.set(&id, Field::Inci, "Cera Alba");
    let text = collection_text([demo(), Document::default()].iter(), &[], &shelf);
    let again = read_export(&text).unwrap();
    assert_eq!(again.documents.len(), 2);
    assert_eq!(again.shelf.entry(&id).unwrap().inci().unwrap().value, "Cera Alba");
}

/// Every version of the format that was ever released opens for ever.
#[test]
fn released_version_one_opens() {
    let incoming = read_export(include_str!("../formats/version-1.json")).unwrap();
    let state: &State = &incoming.documents[0].state;
    assert_eq!(state.formula.about.title, "Harbour hand lotion");
    assert_eq!(state.formula.lines().count(), 4);
    // With lots, which came later and are missing from older files.
    let incoming = read_export(include_str!("../formats/version-1-lots.json")).unwrap();
    let (_, line) = incoming.documents[0].state.formula.lines().nth(1).unwrap();
    assert_eq!(line.lot, "L6");
    assert_eq!(incoming.shelf.lots_of(line.choice.id().unwrap()).len(), 2);
    // With what was delivered and paid, and what a batch costs beside its materials.
    let incoming = read_export(include_str!("../formats/version-1-stock.json")).unwrap();
    let glycerin = hundred_parts::facts::IngredientId::parse("glycerin").unwrap();
    let lot = &incoming.shelf.lots_of(&glycerin)[0];
    let [_, _, _, stock @ .., _] = hundred_parts::shelf::LotField::ALL;
    let texts = stock.map(|field| lot.text(field).to_owned());
    let written = "Pier Street supplies|2026-10-01|2026-10-04|2027-09-30|Certificate G1|1 kg|12.40 EUR|2 kg";
    assert_eq!(texts.join("|"), written);
    let plan = &incoming.documents[0].state.plan;
    let costs: Vec<&str> = hundred_parts::sheet::CostField::ALL.iter().map(|field| plan.costs.text(*field)).collect();
    assert_eq!(costs, ["0.45 EUR", "90", "24 EUR", "60"]);
    let again = read_export(&document_text(&incoming.documents[0], &incoming.shelf)).unwrap();
    assert_eq!((&again.documents[0].state.plan, &again.shelf), (plan, &incoming.shelf));
    assert!(document_text(&incoming.documents[0], &incoming.shelf).contains("\"additions\": 5"));
    let now = Timestamp::from_millis(0);
    let mut open = OpenDocument::new(DocId::random(1), demo(), incoming.shelf.clone().into(), now);
    open.act_on_shelf(hundred_parts::desk::ShelfAction::AddLot(glycerin), now);
    let stored = open.stored(&DocId::shelf()).and_then(|shelf| shelf.take_commit()).unwrap().stored;
    assert!(stored.body.contains("\"additions\":5"), "a tab of an earlier release leaves such a shelf alone");
    // With how long a lot is good once it is opened: six months from 4 October 2026, which is before its own end.
    let opened = read_export(include_str!("../formats/version-1-opened.json")).unwrap();
    let glycerin = hundred_parts::facts::IngredientId::parse("glycerin").unwrap();
    let keeps = opened.shelf.lots_of(&glycerin)[0].keeps_until().map(hundred_parts::quantity::Day::text);
    assert_eq!(keeps.as_deref(), Some("2027-04-04"));
    let mut open = OpenDocument::new(DocId::random(1), demo(), opened.shelf.clone().into(), now);
    open.act_on_shelf(hundred_parts::desk::ShelfAction::AddLot(glycerin), now);
    let stored = open.stored(&DocId::shelf()).and_then(|shelf| shelf.take_commit()).unwrap().stored;
    assert!(stored.body.contains("\"additions\":9"), "a tab of an earlier release leaves such a shelf alone");
    assert_eq!(read_export(&document_text(&opened.documents[0], &opened.shelf)).unwrap().shelf, opened.shelf);
    // With a wish for premixes, the first value that was added after a release; without it as it is by default.
    let premixes = include_str!("../formats/version-1-premixes.json");
    let wish = |text: &str| read_export(text).unwrap().documents[0].state.plan.premixes;
    assert_eq!(wish(premixes), Premixes::Wanted);
    assert_eq!(wish(&premixes.replace(", \"premixes\": \"wanted\"", "")), Premixes::Needed);
    // With a reason for a saponification value that stands out.
    let incoming = read_export(include_str!("../formats/version-1-reason.json")).unwrap();
    let olive = hundred_parts::facts::IngredientId::parse("olive").unwrap();
    assert_eq!(incoming.shelf.entry(&olive).unwrap().sv_reason(), Some("Lot L7 titrated twice"));
    // With the records of two batches, the first of which a release without records had kept as a log.
    let incoming = read_export(include_str!("../formats/version-1-records.json")).unwrap();
    let records: Vec<_> = (incoming.documents[0].batches.iter())
        .map(|batch| match batch {
            BatchRef::Carried(record) => record.record().unwrap(),
            stored @ BatchRef::Stored { .. } => panic!("{stored:?}"),
        })
        .collect();
    let setting = records[1].ph().unwrap();
    assert_eq!((records[0].entries.len(), setting.log.events.len(), setting.log.struck), (2, 4, vec![3]));
    assert_eq!(records[1].made_from.as_ref().and_then(|from| from.version), Some(2));
    // With the lot that a dose was made from.
    let dosed = include_str!("../formats/version-1-records.json")
        .replace(r#""readability_g": "0.01""#, r#""readability_g": "0.01", "lot": "C1""#);
    let document = &read_export(&dosed).unwrap().documents[0];
    let BatchRef::Carried(record) = &document.batches[1] else { panic!("{:?}", document.batches[1]) };
    let log = record.record().unwrap().ph().unwrap().log;
    assert_eq!(log.last_lot(&hundred_parts::facts::IngredientId::parse("lactic-acid").unwrap()), Some("C1"));
    assert!(document_text(document, &Shelf::default()).contains("\"additions\": 9"));
    // With a method of the maker's own, and a batch that was made by it.
    let document = &read_export(include_str!("../formats/version-1-methods.json")).unwrap().documents[0];
    let formula = &document.state.formula;
    let weighed: Vec<usize> = formula.lines_of_steps().iter().map(Vec::len).collect();
    assert_eq!(weighed, [0, 1, 1, 2, 0, 0, 0, 0]);
    assert_eq!((formula.method()[5].minutes.as_str(), formula.unplanned().len()), ("20 min", 1));
    let BatchRef::Carried(record) = &document.batches[0] else { panic!("it is carried") };
    let making = Making::of(&record.record().unwrap()).unwrap();
    assert_eq!((making.code.as_str(), making.stage), ("S2911", BatchStage::Decided(Decision::Released)));
    assert_eq!(making.charged().canonical(), "649");
    // With checks of the meter, and readings that were waited for or not. Worked: 6.4 lies 0.7 below 7.1, which the meter shows
    // where the pH is 0.7 × 2.99 / 2.90 below 7.
    let incoming = read_export(include_str!("../formats/version-1-meter.json")).unwrap();
    let BatchRef::Carried(record) = &incoming.documents[0].batches[0] else { panic!("it is carried") };
    let log = record.record().unwrap().ph().unwrap().log;
    let counted: Vec<Option<f64>> = (0..4).map(|place| log.counted(place)).collect();
    assert!(counted[0].is_some_and(|ph| (ph - (7.0 - 0.7 * 2.99 / 2.90)).abs() < 1e-9), "{counted:?}");
    assert_eq!(counted[1..], [None, None, None], "two checks, and a reading that was not steady");
    assert!(log.goes_on_unchecked());
    let text = document_text(&incoming.documents[0], &incoming.shelf);
    assert!(text.contains("\"additions\": 6") && text.contains("\"steady\": false"), "{text}");
    // With the name of a kept version; a file that has none of them is written as it was before there were names.
    let incoming = read_export(include_str!("../formats/version-1-names.json")).unwrap();
    let document = &incoming.documents[0];
    let called = |document: &Document| -> Vec<(u32, String)> {
        document.versions.iter().map(|version| (version.number, version.name.clone())).collect()
    };
    // With a stability study; it is written as it was read.
    let incoming = read_export(include_str!("../formats/everything/version-1-studies.json")).unwrap();
    let study = Study::of(&incoming.studies[0].study().unwrap()).unwrap();
    assert_eq!((study.seen.len(), study.pulls.len(), study.notes.len()), (2, 2, 2));
    assert_eq!(shelf_life(&study, None, &incoming.shelf).best_before(), Day::read("2027-03-31"));
    let text = collection_text(incoming.documents.iter(), &incoming.studies, &incoming.shelf);
    assert!(text.contains("\"additions\": 7"), "{text}");
    assert_eq!(read_export(&text).unwrap().studies, incoming.studies);
    let incoming = read_export(include_str!("../formats/version-1-names.json")).unwrap();
    let names = [(1, String::new()), (3, "With panthenol, for the market".to_owned())];
    assert_eq!(called(document), names);
    let text = document_text(document, &incoming.shelf);
    assert!(text.contains("\"additions\": 3"), "{text}");
    assert_eq!(called(&read_export(&text).unwrap().documents[0]), names);
    let mut nameless = document.clone();
    nameless.name_version(3, " ".into());
    let text = document_text(&nameless, &incoming.shelf);
    assert!(!text.contains("additions") && !text.contains("\"name\": \" \""), "{text}");
}

/// No release wrote anything but a day there, and the schema allows any text: such a file opens, without a day.
#[test]
fn answer_with_a_text_in_place_of_its_day_opens_without_a_day() {
    let (now, day) = (Timestamp::from_millis(0), Day::from_calendar(2026, 11, 25));
    let mut open = OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), now);
    let answer = Answer { finding: "sum".into(), reason: "Meant so.".into(), day, ..Answer::default() };
    open.act(Action::Answer(answer.clone()), now);
    let text = document_text(open.document(), open.shelf());
    let read = |text: &str| read_export(text).unwrap().documents[0].state.formula.papers.answers().to_vec();
    assert_eq!(read(&text), std::slice::from_ref(&answer));
    for other in ["yesterday", "2026-02-30", ""] {
        let changed = text.replace("2026-11-25", other);
        assert_ne!(changed, text);
        assert_eq!(read(&changed), [Answer { day: None, ..answer.clone() }], "{other:?}");
    }
}

#[test]
fn fill_up_that_moves_leaves_its_share_behind() {
    let now = Timestamp::from_millis(0);
    let mut open = OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), now);
    let lines: Vec<LineId> = open.state().formula.lines().map(|(_, line)| line.id).collect();
    assert_eq!(open.act(Action::ShareLine(lines[1], "qs".into()), now), Made::Nothing);
    open.end_undo_group(now);
    let formula = &open.state().formula;
    assert_eq!(formula.fill_up(), Some(lines[1]));
    assert_eq!(formula.line(lines[0]).unwrap().share.typed().unwrap().text(), "69.2");
}

/// Source: JSON Schema draft 2020-12 by an independent validator, over documents that random work left behind.
#[test]
fn every_exported_document_fits_the_schema() {
    let schema = serde_json::from_str(include_str!("../../public/hundred-parts-1.schema.json")).unwrap();
    let mut schemas = boon::Schemas::new();
    let mut compiler = boon::Compiler::new();
    compiler.add_resource("hundred-parts.json", schema).unwrap();
    let schema = compiler.compile("hundred-parts.json", &mut schemas).unwrap();
    let fits = |text: &str| {
        let value = serde_json::from_str(text).unwrap();
        schemas.validate(&value, schema).map_err(|problem| TestCaseError::fail(problem.to_string()))
    };
    assert!(fits(r#"{"format":"hundred-parts","version":1,"formula":{"phases":3}}"#).is_err(), "it can refuse");
    let lots = include_str!("../formats/version-1-lots.json");
    assert!(fits(lots).is_ok() && fits(&lots.replace("\"date\"", "\"day\"")).is_err(), "also in a lot");
    assert!(fits(include_str!("../formats/version-1.json")).is_ok());
    let stock = include_str!("../formats/version-1-stock.json");
    assert!(fits(stock).is_ok() && fits(&stock.replace("\"expiry\"", "\"ends\"")).is_err(), "also of a delivery");
    assert!(fits(&stock.replace("\"margin_percent\": \"60\"", "\"margin_percent\": 60")).is_err(), "and a cost");
    let opened = include_str!("../formats/version-1-opened.json");
    assert!(fits(opened).is_ok() && fits(&opened.replace(r#""after_opening": "6""#, r#""after_opening": 6"#)).is_err());
    let premixes = include_str!("../formats/version-1-premixes.json");
    assert!(fits(premixes).is_ok() && fits(&premixes.replace("wanted", "some")).is_err(), "a wish that there is not");
    let reason = include_str!("../formats/version-1-reason.json");
    assert!(fits(reason).is_ok() && fits(&reason.replace("\"205-208\"", "205")).is_err(), "also of a reason");
    let records = include_str!("../formats/version-1-records.json");
    assert!(fits(records).is_ok() && fits(&records.replace("struck", "torn")).is_err(), "also of a record");
    let methods = include_str!("../formats/version-1-methods.json");
    assert!(fits(methods).is_ok() && fits(&methods.replace("\"hold\"", "\"wait\"")).is_err(), "also of a method");
    assert!(fits(&methods.replace("\"rescaled\"", "\"shrunk\"")).is_err(), "also of what happens to a batch");
    let meter = include_str!("../formats/version-1-meter.json");
    assert!(fits(meter).is_ok() && fits(&meter.replace("\"shown\"", "\"seen\"")).is_err(), "also of a check");
    assert!(fits(&meter.replace("\"steady\": true", "\"steady\": \"yes\"")).is_err(), "also of a reading");
    let studies = include_str!("../formats/everything/version-1-studies.json");
    assert!(fits(studies).is_ok() && fits(&studies.replace("\"odour\": 2", "\"odour\": 6")).is_err(), "of a study");
    assert!(fits(&studies.replace("study-begun", "remark")).is_err(), "a study begins with its beginning");
    let photographs = include_str!("../formats/everything/version-1-photographs.json");
    assert!(
        fits(photographs).is_ok() && fits(&photographs.replace("image/jpeg", "image/png")).is_err(),
        "a photograph"
    );
    assert!(fits(&photographs.replace("\"width\": 16", "\"width\": 1281")).is_err(), "its size");
    let names = include_str!("../formats/version-1-names.json");
    assert!(
        fits(names).is_ok() && fits(&names.replace("\"With panthenol, for the market\"", "7")).is_err(),
        "of a name"
    );
    let work = prop::collection::vec(action(), 0..40);
    let mut runner =
        proptest::test_runner::TestRunner::new(ProptestConfig::with_cases(ProptestConfig::default().cases / 2));
    runner
        .run(&(work, text()), |(steps, value)| {
            let mut open = worked_on(steps);
            open.save_version(Timestamp::from_millis(0));
            let id = open
                .act_on_shelf(hundred_parts::desk::ShelfAction::Add("Plum oil".into()), Timestamp::from_millis(0))
                .unwrap();
            use hundred_parts::desk::ShelfAction::{AddLot, Set, SetLot};
            open.act_on_shelf(Set(id.clone(), Field::Density, value.clone()), Timestamp::from_millis(0));
            open.act_on_shelf(AddLot(id.clone()), Timestamp::from_millis(0));
            open.act_on_shelf(
                SetLot(id, 0, hundred_parts::shelf::LotField::Statement, value.clone()),
                Timestamp::from_millis(0),
            );
            let line = open.state().formula.lines().next().map(|(_, line)| line.id);
            if let Some(line) = line {
                open.act(Action::LotOfLine(line, value), Timestamp::from_millis(0));
            }
            fits(&document_text(open.document(), open.shelf()))?;
            fits(&collection_text([open.document()].into_iter(), &[], open.shelf()))
        })
        .unwrap();
}
