//! Keeping a document: journal first, then the echo; and finding the newest whole copy of one.

use super::{
    Bench, Commit, Cupboard, DocId, Document, Echo, Head, Journal, Moment, Slot, StepsChange, StoreError, Stored,
    Verdict,
};

/// What came of keeping a document.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Kept {
    /// In the journal; only now may the page say 'Saved'.
    Saved,
    /// Another tab wrote this document first. Nothing was overwritten.
    Conflict,
    /// The journal failed, but the echo has it.
    OnlyEcho(StoreError),
    /// Neither has it.
    Lost(StoreError),
}

/// Writes to the journal and then to the echo. A full echo is no failure: the journal has it.
pub async fn keep(journal: &impl Journal, echo: &impl Echo, commit: &Commit) -> Kept {
    match journal.commit(commit).await {
        Ok(Verdict::Written) => {
            // An older copy in the echo would be out of date, but never wins: the journal's revision is higher.
            let _ = echo.write(&commit.slot);
            Kept::Saved
        }
        Ok(Verdict::Conflict) => Kept::Conflict,
        Err(error) => match echo.write(&commit.slot) {
            Ok(()) => Kept::OnlyEcho(error),
            Err(_) => Kept::Lost(error),
        },
    }
}

/// What has to be written of a document that is new here, whatever is open.
pub fn new_commit(id: DocId, document: &Document, now: Moment) -> Commit {
    let mut bench = Bench::new(id, document.clone(), Cupboard::default(), now);
    let (written, steps) = (bench.write(), bench.take_steps());
    bench.tracking_mut().commit(written, steps)
}

/// The newest whole copy of a document, and whether it is the journal's.
pub async fn newest(journal: &impl Journal, echo: &impl Echo, id: &DocId) -> Option<(Slot, bool)> {
    let kept = journal.read(id).await.ok().flatten().filter(Slot::is_whole);
    let copy = echo.read(id).filter(Slot::is_whole);
    match (kept, copy) {
        (Some(kept), Some(copy)) if copy.is_ahead_of(&kept) => Some((copy, false)),
        (Some(kept), _) => Some((kept, true)),
        (None, copy) => copy.map(|copy| (copy, false)),
    }
}

/// Puts into the journal what only the echo has: after the browser has lost the one and kept the other. True if there was
/// anything.
pub async fn take_strays(journal: &impl Journal, echo: &impl Echo, heads: &[Head]) -> bool {
    let mut any = false;
    for id in echo.ids().into_iter().filter(|id| id.is_formula() && heads.iter().all(|head| head.id != *id)) {
        let Some(slot) = echo.read(&id).filter(|slot| slot.is_whole() && slot.head.id == id) else { continue };
        let commit = Commit { expected: None, slot, steps: StepsChange::default() };
        any |= journal.commit(&commit).await == Ok(Verdict::Written);
    }
    any
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::store::now;
    use crate::desk::{MemoryEcho, MemoryJournal};

    #[test]
    fn copies_that_only_the_echo_has_come_back() {
        let (journal, echo) = (MemoryJournal::default(), MemoryEcho::default());
        for n in 1..=3 {
            let mut one = commit(None, 4, "a");
            one.slot.head.id = DocId::random(n);
            echo.write(&one.slot.sealed()).unwrap();
        }
        let mut damaged = echo.read(&DocId::random(3)).unwrap();
        damaged.body.push('x');
        echo.write(&damaged).unwrap();
        now(journal.commit(&Commit {
            expected: None,
            slot: echo.read(&DocId::random(1)).unwrap(),
            steps: StepsChange::default(),
        }))
        .unwrap();
        let heads = now(journal.heads()).unwrap();
        assert!(now(take_strays(&journal, &echo, &heads)));
        let ids: Vec<DocId> = now(journal.heads()).unwrap().into_iter().map(|head| head.id).collect();
        assert_eq!(ids, [DocId::random(1), DocId::random(2)], "a damaged one is not taken for whole");
        assert!(!now(take_strays(&journal, &echo, &now(journal.heads()).unwrap())));
    }

    fn commit(expected: Option<u64>, rev: u64, body: &str) -> Commit {
        let head =
            Head { id: DocId::random(7), rev, title: "Lotion".into(), changed: 0, binned: None, step: 0, crc: 0 };
        Commit { expected, slot: Slot::new(head, body.into()).sealed(), steps: StepsChange::default() }
    }

    #[test]
    fn keep_second_writer_from_the_same_revision_is_refused() {
        let (journal, echo) = (MemoryJournal::default(), MemoryEcho::default());
        assert_eq!(now(keep(&journal, &echo, &commit(None, 1, "a"))), Kept::Saved);
        assert_eq!(now(keep(&journal, &echo, &commit(Some(1), 2, "b"))), Kept::Saved);
        assert_eq!(now(keep(&journal, &echo, &commit(Some(1), 2, "c"))), Kept::Conflict);
        assert_eq!(now(journal.read(&DocId::random(7))).unwrap().unwrap().body, "b");
    }

    #[test]
    fn keep_full_echo_is_still_saved() {
        let (journal, echo) = (MemoryJournal::default(), MemoryEcho::default());
        echo.full.set(true);
        assert_eq!(now(keep(&journal, &echo, &commit(None, 1, "a"))), Kept::Saved);
    }

    #[test]
    fn newest_whole_copy_wins() {
        let (journal, echo) = (MemoryJournal::default(), MemoryEcho::default());
        let id = DocId::random(7);
        now(keep(&journal, &echo, &commit(None, 1, "journal")));
        echo.write(&commit(None, 5, "echo").slot).unwrap();
        assert_eq!(
            now(newest(&journal, &echo, &id)).map(|(slot, ours)| (slot.body, ours)),
            Some(("echo".into(), false))
        );
        let mut damaged = commit(None, 6, "echo").slot;
        damaged.body.push('x');
        echo.write(&damaged).unwrap();
        assert_eq!(
            now(newest(&journal, &echo, &id)).map(|(slot, ours)| (slot.body, ours)),
            Some(("journal".into(), true))
        );
    }
}
