//! Every change that can be made to the shelf, as one value.

use super::UndoGroup;
use super::texts::{MOST_NAME, MOST_NOTE, kept};
use crate::facts::{Field, IngredientId};
use crate::shelf::{LotField, MOST_LOTS, Shelf};

/// A change to the shelf.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ShelfAction {
    /// A value of an ingredient as typed; empty text brings the table's value back.
    Set(IngredientId, Field, String),
    /// A new ingredient of the maker's own.
    Add(String),
    /// One more lot of an ingredient.
    AddLot(IngredientId),
    /// A text of the lot at a place, as typed.
    SetLot(IngredientId, usize, LotField, String),
    /// Away with the lot at a place.
    RemoveLot(IngredientId, usize),
    /// Away with one of the maker's own.
    Remove(IngredientId),
}

impl ShelfAction {
    /// True if the shelf has no room for what this adds.
    pub fn is_too_much(&self, shelf: &Shelf) -> bool {
        match self {
            Self::Add(_) => !shelf.has_room(None),
            Self::Set(id, ..) => !shelf.has_room(Some(id)),
            Self::AddLot(id) => shelf.lots_of(id).len() >= MOST_LOTS,
            Self::SetLot(..) | Self::RemoveLot(..) | Self::Remove(_) => false,
        }
    }

    /// Makes the change, unless it [`Self::is_too_much`]. Gives the id of a new ingredient, and where it is typing.
    pub(super) fn apply(self, shelf: &mut Shelf) -> (Option<IngredientId>, Option<UndoGroup>) {
        if self.is_too_much(shelf) {
            return (None, None);
        }
        match self {
            Self::Set(id, field, text) => {
                shelf.set(&id, field, kept(text, MOST_NOTE));
                return (None, Some(UndoGroup::Shelf(id, field)));
            }
            Self::SetLot(id, n, field, text) => {
                let most = if field == LotField::Statement { MOST_NOTE } else { MOST_NAME };
                shelf.set_lot(&id, n, field, kept(text, most));
                return (None, Some(UndoGroup::Lot(id, n, field)));
            }
            Self::Add(name) => return (Some(shelf.add_own(&kept(name, MOST_NAME))), None),
            Self::Remove(id) => shelf.remove_own(&id),
            Self::AddLot(id) => shelf.add_lot(&id),
            Self::RemoveLot(id, n) => shelf.remove_lot(&id, n),
        };
        (None, None)
    }
}
