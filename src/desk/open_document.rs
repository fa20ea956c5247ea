//! The open document with its history and the maker's shelf: what the page acts on.

use super::history::read_step;
use super::shelf_document::ShelfDocument;
use super::{
    Action, DocId, Document, Fresh, History, Made, News, Persist, Reopen, State, Steps, StepsChange, StoredDocument,
    Tracking, Written, apply, apply_fill_up_words, crc32, demo, read, write,
};
use crate::facts::Shelf;
use crate::quantity::Timestamp;
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
pub struct OpenDocument {
    document: Document,
    history: History<State>,
    tracking: Tracking,
    pub(super) shelf_document: ShelfDocument,
    /// It is the worked example, and nobody has touched it.
    untouched: bool,
}

impl OpenDocument {
    /// A document that was never stored.
    pub fn new(id: DocId, document: Document, shelf_document: ShelfDocument, now: Timestamp) -> Self {
        let history = History::new(document.state.clone());
        Self { document, history, tracking: Tracking::new(id, now), shelf_document, untouched: false }
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

    /// What is open: the formula and the shelf.
    pub fn open_ids(&self) -> [DocId; 2] {
        [DocId::shelf(), self.id().clone()]
    }

    /// The open document of an id, whatever its kind.
    pub fn stored(&mut self, id: &DocId) -> Option<&mut dyn Persist> {
        if self.shelf_document.tracking().id() == id {
            Some(&mut self.shelf_document)
        } else if self.id() == id {
            Some(self)
        } else {
            None
        }
    }

    /// True while something is not in the journal yet.
    pub fn is_dirty(&self) -> bool {
        self.tracking.is_dirty() || self.shelf_document.is_dirty()
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

    fn touch(&mut self, now: Timestamp) {
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
        [self.unsaved(), self.shelf_document.unsaved()].into_iter().flatten().collect()
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
            untouched: false,
        })
    }

    fn from_step(id: &DocId, step: &str, changed: Timestamp) -> Option<Self> {
        let document = Document { state: read_step(step)?, versions: Vec::new() };
        Some(Self::new(id.clone(), document, ShelfDocument::default(), changed))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::{ShelfAction, Snapshot};

    #[test]
    fn document_stored_and_opened_is_the_same_with_its_history() {
        let now = Timestamp::from_millis(1);
        let mut open = OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), now);
        let line = open.state().formula.lines().next().map(|(_, line)| line.id).unwrap();
        open.act(Action::RemoveLine(line), now);
        open.act(Action::Title("Other".into()), now);
        let commit = open.take_commit().unwrap();
        let mut opened = OpenDocument::open(&commit.stored, commit.steps.put.clone()).unwrap();
        assert_eq!(opened.state().write(), open.state().write());
        assert!(opened.undo(now) && opened.undo(now) && !opened.undo(now));
        assert_eq!(opened.state().write(), demo().state.write());
    }

    #[test]
    fn word_for_filling_up_acts_when_the_field_is_left_and_is_one_step_of_undo() {
        let now = Timestamp::from_millis(1);
        let mut open = OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), now);
        let start = open.state().write();
        let (before, line) = {
            let formula = &open.state().formula;
            let typed = formula.lines().find(|(_, line)| !line.share.is_fill_up()).unwrap().1.id;
            (formula.fill_up().unwrap(), typed)
        };
        let had = crate::sheet::totals(&open.state().formula).share_of(before);
        for text in ["r", "re", "res", "rest", "rest1", "rest", "ad100", "q", "qs", "q.s."] {
            open.act(Action::ShareLine(line, text.into()), now);
            assert_eq!(open.state().formula.fill_up(), Some(before), "no other line changes while {text:?} is typed");
            assert_eq!(open.state().formula.line(line).unwrap().share.typed().unwrap().text(), text);
        }
        assert!(open.end_undo_group(now) && !open.end_undo_group(now));
        assert_eq!(open.state().formula.fill_up(), Some(line));
        let kept = open.state().formula.line(before).unwrap().share.typed().unwrap().value();
        assert_eq!(kept, had, "the share that it had, not what came to it while the word was typed");
        assert!(open.undo(now));
        assert_eq!(open.state().write(), start);
        assert!(!open.undo(now));
    }

    #[test]
    fn unsaved_snapshots_are_newer_than_what_they_rest_on_and_no_more() {
        let now = Timestamp::from_millis(1);
        let mut open = OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), now);
        let first = open.take_commit().unwrap();
        open.arrived(first.stored.meta.revision);
        assert_eq!(open.unsaved_snapshots(), [], "all of it is in the journal");
        open.act(Action::Title("Typed as the page closes".into()), now);
        open.act_on_shelf(ShelfAction::Add("Plum oil".into()), now);
        let words = open.unsaved_snapshots();
        assert!(open.is_dirty() && words.iter().all(StoredDocument::is_whole));
        assert_eq!(words.iter().map(|stored| stored.meta.revision).collect::<Vec<_>>(), [2, 1]);
        assert_eq!(words[0].meta.title, "Typed as the page closes");
        assert!(words[0].is_ahead_of(&first.stored));
        // Browsers end a write with its page: what is on its way is not there yet. Whether it arrives or not, what was typed after it began is newer; what another tab wrote over the
        // same revision is not covered.
        let on_its_way = open.take_commit().unwrap();
        assert!(
            open.unsaved_snapshots()[0].is_ahead_of(&on_its_way.stored),
            "nothing was typed since, and it may not arrive"
        );
        open.act(Action::Title("Typed after it began".into()), now);
        let words = open.unsaved_snapshots();
        assert!(words[0].is_ahead_of(&on_its_way.stored) && words[0].is_ahead_of(&first.stored));
        let mut tab = OpenDocument::open(&first.stored, Vec::new()).unwrap();
        tab.act(Action::Title("Another tab".into()), now);
        assert!(!words[0].is_ahead_of(&tab.take_commit().unwrap().stored));
    }

    #[test]
    fn example_may_go_until_it_is_touched_and_a_new_formula_never_unwritten() {
        let now = Timestamp::from_millis(1);
        let mut example = OpenDocument::example(DocId::random(1), ShelfDocument::default(), now);
        assert!(example.is_dirty() && example.may_go());
        example.act_on_shelf(ShelfAction::Add("Plum oil".into()), now);
        assert!(!example.may_go(), "the shelf is to be written first");
        let mut example = OpenDocument::example(DocId::random(1), ShelfDocument::default(), now);
        example.act(Action::Title("Mine".into()), now);
        assert!(!example.may_go());
        let fresh = OpenDocument::new(DocId::random(2), Document::default(), ShelfDocument::default(), now);
        assert!(!fresh.may_go(), "it may hold an hour of work that no store has taken yet");
    }

    #[test]
    fn typing_before_the_history_was_read_keeps_the_history() {
        let now = Timestamp::from_millis(1);
        let mut before = OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), now);
        for title in ["One", "Two", "Three"] {
            before.act(Action::Title(title.into()), now);
            before.end_undo_group(now);
        }
        let commit = before.take_commit().unwrap();
        let open = |steps| OpenDocument::open(&commit.stored, steps).unwrap();
        // From the local mirror, without steps; typed in; then the journal is read.
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
        other.undo(now);
        other.act(Action::Title("Five".into()), now);
        let mut changed = open(commit.steps.put.clone());
        changed.act(Action::Title("Elsewhere".into()), now);
        other.remember(changed);
        assert!(other.undo(now) && !other.undo(now));
    }

    #[test]
    fn reading_the_formula_that_is_open_and_typed_in_leaves_it_as_it_is() {
        let now = Timestamp::from_millis(1);
        let mut open = OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), now);
        open.act(Action::Title("One".into()), now);
        open.end_undo_group(now);
        let first = open.take_commit().unwrap();
        open.arrived(first.stored.meta.revision);
        open.act(Action::Title("Two".into()), now);
        open.remember(OpenDocument::open(&first.stored, first.steps.put).unwrap());
        let next = open.take_commit().unwrap();
        assert_eq!(
            next.expected,
            Some(first.stored.meta.revision),
            "what is stored is this tab's own, and no other one's"
        );
        assert!(open.undo(now) && open.undo(now) && !open.undo(now));
    }
}
