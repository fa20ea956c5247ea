//! Keeping a document: journal first, then the echo; and finding the newest whole copy of one.

use super::{Commit, DocId, Echo, Head, Journal, Moment, Slot, StepsChange, StoreError, Verdict};

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

/// The newest whole copy of a document, and whether it is the journal's.
pub async fn newest(journal: &impl Journal, echo: &impl Echo, id: &DocId) -> Option<(Slot, bool)> {
    let kept = journal.read(id).await.ok().flatten().filter(Slot::is_whole);
    let copy = echo.read(id).filter(Slot::is_whole);
    match (kept, copy) {
        (Some(kept), Some(copy)) if copy.head.rev > kept.head.rev => Some((copy, false)),
        (Some(kept), _) => Some((kept, true)),
        (None, copy) => copy.map(|copy| (copy, false)),
    }
}

/// What came of putting a document into the bin, or of taking it out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Binned {
    /// It is done. A damaged copy that was written over is handed back.
    Done(Option<Slot>),
    /// There is no such document any more.
    Missing,
    /// No copy of it is whole: it stays as it is.
    Lost(Slot),
    /// Another tab wrote it meanwhile: it stays as that left it.
    Conflict,
    /// The journal cannot take it: nothing has changed.
    Failed(StoreError),
}

/// Puts a document into the bin (`at`: when) or takes it out, from its newest whole copy. The journal decides alone: an
/// echo ahead of it would hide the document where the list still shows it.
pub async fn put_into_bin(journal: &impl Journal, echo: &impl Echo, id: &DocId, at: Option<Moment>) -> Binned {
    let kept = match journal.read(id).await {
        Ok(kept) => kept,
        Err(error) => return Binned::Failed(error),
    };
    let Some((whole, _)) = newest(journal, echo, id).await else {
        return kept.map_or(Binned::Missing, Binned::Lost);
    };
    let expected = kept.as_ref().map(|slot| slot.head.rev);
    let rev = expected.unwrap_or(0).max(whole.head.rev) + 1;
    let slot = Slot { head: Head { rev, binned: at.map(Moment::millis), ..whole.head }, body: whole.body }.sealed();
    let steps = StepsChange { first: 0, last: u64::MAX, put: Vec::new() };
    let commit = Commit { expected, slot, steps };
    match journal.commit(&commit).await {
        Ok(Verdict::Written) => {
            let _ = echo.write(&commit.slot);
            Binned::Done(kept.filter(|slot| !slot.is_whole()))
        }
        Ok(Verdict::Conflict) => Binned::Conflict,
        Err(error) => Binned::Failed(error),
    }
}

/// Removes what has been in the bin for too long, but nothing that is damaged: its head may have lost its day.
pub async fn empty_bin(journal: &impl Journal, echo: &impl Echo, heads: &[Head], now: Moment) {
    for head in heads.iter().filter(|head| head.expired(now)) {
        let Ok(Some(slot)) = journal.read(&head.id).await else { continue };
        if slot.is_whole() && slot.head.expired(now) && journal.remove(&head.id).await.is_ok() {
            echo.remove(&head.id);
        }
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
    fn bin_takes_no_damaged_copy_for_a_whole_one() {
        let (journal, echo) = (MemoryJournal::default(), MemoryEcho::default());
        let id = DocId::random(7);
        now(keep(&journal, &echo, &commit(None, 1, "4.5")));
        assert_eq!(now(put_into_bin(&journal, &echo, &id, Some(Moment::from_millis(5)))), Binned::Done(None));
        // A digit is flipped while it lies in the bin.
        let mut bad = now(journal.read(&id)).unwrap().unwrap();
        bad.body = "4.4".into();
        now(journal.commit(&Commit { expected: Some(2), slot: bad.clone(), steps: StepsChange::default() })).unwrap();
        assert_eq!(now(put_into_bin(&journal, &echo, &id, None)), Binned::Done(Some(bad.clone())));
        let back = now(journal.read(&id)).unwrap().unwrap();
        assert_eq!((back.body.as_str(), back.head.binned, back.is_whole()), ("4.5", None, true));
        echo.remove(&id);
        let bad = Slot { head: Head { rev: 4, ..bad.head }, ..bad };
        now(journal.commit(&Commit { expected: Some(3), slot: bad.clone(), steps: StepsChange::default() })).unwrap();
        assert_eq!(now(put_into_bin(&journal, &echo, &id, None)), Binned::Lost(bad));
        assert_eq!(now(put_into_bin(&journal, &echo, &DocId::random(8), None)), Binned::Missing);
    }

    #[test]
    fn bin_is_emptied_of_what_is_whole_and_old_enough_only() {
        let (journal, echo) = (MemoryJournal::default(), MemoryEcho::default());
        let day = |days: i64| Moment::from_millis(days * 86_400_000);
        for (n, binned) in [(1, Some(day(1))), (2, Some(day(20))), (3, None)] {
            let mut one = commit(None, 1, "a");
            one.slot.head.id = DocId::random(n);
            one.slot.head.binned = binned.map(Moment::millis);
            one.slot = one.slot.sealed();
            now(keep(&journal, &echo, &one));
        }
        // A flipped digit makes the day of the second one an old one.
        let mut bad = now(journal.read(&DocId::random(2))).unwrap().unwrap();
        bad.head.binned = Some(0);
        now(journal.commit(&Commit { expected: Some(1), slot: bad, steps: StepsChange::default() })).unwrap();
        now(empty_bin(&journal, &echo, &now(journal.heads()).unwrap(), day(40)));
        let left: Vec<DocId> = now(journal.heads()).unwrap().into_iter().map(|head| head.id).collect();
        assert_eq!(left, [DocId::random(2), DocId::random(3)]);
        assert!(echo.read(&DocId::random(1)).is_none() && echo.read(&DocId::random(2)).is_some());
    }

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
        Commit { expected, slot: Slot { head, body: body.into() }.sealed(), steps: StepsChange::default() }
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
