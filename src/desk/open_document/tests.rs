//! What an open document keeps, and what it may go with.

use super::*;
use crate::desk::{ShelfAction, Snapshot};

#[test]
fn document_stored_and_opened_is_the_same_with_its_history() {
    let now = Timestamp::from_millis(1);
    let mut open = OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), now);
    let line = open.state().formula.lines().next().map(|(_, line)| line.id).unwrap();
    open.act(Action::RemoveLine(line), now);
    open.act(Action::Title("Other".into()), now);
    let commit = open.take_commit().unwrap();
    let mut opened = OpenDocument::open(&commit.stored, commit.steps.put.clone()).unwrap();
    assert_eq!(opened.state().write(), open.state().write());
    assert!(opened.undo(now) && opened.undo(now) && !opened.undo(now));
    assert_eq!(opened.state().write(), demo().state.write());
}

#[test]
fn word_for_filling_up_acts_when_the_field_is_left_and_is_one_step_of_undo() {
    let now = Timestamp::from_millis(1);
    let mut open = OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), now);
    let start = open.state().write();
    let (before, line) = {
        let formula = &open.state().formula;
        let typed = formula.lines().find(|(_, line)| !line.share.is_fill_up()).unwrap().1.id;
        (formula.fill_up().unwrap(), typed)
    };
    let had = crate::sheet::totals(&open.state().formula).share_of(before);
    for text in ["r", "re", "res", "rest", "rest1", "rest", "ad100", "q", "qs", "q.s."] {
        open.act(Action::ShareLine(line, text.into()), now);
        assert_eq!(open.state().formula.fill_up(), Some(before), "no other line changes while {text:?} is typed");
        assert_eq!(open.state().formula.line(line).unwrap().share.typed().unwrap().text(), text);
    }
    assert!(open.end_undo_group(now) && !open.end_undo_group(now));
    assert_eq!(open.state().formula.fill_up(), Some(line));
    let kept = open.state().formula.line(before).unwrap().share.typed().unwrap().value();
    assert_eq!(kept, had, "the share that it had, not what came to it while the word was typed");
    assert!(open.undo(now));
    assert_eq!(open.state().write(), start);
    assert!(!open.undo(now));
}

#[test]
fn unsaved_snapshots_are_newer_than_what_they_rest_on_and_no_more() {
    let now = Timestamp::from_millis(1);
    let mut open = OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), now);
    let first = open.take_commit().unwrap();
    open.arrived(first.stored.meta.revision);
    assert_eq!(open.unsaved_snapshots(), [], "all of it is in the journal");
    open.act(Action::Title("Typed as the page closes".into()), now);
    open.act_on_shelf(ShelfAction::Add("Plum oil".into()), now);
    let words = open.unsaved_snapshots();
    assert!(open.is_dirty() && words.iter().all(StoredDocument::is_whole));
    assert_eq!(words.iter().map(|stored| stored.meta.revision).collect::<Vec<_>>(), [2, 1]);
    assert_eq!(words[0].meta.title, "Typed as the page closes");
    assert!(words[0].is_ahead_of(&first.stored));
    // Browsers end a write with its page: what is on its way is not there yet. Whether it arrives or not, what was typed after it began is newer; what another tab wrote over the
    // same revision is not covered.
    let on_its_way = open.take_commit().unwrap();
    assert!(
        open.unsaved_snapshots()[0].is_ahead_of(&on_its_way.stored),
        "nothing was typed since, and it may not arrive"
    );
    open.act(Action::Title("Typed after it began".into()), now);
    let words = open.unsaved_snapshots();
    assert!(words[0].is_ahead_of(&on_its_way.stored) && words[0].is_ahead_of(&first.stored));
    let mut tab = OpenDocument::open(&first.stored, Vec::new()).unwrap();
    tab.act(Action::Title("Another tab".into()), now);
    assert!(!words[0].is_ahead_of(&tab.take_commit().unwrap().stored));
}

#[test]
fn example_may_go_until_it_is_touched_and_a_new_formula_never_unwritten() {
    let now = Timestamp::from_millis(1);
    let mut example = OpenDocument::example(DocId::random(1), ShelfDocument::default(), now);
    assert!(example.is_dirty() && example.may_go());
    example.act_on_shelf(ShelfAction::Add("Plum oil".into()), now);
    assert!(!example.may_go(), "the shelf is to be written first");
    let mut example = OpenDocument::example(DocId::random(1), ShelfDocument::default(), now);
    example.act(Action::Title("Mine".into()), now);
    assert!(!example.may_go());
    let fresh = OpenDocument::new(DocId::random(2), Document::default(), ShelfDocument::default(), now);
    assert!(!fresh.may_go(), "it may hold an hour of work that no store has taken yet");
}

#[test]
fn typing_before_the_history_was_read_keeps_the_history() {
    let now = Timestamp::from_millis(1);
    let mut before = OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), now);
    for title in ["One", "Two", "Three"] {
        before.act(Action::Title(title.into()), now);
        before.end_undo_group(now);
    }
    let commit = before.take_commit().unwrap();
    let open = |steps| OpenDocument::open(&commit.stored, steps).unwrap();
    // From the local mirror, without steps; typed in; then the journal is read.
    let mut quick = open(Vec::new());
    quick.act(Action::Title("Four".into()), now);
    quick.remember(open(commit.steps.put.clone()));
    let next = quick.take_commit().unwrap();
    assert_eq!((next.steps.first, next.steps.last, next.steps.put.len()), (0, 4, 1), "no stored step is cut");
    let titles: Vec<String> =
        core::iter::from_fn(|| quick.undo(now).then(|| quick.state().formula.about.title.clone())).collect();
    assert_eq!(titles, ["Three", "Two", "One", &demo().state.formula.about.title]);
    // A copy of another revision has another past.
    let mut other = open(Vec::new());
    other.act(Action::Title("Four".into()), now);
    other.undo(now);
    other.act(Action::Title("Five".into()), now);
    let mut changed = open(commit.steps.put.clone());
    changed.act(Action::Title("Elsewhere".into()), now);
    other.remember(changed);
    assert!(other.undo(now) && !other.undo(now));
}

#[test]
fn reading_the_formula_that_is_open_and_typed_in_leaves_it_as_it_is() {
    let now = Timestamp::from_millis(1);
    let mut open = OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), now);
    open.act(Action::Title("One".into()), now);
    open.end_undo_group(now);
    let first = open.take_commit().unwrap();
    open.arrived(first.stored.meta.revision);
    open.act(Action::Title("Two".into()), now);
    open.remember(OpenDocument::open(&first.stored, first.steps.put).unwrap());
    let next = open.take_commit().unwrap();
    assert_eq!(next.expected, Some(first.stored.meta.revision), "what is stored is this tab's own, and no other one's");
    assert!(open.undo(now) && open.undo(now) && !open.undo(now));
}
