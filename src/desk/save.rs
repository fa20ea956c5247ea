//! Keeping a document: journal first, then the local mirror; and finding the newest whole copy of one.

use super::{
    BatchRef, Commit, CommitOutcome, DocId, Document, DocumentKind, DocumentMeta, Journal, LocalMirror, OpenDocument,
    Persist, RecordDocument, ShelfDocument, StepsChange, StoreError, StoredDocument,
};
use crate::quantity::Timestamp;

/// What came of keeping a document.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SaveOutcome {
    /// In the journal; only now may the page say 'Saved'.
    Saved,
    /// Another tab wrote this document first. Nothing was overwritten.
    Conflict,
    /// The journal failed, but the local mirror has it.
    OnlyMirror(StoreError),
    /// Neither has it.
    Lost(StoreError),
}

/// Writes to the journal and then to the local mirror. A full local mirror is no failure: the journal has it.
pub async fn save(journal: &impl Journal, mirror: &impl LocalMirror, commit: &Commit) -> SaveOutcome {
    match journal.commit(commit).await {
        Ok(CommitOutcome::Written) => {
            // An older copy in the local mirror would be out of date, but never wins: the journal's revision is higher.
            let _ = mirror.write(&commit.stored);
            SaveOutcome::Saved
        }
        Ok(CommitOutcome::Conflict) => SaveOutcome::Conflict,
        Err(error) => match mirror.write(&commit.stored) {
            Ok(()) => SaveOutcome::OnlyMirror(error),
            Err(_) => SaveOutcome::Lost(error),
        },
    }
}

/// What has to be written of a document that is new here, whatever is open: the records that it carries, and then itself,
/// which names them.
pub fn new_commits(id: DocId, document: &Document, batch_id: &mut dyn FnMut() -> DocId, now: Timestamp) -> Vec<Commit> {
    let mut document = document.clone();
    let mut commits = Vec::new();
    for batch in &mut document.batches {
        if let BatchRef::Carried(record) = batch {
            let (id, title) = (batch_id(), document.state.formula.about.title.clone());
            let begun = Timestamp::read(record.begun()).unwrap_or(now);
            // In a list of batches it stands where it stood before, by what was noted of it last.
            let last = Timestamp::read(record.last()).unwrap_or(now);
            commits.extend(RecordDocument::new(id.clone(), title, (**record).clone(), last).take_commit());
            *batch = BatchRef::Stored { id, begun };
        }
    }
    commits.extend(OpenDocument::new(id, document, ShelfDocument::default(), now).take_commit());
    commits
}

/// The newest whole copy of a document, and whether it is the journal's.
pub async fn newest(journal: &impl Journal, mirror: &impl LocalMirror, id: &DocId) -> Option<(StoredDocument, bool)> {
    let kept = journal.read(id).await.ok().flatten().filter(StoredDocument::is_whole);
    let copy = mirror.read(id).filter(StoredDocument::is_whole);
    match (kept, copy) {
        (Some(kept), Some(copy)) if copy.is_ahead_of(&kept) => Some((copy, false)),
        (Some(kept), _) => Some((kept, true)),
        (None, copy) => copy.map(|copy| (copy, false)),
    }
}

/// Puts into the journal what only the local mirror has: after the browser has lost the one and kept the other. True if there was
/// anything.
pub async fn take_strays(journal: &impl Journal, mirror: &impl LocalMirror, metas: &[DocumentMeta]) -> bool {
    let mut any = false;
    let stray = |id: &DocId| {
        let wanted = matches!(id.kind(), DocumentKind::Formula | DocumentKind::Batch | DocumentKind::Study);
        wanted && metas.iter().all(|meta| meta.id != *id)
    };
    for id in mirror.ids().into_iter().filter(stray) {
        let Some(stored) = mirror.read(&id).filter(|stored| stored.is_whole() && stored.meta.id == id) else {
            continue;
        };
        let commit = Commit { expected: None, stored, steps: StepsChange::default() };
        any |= journal.commit(&commit).await == Ok(CommitOutcome::Written);
    }
    any
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::store::now;
    use crate::desk::{MemoryJournal, MemoryMirror};

    #[test]
    fn copies_that_only_the_mirror_has_come_back() {
        let (journal, mirror) = (MemoryJournal::default(), MemoryMirror::default());
        for n in 1..=3 {
            let mut one = commit(None, 4, "a");
            one.stored.meta.id = DocId::random(n);
            mirror.write(&one.stored.sealed()).unwrap();
        }
        let mut damaged = mirror.read(&DocId::random(3)).unwrap();
        damaged.body.push('x');
        mirror.write(&damaged).unwrap();
        now(journal.commit(&Commit {
            expected: None,
            stored: mirror.read(&DocId::random(1)).unwrap(),
            steps: StepsChange::default(),
        }))
        .unwrap();
        let metas = now(journal.metas()).unwrap();
        assert!(now(take_strays(&journal, &mirror, &metas)));
        let ids: Vec<DocId> = now(journal.metas()).unwrap().into_iter().map(|meta| meta.id).collect();
        assert_eq!(ids, [DocId::random(1), DocId::random(2)], "a damaged one is not taken for whole");
        assert!(!now(take_strays(&journal, &mirror, &now(journal.metas()).unwrap())));
        let mut newer = commit(None, 4, "a");
        newer.stored.meta.id = DocId::from("supplier.1".to_owned());
        mirror.write(&newer.stored.sealed()).unwrap();
        assert!(!now(take_strays(&journal, &mirror, &now(journal.metas()).unwrap())), "of a newer release");
    }

    fn commit(expected: Option<u64>, revision: u64, body: &str) -> Commit {
        let meta = DocumentMeta {
            id: DocId::random(7),
            revision,
            title: "Lotion".into(),
            changed: 0,
            binned: None,
            step: 0,
            crc: 0,
        };
        Commit { expected, stored: StoredDocument::new(meta, body.into()).sealed(), steps: StepsChange::default() }
    }

    #[test]
    fn keep_second_writer_from_the_same_revision_is_refused() {
        let (journal, mirror) = (MemoryJournal::default(), MemoryMirror::default());
        assert_eq!(now(save(&journal, &mirror, &commit(None, 1, "a"))), SaveOutcome::Saved);
        assert_eq!(now(save(&journal, &mirror, &commit(Some(1), 2, "b"))), SaveOutcome::Saved);
        assert_eq!(now(save(&journal, &mirror, &commit(Some(1), 2, "c"))), SaveOutcome::Conflict);
        assert_eq!(now(journal.read(&DocId::random(7))).unwrap().unwrap().body, "b");
    }

    #[test]
    fn save_with_a_full_mirror_is_still_saved() {
        let (journal, mirror) = (MemoryJournal::default(), MemoryMirror::default());
        mirror.full.set(true);
        assert_eq!(now(save(&journal, &mirror, &commit(None, 1, "a"))), SaveOutcome::Saved);
    }

    #[test]
    fn newest_whole_copy_wins() {
        let (journal, mirror) = (MemoryJournal::default(), MemoryMirror::default());
        let id = DocId::random(7);
        now(save(&journal, &mirror, &commit(None, 1, "journal")));
        mirror.write(&commit(None, 5, "mirror").stored).unwrap();
        assert_eq!(
            now(newest(&journal, &mirror, &id)).map(|(stored, ours)| (stored.body, ours)),
            Some(("mirror".into(), false))
        );
        let mut damaged = commit(None, 6, "mirror").stored;
        damaged.body.push('x');
        mirror.write(&damaged).unwrap();
        assert_eq!(
            now(newest(&journal, &mirror, &id)).map(|(stored, ours)| (stored.body, ours)),
            Some(("journal".into(), true))
        );
    }
}
