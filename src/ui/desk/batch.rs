//! The batch that is worked on: its record is begun, added to and opened. Only for the second part of the program.

use super::{Desk, browser};
use crate::ui::browser::LocalStorageMirror;
use hundred_parts::batch::{BatchEntry, EntryId, Event, Making};
use hundred_parts::desk::{
    BatchRef, BatchState, DocId, Document, OpenDocument, Opened, Persist, RecordDocument, open_document,
};
use hundred_parts::quantity::{Mass, Ph, Quantity};
use hundred_parts::report::made_from;
use hundred_parts::words::batch_record;
use leptos::prelude::*;
use std::time::Duration;

impl Desk {
    /// Whether it is known what the stores have of the batch that is worked on, tracked. Not before they were looked into.
    pub(crate) fn has_looked(self) -> bool {
        self.saving.looked.get()
    }

    /// Reads the open document with the record of its batch, tracked: [`Self::with`] follows no entry of a record.
    pub(crate) fn with_batch<T>(self, read: impl FnOnce(&OpenDocument) -> T) -> T {
        self.follow_batch();
        self.with(read)
    }

    /// Follows what is noted of the batch that is worked on.
    pub(crate) fn follow_batch(self) {
        self.batch_noted.track();
    }

    /// Where what is typed into a field of the batch is kept on this device until it is recorded.
    pub(crate) fn typed_key(self, field: &str) -> String {
        let batch = self.now(|open| open.open_record().map(|record| record.id().as_str().to_owned()));
        format!("draft.{}.{field}", batch.unwrap_or_default())
    }

    /// Begins the setting of the pH: in the record of the batch that is being made, else in a record of its own; that of the
    /// batch before stays. True if it has begun.
    pub(crate) fn begin_batch(self, batch: Mass, target: Ph) -> bool {
        let made = self.now(|open| match open.batch() {
            BatchState::Open(record) => {
                Making::of(&record).filter(|making| !making.is_over()).map(|making| making.charged())
            }
            _ => None,
        });
        match made {
            Some(charged) => self.note(Event::PhBegun { batch: charged.max(Mass::from_units(1)), target }),
            None => self.begin_with(Event::PhBegun { batch, target }),
        }
    }

    /// Begins a batch under a code; the record of the one before stays. True if it has begun.
    pub(crate) fn begin_making(self, code: String, maker: String) -> bool {
        self.begin_with(Event::Begun { code, maker })
    }

    fn begin_with(self, event: Event) -> bool {
        if self.refused() {
            return false;
        }
        let first = BatchEntry { id: EntryId::random(browser::random_bits()), at: browser::now(), event };
        let id = DocId::batch(browser::random_bits());
        let from = self.now(|open| made_from(open, &open.derive(), self.sign));
        let begun = self.open.try_update(|open| open.begin_record(id, &from, &first)) == Some(true);
        self.noted(begun)
    }

    /// Notes what happened to the batch that is worked on. True if it is in the record.
    pub(crate) fn note(self, event: Event) -> bool {
        self.note_entry(BatchEntry { id: EntryId::random(browser::random_bits()), at: browser::now(), event })
    }

    /// The same with an id and a time that are known already.
    pub(super) fn note_entry(self, entry: BatchEntry) -> bool {
        if self.refused() {
            return false;
        }
        // The formula is the same: who reads only that works nothing out anew.
        let noted = self.open.try_update_untracked(|open| open.note(&entry)) == Some(true);
        self.batch_noted.notify();
        self.noted(noted)
    }

    /// What happened is written at once, not after a rest in typing.
    fn noted(self, noted: bool) -> bool {
        if noted {
            self.write_soon(Duration::ZERO);
        } else {
            self.say(batch_record::NOT_NOTED, None);
        }
        noted
    }

    /// Makes a record of the log that a release without records has kept, or goes on from the one that was made of it.
    pub(crate) async fn open_old_log(self) {
        self.open.update(OpenDocument::open_old_log);
        let Some(id) = self.now(|open| open.open_record().map(|record| record.id().clone())) else { return };
        // Where the stores have none yet, it is written now.
        if !self.open_batch(id).await {
            self.write_soon(Duration::ZERO);
        }
    }

    /// Goes on with an earlier batch of the formula.
    pub(crate) fn go_on_with(self, batch: &DocId) {
        if !self.refused() {
            self.open.update(|open| open.go_on_with(batch, browser::now()));
            self.write_soon(Duration::ZERO);
        }
    }

    /// Opens the stored record of the batch that is worked on, or goes on from it where it is open. False if there is none.
    pub(crate) async fn open_batch(self, id: DocId) -> bool {
        let Some(stored) = self.stored_record(&id, batch_record::RECORD_LOST).await else { return false };
        self.open.update(|open| open.adopt_record(stored));
        self.write_if_dirty();
        true
    }

    /// What the stores have of a batch or a study, to be opened; `lost` is said where nothing of it can be read. What was
    /// rescued of a damaged one is not written in its place before a copy of that is kept.
    pub(super) async fn stored_record(self, id: &DocId, lost: &'static str) -> Option<RecordDocument> {
        match open_document::<RecordDocument>(&*self.journal(), &LocalStorageMirror, id).await {
            Opened::Missing | Opened::Binned => None,
            Opened::Newer(stored) => {
                self.read_only(Some(stored));
                None
            }
            Opened::Lost(bad) => {
                self.found_unreadable(lost, bad).await;
                None
            }
            Opened::Whole(record) => Some(record),
            Opened::Rescued(mut record, bad) => {
                if !self.found_unreadable(batch_record::RECORD_RESCUED, bad).await {
                    record.tracking_mut().hold();
                    self.hold();
                }
                Some(record)
            }
        }
    }

    /// Writes what an opened record or study holds and the stores do not, at once.
    pub(super) fn write_if_dirty(self) {
        if self.now(OpenDocument::is_dirty) {
            self.write_soon(Duration::ZERO);
        }
    }

    /// A formula as it goes into a file: with the records of its batches. And whether that is all of them.
    pub(crate) async fn with_records(self, open: &OpenDocument) -> (Document, bool) {
        let (journal, mut records) = (self.journal(), Vec::new());
        for id in open.closed_batches() {
            match open_document::<RecordDocument>(&*journal, &LocalStorageMirror, &id).await {
                Opened::Whole(record) | Opened::Rescued(record, _) => records.push(record),
                Opened::Missing | Opened::Binned | Opened::Newer(_) | Opened::Lost(_) => {}
            }
        }
        let document = open.with_records(&records);
        let all = document.batches.iter().all(|batch| matches!(batch, BatchRef::Carried(_)));
        (document, all)
    }
}
