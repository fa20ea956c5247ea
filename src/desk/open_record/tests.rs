//! A batch beside the open formula: what is noted of it, in stores, files, links and other tabs.

use super::*;
use crate::batch::{FrozenFinding, FrozenLine, FrozenPacks, FrozenScale, FrozenStep, Instrument, PhEvent, Vessel};
use crate::desk::store::now as ready;
use crate::desk::{
    Action, Commit, Fresh, Incoming, Journal, MemoryJournal, MemoryMirror, News, Opened, ShelfDocument, StoredDocument,
    decode, demo, document_text, encode, new_commits, open_document, read_export, save,
};
use crate::formula::StepKind;
use crate::quantity::{Celsius, Count, Day, Minutes, Percent, Quantity};
use crate::rules::Grade;
use crate::shelf::Shelf;

mod any_events;

fn at(seconds: i64) -> Timestamp {
    Timestamp::from_millis(seconds * 1000)
}

fn opened() -> OpenDocument {
    OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), at(0))
}

fn made_from() -> MadeFrom {
    MadeFrom {
        formula: demo().state.formula,
        version: Some(3),
        mark: 0xfeed_beef,
        batch: Some(Mass::micrograms(1_236_000_000)),
        lines: vec![FrozenLine {
            name: "Water".into(),
            share: Percent::WHOLE,
            on_scale: Mass::micrograms(1_236_000_000),
            lot: "L7".into(),
            inci: "Aqua".into(),
            phase: "Water phase".into(),
            capped: true,
        }],
        steps: vec![FrozenStep {
            kind: StepKind::Weigh,
            text: "Weigh the water.".into(),
            why: "It comes first.".into(),
            stirring: String::new(),
            lines: vec![0],
            temperature: Some(Celsius::from_units(72_000)),
            minutes: Some(Minutes::from_units(20)),
        }],
        scale: Some(FrozenScale { step: Mass::micrograms(10_000), tolerance: Percent::millionths(2_000_000) }),
        packs: Some(FrozenPacks { count: Count::from_units(12), fill: Mass::micrograms(100_000_000) }),
        findings: vec![FrozenFinding {
            rule: "sum".into(),
            grade: Grade::Fine,
            text: "Sums to 100 %.".into(),
            answer: String::new(),
        }],
        rules_known_to: Day::read("2026-11-25").unwrap(),
    }
}

fn begin(open: &mut OpenDocument, id: u64) {
    let first = ph_begun(EntryId::random(0), at(1), Mass::micrograms(1_236_000_000), Ph::from_units(520));
    assert!(open.begin_record(DocId::batch(id), &made_from(), &first));
}

fn reading(n: u64, ph: i64) -> BatchEntry {
    let event = PhEvent::Read {
        vessel: Vessel::Batch,
        ph: Ph::from_units(ph),
        instrument: Instrument::Strip,
        dilution: 5,
        taken: Mass::micrograms(2_000_000),
        steady: None,
    };
    BatchEntry { id: EntryId::random(n), at: at(1 + n as i64), event: Event::Ph(event) }
}

fn record(open: &OpenDocument) -> BatchRecord {
    match open.batch() {
        BatchState::Open(record) => BatchRecord::clone(&record),
        other => panic!("{other:?}"),
    }
}

fn ids(open: &OpenDocument) -> Vec<EntryId> {
    record(open).entries.into_iter().map(|entry| entry.id).collect()
}

/// Writes whatever there is to write, as the writer does when nothing fails.
fn write(open: &mut OpenDocument, journal: &MemoryJournal) -> Vec<Commit> {
    let mut written = Vec::new();
    for id in open.open_ids() {
        while let Some(commit) = open.stored(&id).and_then(|document| document.take_commit()) {
            ready(save(journal, &MemoryMirror::default(), &commit));
            open.stored(&id).unwrap().arrived(commit.stored.meta.revision);
            written.push(commit);
        }
    }
    written
}

fn reopen(journal: &MemoryJournal, id: &DocId) -> OpenDocument {
    let mirror = MemoryMirror::default();
    let Opened::Whole(mut open) = ready(open_document::<OpenDocument>(journal, &mirror, id)) else { panic!("{id:?}") };
    open.open_old_log();
    if let BatchState::Closed(batch) = open.batch() {
        let Opened::Whole(record) = ready(open_document::<RecordDocument>(journal, &mirror, &batch)) else {
            panic!("{batch:?}")
        };
        open.adopt_record(record);
    }
    open
}

#[test]
fn record_is_stored_beside_its_formula_and_comes_back() {
    let (journal, mut open) = (MemoryJournal::default(), opened());
    assert_eq!(open.batch(), BatchState::None);
    begin(&mut open, 9);
    assert!(open.note(&reading(1, 640)));
    let written = write(&mut open, &journal);
    let order: Vec<_> = written.iter().map(|commit| commit.stored.meta.id.clone()).collect();
    assert_eq!(order.last(), Some(open.id()), "a formula names a record that is stored already: {order:?}");
    let again = reopen(&journal, open.id());
    assert_eq!(record(&again), record(&open));
    assert_eq!(record(&again).made_from.as_deref(), Some(&made_from()));
    assert_eq!(record(&again).ph().unwrap().log.events.len(), 1);
}

#[test]
fn what_could_not_be_read_again_is_not_noted() {
    let mut open = opened();
    let beyond = Mass::from_units(Mass::MAX + 1);
    let first = ph_begun(EntryId::random(0), at(1), beyond, Ph::from_units(520));
    assert!(!open.begin_record(DocId::batch(9), &made_from(), &first));
    assert_eq!(open.batch(), BatchState::None);
    begin(&mut open, 9);
    let sample = Event::Ph(PhEvent::Sample { mass: beyond });
    assert!(!open.note(&BatchEntry { id: EntryId::random(1), at: at(2), event: sample }));
    assert_eq!(ids(&open), [EntryId::random(0)]);
}

#[test]
fn undo_does_not_reach_what_happened() {
    let mut open = opened();
    open.act(Action::Title("Pier lotion".into()), at(0));
    begin(&mut open, 9);
    open.note(&reading(1, 640));
    let noted = record(&open);
    assert!(open.undo(at(5)) && !open.can_undo());
    assert_eq!(record(&open), noted);
}

#[test]
fn earlier_batch_stays_and_can_be_gone_on_with() {
    let (journal, mut open) = (MemoryJournal::default(), opened());
    begin(&mut open, 9);
    open.note(&reading(1, 640));
    write(&mut open, &journal);
    begin(&mut open, 10);
    assert_eq!(ids(&open), [EntryId::random(0)]);
    assert_eq!(open.earlier_batches(), [(DocId::batch(9), at(1))]);
    write(&mut open, &journal);
    open.go_on_with(&DocId::batch(9), at(7));
    assert_eq!(open.batch(), BatchState::Closed(DocId::batch(9)));
    assert!(!open.note(&reading(2, 600)), "not into another batch's record");
    write(&mut open, &journal);
    assert_eq!(ids(&reopen(&journal, open.id())), [0, 1].map(EntryId::random));
}

/// A document as a release without records wrote it.
fn of_before(events: &str) -> String {
    format!(
        r#"{{"format":"hundred-parts","version":1,"formula":{{"title":"Quay milk","phases":[]}},"batch":{{"ph_log":{{"batch_g":"1236","target_ph":"5.2","events":[{events}]}}}}}}"#
    )
}

const TWO: &str = r#"{"event":"read","in":"batch","ph":"6.4","one_part_in":5,"taken_g":"2","at":"2026-11-25T14:02:00Z"},
    {"event":"strike","entry":0,"at":"2026-11-25T14:06:30Z"}"#;

fn imported(text: &str, journal: &MemoryJournal) -> OpenDocument {
    let incoming = read_export(text).unwrap();
    let mut batches = 70..;
    let mut batch_id = || DocId::batch(batches.next().unwrap_or_default());
    let commits = new_commits(DocId::random(5), &incoming.documents[0], &mut batch_id, at(0));
    ready(journal.commit_new(&commits)).unwrap();
    reopen(journal, &DocId::random(5))
}

#[test]
fn log_of_an_earlier_release_becomes_a_record_when_it_is_opened() {
    let journal = MemoryJournal::default();
    let mut open = imported(&of_before(TWO), &journal);
    let setting = record(&open).ph().unwrap();
    assert_eq!((setting.log.target, setting.log.events.len()), (Ph::from_units(520), 1));
    assert!(setting.log.is_struck(0));
    open.act(Action::Title("Quay cream".into()), at(9));
    let formula_and_record = |written: Vec<Commit>| {
        let ids = written.into_iter().map(|commit| commit.stored.meta.id).filter(|id| *id != DocId::shelf());
        ids.collect::<Vec<_>>() == [DocId::batch(5), DocId::random(5)]
    };
    assert!(formula_and_record(write(&mut open, &journal)));
    let mut again = reopen(&journal, &DocId::random(5));
    assert_eq!(record(&again), record(&open));
    assert!(again.note(&reading(1, 600)));
    assert!(formula_and_record(write(&mut again, &journal)));
    assert_eq!(record(&reopen(&journal, again.id())).ph().unwrap().log.events.len(), 2);
}

#[test]
fn record_made_of_a_log_and_stored_alone_is_gone_on_from() {
    let journal = MemoryJournal::default();
    let mut open = imported(&of_before(TWO), &journal);
    let id = DocId::batch(5);
    assert!(open.note(&reading(1, 600)));
    // The record is written, and the page ends before the formula that names it.
    let commit = open.stored(&id).unwrap().take_commit().unwrap();
    ready(save(&journal, &MemoryMirror::default(), &commit));
    let mut again = reopen(&journal, open.id());
    assert_eq!((again.closed_batches(), ids(&again).len()), (vec![id.clone()], 3), "as the log has it");
    let Opened::Whole(stored) = ready(open_document::<RecordDocument>(&journal, &MemoryMirror::default(), &id)) else {
        panic!()
    };
    let carried = again.with_records(core::slice::from_ref(&stored));
    assert!(matches!(&carried.batches[..], [BatchRef::Carried(body)] if body.len() == 4), "a file has all of it");
    again.adopt_record(stored);
    assert_eq!((ids(&again).len(), again.stored(&id).unwrap().take_commit().is_none()), (4, true));
    // A new batch leaves it as it was.
    begin(&mut again, 9);
    write(&mut again, &journal);
    again.go_on_with(&id, at(30));
    write(&mut again, &journal);
    assert_eq!(ids(&reopen(&journal, again.id())).len(), 4);
}

#[test]
fn log_of_an_earlier_release_survives_a_record_that_never_reached_a_store() {
    let journal = MemoryJournal::default();
    let mut open = imported(&of_before(TWO), &journal);
    assert!(open.note(&reading(1, 600)));
    // The formula is written and the record is lost.
    let commit = open.take_commit().unwrap();
    assert!(open.is_dirty());
    ready(save(&journal, &MemoryMirror::default(), &commit));
    let document = crate::desk::read::read_stored(&commit.stored.body).unwrap();
    assert_eq!(document.old_log, open.document().old_log, "what that release kept stays where it was");
}

#[test]
fn batches_travel_in_files_and_not_in_links() {
    let (journal, mut open) = (MemoryJournal::default(), opened());
    begin(&mut open, 9);
    for entry in [reading(1, 640), reading(2, 600)] {
        open.note(&entry);
    }
    let strike = Event::Struck { entry: EntryId::random(2), reason: "Misread".into() };
    open.note(&BatchEntry { id: EntryId::random(3), at: at(9), event: strike });
    let text = document_text(&open.with_records(&[]), open.shelf());
    assert_eq!(record(&imported(&text, &journal)), record(&open));
    let incoming = decode(&encode(open.state(), open.shelf(), true).unwrap()).unwrap();
    assert!(incoming.documents[0].batches.is_empty());
    let text = document_text(open.document(), open.shelf());
    assert!(!text.contains("batch."), "a file names no document of this browser");
}

#[test]
fn log_of_an_earlier_release_is_in_a_file_once() {
    let open = imported(&of_before(TWO), &MemoryJournal::default());
    let Incoming { documents, .. } = read_export(&document_text(&open.with_records(&[]), &Shelf::default())).unwrap();
    assert_eq!((documents[0].batches.len(), &documents[0].old_log), (1, &None));
}

#[test]
fn batch_from_outside_is_checked() {
    let log = |log: &str| {
        format!(r#"{{"format":"hundred-parts","version":1,"formula":{{"phases":[]}},"batch":{{"ph_log":{log}}}}}"#)
    };
    let record = |entries: &str| {
        format!(
            r#"{{"format":"hundred-parts","version":1,"formula":{{"phases":[]}},"records":[{{"entries":[{entries}]}}]}}"#
        )
    };
    for (text, path) in [
        (log(r#"{"batch_g":"1","target_ph":"99","events":[]}"#), "batch.ph_log.target_ph"),
        (
            log(r#"{"batch_g":"1","target_ph":"5","events":[{"at":"now","event":"sample","mass_g":"1"}]}"#),
            "batch.ph_log.events[0].at",
        ),
        (
            log(
                r#"{"batch_g":"1","target_ph":"5","events":[{"at":"2026-11-25T14:02:00Z","event":"strike","entry":0}]}"#,
            ),
            "batch.ph_log.events[0].entry",
        ),
        (
            log(
                r#"{"batch_g":"1","target_ph":"5","events":[{"at":"2026-11-25T14:02:00Z","event":"read","in":"batch","ph":"5","one_part_in":0,"taken_g":"2"}]}"#,
            ),
            "batch.ph_log.events[0].one_part_in",
        ),
        (record(r#"{"id":"a","at":"2026-11-25T14:02:00Z","event":"sample"}"#), "records[0].entries[0].mass_g"),
        (record(r#"{"id":"a","at":"2026-11-25","event":"sample","mass_g":"1"}"#), "records[0].entries[0].at"),
        (record(r#"{"id":"A","at":"2026-11-25T14:02:00Z","event":"sample","mass_g":"1"}"#), "records[0].entries[0].id"),
        (record(r#"{"id":"a","at":"2026-11-25T14:02:00Z","event":"melted"}"#), "records[0].entries[0].event"),
        (
            record(r#"{"id":"a","at":"2026-11-25T14:02:00Z","event":"struck","entry":"b"}"#),
            "records[0].entries[0].entry",
        ),
        (record(r#"{"id":"a"}"#), "records[0].entries[0].at"),
        (record(r#"{"at":"2026-11-25T14:02:00Z"}"#), "records[0].entries[0].id"),
        (
            record(
                r#"{"id":"a","at":"2026-11-25T14:02:00Z","event":"sample","mass_g":"1"},{"id":"a","at":"2026-11-25T14:03:00Z","event":"sample","mass_g":"1"}"#,
            ),
            "records[0].entries[1].id",
        ),
    ] {
        assert_eq!(read_export(&text).unwrap_err().path, path, "{text}");
    }
}

#[test]
fn two_tabs_that_note_something_lose_nothing() {
    let (journal, mut here) = (MemoryJournal::default(), opened());
    begin(&mut here, 9);
    write(&mut here, &journal);
    let mut there = reopen(&journal, here.id());
    there.note(&reading(1, 640));
    write(&mut there, &journal);
    // Unaware of it, this tab notes something too; the journal refuses it, and it goes on from what that has.
    here.note(&reading(2, 600));
    let id = DocId::batch(9);
    let commit = here.stored(&id).unwrap().take_commit().unwrap();
    assert_eq!(ready(journal.commit(&commit)), Ok(crate::desk::CommitOutcome::Conflict));
    let theirs = ready(journal.read(&id)).unwrap().unwrap();
    let fresh = Fresh { id: DocId::random(4), title: String::new(), now: at(20) };
    let news = here.stored(&id).unwrap().overtaken(&theirs, Vec::new(), fresh);
    assert_eq!(news, News::RecordJoined);
    write(&mut here, &journal);
    assert_eq!(ids(&reopen(&journal, here.id())), [0, 1, 2].map(EntryId::random));
    // The other tab is told, and has noted something again meanwhile.
    there.note(&reading(3, 590));
    let Opened::Whole(stored) = ready(open_document::<RecordDocument>(&journal, &MemoryMirror::default(), &id)) else {
        panic!()
    };
    there.adopt_record(stored);
    assert_eq!(ids(&there), [0, 1, 2, 3].map(EntryId::random));
    write(&mut there, &journal);
    assert_eq!(ids(&reopen(&journal, here.id())).len(), 4);
}

#[test]
fn record_that_cannot_be_read_or_is_newer_is_not_written_over() {
    let (journal, mut open) = (MemoryJournal::default(), opened());
    begin(&mut open, 9);
    write(&mut open, &journal);
    open.note(&reading(1, 640));
    let stored = ready(journal.read(&DocId::batch(9))).unwrap().unwrap();
    let half = StoredDocument { body: stored.body.chars().take(20).collect(), ..stored.clone() };
    let newer = StoredDocument { body: stored.body.replace("\"additions\":4", "\"additions\":99"), ..stored }.sealed();
    for (theirs, expected) in [(&half, News::Unreadable(half.clone())), (&newer, News::Newer(newer.clone()))] {
        let mut here = open.clone();
        let fresh = Fresh { id: DocId::random(4), title: String::new(), now: at(20) };
        assert_eq!(here.stored(&DocId::batch(9)).unwrap().overtaken(theirs, Vec::new(), fresh), expected);
        assert!(here.stored(&DocId::batch(9)).unwrap().take_commit().is_none() && here.is_dirty());
    }
}
