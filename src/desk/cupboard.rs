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
}

impl Default for Cupboard {
    fn default() -> Self {
        Self::from(Shelf::default())
    }
}

impl From<Shelf> for Cupboard {
    /// A shelf that is not in the journal yet.
    fn from(shelf: Shelf) -> Self {
        Self { history: History::new(shelf.clone()), shelf, rev: None, dirty: false }
    }
}

impl Cupboard {
    /// As stored, with its stored history.
    pub fn open(slot: &Slot, steps: Vec<(u64, String)>) -> Self {
        let shelf = stored_shelf(slot);
        let history = History::restore(shelf.clone(), steps, slot.head.step);
        Self { shelf, history, rev: Some(slot.head.rev), dirty: false }
    }

    /// The newest copy of the shelf is not the one of the journal, which has this revision: it is to be written over that.
    #[must_use]
    pub fn ahead_of(self, rev: Option<u64>) -> Self {
        Self { rev, dirty: true, ..self }
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

/// The shelf of a stored slot.
pub fn stored_shelf(slot: &Slot) -> Shelf {
    let mut shelf = Shelf::default();
    // A damaged shelf leaves the built-in one; its bytes stay stored until the next change of the shelf.
    let _ = read_shelf::read_shelf_text(&slot.body, &mut shelf);
    shelf
}
