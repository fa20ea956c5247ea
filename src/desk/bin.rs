//! The bin: into it, out of it, and what leaves it for good.

use super::{
    Commit, CommitOutcome, DocId, DocumentKind, DocumentMeta, Journal, LocalMirror, StepsChange, StoreError,
    StoredDocument, newest,
};
use crate::quantity::{Day, Timestamp};

/// On how many days of use a document stays in the bin.
pub const BIN_DAYS: u32 = 30;

/// What came of putting a document into the bin, or of taking it out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Binned {
    /// It is done. A damaged copy that was written over is handed back.
    Done(Option<StoredDocument>),
    /// There is no such document any more.
    Missing,
    /// No copy of it is whole: it stays as it is.
    Lost(StoredDocument),
    /// Another tab wrote it meanwhile: it stays as that left it.
    Conflict,
    /// The journal cannot take it: nothing has changed.
    Failed(StoreError),
}

/// Puts a document into the bin (`at`: when) or takes it out, from its newest whole copy. The journal decides alone: an
/// local mirror ahead of it would hide the document where the list still shows it.
pub async fn put_into_bin(
    journal: &impl Journal,
    mirror: &impl LocalMirror,
    id: &DocId,
    at: Option<Timestamp>,
) -> Binned {
    let kept = match journal.read(id).await {
        Ok(kept) => kept,
        Err(error) => return Binned::Failed(error),
    };
    let Some((whole, _)) = newest(journal, mirror, id).await else {
        return kept.map_or(Binned::Missing, Binned::Lost);
    };
    let expected = kept.as_ref().map(|stored| stored.meta.revision);
    let revision = expected.unwrap_or(0).max(whole.meta.revision) + 1;
    let meta = DocumentMeta { revision, binned: at.map(Timestamp::millis), ..whole.meta };
    let stored = StoredDocument::new(meta, whole.body).sealed();
    let steps = StepsChange { first: 0, last: u64::MAX, put: Vec::new() };
    let commit = Commit { expected, stored, steps };
    match journal.commit(&commit).await {
        Ok(CommitOutcome::Written) => {
            let _ = mirror.write(&commit.stored);
            Binned::Done(kept.filter(|stored| !stored.is_whole()))
        }
        Ok(CommitOutcome::Conflict) => Binned::Conflict,
        Err(error) => Binned::Failed(error),
    }
}

/// On how many days the page was used since each document was put into the bin. Days are told apart by the clock and
/// counted, not reckoned: a clock that is ten years ahead once is one day, and so is one that was set back.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct BinDays {
    /// The day that was counted last.
    day: Option<Day>,
    counts: Vec<(DocId, u32)>,
}

impl BinDays {
    /// From a preference, such as `20419 00000000000000ff:3`; what cannot be read was never counted.
    pub fn read(text: &str) -> Self {
        let mut parts = text.split(' ');
        let day = parts.next().and_then(|day| day.parse().ok()).map(Day::from_number);
        let count = |part: &str| {
            let (id, days) = part.split_once(':')?;
            Some((DocId::from(id.to_owned()), days.parse().ok()?))
        };
        Self { day, counts: parts.filter_map(count).collect() }
    }

    /// For a preference.
    pub fn write(&self) -> String {
        let day = self.day.map_or_else(|| "-".to_owned(), |day| day.number().to_string());
        let counts = self.counts.iter().map(|(id, days)| format!(" {}:{days}", id.as_str()));
        format!("{day}{}", counts.collect::<String>())
    }

    /// The page is used: counted if it is another day than last time, for what is in the bin now.
    #[must_use]
    pub fn used(self, now: Timestamp, metas: &[DocumentMeta]) -> Self {
        let another = self.day != Some(now.day());
        let count = |meta: &DocumentMeta| {
            let before = self.counts.iter().find(|(id, _)| *id == meta.id).map(|(_, days)| *days);
            (meta.id.clone(), before.map_or(0, |days| days.saturating_add(u32::from(another))))
        };
        let counts = metas.iter().filter(|meta| meta.binned.is_some()).map(count).collect();
        Self { day: Some(now.day()), counts }
    }

    /// True once a document may be removed for good.
    pub fn over(&self, id: &DocId) -> bool {
        self.counts.iter().any(|(binned, days)| binned == id && *days >= BIN_DAYS)
    }
}

/// Removes what has been in the bin for long enough, but nothing that is damaged or of a kind that only a newer release
/// knows. Gives how many there were, which is to be
/// said.
pub async fn empty_bin(
    journal: &impl Journal,
    mirror: &impl LocalMirror,
    metas: &[DocumentMeta],
    days: &BinDays,
) -> usize {
    let mut removed = 0;
    let known = |meta: &&DocumentMeta| meta.id.kind() != DocumentKind::Unknown;
    for meta in metas.iter().filter(known).filter(|meta| days.over(&meta.id)) {
        let Ok(Some(stored)) = journal.read(&meta.id).await else { continue };
        if stored.is_whole() && stored.meta.binned.is_some() && journal.remove(&meta.id).await.is_ok() {
            mirror.remove(&meta.id);
            removed += 1;
        }
    }
    removed
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::store::now;
    use crate::desk::{MemoryJournal, MemoryMirror, save};

    fn commit(n: u64, expected: Option<u64>, binned: Option<i64>) -> Commit {
        let meta = DocumentMeta {
            id: DocId::random(n),
            revision: 1,
            title: "Lotion".into(),
            changed: 0,
            binned,
            step: 0,
            crc: 0,
        };
        Commit { expected, stored: StoredDocument::new(meta, "4.5".into()).sealed(), steps: StepsChange::default() }
    }

    fn day(day: i64) -> Timestamp {
        Timestamp::from_millis(day * 86_400_000 + 1)
    }

    #[test]
    fn bin_takes_no_damaged_copy_for_a_whole_one() {
        let (journal, mirror) = (MemoryJournal::default(), MemoryMirror::default());
        let id = DocId::random(7);
        now(save(&journal, &mirror, &commit(7, None, None)));
        assert_eq!(now(put_into_bin(&journal, &mirror, &id, Some(Timestamp::from_millis(5)))), Binned::Done(None));
        // A digit is flipped while it lies in the bin.
        let mut bad = now(journal.read(&id)).unwrap().unwrap();
        bad.body = "4.4".into();
        now(journal.commit(&Commit { expected: Some(2), stored: bad.clone(), steps: StepsChange::default() })).unwrap();
        assert_eq!(now(put_into_bin(&journal, &mirror, &id, None)), Binned::Done(Some(bad.clone())));
        let back = now(journal.read(&id)).unwrap().unwrap();
        assert_eq!((back.body.as_str(), back.meta.binned, back.is_whole()), ("4.5", None, true));
        mirror.remove(&id);
        let bad = StoredDocument { meta: DocumentMeta { revision: 4, ..bad.meta }, ..bad };
        now(journal.commit(&Commit { expected: Some(3), stored: bad.clone(), steps: StepsChange::default() })).unwrap();
        assert_eq!(now(put_into_bin(&journal, &mirror, &id, None)), Binned::Lost(bad));
        assert_eq!(now(put_into_bin(&journal, &mirror, &DocId::random(8), None)), Binned::Missing);
    }

    #[test]
    fn bin_is_emptied_of_what_is_whole_after_thirty_days_of_use_only() {
        let (journal, mirror) = (MemoryJournal::default(), MemoryMirror::default());
        for (n, binned) in [(1, Some(0)), (2, Some(0)), (3, None)] {
            now(save(&journal, &mirror, &commit(n, None, binned)));
        }
        let mut bad = now(journal.read(&DocId::random(2))).unwrap().unwrap();
        bad.body.push('0');
        now(journal.commit(&Commit { expected: Some(1), stored: bad, steps: StepsChange::default() })).unwrap();
        let metas = now(journal.metas()).unwrap();
        let mut days = BinDays::default();
        // Many starts on one day, a clock ten years ahead and one set back are a day each; binned in 1970 is not long ago.
        for at in [20_000, 20_000, 20_000, 23_650, 20_000, 1].into_iter().chain(20_001..20_025) {
            days = BinDays::read(&days.used(day(at), &metas).write());
            assert_eq!(now(empty_bin(&journal, &mirror, &metas, &days)), 0, "day {at}");
        }
        for at in 20_025..20_028 {
            days = days.used(day(at), &metas);
        }
        assert_eq!(now(empty_bin(&journal, &mirror, &metas, &days)), 1);
        let left: Vec<DocId> = now(journal.metas()).unwrap().into_iter().map(|meta| meta.id).collect();
        assert_eq!(left, [DocId::random(2), DocId::random(3)]);
        assert!(mirror.read(&DocId::random(1)).is_none() && mirror.read(&DocId::random(2)).is_some());
    }

    #[test]
    fn document_taken_out_of_the_bin_begins_anew_when_it_comes_back() {
        let meta = |binned| commit(1, None, binned).stored.meta;
        let mut days = BinDays::default();
        for at in 0..40 {
            days = days.used(day(at), &[meta(Some(0))]);
        }
        assert!(days.over(&DocId::random(1)));
        days = days.used(day(40), &[meta(None)]).used(day(41), &[meta(Some(0))]);
        assert!(!days.over(&DocId::random(1)));
        assert_eq!(BinDays::read("what is this"), BinDays::default());
    }

    #[test]
    fn bin_leaves_kinds_that_only_a_newer_release_knows() {
        let (journal, mirror) = (MemoryJournal::default(), MemoryMirror::default());
        let mut study = commit(1, None, Some(0));
        study.stored.meta.id = DocId::from("supplier.1".to_owned());
        study.stored = study.stored.sealed();
        now(save(&journal, &mirror, &study));
        let metas = now(journal.metas()).unwrap();
        let days = (0..40).fold(BinDays::default(), |days, at| days.used(day(at), &metas));
        assert_eq!(now(empty_bin(&journal, &mirror, &metas, &days)), 0);
        assert!(now(journal.read(&study.stored.meta.id)).unwrap().is_some_and(|stored| stored.is_whole()));
    }
}
