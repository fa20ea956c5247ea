//! The batch that is worked on: its record is begun, added to and opened. Only for the second part of the program.

use super::{Desk, browser};
use crate::ui::browser::LocalStorageMirror;
use hundred_parts::batch::{BatchEntry, EntryId, Event};
use hundred_parts::desk::{
    BatchRef, DocId, Document, OpenDocument, Opened, Persist, RecordDocument, open_document, ph_begun,
};
use hundred_parts::quantity::{Mass, Ph};
use hundred_parts::report::made_from;
use hundred_parts::words::batch_record;
use leptos::prelude::*;
use std::time::Duration;

impl Desk {
    /// Begins the record of a batch with the setting of its pH; the record of the one before stays. True if it has begun.
    pub(crate) fn begin_batch(self, batch: Mass, target: Ph) -> bool {
        if self.refused() {
            return false;
        }
        let first = ph_begun(EntryId::random(browser::random_bits()), browser::now(), batch, target);
        let id = DocId::batch(browser::random_bits());
        let from = self.now(|open| made_from(open, &open.derive(), self.sign));
        let begun = self.open.try_update(|open| open.begin_record(id, &from, &first)) == Some(true);
        self.noted(begun)
    }

    /// Notes what happened to the batch that is worked on. True if it is in the record.
    pub(crate) fn note(self, event: Event) -> bool {
        if self.refused() {
            return false;
        }
        let entry = BatchEntry { id: EntryId::random(browser::random_bits()), at: browser::now(), event };
        let noted = self.open.try_update(|open| open.note(&entry)) == Some(true);
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
        let stored = match open_document::<RecordDocument>(&*self.journal(), &LocalStorageMirror, &id).await {
            Opened::Missing | Opened::Binned => return false,
            Opened::Newer(stored) => {
                self.read_only(Some(stored));
                return false;
            }
            Opened::Lost(bad) => {
                self.found_unreadable(batch_record::RECORD_LOST, bad).await;
                return false;
            }
            Opened::Whole(record) => record,
            Opened::Rescued(mut record, bad) => {
                if !self.found_unreadable(batch_record::RECORD_RESCUED, bad).await {
                    record.tracking_mut().hold();
                    self.hold();
                }
                record
            }
        };
        self.open.update(|open| open.adopt_record(stored));
        if self.now(OpenDocument::is_dirty) {
            self.write_soon(Duration::ZERO);
        }
        true
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
