//! Everything that can be written can be read: texts, lists and shelves up to every limit and beyond it, through the
//! journal, the export, the import and the link.

use crate::work::{action, worked_on};
use hundred_parts::desk::{
    Action, Commit, DocId, Document, OpenDocument, Reopen, ShelfAction, ShelfDocument, Snapshot, collection_text,
    decode, demo, document_text, encode, read_export, stored_shelf,
};
use hundred_parts::facts::{Field, IngredientId};
use hundred_parts::formula::{Answer, PaperField, PhaseKind};
use hundred_parts::quantity::Timestamp;
use hundred_parts::shelf::{Lot, LotField, MOST_ENTRIES, MOST_LOTS, Shelf};
use proptest::prelude::*;

/// Texts around the limits, in units of UTF-16, of letters that take one to four bytes, are escaped, or must not stay.
fn long_text() -> impl Strategy<Value = String> {
    let letters =
        prop::sample::select(vec!["a", "\u{e9}", "\u{30ed}", "\u{1f9f4}", "\"", "\\", "\u{202e}", "\u{7}", "\n"]);
    let length = prop::sample::select(vec![0, 1, 199, 200, 399, 400, 401, 5000, 39_999, 40_000, 40_001]);
    (letters, length).prop_map(|(letter, length)| letter.repeat(length))
}

fn now() -> Timestamp {
    Timestamp::from_millis(1)
}

fn commit_of(open: &mut OpenDocument, id: &DocId) -> Commit {
    open.stored(id).and_then(|document| document.take_commit()).expect("something was changed")
}

/// Through the journal, a step of the history, a file of one, a file of all, and a link.
fn comes_back(open: &mut OpenDocument) {
    let id = open.id().clone();
    let commit = commit_of(open, &id);
    let stored =
        OpenDocument::open(&commit.stored, commit.steps.put.clone()).expect("what the journal takes is read again");
    assert_eq!(stored.state().write(), open.state().write());
    for (number, step) in &commit.steps.put {
        assert!(OpenDocument::from_step(&id, step, now()).is_some(), "step {number}");
    }
    let shelf = open.shelf();
    for text in [document_text(open.document(), shelf), collection_text([open.document()].into_iter(), &[], shelf)] {
        let incoming = read_export(&text).expect("what is exported is read again");
        assert!(incoming.refused.is_empty(), "{:?}", incoming.refused);
        let lines = |document: &Document| document.state.formula.lines().count();
        assert_eq!(incoming.documents.iter().map(lines).collect::<Vec<_>>(), [lines(open.document())]);
    }
    if let Some(link) = encode(open.state(), shelf, true) {
        assert!(decode(&link).is_ok(), "a link that is made is read again");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(ProptestConfig::default().cases / 64))]
    #[test]
    fn document_with_texts_beyond_every_limit_comes_back(
        steps in prop::collection::vec(action(), 0..10),
        texts in prop::collection::vec(long_text(), 16),
    ) {
        let mut open = worked_on(steps);
        let line = open.state().formula.lines().next().map(|(_, line)| line.id);
        let phase = open.state().formula.phases().first().map(|phase| phase.id);
        let mut texts = texts.into_iter();
        let mut text = || texts.next().unwrap_or_default();
        let mut all = vec![Action::Title(text()), Action::Notes(text()), Action::TargetPh(text())];
        all.push(Action::AddPhase(PhaseKind::Oil, text()));
        all.extend(phase.into_iter().flat_map(|id| [Action::NamePhase(id, text()), Action::HeatPhase(id, text())]));
        all.extend(line.into_iter().flat_map(|id| {
            [Action::NameLine(id, text()), Action::NoteLine(id, text()), Action::LotOfLine(id, text()), Action::Hand(id, text())]
        }));
        all.extend(PaperField::ALL.first().map(|field| Action::Paper(*field, text())));
        all.push(Action::Answer(Answer { finding: "sum".into(), value: text(), reason: text(), person: text(), day: None }));
        for action in all {
            open.act(action, now());
            open.end_undo_group(now());
        }
        let number = open.save_version(now());
        open.name_version(number, text(), now());
        comes_back(&mut open);
    }

    #[test]
    fn shelf_with_texts_beyond_every_limit_comes_back(texts in prop::collection::vec(long_text(), 5)) {
        let mut open = OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), now());
        for (n, text) in texts.iter().enumerate() {
            let id = open.act_on_shelf(ShelfAction::Add(text.clone()), now()).expect("room on the shelf");
            let field = Field::ALL[n * 5 % Field::ALL.len()];
            open.act_on_shelf(ShelfAction::Set(id.clone(), field, text.clone()), now());
            open.act_on_shelf(ShelfAction::AddLot(id.clone()), now());
            for field in LotField::ALL {
                open.act_on_shelf(ShelfAction::SetLot(id.clone(), 0, field, text.clone()), now());
            }
        }
        let commit = commit_of(&mut open, &DocId::shelf());
        let read = stored_shelf(&commit.stored);
        prop_assert_eq!(read.as_ref().map(Snapshot::write), Some(open.shelf().write()));
        let incoming = read_export(&collection_text([open.document()].into_iter(), &[], open.shelf()));
        prop_assert_eq!(incoming.map(|incoming| incoming.shelf.own_ids().count()), Ok(open.shelf().own_ids().count()));
    }
}

#[test]
fn no_more_on_the_shelf_than_is_read_again() {
    let entries = |count: usize| {
        Shelf::restore((0..count).map(|n| {
            (IngredientId::parse(&format!("own-{n}")).unwrap(), true, vec![(Field::Name, format!("Own {n}"))])
        }))
    };
    let mut full = entries(MOST_ENTRIES - 1);
    let first = IngredientId::parse("own-0").unwrap();
    let lot = |n: usize| Lot::of(&[(LotField::Name, &format!("L{n}"))]);
    full.keep_lots(&first, (1..MOST_LOTS).map(lot).collect());
    let mut open = OpenDocument::new(DocId::random(1), demo(), ShelfDocument::from(full), now());
    let last = open.act_on_shelf(ShelfAction::Add("The last one".into()), now()).expect("one has room");
    let water = IngredientId::parse("water").unwrap();
    assert!(ShelfAction::Add("One more".into()).is_too_much(open.shelf()));
    assert_eq!(open.act_on_shelf(ShelfAction::Add("One more".into()), now()), None);
    open.act_on_shelf(ShelfAction::Set(water.clone(), Field::Max, "90".into()), now());
    assert!(open.shelf().overridden(&water).is_empty(), "a value of one more ingredient is one too many");
    open.act_on_shelf(ShelfAction::Set(last, Field::Max, "90".into()), now());
    for _ in 0..2 {
        open.act_on_shelf(ShelfAction::AddLot(first.clone()), now());
    }
    assert_eq!(open.shelf().lots_of(&first).len(), MOST_LOTS);
    let commit = commit_of(&mut open, &DocId::shelf());
    let read = stored_shelf(&commit.stored).expect("a full shelf is read");
    assert_eq!(read.entries().count(), MOST_ENTRIES);
    // An import that is within the limits by itself, and not together with what is here.
    let another = IngredientId::parse("another").unwrap();
    let another = Shelf::restore([(another, true, vec![(Field::Name, "Another".into())])]);
    assert!(!open.shelf().has_room_for(&another) && open.shelf().has_room_for(&Shelf::default()));
    // Two tabs, each within the limits: what comes of joining them is read all the same.
    let joined = entries(MOST_ENTRIES).joined(&Shelf::restore((0..MOST_ENTRIES).map(|n| {
        (IngredientId::parse(&format!("other-{n}")).unwrap(), true, vec![(Field::Name, format!("Other {n}"))])
    })));
    assert_eq!(<Shelf as Snapshot>::read(&joined.write()).map(|shelf| shelf.entries().count()), Some(2 * MOST_ENTRIES));
}

#[test]
fn log_of_many_readings_comes_back() {
    let reading = serde_json::json!({
        "event": "read", "in": "batch", "ph": "5", "one_part_in": 1, "taken_g": "0", "at": "2026-11-25T14:02:00Z",
    });
    let mut document = demo();
    let log = serde_json::json!({"batch_g": "100", "target_ph": "5", "events": vec![reading; 1500]});
    document.old_log = Some(log);
    comes_back(&mut OpenDocument::new(DocId::random(1), document, ShelfDocument::default(), now()));
}

#[test]
fn own_ingredient_that_is_gone_is_a_name_in_the_backup_and_one_bad_formula_keeps_out_no_other() {
    let mut open = OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), now());
    let plum = open.act_on_shelf(ShelfAction::Add("Plum kernel oil".into()), now()).unwrap();
    let line = open.state().formula.lines().nth(2).map(|(_, line)| line.id).unwrap();
    open.act(Action::ChooseLine(line, plum.clone()), now());
    open.act_on_shelf(ShelfAction::Remove(plum), now());
    let text = collection_text([open.document(), &demo()].into_iter(), &[], open.shelf());
    let incoming = read_export(&text).expect("a backup can be read");
    assert_eq!((incoming.documents.len(), incoming.refused.len()), (2, 0));
    let (_, line) = incoming.documents[0].state.formula.lines().nth(2).unwrap();
    assert_eq!(line.choice, hundred_parts::formula::Choice::Named("Plum kernel oil".into()));
    // A backup of an earlier release names the id that is nowhere; and one formula of this one is broken by hand.
    let mut file: serde_json::Value = serde_json::from_str(&text).unwrap();
    let line = &mut file["formulas"][0]["formula"]["phases"][0]["lines"][1];
    *line = serde_json::json!({"ingredient": "nowhere-to-be-found", "percent": "3"});
    file["formulas"][1]["formula"]["phases"] = 3.into();
    let incoming = read_export(&file.to_string()).expect("what can be read is taken");
    assert_eq!((incoming.documents.len(), incoming.refused.len()), (1, 1));
    assert!(incoming.refused[0].path.starts_with("formulas[1]"), "{}", incoming.refused[0]);
    let (_, line) = incoming.documents[0].state.formula.lines().nth(1).unwrap();
    assert_eq!(line.choice, hundred_parts::formula::Choice::Named("Nowhere to be found".into()));
}

#[test]
fn versions_of_one_number_or_of_the_last_one_are_told_apart() {
    for numbers in [[1, 1], [4_294_967_294, 4_294_967_295], [7, 3]] {
        let version = |number: u32| serde_json::json!({"number": number, "saved": "2026-11-25T14:02:00Z", "formula": {"phases": []}});
        let file = serde_json::json!({
            "format": "hundred-parts", "version": 1, "formula": {"title": "T", "phases": []},
            "versions": numbers.map(version),
        });
        let mut document = read_export(&file.to_string()).unwrap().documents.remove(0);
        assert_eq!(document.versions.iter().map(|version| version.number).collect::<Vec<_>>(), [1, 2]);
        assert_eq!(document.save_version(now()), 3);
    }
}
