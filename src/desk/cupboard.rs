//! The maker's shelf as it is kept: with its own history, beside the formulas.

use super::{History, Slot, Snapshot, Spot, read_shelf, write};
use crate::facts::Shelf;

/// The maker's shelf with its own history: it belongs to all formulas, and stays when another one is opened.
#[derive(Debug, Clone)]
pub struct Cupboard {
    pub(super) shelf: Shelf,
    pub(super) history: History<Shelf>,
    /// The revision in the journal; `None` if it is not there yet.
    pub(super) rev: Option<u64>,
    pub(super) dirty: bool,
    /// What the journal has at that revision: what another tab changed since is told by it.
    pub(super) base: Shelf,
    /// What was handed to the journal and is not answered yet.
    pub(super) on_its_way: Option<Shelf>,
}

impl Default for Cupboard {
    fn default() -> Self {
        Self::from(Shelf::default())
    }
}

impl From<Shelf> for Cupboard {
    /// A shelf that is not in the journal yet.
    fn from(shelf: Shelf) -> Self {
        let history = History::new(shelf.clone());
        Self { history, shelf, rev: None, dirty: false, base: Shelf::default(), on_its_way: None }
    }
}

impl Cupboard {
    /// As stored, with its stored history; `None` if its text cannot be read.
    pub fn open(slot: &Slot, steps: Vec<(u64, String)>) -> Option<Self> {
        let shelf = stored_shelf(slot)?;
        let history = History::restore(shelf.clone(), steps, slot.head.step);
        Some(Self { history, base: shelf.clone(), shelf, rev: Some(slot.head.rev), dirty: false, on_its_way: None })
    }

    /// The newest copy of the shelf is not this one of the journal: it is to be written over that.
    #[must_use]
    pub fn ahead_of(self, journals: Option<&Slot>) -> Self {
        let base = journals.and_then(stored_shelf).unwrap_or_default();
        Self { rev: journals.map(|slot| slot.head.rev), base, dirty: true, ..self }
    }

    pub(super) fn change(&mut self, shelf: Shelf, spot: Option<Spot>) {
        if shelf != self.shelf {
            self.history.push(shelf.clone(), spot);
            self.shelf = shelf;
            self.dirty = true;
        }
    }

    pub(super) fn took(&mut self, shelf: Option<Shelf>) {
        if let Some(shelf) = shelf {
            self.shelf = shelf;
            self.dirty = true;
        }
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

/// The shelf of a stored slot; `None` if its text cannot be read.
pub fn stored_shelf(slot: &Slot) -> Option<Shelf> {
    Shelf::read(&slot.body)
}
