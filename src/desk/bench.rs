//! The open document with its history and the maker's shelf: what the page acts on.

use super::{
    Action, Commit, DocId, Document, Head, History, Made, Moment, ShelfAction, Slot, State, StepsChange, apply, read,
    write,
};
use crate::facts::{IngredientId, Shelf};
use crate::rules::{self, Finding};
use crate::sheet::{self, Sheet};

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
pub struct Bench {
    id: DocId,
    document: Document,
    history: History<State>,
    shelf: Shelf,
    /// The revision in the journal; `None` if it is not there yet.
    rev: Option<u64>,
    shelf_rev: Option<u64>,
    changed: Moment,
    dirty: bool,
    shelf_dirty: bool,
}

impl Bench {
    /// A document that was never stored.
    pub fn new(id: DocId, document: Document, shelf: Shelf, now: Moment) -> Self {
        let history = History::new(document.state.clone());
        Self { id, document, history, shelf, rev: None, shelf_rev: None, changed: now, dirty: true, shelf_dirty: false }
    }

    /// A stored document and its stored history; `None` if its text cannot be read.
    pub fn open(slot: &Slot, steps: Vec<(u64, String)>, shelf: Shelf) -> Option<Self> {
        let document = read::read_stored(&slot.body).ok()?;
        let history = History::restore(document.state.clone(), steps, slot.head.step);
        Some(Self {
            id: slot.head.id.clone(),
            document,
            history,
            shelf,
            rev: Some(slot.head.rev),
            shelf_rev: None,
            changed: Moment::from_millis(slot.head.changed),
            dirty: false,
            shelf_dirty: false,
        })
    }

    /// The document's id.
    pub fn id(&self) -> &DocId {
        &self.id
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
        &self.shelf
    }

    /// True while something is not in the journal yet.
    pub fn is_dirty(&self) -> bool {
        self.dirty || self.shelf_dirty
    }

    /// True once the document is in the journal: an untouched worked example is not.
    pub fn is_stored(&self) -> bool {
        self.rev.is_some()
    }

    /// Makes one change; an action that changes nothing is no step.
    pub fn act(&mut self, action: Action, now: Moment) -> Made {
        let spot = action.spot();
        let before = self.document.state.clone();
        let made = apply(&mut self.document.state, action);
        if self.document.state != before {
            self.history.push(self.document.state.clone(), spot);
            self.touch(now);
        }
        made
    }

    /// Ends typing in a field: the next change there is a step of its own.
    pub fn rest(&mut self) {
        self.history.rest();
    }

    /// Changes the shelf. Gives the id of a new ingredient.
    pub fn act_on_shelf(&mut self, action: ShelfAction) -> Option<IngredientId> {
        self.shelf_dirty = true;
        match action {
            ShelfAction::Set(id, field, text) => {
                self.shelf.set(&id, field, text);
                None
            }
            ShelfAction::Add(name) => Some(self.shelf.add_own(&name)),
            ShelfAction::Remove(id) => {
                self.shelf.remove_own(&id);
                None
            }
        }
    }

    /// One step back. False if there is none.
    pub fn undo(&mut self, now: Moment) -> bool {
        let state = self.history.undo();
        self.took(state, now)
    }

    /// One step forward. False if there is none.
    pub fn redo(&mut self, now: Moment) -> bool {
        let state = self.history.redo();
        self.took(state, now)
    }

    fn took(&mut self, state: Option<State>, now: Moment) -> bool {
        let Some(state) = state else { return false };
        self.document.state = state;
        self.touch(now);
        true
    }

    fn touch(&mut self, now: Moment) {
        self.changed = now;
        self.dirty = true;
    }

    /// True if there is a step back.
    pub fn can_undo(&self) -> bool {
        self.history.can_undo()
    }

    /// True if there is a step forward.
    pub fn can_redo(&self) -> bool {
        self.history.can_redo()
    }

    /// Keeps the formula as a version; gives its number.
    pub fn save_version(&mut self, now: Moment) -> u32 {
        let kept = self.document.versions.len();
        let number = self.document.save_version(now);
        if self.document.versions.len() != kept {
            self.touch(now);
        }
        number
    }

    /// Computes the sheet and checks it.
    pub fn derive(&self) -> Derived {
        let State { formula, plan } = &self.document.state;
        let sheet = sheet::compute(formula, plan, &self.shelf);
        let findings = rules::check(formula, &sheet, &self.shelf);
        Derived { sheet, findings }
    }

    /// What has to be written of the document, if anything. Call [`Self::written`] or [`Self::not_written`] afterwards.
    pub fn take_commit(&mut self) -> Option<Commit> {
        if !self.dirty {
            return None;
        }
        self.dirty = false;
        let head = Head {
            id: self.id.clone(),
            rev: self.rev.unwrap_or(0) + 1,
            title: self.document.state.formula.about.title.clone(),
            changed: self.changed.millis(),
            binned: None,
            step: self.history.current(),
            crc: 0,
        };
        let body = write::document_value(&self.document, None).to_string();
        Some(Commit { expected: self.rev, slot: Slot { head, body }.sealed(), steps: self.history.take_change() })
    }

    /// The commit is in the journal.
    pub fn written(&mut self, rev: u64) {
        self.rev = Some(rev);
    }

    /// The commit is not in the journal: everything is to be written again.
    pub fn not_written(&mut self) {
        self.dirty = true;
        self.history.forget_written();
    }

    /// Another tab wrote this document first: what is here goes on as a document of its own.
    pub fn split_off(&mut self, id: DocId, title: String, now: Moment) {
        self.id = id;
        self.rev = None;
        self.document.state.formula.about.title = title;
        self.history = History::new(self.document.state.clone());
        self.touch(now);
    }

    /// This document is to be written over the revision that the journal has.
    pub fn rebase(&mut self, rev: Option<u64>) {
        self.rev = rev;
        self.not_written();
    }

    /// Takes over what another shelf adds to this one. Where both have a value, this one's stays.
    pub fn take_shelf(&mut self, other: &Shelf) {
        let known = |id: &IngredientId| self.shelf.entries().any(|(own, ..)| own == id);
        let added: Vec<_> = other
            .entries()
            .filter(|(id, ..)| !known(id))
            .map(|(id, own, values)| (id.clone(), own, values.to_vec()))
            .collect();
        if added.is_empty() {
            return;
        }
        let mine: Vec<_> = self.shelf.entries().map(|(id, own, values)| (id.clone(), own, values.to_vec())).collect();
        self.shelf = Shelf::restore(mine.into_iter().chain(added));
        self.shelf_dirty = true;
    }

    /// What has to be written of the shelf, if anything.
    pub fn take_shelf_commit(&mut self, now: Moment) -> Option<Commit> {
        if !self.shelf_dirty {
            return None;
        }
        self.shelf_dirty = false;
        Some(shelf_commit(&self.shelf, self.shelf_rev, now))
    }

    /// The shelf as it is stored, with its revision.
    pub fn adopt_shelf(&mut self, shelf: Shelf, rev: Option<u64>) {
        self.shelf = shelf;
        self.shelf_rev = rev;
    }

    /// The shelf's revision in the journal.
    pub fn shelf_rev(&self) -> Option<u64> {
        self.shelf_rev
    }

    /// The shelf is in the journal (or, with `None`, not).
    pub fn shelf_written(&mut self, rev: Option<u64>) {
        match rev {
            Some(rev) => self.shelf_rev = Some(rev),
            None => self.shelf_dirty = true,
        }
    }
}

/// The shelf of a stored slot.
pub fn stored_shelf(slot: &Slot) -> Shelf {
    let mut shelf = Shelf::default();
    // A damaged shelf leaves the built-in one; its bytes stay stored until the next change of the shelf.
    let _ = read::read_shelf_text(&slot.body, &mut shelf);
    shelf
}

fn shelf_commit(shelf: &Shelf, rev: Option<u64>, now: Moment) -> Commit {
    let head = Head {
        id: DocId::shelf(),
        rev: rev.unwrap_or(0) + 1,
        title: String::new(),
        changed: now.millis(),
        binned: None,
        step: 0,
        crc: 0,
    };
    Commit {
        expected: rev,
        slot: Slot { head, body: write::shelf_text(shelf) }.sealed(),
        steps: StepsChange::default(),
    }
}

/// The same slot with another place in or out of the bin.
pub fn binned(slot: &Slot, binned: Option<Moment>) -> Commit {
    let mut next = slot.clone();
    next.head.rev += 1;
    next.head.binned = binned.map(Moment::millis);
    Commit {
        expected: Some(slot.head.rev),
        slot: next.sealed(),
        steps: StepsChange { first: 0, last: u64::MAX, put: Vec::new() },
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::{Snapshot, demo};

    #[test]
    fn bench_stored_and_opened_is_the_same_with_its_history() {
        let now = Moment::from_millis(1);
        let mut bench = Bench::new(DocId::random(1), demo(), Shelf::default(), now);
        let line = bench.state().formula.lines().next().map(|(_, line)| line.id).unwrap();
        bench.act(Action::RemoveLine(line), now);
        bench.act(Action::Title("Other".into()), now);
        let commit = bench.take_commit().unwrap();
        let mut opened = Bench::open(&commit.slot, commit.steps.put.clone(), Shelf::default()).unwrap();
        assert_eq!(opened.state().write(), bench.state().write());
        assert!(opened.undo(now) && opened.undo(now) && !opened.undo(now));
        assert_eq!(opened.state().write(), demo().state.write());
    }
}
