//! How an open document stands with the journal: the same for every kind of document.

use super::{Commit, DocId, DocumentMeta, StepsChange, StoredDocument};
use crate::quantity::Timestamp;

/// How many earlier states are remembered by their checksums: more than ever wait for an answer at once.
const REMEMBERED: usize = 8;

/// What is known of the stored copies of an open document.
#[derive(Debug, Clone)]
pub struct Tracking {
    id: DocId,
    /// The revision in the journal, as far as is known; `None` if it is not there yet.
    revision: Option<u64>,
    changed: Timestamp,
    dirty: bool,
    /// Nothing is written before the maker has decided: a damaged copy lies in its place.
    held: bool,
    /// Checksums of stored copies that what is open goes on from, whether the journal has answered or not. A copy of one of
    /// these is no other tab's.
    rests_on: Vec<u32>,
    /// The highest revision that was handed over and not answered.
    sent: u64,
}

/// What a document has to say about itself when it is written.
pub struct Written {
    /// Its title in lists.
    pub title: String,
    /// It, in the open format.
    pub body: String,
    /// The number of the current step of its history.
    pub step: u64,
}

impl Tracking {
    /// Of a document that was never stored.
    pub fn new(id: DocId, now: Timestamp) -> Self {
        Self { id, revision: None, changed: now, dirty: true, held: false, rests_on: Vec::new(), sent: 0 }
    }

    /// The same, of one that need not be stored before it is changed.
    #[must_use]
    pub fn unchanged(self) -> Self {
        Self { dirty: false, ..self }
    }

    /// Of one that was opened from a stored copy.
    pub fn of(stored: &StoredDocument) -> Self {
        let mut rests_on = stored.rests_on.clone();
        rests_on.push(stored.meta.crc);
        let (id, revision, changed) =
            (stored.meta.id.clone(), stored.meta.revision, Timestamp::from_millis(stored.meta.changed));
        Self { id, revision: Some(revision), changed, dirty: false, held: false, rests_on, sent: 0 }
    }

    /// The document's id.
    pub fn id(&self) -> &DocId {
        &self.id
    }

    /// The revision in the journal, as far as is known.
    pub fn revision(&self) -> Option<u64> {
        self.revision
    }

    /// True while something is not in the journal yet.
    pub fn is_dirty(&self) -> bool {
        self.dirty
    }

    /// True while nothing may be written.
    pub fn is_held(&self) -> bool {
        self.held
    }

    /// Writes nothing until [`Self::release`].
    pub fn hold(&mut self) {
        self.held = true;
    }

    /// Something that must not be written over lies in its place: it stays unwritten.
    pub fn hold_back(&mut self) {
        self.dirty = true;
        self.held = true;
    }

    /// The maker has decided.
    pub fn release(&mut self) {
        self.held = false;
    }

    /// It was changed.
    pub fn touch(&mut self, now: Timestamp) {
        self.changed = now;
        self.dirty = true;
    }

    /// It is to be written again.
    pub fn mark_dirty(&mut self) {
        self.dirty = true;
    }

    /// It goes on as a document of its own.
    pub fn rename(&mut self, id: DocId, now: Timestamp) {
        *self = Self::new(id, now);
    }

    /// The journal has this of it, older than what is open: that is to be written over it.
    pub fn rebase(&mut self, journal: Option<&DocumentMeta>) {
        self.revision = journal.map(|meta| meta.revision);
        self.dirty = true;
        if let Some(meta) = journal {
            self.rest_on(meta.crc);
        }
    }

    /// Whether a stored copy is one that what is open goes on from: a write whose answer never came, say.
    pub fn knows(&self, meta: &DocumentMeta) -> bool {
        self.rests_on.contains(&meta.crc)
    }

    /// Whether what is open goes on from the copy that `stored` was opened from.
    pub fn rests_on(&self, stored: &Self) -> bool {
        stored.rests_on.last().is_some_and(|crc| self.rests_on.contains(crc))
    }

    /// This one was changed since `stored`, which was read meanwhile.
    pub fn go_on_from(&mut self, stored: &Self) {
        *self = Self { changed: self.changed, dirty: true, held: self.held, ..stored.clone() };
    }

    /// The journal may have a state that this one does not go on from: the next write finds out.
    pub fn doubt(&mut self) {
        self.revision = None;
        self.rests_on.clear();
    }

    fn rest_on(&mut self, crc: u32) {
        self.rests_on.push(crc);
        if self.rests_on.len() > REMEMBERED {
            self.rests_on.remove(0);
        }
    }

    fn stored(&self, revision: u64, written: Written) -> StoredDocument {
        let Written { title, body, step } = written;
        let meta = DocumentMeta {
            id: self.id.clone(),
            revision,
            title,
            changed: self.changed.millis(),
            binned: None,
            step,
            crc: 0,
        };
        StoredDocument { rests_on: self.rests_on.clone(), ..StoredDocument::new(meta, body).sealed() }
    }

    /// True if there is something to write.
    pub fn wants_writing(&self) -> bool {
        self.dirty && !self.held
    }

    /// True while a write was handed over and not answered.
    pub fn is_on_its_way(&self) -> bool {
        self.sent > self.revision.unwrap_or(0)
    }

    /// The next write.
    pub fn commit(&mut self, written: Written, steps: StepsChange) -> Commit {
        let stored = self.stored(self.revision.unwrap_or(0) + 1, written);
        self.dirty = false;
        self.sent = self.sent.max(stored.meta.revision);
        self.rest_on(stored.meta.crc);
        Commit { expected: self.revision, stored, steps }
    }

    /// A copy for the local mirror of what was not handed to the journal yet. It is above every revision that it rests on: wherever
    /// the journal has one of those, it wins, and nowhere else.
    pub fn unsaved(&self, written: Written) -> StoredDocument {
        self.stored(self.revision.unwrap_or(0).max(self.sent) + 1, written)
    }

    /// The journal has it.
    pub fn arrived(&mut self, revision: u64) {
        self.revision = Some(revision);
        self.sent = 0;
    }
}
