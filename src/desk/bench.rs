//! The open document with its history and the maker's shelf: what the page acts on.

use super::cupboard::Cupboard;
use super::{
    Action, Commit, DocId, Document, Head, History, Made, Moment, Slot, State, apply, crc32, demo, read, settle_words,
    write,
};
use crate::facts::Shelf;
use crate::rules::{self, Finding};
use crate::sheet::{self, Masses, Sheet};

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
    pub(super) cupboard: Cupboard,
    /// The revision in the journal; `None` if it is not there yet.
    rev: Option<u64>,
    changed: Moment,
    dirty: bool,
    /// It is the worked example, and nobody has touched it.
    untouched: bool,
}

impl Bench {
    /// A document that was never stored.
    pub fn new(id: DocId, document: Document, cupboard: Cupboard, now: Moment) -> Self {
        let history = History::new(document.state.clone());
        Self { id, document, history, cupboard, rev: None, changed: now, dirty: true, untouched: false }
    }

    /// The worked example: until it is changed or stored, nothing is lost with it.
    pub fn example(id: DocId, cupboard: Cupboard, now: Moment) -> Self {
        Self { untouched: true, ..Self::new(id, demo(), cupboard, now) }
    }

    /// A stored document and its stored history; `None` if its text cannot be read.
    pub fn open(slot: &Slot, steps: Vec<(u64, String)>, cupboard: Cupboard) -> Option<Self> {
        let document = read::read_stored(&slot.body).ok()?;
        let history = History::restore(document.state.clone(), steps, slot.head.step);
        Some(Self {
            id: slot.head.id.clone(),
            document,
            history,
            cupboard,
            rev: Some(slot.head.rev),
            changed: Moment::from_millis(slot.head.changed),
            dirty: false,
            untouched: false,
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
        &self.cupboard.shelf
    }

    /// The shelf with its history, to be handed to the next document.
    pub fn cupboard(&self) -> &Cupboard {
        &self.cupboard
    }

    /// The same document beside another shelf.
    #[must_use]
    pub fn beside(self, cupboard: Cupboard) -> Self {
        Self { cupboard, ..self }
    }

    /// Another one than before if the document was changed or written meanwhile.
    pub(super) fn revision_and_step(&self) -> (Option<u64>, u64) {
        (self.rev, self.history.current())
    }

    /// True while something is not in the journal yet.
    pub fn is_dirty(&self) -> bool {
        self.dirty || self.cupboard.dirty
    }

    /// True while another document may take this one's place without its being written first.
    pub fn may_go(&self) -> bool {
        !self.is_dirty() || (self.untouched && self.rev.is_none() && !self.cupboard.dirty)
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

    /// Ends typing in a field: a word for filling up takes effect, and the next change is a step of its own. True if that
    /// changed the formula.
    pub fn rest(&mut self, now: Moment) -> bool {
        let before = self.document.state.clone();
        settle_words(&mut self.document.state);
        let changed = self.document.state != before;
        if changed {
            self.history.amend(self.document.state.clone());
            self.touch(now);
        }
        self.history.rest();
        self.cupboard.history.rest();
        changed
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
    pub fn save_version(&mut self, now: Moment) -> u32 {
        let kept = self.document.versions.len();
        let number = self.document.save_version(now);
        if self.document.versions.len() != kept {
            self.touch(now);
        }
        number
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

    /// Everything that was not handed to the journal yet, for a page that is closing and cannot wait for it: as copies for
    /// the echo, which win when it opens again. Nothing changes here.
    ///
    /// They are one revision above the one that they rest on, never more: if anything was written meanwhile, by another tab
    /// or by a write on its way, the journal is as high, and wins. Unsaved words must not cover saved ones.
    pub fn last_words(&self, now: Moment) -> Vec<Slot> {
        let mut aside = self.clone();
        [aside.take_commit(), aside.take_shelf_commit(now)].into_iter().flatten().map(|commit| commit.slot).collect()
    }

    /// Another tab wrote this document first: what is here goes on as a document of its own.
    pub fn split_off(&mut self, id: DocId, title: String, now: Moment) {
        self.id = id;
        self.rev = None;
        self.document.state.formula.about.title = title;
        self.history = History::new(self.document.state.clone());
        self.touch(now);
    }

    /// Puts the stored history behind what was typed before it was read: `stored` is the same document at the same revision.
    /// Nothing changes if it is another one, or if what was typed is on its way to the journal already.
    pub fn remember(&mut self, stored: Self) {
        if self.dirty && stored.id == self.id && stored.rev == self.rev && stored.rev.is_some() {
            self.history.go_on_from(stored.history);
        }
    }

    /// This document is to be written over the revision that the journal has.
    pub fn rebase(&mut self, rev: Option<u64>) {
        self.rev = rev;
        self.not_written();
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::{ShelfAction, Snapshot};

    #[test]
    fn bench_stored_and_opened_is_the_same_with_its_history() {
        let now = Moment::from_millis(1);
        let mut bench = Bench::new(DocId::random(1), demo(), Cupboard::default(), now);
        let line = bench.state().formula.lines().next().map(|(_, line)| line.id).unwrap();
        bench.act(Action::RemoveLine(line), now);
        bench.act(Action::Title("Other".into()), now);
        let commit = bench.take_commit().unwrap();
        let mut opened = Bench::open(&commit.slot, commit.steps.put.clone(), Cupboard::default()).unwrap();
        assert_eq!(opened.state().write(), bench.state().write());
        assert!(opened.undo(now) && opened.undo(now) && !opened.undo(now));
        assert_eq!(opened.state().write(), demo().state.write());
    }

    #[test]
    fn word_for_filling_up_acts_when_the_field_is_left_and_is_one_step_of_undo() {
        let now = Moment::from_millis(1);
        let mut bench = Bench::new(DocId::random(1), demo(), Cupboard::default(), now);
        let start = bench.state().write();
        let (before, line) = {
            let formula = &bench.state().formula;
            let typed = formula.lines().find(|(_, line)| !line.share.is_fill_up()).unwrap().1.id;
            (formula.fill_up().unwrap(), typed)
        };
        for text in ["r", "re", "res", "rest", "rest1", "rest", "ad100", "q", "qs", "q.s."] {
            bench.act(Action::ShareLine(line, text.into()), now);
            assert_eq!(bench.state().formula.fill_up(), Some(before), "no other line changes while {text:?} is typed");
            assert_eq!(bench.state().formula.line(line).unwrap().share.typed().unwrap().text(), text);
        }
        assert!(bench.rest(now) && !bench.rest(now));
        assert_eq!(bench.state().formula.fill_up(), Some(line));
        assert!(bench.state().formula.line(before).unwrap().share.typed().unwrap().value().is_some());
        assert!(bench.undo(now));
        assert_eq!(bench.state().write(), start);
        assert!(!bench.undo(now));
    }

    #[test]
    fn last_words_are_newer_than_what_they_rest_on_and_no_more() {
        let now = Moment::from_millis(1);
        let mut bench = Bench::new(DocId::random(1), demo(), Cupboard::default(), now);
        let first = bench.take_commit().unwrap();
        bench.written(first.slot.head.rev);
        assert_eq!(bench.last_words(now), [], "all of it is in the journal");
        bench.act(Action::Title("Typed as the page closes".into()), now);
        bench.act_on_shelf(ShelfAction::Add("Plum oil".into()));
        let words = bench.last_words(now);
        assert!(bench.is_dirty() && words.iter().all(Slot::is_whole));
        assert_eq!(words.iter().map(|slot| slot.head.rev).collect::<Vec<_>>(), [2, 1]);
        assert_eq!(words[0].head.title, "Typed as the page closes");
        // What another tab wrote over the same revision, or a write on its way, is as high.
        let on_its_way = bench.take_commit().unwrap();
        bench.act(Action::Title("Typed after it began".into()), now);
        assert_eq!(bench.last_words(now)[0].head.rev, on_its_way.slot.head.rev);
    }

    #[test]
    fn example_may_go_until_it_is_touched_and_a_new_formula_never_unwritten() {
        let now = Moment::from_millis(1);
        let mut example = Bench::example(DocId::random(1), Cupboard::default(), now);
        assert!(example.is_dirty() && example.may_go());
        example.act_on_shelf(ShelfAction::Add("Plum oil".into()));
        assert!(!example.may_go(), "the shelf is to be written first");
        let mut example = Bench::example(DocId::random(1), Cupboard::default(), now);
        example.act(Action::Title("Mine".into()), now);
        assert!(!example.may_go());
        let fresh = Bench::new(DocId::random(2), Document::default(), Cupboard::default(), now);
        assert!(!fresh.may_go(), "it may hold an hour of work that no store has taken yet");
    }

    #[test]
    fn typing_before_the_history_was_read_keeps_the_history() {
        let now = Moment::from_millis(1);
        let mut before = Bench::new(DocId::random(1), demo(), Cupboard::default(), now);
        for title in ["One", "Two", "Three"] {
            before.act(Action::Title(title.into()), now);
            before.rest(now);
        }
        let commit = before.take_commit().unwrap();
        let open = |steps| Bench::open(&commit.slot, steps, Cupboard::default()).unwrap();
        // From the echo, without steps; typed in; then the journal is read.
        let mut quick = open(Vec::new());
        quick.act(Action::Title("Four".into()), now);
        quick.remember(open(commit.steps.put.clone()));
        let next = quick.take_commit().unwrap();
        assert_eq!((next.steps.first, next.steps.last, next.steps.put.len()), (0, 4, 1), "no stored step is cut");
        let titles: Vec<String> =
            core::iter::from_fn(|| quick.undo(now).then(|| quick.state().formula.about.title.clone())).collect();
        assert_eq!(titles, ["Three", "Two", "One", &demo().state.formula.about.title]);
        // A copy of another revision has another past.
        let mut other = open(Vec::new());
        other.act(Action::Title("Four".into()), now);
        other.written(9);
        other.remember(open(commit.steps.put.clone()));
        assert!(other.undo(now) && !other.undo(now));
    }
}
