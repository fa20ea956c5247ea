//! The maker's shelf as it is kept: with its own history, beside the formulas.

use super::history::read_step;
use super::{
    DocId, Fresh, History, News, Persist, Reopen, Snapshot, Steps, StepsChange, StoredDocument, Tracking, UndoGroup,
    Written, read_shelf, write,
};
use crate::facts::{Field, IngredientId};
use crate::quantity::Timestamp;
use crate::shelf::{Shelf, ShelfChange};

/// The maker's shelf with its own history: it belongs to all formulas, and stays when another one is opened.
#[derive(Debug, Clone)]
pub struct ShelfDocument {
    pub(super) shelf: Shelf,
    pub(super) history: History<Shelf>,
    pub(super) tracking: Tracking,
    /// What the journal has at the revision that is known: what another tab changed since is told by it.
    base: Shelf,
    /// The step of the history that is [`Self::base`].
    base_step: u64,
    /// What was handed to the journal and is not answered yet.
    on_its_way: Option<(Shelf, u64)>,
    /// Values that were typed in this tab: one of them that another tab changes is not changed without a word.
    typed_here: Vec<(IngredientId, Field)>,
}

impl Default for ShelfDocument {
    fn default() -> Self {
        Self::from(Shelf::default())
    }
}

impl From<Shelf> for ShelfDocument {
    /// A shelf that is not in the journal yet. An empty one need not be.
    fn from(shelf: Shelf) -> Self {
        let mut tracking = Tracking::new(DocId::shelf(), Timestamp::default());
        if shelf == Shelf::default() {
            tracking = tracking.unchanged();
        }
        let history = History::new(shelf.clone());
        let base_step = history.current();
        Self { history, shelf, tracking, base: Shelf::default(), base_step, on_its_way: None, typed_here: Vec::new() }
    }
}

impl ShelfDocument {
    /// True while something of it is not in the journal yet.
    pub fn is_dirty(&self) -> bool {
        self.tracking.is_dirty()
    }

    /// An unreadable shelf lies in the journal: this empty one is not written in its place before the maker says so.
    pub fn instead_of(unreadable: &StoredDocument) -> Self {
        let mut shelf_document = Self { tracking: Tracking::of(unreadable), ..Self::default() };
        shelf_document.tracking.hold();
        shelf_document
    }

    pub(super) fn change(&mut self, shelf: Shelf, group: Option<UndoGroup>, now: Timestamp) {
        if shelf != self.shelf {
            if let Some(UndoGroup::Shelf(id, field)) = &group
                && !self.typed_here.iter().any(|(at, typed)| at == id && typed == field)
            {
                self.typed_here.push((id.clone(), *field));
            }
            self.history.push(shelf.clone(), group);
            self.shelf = shelf;
            self.tracking.touch(now);
        }
    }

    pub(super) fn took(&mut self, shelf: Option<Shelf>, now: Timestamp) {
        if let Some(shelf) = shelf {
            self.shelf = shelf;
            self.tracking.touch(now);
        }
    }

    /// This one was changed before the stored one was read, which stands in its place from now on: as if the change had been
    /// made to that. Where it had been read before, nothing changes.
    pub(super) fn remember(&mut self, stored: Self) {
        if !self.history.go_on_from(stored.history) {
            if !self.tracking.rests_on(&stored.tracking) {
                // It was changed as a shelf that is no longer the newest: the next write joins the two.
                self.tracking.doubt();
            }
            return;
        }
        self.tracking.go_on_from(&stored.tracking);
        (self.base, self.base_step) = (stored.base, stored.base_step);
    }

    /// The newest shelf of the journal takes the place of this one, which has no changes of its own. Gives the two, if
    /// anything was typed in this tab.
    pub(super) fn give_way(&mut self, stored: Self) -> Option<ShelfChange> {
        let typed_here = core::mem::take(&mut self.typed_here);
        let other = core::mem::replace(self, Self { typed_here: typed_here.clone(), ..stored }).shelf;
        let change = ShelfChange { kept: self.shelf.clone(), other, base: None, typed_here };
        (!change.typed_here.is_empty()).then_some(change)
    }
}

impl Persist for ShelfDocument {
    fn tracking(&self) -> &Tracking {
        &self.tracking
    }

    fn tracking_mut(&mut self) -> &mut Tracking {
        &mut self.tracking
    }

    fn write(&self) -> Written {
        Written { title: String::new(), body: write::shelf_text(&self.shelf), step: self.step() }
    }

    fn step(&self) -> u64 {
        self.history.current()
    }

    fn take_steps(&mut self) -> StepsChange {
        self.history.take_change()
    }

    fn forget_steps(&mut self) {
        self.on_its_way = None;
        self.history.forget_written();
    }

    fn handed_over(&mut self) {
        self.on_its_way = Some((self.shelf.clone(), self.history.current()));
    }

    fn arrived(&mut self, revision: u64) {
        self.tracking.arrived(revision);
        if let Some((written, step)) = self.on_its_way.take() {
            (self.base, self.base_step) = (written, step);
        }
    }

    fn rebase(&mut self, journal: Option<&StoredDocument>) {
        self.base = journal.and_then(stored_shelf).unwrap_or_default();
        self.tracking.rebase(journal.map(|stored| &stored.meta));
        self.forget_steps();
    }

    /// Both are joined. What is undone is what was typed here, joined in the same way, and behind it all that the other tab
    /// has stored: so a value of its that gave way is one step back.
    fn overtaken(&mut self, theirs: &StoredDocument, steps: Steps, fresh: Fresh) -> News {
        let Some(shelf) = stored_shelf(theirs).filter(|_| theirs.is_ours()) else {
            self.tracking.hold_back();
            return News::not_ours(theirs);
        };
        let change = ShelfChange {
            kept: self.shelf.clone(),
            other: shelf.clone(),
            base: Some(self.base.clone()),
            typed_here: Vec::new(),
        };
        let mut since = self.history.since(self.base_step);
        if since.is_empty() {
            since.push(self.shelf.clone());
        }
        let mut history = History::restore(shelf.clone(), steps, theirs.meta.step);
        let base_step = history.current();
        for state in since {
            history.push(state.joined_since(&self.base, &shelf), None);
        }
        self.shelf = self.shelf.joined_since(&self.base, &shelf);
        self.tracking = Tracking::of(theirs);
        self.tracking.touch(fresh.now);
        (self.history, self.base, self.base_step, self.on_its_way) = (history, shelf, base_step, None);
        News::ShelfJoined(Box::new(change))
    }
}

impl Reopen for ShelfDocument {
    fn open(stored: &StoredDocument, steps: Steps) -> Option<Self> {
        let shelf = stored_shelf(stored)?;
        let history = History::restore(shelf.clone(), steps, stored.meta.step);
        let base_step = history.current();
        let tracking = Tracking::of(stored);
        let base = shelf.clone();
        Some(Self { history, base, shelf, tracking, base_step, on_its_way: None, typed_here: Vec::new() })
    }

    fn from_step(_: &DocId, step: &str, _: Timestamp) -> Option<Self> {
        read_step::<Shelf>(step).map(Self::from)
    }
}

impl Snapshot for Shelf {
    fn write(&self) -> String {
        write::shelf_text(self)
    }

    fn read(text: &str) -> Option<Self> {
        let mut shelf = Self::default();
        read_shelf::read_shelf_text(text, &mut shelf).ok()?;
        Some(shelf)
    }
}

/// The shelf of a stored document; `None` if its text cannot be read.
pub fn stored_shelf(stored: &StoredDocument) -> Option<Shelf> {
    Shelf::read(&stored.body)
}
