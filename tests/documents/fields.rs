//! What the fields take in is read again.

use hundred_parts::desk::{
    Action, DocId, Document, Fresh, OpenDocument, Persist, Reopen, ShelfAction, ShelfDocument, Snapshot, demo,
    document_text, read_export, title_with,
};
use hundred_parts::facts::Field;
use hundred_parts::formula::PhaseKind;
use hundred_parts::quantity::Timestamp;

/// As much of the text as a field of so many UTF-16 code units takes in.
fn typed_into(units: usize, text: &str) -> String {
    let mut left = units;
    text.chars().take_while(|c| left.checked_sub(c.len_utf16()).map(|rest| left = rest).is_some()).collect()
}

// The limits of the fields are those of the HTML attribute `maxlength`, counted in UTF-16 code units (HTML Living
// Standard, 4.10.5.3.1). What a field takes in must come back from the journal and from the page's own files, however
// many bytes it has: three to a code unit in most scripts of Asia.
#[test]
fn whatever_fits_into_the_fields_is_read_again() {
    for script in ["\u{30ed}", "\u{44f}", "\u{1f9f4}", "a\u{301}", "\u{5d0}\"\\"] {
        let (name, note) = (typed_into(200, &script.repeat(200)), typed_into(20_000, &script.repeat(20_000)));
        let now = Timestamp::from_millis(1);
        let mut open = OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), now);
        let own = open.act_on_shelf(ShelfAction::Add(name.clone()), now).unwrap();
        open.act_on_shelf(ShelfAction::Set(own, Field::AllergenStatement, note.clone()), now);
        let line = open.state().formula.lines().next().map(|(_, line)| line.id).unwrap();
        for action in [
            Action::Title(name.clone()),
            Action::Notes(note.clone()),
            Action::NameLine(line, name.clone()),
            Action::NoteLine(line, typed_into(2000, &note)),
        ] {
            open.act(action, now);
        }
        // Copies of copies too.
        for n in 0..20 {
            let title = title_with(&open.state().formula.about.title, " (copy from another tab)");
            let stored = open.take_commit().unwrap().stored;
            open.overtaken(&stored, Vec::new(), Fresh { id: DocId::random(n), title, now });
        }
        let formula = open.take_commit().unwrap();
        let shelf = open.stored(&DocId::shelf()).and_then(|shelf| shelf.take_commit()).unwrap();
        let again = OpenDocument::open(&formula.stored, formula.steps.put);
        assert_eq!(again.unwrap().state().write(), open.state().write(), "{script}");
        assert_eq!(
            ShelfDocument::open(&shelf.stored, Vec::new()).map(|shelf_document| OpenDocument::new(
                DocId::random(2),
                demo(),
                shelf_document,
                now
            )
            .shelf()
            .clone()),
            Some(open.shelf().clone()),
            "{script}"
        );
        let file = document_text(open.document(), open.shelf());
        assert!(read_export(&file).is_ok(), "{script}");
    }
}

#[test]
fn no_more_lines_and_phases_than_are_read_again() {
    let now = Timestamp::from_millis(1);
    let mut open = OpenDocument::new(DocId::random(1), Document::default(), ShelfDocument::default(), now);
    for _ in 0..60 {
        open.act(Action::AddPhase(PhaseKind::Oil, "Oil".into()), now);
    }
    let phase = open.state().formula.phases()[0].id;
    for n in 0..600 {
        open.act(Action::AddLine(phase, n), now);
    }
    let stored = open.take_commit().unwrap().stored;
    let again = OpenDocument::open(&stored, Vec::new()).expect("a formula that was made here is read here");
    assert_eq!((again.state().formula.phases().len(), again.state().formula.lines().count()), (50, 500));
}
