//! Which history a step back or forward is one of: that of the formula, or that of the shelf.

use super::{OpenDocument, Screen};
use crate::quantity::Timestamp;

/// What has a history of its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum UndoTarget {
    /// The open formula, its plan and its papers.
    Formula,
    /// The maker's shelf.
    Shelf,
}

impl Screen {
    /// The history that undo walks while this place is shown.
    pub const fn undo_target(self) -> UndoTarget {
        match self {
            Self::Shelf => UndoTarget::Shelf,
            Self::Formula | Self::Batch | Self::Proof | Self::Papers | Self::Stove => UndoTarget::Formula,
        }
    }
}

impl OpenDocument {
    /// One step back in a history, if there is one.
    pub fn undo_in(&mut self, target: UndoTarget, now: Timestamp) {
        match target {
            UndoTarget::Formula => _ = self.undo(now),
            UndoTarget::Shelf => self.undo_shelf(now),
        }
    }

    /// One step forward in a history, if there is one.
    pub fn redo_in(&mut self, target: UndoTarget, now: Timestamp) {
        match target {
            UndoTarget::Formula => _ = self.redo(now),
            UndoTarget::Shelf => self.redo_shelf(now),
        }
    }

    /// Whether a history has a step back, and one forward.
    pub fn can_step_in(&self, target: UndoTarget) -> (bool, bool) {
        match target {
            UndoTarget::Formula => (self.can_undo(), self.can_redo()),
            UndoTarget::Shelf => (self.can_undo_shelf(), self.can_redo_shelf()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::{Action, DocId, Document, ShelfAction, ShelfDocument};

    #[test]
    fn undo_walks_the_history_of_its_target_alone() {
        let now = Timestamp::from_millis(1);
        let mut open = OpenDocument::new(DocId::random(1), Document::default(), ShelfDocument::default(), now);
        open.act(Action::Title("Cream".into()), now);
        open.end_undo_group(now);
        let plum = open.act_on_shelf(ShelfAction::Add("Plum oil".into()), now).unwrap();
        let shown = |open: &OpenDocument| (open.state().formula.about.title.clone(), open.shelf().knows(&plum));
        let (formula, shelf) = (Screen::Batch.undo_target(), Screen::Shelf.undo_target());
        assert_eq!((open.can_step_in(formula), open.can_step_in(shelf)), ((true, false), (true, false)));
        open.undo_in(shelf, now);
        assert_eq!(shown(&open), ("Cream".into(), false));
        assert_eq!((open.can_step_in(formula), open.can_step_in(shelf)), ((true, false), (false, true)));
        open.undo_in(formula, now);
        assert_eq!(shown(&open), (String::new(), false));
        open.redo_in(shelf, now);
        assert_eq!(shown(&open), (String::new(), true));
        open.redo_in(formula, now);
        assert_eq!(shown(&open), ("Cream".into(), true));
    }
}
