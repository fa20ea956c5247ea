//! Opening a stored document, whatever has become of it: the newest whole copy, else what can be saved of it.

use super::{DocId, Journal, LocalMirror, Reopen, Steps, StoredDocument};
use crate::quantity::Timestamp;

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
    Rescued(T, StoredDocument),
    /// A newer version of the program wrote it. It must stay as it is.
    Newer(StoredDocument),
    /// No copy of it and no step of its history can be read.
    Lost(StoredDocument),
}

/// All that is stored of one document, newest copy first.
struct Copies {
    id: DocId,
    copies: Vec<(StoredDocument, Store)>,
    steps: Steps,
    /// What the journal has; an error where it did not answer, which says nothing of what it has.
    journal: Result<Option<StoredDocument>, ()>,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Store {
    Journal,
    LocalMirror,
}

/// Looks for every copy of a document.
async fn copies_of(journal: &impl Journal, mirror: &impl LocalMirror, id: &DocId) -> Copies {
    let kept = journal.read(id).await.map_err(|_| ());
    let steps = journal.steps(id).await.unwrap_or_default();
    let copy = mirror.read(id);
    let ahead = match (&kept, &copy) {
        (Ok(Some(kept)), Some(copy)) => copy.is_ahead_of(kept),
        _ => true,
    };
    let mut copies: Vec<_> = kept.iter().flatten().map(|stored| (stored.clone(), Store::Journal)).collect();
    copies.extend(copy.map(|stored| (stored, Store::LocalMirror)));
    if ahead {
        copies.reverse();
    }
    Copies { id: id.clone(), copies, steps, journal: kept }
}

/// Opens a document from journal and local mirror.
pub async fn open_document<T: Reopen>(journal: &impl Journal, mirror: &impl LocalMirror, id: &DocId) -> Opened<T> {
    copies_of(journal, mirror, id).await.open()
}

impl Copies {
    /// The newest copy that can be read. If it is not the journal's, it is set to be written over that.
    fn open<T: Reopen>(self) -> Opened<T> {
        let Self { id, copies, steps, journal } = self;
        let kept = journal.as_ref().ok().and_then(Option::as_ref);
        // Even if it looks damaged: a newer version may seal in another way.
        if let Some(newer) = kept.filter(|stored| stored.is_newer()) {
            return Opened::Newer(newer.clone());
        }
        // A damaged meta may have lost its revision: it is told even where the local mirror seems to be ahead and is whole.
        let mut bad = kept.filter(|stored| !stored.is_whole()).cloned();
        for (stored, store) in copies {
            if !stored.is_whole() {
                bad.get_or_insert(stored);
                continue;
            }
            if stored.meta.binned.is_some() {
                return Opened::Binned;
            }
            if store == Store::LocalMirror && stored.is_newer() {
                return Opened::Newer(stored);
            }
            let Some(mut document) = T::open(&stored, steps.clone()) else {
                bad.get_or_insert(stored);
                continue;
            };
            if store == Store::LocalMirror && journal.is_ok() {
                document.rebase(kept);
            }
            return match bad {
                Some(bad) => Opened::Rescued(document, bad),
                None => Opened::Whole(document),
            };
        }
        let Some(bad) = bad else { return Opened::Missing };
        let changed = Timestamp::from_millis(bad.meta.changed);
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
    use crate::desk::format::ADDITIONS;
    use crate::desk::store::now;
    use crate::desk::{
        Action, Commit, DocumentMeta, MemoryJournal, MemoryMirror, OpenDocument, Persist, ShelfDocument, StepsChange,
        demo, save,
    };
    use crate::quantity::Timestamp;

    fn id() -> DocId {
        DocId::random(1)
    }

    /// A document with a history of two steps, in both stores.
    fn stored() -> (MemoryJournal, MemoryMirror, Commit) {
        let (journal, mirror) = (MemoryJournal::default(), MemoryMirror::default());
        let mut open = OpenDocument::new(id(), demo(), ShelfDocument::default(), Timestamp::from_millis(1));
        open.act(Action::Title("Pier lotion".into()), Timestamp::from_millis(2));
        let commit = open.take_commit().unwrap();
        now(save(&journal, &mirror, &commit));
        (journal, mirror, commit)
    }

    fn title(open: &OpenDocument) -> &str {
        &open.state().formula.about.title
    }

    /// Puts a stored document into the journal as it is, checksum and all.
    fn put(journal: &MemoryJournal, stored: StoredDocument) {
        let expected = now(journal.read(&id())).unwrap().map(|stored| stored.meta.revision);
        now(journal.commit(&Commit {
            expected,
            stored,
            steps: StepsChange { first: 0, last: u64::MAX, put: Vec::new() },
        }))
        .unwrap();
    }

    #[test]
    fn every_flipped_byte_of_a_stored_body_is_noticed_and_the_document_still_opens() {
        let (journal, mirror, commit) = stored();
        for n in 0..commit.stored.body.len() {
            let mut bytes = commit.stored.body.clone().into_bytes();
            bytes[n] ^= 1;
            let Ok(body) = String::from_utf8(bytes) else { continue };
            put(&journal, StoredDocument { body: body.clone(), ..commit.stored.clone() });
            match now(open_document::<OpenDocument>(&journal, &mirror, &id())) {
                Opened::Rescued(open, bad) => {
                    assert_eq!(title(&open), "Pier lotion");
                    assert_eq!(bad.body, body, "the damaged bytes are handed back");
                }
                other => panic!("byte {n}: {other:?}"),
            }
        }
    }

    #[test]
    fn without_a_mirror_the_newest_readable_step_opens() {
        let (journal, _, commit) = stored();
        put(&journal, StoredDocument { body: "{".into(), ..commit.stored });
        match now(open_document::<OpenDocument>(&journal, &MemoryMirror::default(), &id())) {
            Opened::Rescued(open, _) => assert_eq!(title(&open), "Pier lotion"),
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn with_nothing_readable_the_bytes_are_handed_back() {
        let (journal, mirror) = (MemoryJournal::default(), MemoryMirror::default());
        let meta = DocumentMeta { id: id(), revision: 3, title: "T".into(), changed: 0, binned: None, step: 0, crc: 7 };
        put(&journal, StoredDocument::new(meta, "half a docum".into()));
        assert!(matches!(
            now(open_document::<OpenDocument>(&journal, &mirror, &id())),
            Opened::Lost(bad) if bad.body == "half a docum"
        ));
    }

    #[test]
    fn document_of_a_newer_version_is_left_alone() {
        let (journal, mirror, commit) = stored();
        let body = commit.stored.body.replace("\"version\":1", "\"version\":2");
        let unsealed = commit.stored.body.replace("\"version\":1", "\"version\":2");
        let revision = commit.stored.meta.revision;
        put(&journal, StoredDocument { body: unsealed, ..commit.stored.clone() });
        assert_eq!(
            now(journal.read(&id())).unwrap().map(|stored| (stored.meta.revision, stored.is_whole())),
            Some((revision, false))
        );
        assert!(matches!(now(open_document::<OpenDocument>(&journal, &mirror, &id())), Opened::Newer(_)));
        let added =
            commit.stored.body.replace("\"version\":1", &format!("\"additions\":{},\"version\":1", ADDITIONS + 1));
        for (revision, body) in [(9, body), (10, added)] {
            assert_ne!(body, commit.stored.body);
            put(&journal, StoredDocument::new(DocumentMeta { revision, ..commit.stored.meta.clone() }, body).sealed());
            assert!(matches!(now(open_document::<OpenDocument>(&journal, &mirror, &id())), Opened::Newer(_)));
        }
    }

    #[test]
    fn mirror_that_is_ahead_is_written_over_the_journal() {
        let (journal, mirror, mut commit) = stored();
        commit.stored.meta.revision += 5;
        mirror.write(&commit.stored.clone().sealed()).unwrap();
        match now(open_document::<OpenDocument>(&journal, &mirror, &id())) {
            Opened::Whole(mut open) => assert_eq!(open.take_commit().unwrap().expected, Some(1)),
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn damaged_meta_is_told_though_the_mirror_is_whole() {
        let (journal, mirror, commit) = stored();
        put(&journal, StoredDocument { meta: DocumentMeta::stored(&id(), "{"), ..commit.stored });
        assert!(matches!(
            now(open_document::<OpenDocument>(&journal, &mirror, &id())),
            Opened::Rescued(open, bad) if title(&open) == "Pier lotion" && bad.meta.revision == 0
        ));
    }

    #[test]
    fn half_a_document_in_the_mirror_does_not_hide_the_journal() {
        let (journal, mirror, commit) = stored();
        let body = commit.stored.body[..commit.stored.body.len() / 2].to_owned();
        mirror.write(&StoredDocument::new(DocumentMeta { revision: 9, ..commit.stored.meta }, body)).unwrap();
        assert!(matches!(
            now(open_document::<OpenDocument>(&journal, &mirror, &id())),
            Opened::Rescued(open, _) if title(&open) == "Pier lotion"
        ));
    }
}
