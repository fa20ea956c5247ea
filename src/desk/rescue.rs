//! Opening a stored document, whatever has become of it: the newest whole copy, else what can be saved of it.

use super::{Bench, Cupboard, DocId, Document, Echo, Journal, Slot, State, history};

/// What was found of a document.
#[derive(Debug)]
pub enum Opened {
    /// There is none of this id.
    Missing,
    /// It is in the bin.
    Binned,
    /// It is whole.
    Whole(Box<Bench>),
    /// A copy of it was damaged; this is the newest state that could be read. The damaged bytes are `bad`.
    Rescued {
        /// What could be read.
        bench: Box<Bench>,
        /// What could not.
        bad: Slot,
    },
    /// A newer version of the program wrote it. It must stay as it is.
    Newer(Slot),
    /// No copy of it and no step of its history can be read.
    Lost(Slot),
}

/// Opens a document from journal and echo.
///
/// The newest whole copy wins. If the journal's copy is not the one that was opened, the bench is set to be written over
/// it: what it has been is handed back, so that nothing disappears unseen.
pub async fn open_document(journal: &impl Journal, echo: &impl Echo, id: &DocId, cupboard: Cupboard) -> Opened {
    let kept = journal.read(id).await.ok().flatten();
    let steps = journal.steps(id).await.unwrap_or_default();
    let rev = kept.as_ref().map(|slot| slot.head.rev);
    let mut copies: Vec<(Slot, bool)> =
        kept.map(|slot| (slot, true)).into_iter().chain(echo.read(id).map(|slot| (slot, false))).collect();
    if let [journals, echos] = copies.as_mut_slice()
        && echos.0.head.rev > journals.0.head.rev
    {
        copies.swap(0, 1);
    }
    // A damaged head may have lost its revision: it is told even where the echo seems to be ahead and is whole.
    let mut bad = copies.iter().find(|(slot, journals)| *journals && !slot.is_whole()).map(|(slot, _)| slot.clone());
    for (slot, journals) in copies {
        if !slot.is_whole() {
            bad.get_or_insert(slot);
            continue;
        }
        if slot.head.binned.is_some() {
            return Opened::Binned;
        }
        if slot.is_newer() {
            return Opened::Newer(slot);
        }
        let Some(mut bench) = Bench::open(&slot, steps.clone(), cupboard.clone()) else {
            bad.get_or_insert(slot);
            continue;
        };
        if !journals {
            bench.rebase(rev);
        }
        let bench = Box::new(bench);
        return match bad {
            Some(bad) => Opened::Rescued { bench, bad },
            None => Opened::Whole(bench),
        };
    }
    let Some(bad) = bad else { return Opened::Missing };
    let step = steps.iter().rev().find_map(|(_, text)| history::read_step::<State>(text));
    match step {
        Some(state) => {
            let document = Document { state, versions: Vec::new() };
            let mut bench = Bench::new(id.clone(), document, cupboard, super::Moment::from_millis(bad.head.changed));
            bench.rebase(rev);
            Opened::Rescued { bench: Box::new(bench), bad }
        }
        None => Opened::Lost(bad),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::store::now;
    use crate::desk::{Action, Commit, Head, MemoryEcho, MemoryJournal, Moment, StepsChange, demo, keep};

    fn id() -> DocId {
        DocId::random(1)
    }

    /// A document with a history of two steps, in both stores.
    fn stored() -> (MemoryJournal, MemoryEcho, Commit) {
        let (journal, echo) = (MemoryJournal::default(), MemoryEcho::default());
        let mut bench = Bench::new(id(), demo(), Cupboard::default(), Moment::from_millis(1));
        bench.act(Action::Title("Pier lotion".into()), Moment::from_millis(2));
        let commit = bench.take_commit().unwrap();
        now(keep(&journal, &echo, &commit));
        (journal, echo, commit)
    }

    fn title(bench: &Bench) -> &str {
        &bench.state().formula.about.title
    }

    /// Puts a slot into the journal as it is, checksum and all.
    fn put(journal: &MemoryJournal, slot: Slot) {
        let expected = now(journal.read(&id())).unwrap().map(|slot| slot.head.rev);
        now(journal.commit(&Commit {
            expected,
            slot,
            steps: StepsChange { first: 0, last: u64::MAX, put: Vec::new() },
        }))
        .unwrap();
    }

    #[test]
    fn every_flipped_byte_of_a_stored_body_is_noticed_and_the_document_still_opens() {
        let (journal, echo, commit) = stored();
        for n in 0..commit.slot.body.len() {
            let mut bytes = commit.slot.body.clone().into_bytes();
            bytes[n] ^= 1;
            let Ok(body) = String::from_utf8(bytes) else { continue };
            put(&journal, Slot { body: body.clone(), ..commit.slot.clone() });
            match now(open_document(&journal, &echo, &id(), Cupboard::default())) {
                Opened::Rescued { bench, bad } => {
                    assert_eq!(title(&bench), "Pier lotion");
                    assert_eq!(bad.body, body, "the damaged bytes are handed back");
                }
                other => panic!("byte {n}: {other:?}"),
            }
        }
    }

    #[test]
    fn without_an_echo_the_newest_readable_step_opens() {
        let (journal, _, commit) = stored();
        put(&journal, Slot { body: "{".into(), ..commit.slot });
        match now(open_document(&journal, &MemoryEcho::default(), &id(), Cupboard::default())) {
            Opened::Rescued { bench, .. } => assert_eq!(title(&bench), "Pier lotion"),
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn with_nothing_readable_the_bytes_are_handed_back() {
        let (journal, echo) = (MemoryJournal::default(), MemoryEcho::default());
        let head = Head { id: id(), rev: 3, title: "T".into(), changed: 0, binned: None, step: 0, crc: 7 };
        put(&journal, Slot { head, body: "half a docum".into() });
        assert!(matches!(
            now(open_document(&journal, &echo, &id(), Cupboard::default())),
            Opened::Lost(bad) if bad.body == "half a docum"
        ));
    }

    #[test]
    fn document_of_a_newer_version_is_left_alone() {
        let (journal, echo, commit) = stored();
        let body = commit.slot.body.replace("\"version\":1", "\"version\":2");
        let added = commit.slot.body.replace("\"version\":1", "\"additions\":7,\"version\":1");
        for (rev, body) in [(9, body), (10, added)] {
            assert_ne!(body, commit.slot.body);
            put(&journal, Slot { body, head: Head { rev, ..commit.slot.head.clone() } }.sealed());
            assert!(matches!(now(open_document(&journal, &echo, &id(), Cupboard::default())), Opened::Newer(_)));
        }
    }

    #[test]
    fn echo_that_is_ahead_is_written_over_the_journal() {
        let (journal, echo, mut commit) = stored();
        commit.slot.head.rev += 5;
        echo.write(&commit.slot.clone().sealed()).unwrap();
        match now(open_document(&journal, &echo, &id(), Cupboard::default())) {
            Opened::Whole(mut bench) => assert_eq!(bench.take_commit().unwrap().expected, Some(1)),
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn damaged_head_is_told_though_the_echo_is_whole() {
        let (journal, echo, commit) = stored();
        put(&journal, Slot { head: Head::stored(&id(), "{"), ..commit.slot });
        assert!(matches!(
            now(open_document(&journal, &echo, &id(), Cupboard::default())),
            Opened::Rescued { bench, bad } if title(&bench) == "Pier lotion" && bad.head.rev == 0
        ));
    }

    #[test]
    fn half_a_slot_in_the_echo_does_not_hide_the_journal() {
        let (journal, echo, commit) = stored();
        let body = commit.slot.body[..commit.slot.body.len() / 2].to_owned();
        echo.write(&Slot { body, head: Head { rev: 9, ..commit.slot.head } }).unwrap();
        assert!(matches!(
            now(open_document(&journal, &echo, &id(), Cupboard::default())),
            Opened::Rescued { bench, .. } if title(&bench) == "Pier lotion"
        ));
    }
}
