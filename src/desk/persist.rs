//! What every kind of stored document can do. The writer and the opening know a document by this alone, so that what holds
//! for one kind holds for all.

use super::{Commit, DocId, News, StepsChange, StoredDocument, Tracking, Written};
use crate::quantity::Timestamp;

/// Steps of a history as stored: number and text.
pub type Steps = Vec<(u64, String)>;

/// What a document needs that has to go on beside the one that another tab wrote.
pub struct Fresh {
    /// An id for it.
    pub id: DocId,
    /// A title for it.
    pub title: String,
    /// The clock.
    pub now: Timestamp,
}

/// An open document of any kind.
pub trait Persist {
    /// How it stands with the journal.
    fn tracking(&self) -> &Tracking;
    /// How it stands with the journal.
    fn tracking_mut(&mut self) -> &mut Tracking;
    /// As it is to be written.
    fn write(&self) -> Written;
    /// The number of the current step of its history.
    fn step(&self) -> u64;
    /// What of its history is to be written; afterwards nothing is, until the next change.
    fn take_steps(&mut self) -> StepsChange;
    /// Its whole history is to be written again.
    fn forget_steps(&mut self);
    /// Another tab has written it since: what becomes of the two, and what is to be said of that.
    fn overtaken(&mut self, theirs: &StoredDocument, steps: Steps, fresh: Fresh) -> News;
    /// The journal has an older state than this one, or none: this one is to be written over it.
    fn rebase(&mut self, journal: Option<&StoredDocument>) {
        self.tracking_mut().rebase(journal.map(|stored| &stored.meta));
        self.forget_steps();
    }

    /// It was handed to the journal, which has not answered yet.
    fn handed_over(&mut self) {}

    /// The journal has what was handed to it.
    fn arrived(&mut self, revision: u64) {
        self.tracking_mut().arrived(revision);
    }

    /// What has to be written, if anything. Call [`Self::arrived`] or [`Self::not_written`] afterwards.
    fn take_commit(&mut self) -> Option<Commit> {
        if !self.tracking().wants_writing() {
            return None;
        }
        let (written, steps) = (self.write(), self.take_steps());
        self.handed_over();
        Some(self.tracking_mut().commit(written, steps))
    }

    /// The commit is not in the journal: everything is to be written again.
    fn not_written(&mut self) {
        self.tracking_mut().mark_dirty();
        self.forget_steps();
    }

    /// The maker wants it written in the place of a damaged copy.
    fn release(&mut self) {
        self.tracking_mut().release();
        self.tracking_mut().mark_dirty();
    }

    /// What the journal is not known to have, for a page that is closing and cannot wait for it: as a copy for the local mirror,
    /// which wins when the page opens again. What is on its way is among it: browsers end a transaction with its page.
    /// Nothing changes here.
    fn unsaved(&self) -> Option<StoredDocument> {
        let tracking = self.tracking();
        (tracking.wants_writing() || tracking.is_on_its_way()).then(|| tracking.unsaved(self.write()))
    }
}

/// A kind of document that can be opened from what is stored.
pub trait Reopen: Persist + Sized {
    /// From a stored copy and its stored history; `None` if its text cannot be read.
    fn open(stored: &StoredDocument, steps: Steps) -> Option<Self>;
    /// From a step of its history, where no copy can be read: the document of this id, last changed then.
    fn from_step(id: &DocId, step: &str, changed: Timestamp) -> Option<Self>;
}
