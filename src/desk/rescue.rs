//! Opening a stored document, whatever has become of it: the newest whole copy, else what can be saved of it.

use super::{DocId, Echo, Journal, Moment, Reopened, Slot, Steps};

/// What was found of a document.
#[derive(Debug)]
pub enum Opened<T> {
    /// There is none of this id.
    Missing,
    /// It is in the bin.
    Binned,
    /// It is whole.
    Whole(T),
    /// A copy of it was damaged. What could be read is the newest state that is left; it is to be written over the damaged
    /// copy, which is handed back first.
    Rescued(T, Slot),
    /// A newer version of the program wrote it. It must stay as it is.
    Newer(Slot),
    /// No copy of it and no step of its history can be read.
    Lost(Slot),
}

/// All that is stored of one document, newest copy first.
struct Copies {
    id: DocId,
    copies: Vec<(Slot, Store)>,
    steps: Steps,
    /// What the journal has; an error where it did not answer, which says nothing of what it has.
    journal: Result<Option<Slot>, ()>,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Store {
    Journal,
    Echo,
}

/// Looks for every copy of a document.
async fn copies_of(journal: &impl Journal, echo: &impl Echo, id: &DocId) -> Copies {
    let kept = journal.read(id).await.map_err(|_| ());
    let steps = journal.steps(id).await.unwrap_or_default();
    let copy = echo.read(id);
    let ahead = match (&kept, &copy) {
        (Ok(Some(kept)), Some(copy)) => copy.is_ahead_of(kept),
        _ => true,
    };
    let mut copies: Vec<_> = kept.iter().flatten().map(|slot| (slot.clone(), Store::Journal)).collect();
    copies.extend(copy.map(|slot| (slot, Store::Echo)));
    if ahead {
        copies.reverse();
    }
    Copies { id: id.clone(), copies, steps, journal: kept }
}

/// Opens a document from journal and echo.
pub async fn open_document<T: Reopened>(journal: &impl Journal, echo: &impl Echo, id: &DocId) -> Opened<T> {
    copies_of(journal, echo, id).await.open()
}

impl Copies {
    /// The newest copy that can be read. If it is not the journal's, it is set to be written over that.
    fn open<T: Reopened>(self) -> Opened<T> {
        let Self { id, copies, steps, journal } = self;
        let kept = journal.as_ref().ok().and_then(Option::as_ref);
        // Even if it looks damaged: a newer version may seal in another way.
        if let Some(newer) = kept.filter(|slot| slot.is_newer()) {
            return Opened::Newer(newer.clone());
        }
        // A damaged head may have lost its revision: it is told even where the echo seems to be ahead and is whole.
        let mut bad = kept.filter(|slot| !slot.is_whole()).cloned();
        for (slot, store) in copies {
            if !slot.is_whole() {
                bad.get_or_insert(slot);
                continue;
            }
            if slot.head.binned.is_some() {
                return Opened::Binned;
            }
            if store == Store::Echo && slot.is_newer() {
                return Opened::Newer(slot);
            }
            let Some(mut document) = T::open(&slot, steps.clone()) else {
                bad.get_or_insert(slot);
                continue;
            };
            if store == Store::Echo && journal.is_ok() {
                document.rebase(kept);
            }
            return match bad {
                Some(bad) => Opened::Rescued(document, bad),
                None => Opened::Whole(document),
            };
        }
        let Some(bad) = bad else { return Opened::Missing };
        let changed = Moment::from_millis(bad.head.changed);
        let rescued = steps.iter().rev().find_map(|(_, step)| T::from_step(&id, step, changed));
        match rescued {
            Some(mut document) => {
                document.rebase(kept);
                Opened::Rescued(document, bad)
            }
            None => Opened::Lost(bad),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::store::now;
    use crate::desk::{
        Action, Bench, Commit, Cupboard, Head, MemoryEcho, MemoryJournal, Moment, StepsChange, Stored, demo, keep,
    };

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
            match now(open_document::<Bench>(&journal, &echo, &id())) {
                Opened::Rescued(bench, bad) => {
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
        match now(open_document::<Bench>(&journal, &MemoryEcho::default(), &id())) {
            Opened::Rescued(bench, _) => assert_eq!(title(&bench), "Pier lotion"),
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn with_nothing_readable_the_bytes_are_handed_back() {
        let (journal, echo) = (MemoryJournal::default(), MemoryEcho::default());
        let head = Head { id: id(), rev: 3, title: "T".into(), changed: 0, binned: None, step: 0, crc: 7 };
        put(&journal, Slot::new(head, "half a docum".into()));
        assert!(matches!(
            now(open_document::<Bench>(&journal, &echo, &id())),
            Opened::Lost(bad) if bad.body == "half a docum"
        ));
    }

    #[test]
    fn document_of_a_newer_version_is_left_alone() {
        let (journal, echo, commit) = stored();
        let body = commit.slot.body.replace("\"version\":1", "\"version\":2");
        let unsealed = commit.slot.body.replace("\"version\":1", "\"version\":2");
        let rev = commit.slot.head.rev;
        put(&journal, Slot { body: unsealed, ..commit.slot.clone() });
        assert_eq!(now(journal.read(&id())).unwrap().map(|slot| (slot.head.rev, slot.is_whole())), Some((rev, false)));
        assert!(matches!(now(open_document::<Bench>(&journal, &echo, &id())), Opened::Newer(_)));
        let added = commit.slot.body.replace("\"version\":1", "\"additions\":7,\"version\":1");
        for (rev, body) in [(9, body), (10, added)] {
            assert_ne!(body, commit.slot.body);
            put(&journal, Slot::new(Head { rev, ..commit.slot.head.clone() }, body).sealed());
            assert!(matches!(now(open_document::<Bench>(&journal, &echo, &id())), Opened::Newer(_)));
        }
    }

    #[test]
    fn echo_that_is_ahead_is_written_over_the_journal() {
        let (journal, echo, mut commit) = stored();
        commit.slot.head.rev += 5;
        echo.write(&commit.slot.clone().sealed()).unwrap();
        match now(open_document::<Bench>(&journal, &echo, &id())) {
            Opened::Whole(mut bench) => assert_eq!(bench.take_commit().unwrap().expected, Some(1)),
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn damaged_head_is_told_though_the_echo_is_whole() {
        let (journal, echo, commit) = stored();
        put(&journal, Slot { head: Head::stored(&id(), "{"), ..commit.slot });
        assert!(matches!(
            now(open_document::<Bench>(&journal, &echo, &id())),
            Opened::Rescued(bench, bad) if title(&bench) == "Pier lotion" && bad.head.rev == 0
        ));
    }

    #[test]
    fn half_a_slot_in_the_echo_does_not_hide_the_journal() {
        let (journal, echo, commit) = stored();
        let body = commit.slot.body[..commit.slot.body.len() / 2].to_owned();
        echo.write(&Slot::new(Head { rev: 9, ..commit.slot.head }, body)).unwrap();
        assert!(matches!(
            now(open_document::<Bench>(&journal, &echo, &id())),
            Opened::Rescued(bench, _) if title(&bench) == "Pier lotion"
        ));
    }
}
