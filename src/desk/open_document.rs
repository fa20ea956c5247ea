//! The open document with its history and the maker's shelf: what the page acts on.

use super::history::read_step;
use super::shelf_document::ShelfDocument;
use super::{
    Action, DocId, Document, Fresh, History, Made, News, Persist, RecordDocument, Reopen, State, Steps, StepsChange,
    StoredDocument, Tracking, Written, apply, apply_fill_up_words, crc32, demo, read, write,
};
use crate::quantity::Timestamp;
use crate::rules::{self, Finding};
use crate::sheet::{self, Masses, Sheet};
use crate::shelf::Shelf;

/// Everything that follows from the open document.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Derived {
    /// What is computed.
    pub sheet: Sheet,
    /// What was found, gravest first.
    pub findings: Vec<Finding>,
}

/// An open document.
#[derive(Debug, Clone)]
pub struct OpenDocument {
    pub(super) document: Document,
    history: History<State>,
    tracking: Tracking,
    pub(super) shelf_document: ShelfDocument,
    /// The record of the batch that is worked on, once it was begun or opened.
    pub(super) record: Option<RecordDocument>,
    /// The stability study that is looked at, once one was begun or opened.
    pub(super) study: Option<RecordDocument>,
    /// It is the worked example, and nobody has touched it.
    untouched: bool,
}

impl OpenDocument {
    /// A document that was never stored.
    pub fn new(id: DocId, document: Document, shelf_document: ShelfDocument, now: Timestamp) -> Self {
        let history = History::new(document.state.clone());
        Self {
            document,
            history,
            tracking: Tracking::new(id, now),
            shelf_document,
            record: None,
            study: None,
            untouched: false,
        }
    }

    /// The worked example: until it is changed or stored, nothing is lost with it.
    pub fn example(id: DocId, shelf_document: ShelfDocument, now: Timestamp) -> Self {
        Self { untouched: true, ..Self::new(id, demo(), shelf_document, now) }
    }

    /// The document's id.
    pub fn id(&self) -> &DocId {
        self.tracking.id()
    }

    /// The document.
    pub fn document(&self) -> &Document {
        &self.document
    }

    /// The formula and plan.
    pub fn state(&self) -> &State {
        &self.document.state
    }

    /// The maker's shelf.
    pub fn shelf(&self) -> &Shelf {
        &self.shelf_document.shelf
    }

    /// The shelf with its history, to be handed to the next document.
    pub fn shelf_document(&self) -> &ShelfDocument {
        &self.shelf_document
    }

    /// The same document beside another shelf.
    #[must_use]
    pub fn beside(self, shelf_document: ShelfDocument) -> Self {
        Self { shelf_document, ..self }
    }

    /// What is open, in the order in which it is written: a formula names the record of its batch, so that comes before it.
    pub fn open_ids(&self) -> Vec<DocId> {
        let mut ids = vec![DocId::shelf()];
        ids.extend(self.record.iter().chain(&self.study).map(|record| record.id().clone()));
        ids.push(self.id().clone());
        ids
    }

    fn open_documents(&self) -> impl Iterator<Item = &dyn Persist> {
        let records = self.record.iter().chain(&self.study).map(|record| record as &dyn Persist);
        [self as &dyn Persist].into_iter().chain(records).chain([&self.shelf_document as &dyn Persist])
    }

    /// The open document of an id, whatever its kind.
    pub fn stored(&mut self, id: &DocId) -> Option<&mut dyn Persist> {
        if self.shelf_document.tracking().id() == id {
            Some(&mut self.shelf_document)
        } else if self.id() == id {
            Some(self)
        } else {
            let mut records = self.record.iter_mut().chain(&mut self.study);
            records.find(|record| record.id() == id).map(|record| record as &mut dyn Persist)
        }
    }

    /// True while something is not in the journal yet.
    pub fn is_dirty(&self) -> bool {
        self.open_documents().any(|document| document.tracking().is_dirty())
    }

    /// True while another document may take this one's place without its being written first.
    pub fn may_go(&self) -> bool {
        !self.is_dirty() || (self.untouched && self.tracking.revision().is_none() && !self.shelf_document.is_dirty())
    }

    /// Makes one change; an action that changes nothing is no step.
    pub fn act(&mut self, action: Action, now: Timestamp) -> Made {
        let action = action.kept();
        let group = action.undo_group();
        let before = self.document.state.clone();
        let made = apply(&mut self.document.state, action);
        if self.document.state != before {
            self.history.push(self.document.state.clone(), group);
            self.touch(now);
        }
        made
    }

    /// Ends typing in a field: a word for filling up takes effect, and the next change is a step of its own. True if that
    /// changed the formula.
    pub fn end_undo_group(&mut self, now: Timestamp) -> bool {
        let before = self.document.state.clone();
        apply_fill_up_words(&mut self.document.state, self.history.before_typing().as_ref());
        let changed = self.document.state != before;
        if changed {
            self.history.amend(self.document.state.clone());
            self.touch(now);
        }
        self.history.end_undo_group();
        self.shelf_document.history.end_undo_group();
        changed
    }

    /// One step back. False if there is none.
    pub fn undo(&mut self, now: Timestamp) -> bool {
        let state = self.history.undo();
        self.took(state, now)
    }

    /// One step forward. False if there is none.
    pub fn redo(&mut self, now: Timestamp) -> bool {
        let state = self.history.redo();
        self.took(state, now)
    }

    fn took(&mut self, state: Option<State>, now: Timestamp) -> bool {
        let Some(state) = state else { return false };
        self.document.state = state;
        self.touch(now);
        true
    }

    pub(super) fn touch(&mut self, now: Timestamp) {
        self.tracking.touch(now);
        self.untouched = false;
    }

    /// True if there is a step back.
    pub fn can_undo(&self) -> bool {
        self.history.can_undo()
    }

    /// True if there is a step forward.
    pub fn can_redo(&self) -> bool {
        self.history.can_redo()
    }

    /// Tells formulas apart on paper: CRC-32 of the formula in the open format.
    pub fn mark(&self) -> u32 {
        crc32(write::formula(&self.document.state.formula).to_string().as_bytes())
    }

    /// Keeps the formula as a version; gives its number.
    pub fn save_version(&mut self, now: Timestamp) -> u32 {
        let kept = self.document.versions.len();
        let number = self.document.save_version(now);
        if self.document.versions.len() != kept {
            self.touch(now);
        }
        number
    }

    /// Gives a kept version a name. Undo goes back over the formula, and not over what its versions are called.
    pub fn name_version(&mut self, number: u32, name: String, now: Timestamp) {
        if self.document.name_version(number, name) {
            self.touch(now);
        }
    }

    /// Computes what is read off while typing.
    pub fn masses(&self) -> Masses {
        let State { formula, plan, .. } = &self.document.state;
        sheet::masses(formula, plan, self.shelf())
    }

    /// Computes the sheet and checks it.
    pub fn derive(&self) -> Derived {
        self.derive_from(self.masses())
    }

    /// Like [`Self::derive`], where the masses of the formula as it is now are there already.
    pub fn derive_from(&self, masses: Masses) -> Derived {
        let State { formula, lye, .. } = &self.document.state;
        let sheet = sheet::complete(masses, formula, lye, self.shelf());
        let findings = rules::check(formula, &sheet, self.shelf());
        Derived { sheet, findings }
    }

    /// Everything that was not handed to the journal yet, for a page that is closing and cannot wait for it: as copies for
    /// the local mirror. Nothing changes here.
    pub fn unsaved_snapshots(&self) -> Vec<StoredDocument> {
        self.open_documents().filter_map(Persist::unsaved).collect()
    }

    /// This one was changed before the stored one was read: its history goes behind that of what was typed, unless it is
    /// there already, as where the maker asks for the formula that is open.
    pub fn remember(&mut self, stored: Self) {
        if stored.id() != self.id() {
            return;
        }
        if self.history.go_on_from(stored.history) {
            self.tracking.go_on_from(&stored.tracking);
        } else if self.tracking.revision() == stored.tracking.revision() && !self.tracking.rests_on(&stored.tracking) {
            // What it was changed from is not what is stored: the next write tells the two apart.
            self.tracking.doubt();
        }
    }
}

impl Persist for OpenDocument {
    fn tracking(&self) -> &Tracking {
        &self.tracking
    }

    fn tracking_mut(&mut self) -> &mut Tracking {
        &mut self.tracking
    }

    fn write(&self) -> Written {
        Written {
            title: self.state().formula.about.title.clone(),
            body: write::document_value(&self.document, None).to_string(),
            step: self.step(),
        }
    }

    fn step(&self) -> u64 {
        self.history.current()
    }

    fn take_steps(&mut self) -> StepsChange {
        self.history.take_change()
    }

    fn forget_steps(&mut self) {
        self.history.forget_written();
    }

    /// What is here goes on as a document of its own.
    fn overtaken(&mut self, _: &StoredDocument, _: Steps, fresh: Fresh) -> News {
        self.tracking.rename(fresh.id, fresh.now);
        self.document.state.formula.about.title = fresh.title;
        self.history = History::new(self.document.state.clone());
        News::Copied
    }
}

impl Reopen for OpenDocument {
    /// Beside an empty shelf: see [`Self::beside`].
    fn open(stored: &StoredDocument, steps: Steps) -> Option<Self> {
        let document = read::read_stored(&stored.body).ok()?;
        let history = History::restore(document.state.clone(), steps, stored.meta.step);
        Some(Self {
            document,
            history,
            tracking: Tracking::of(stored),
            shelf_document: ShelfDocument::default(),
            record: None,
            study: None,
            untouched: false,
        })
    }

    fn from_step(id: &DocId, step: &str, changed: Timestamp) -> Option<Self> {
        let document = Document { state: read_step(step)?, ..Document::default() };
        Some(Self::new(id.clone(), document, ShelfDocument::default(), changed))
    }
}

#[cfg(test)]
mod tests;
