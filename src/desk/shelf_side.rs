//! The maker's shelf on the bench: changed, undone and written beside whatever formula is open.

use super::cupboard::{Cupboard, stored_shelf};
use super::{Bench, Commit, DocId, Head, Moment, ShelfAction, Slot, write};
use crate::facts::{IngredientId, Shelf};

impl Bench {
    /// Changes the shelf. Gives the id of a new ingredient.
    pub fn act_on_shelf(&mut self, action: ShelfAction) -> Option<IngredientId> {
        let mut shelf = self.cupboard.shelf.clone();
        let (made, spot) = action.apply(&mut shelf);
        self.cupboard.change(shelf, spot);
        made
    }

    /// The change of the shelf before the last one.
    pub fn undo_shelf(&mut self) {
        let shelf = self.cupboard.history.undo();
        self.cupboard.took(shelf);
    }

    /// The change of the shelf that was undone.
    pub fn redo_shelf(&mut self) {
        let shelf = self.cupboard.history.redo();
        self.cupboard.took(shelf);
    }

    /// True if the shelf can go a step back.
    pub fn can_undo_shelf(&self) -> bool {
        self.cupboard.history.can_undo()
    }

    /// True if the shelf can go a step forward.
    pub fn can_redo_shelf(&self) -> bool {
        self.cupboard.history.can_redo()
    }

    /// Takes over what another shelf adds to this one. Where both have a value, this one's stays.
    pub fn take_shelf(&mut self, other: &Shelf) {
        let joined = self.cupboard.shelf.joined(other);
        self.cupboard.change(joined, None);
    }

    /// What has to be written of the shelf, if anything. Call [`Self::shelf_written`] or [`Self::shelf_not_written`]
    /// afterwards.
    pub fn take_shelf_commit(&mut self, now: Moment) -> Option<Commit> {
        if !self.cupboard.dirty {
            return None;
        }
        self.cupboard.dirty = false;
        self.cupboard.on_its_way = Some(self.cupboard.shelf.clone());
        let rev = self.cupboard.rev;
        let head = Head {
            id: DocId::shelf(),
            rev: rev.unwrap_or(0) + 1,
            title: String::new(),
            changed: now.millis(),
            binned: None,
            step: self.cupboard.history.current(),
            crc: 0,
        };
        let slot = Slot { head, body: write::shelf_text(&self.cupboard.shelf) }.sealed();
        Some(Commit { expected: rev, slot, steps: self.cupboard.history.take_change() })
    }

    /// Another shelf takes the place of this one, unless this one is newer, or has changes that are unwritten or on their
    /// way: these are joined with it when they are written.
    pub fn adopt_cupboard(&mut self, cupboard: Cupboard) {
        if self.cupboard.on_its_way.is_some() {
            return;
        }
        if !self.cupboard.dirty && cupboard.rev >= self.cupboard.rev {
            self.cupboard = cupboard;
        } else if self.cupboard.dirty && cupboard.rev == self.cupboard.rev && cupboard.rev.is_some() {
            // Changed before the stored history was read.
            self.cupboard.history.go_on_from(cupboard.history);
        }
    }

    /// The shelf is in the journal.
    pub fn shelf_written(&mut self, rev: u64) {
        self.cupboard.rev = Some(rev);
        if let Some(written) = self.cupboard.on_its_way.take() {
            self.cupboard.base = written;
        }
    }

    /// The shelf is not in the journal: it is to be written again.
    pub fn shelf_not_written(&mut self) {
        self.cupboard.dirty = true;
        self.cupboard.on_its_way = None;
        self.cupboard.history.forget_written();
    }

    /// The journal no longer has a shelf: this one is to be written as the first.
    pub fn shelf_forgotten(&mut self) {
        self.cupboard.rev = None;
        self.shelf_not_written();
    }

    /// Another tab changed the shelf first: what it has is joined to what is here, and written over that revision.
    pub fn join_shelf(&mut self, stored: &Slot) {
        // What cannot be read of it was said when it was found, and its bytes were kept.
        let theirs = stored_shelf(stored).unwrap_or_default();
        let joined = self.cupboard.shelf.joined_since(&self.cupboard.base, &theirs);
        self.cupboard = Cupboard { rev: Some(stored.head.rev), dirty: true, base: theirs, ..Cupboard::from(joined) };
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::demo;
    use crate::facts::Field;

    #[test]
    fn shelf_change_is_undone_and_its_history_is_stored() {
        let now = Moment::from_millis(1);
        let mut bench = Bench::new(DocId::random(1), demo(), Cupboard::default(), now);
        let id = bench.act_on_shelf(ShelfAction::Add("Plum oil".into())).unwrap();
        for text in ["1", "12", "12."] {
            bench.act_on_shelf(ShelfAction::Set(id.clone(), Field::Max, text.into()));
        }
        let commit = bench.take_shelf_commit(now).unwrap();
        let mut again =
            Bench::new(DocId::random(2), demo(), Cupboard::open(&commit.slot, commit.steps.put).unwrap(), now);
        assert_eq!(again.shelf(), bench.shelf());
        again.undo_shelf();
        assert!(again.shelf().entry(&id).unwrap().cell(Field::Max).is_none(), "typing in one field is one step");
        again.undo_shelf();
        assert!(!again.shelf().knows(&id) && !again.can_undo_shelf());
        again.redo_shelf();
        assert!(again.shelf().knows(&id) && again.is_dirty());
    }

    #[test]
    fn shelf_of_another_tab_is_joined_over_what_both_began_with() {
        let now = Moment::from_millis(1);
        let glycerin = IngredientId::parse("glycerin").unwrap();
        let set = |bench: &mut Bench, field, text: &str| {
            bench.act_on_shelf(ShelfAction::Set(glycerin.clone(), field, text.into()));
        };
        let bench = |cupboard| Bench::new(DocId::random(1), demo(), cupboard, now);
        let mut mine = bench(Cupboard::default());
        set(&mut mine, Field::Max, "10");
        let first = mine.take_shelf_commit(now).unwrap();
        mine.shelf_written(first.slot.head.rev);
        let mut theirs = bench(Cupboard::open(&first.slot, Vec::new()).unwrap());
        set(&mut theirs, Field::Max, "12");
        let second = theirs.take_shelf_commit(now).unwrap();
        // Unaware of it, this tab changes another value.
        set(&mut mine, Field::Density, "1.25");
        let late = mine.take_shelf_commit(now).unwrap();
        assert_eq!(late.expected, Some(1));
        mine.join_shelf(&second.slot);
        let text = |field| mine.shelf().entry(&glycerin).unwrap().cell(field).map(|cell| cell.text.to_owned());
        assert_eq!((text(Field::Max).as_deref(), text(Field::Density).as_deref()), (Some("12"), Some("1.25")));
    }

    #[test]
    fn shelf_on_its_way_is_not_covered_and_one_changed_early_keeps_its_history() {
        let now = Moment::from_millis(1);
        let mut before = Bench::new(DocId::random(1), demo(), Cupboard::default(), now);
        before.act_on_shelf(ShelfAction::Add("Plum oil".into()));
        let first = before.take_shelf_commit(now).unwrap();
        let open = |steps| Cupboard::open(&first.slot, steps).unwrap();
        let mut quick = Bench::new(DocId::random(1), demo(), open(Vec::new()), now);
        let oats = quick.act_on_shelf(ShelfAction::Add("Oat flour".into())).unwrap();
        quick.adopt_cupboard(open(first.steps.put.clone()));
        assert!(quick.shelf().knows(&oats));
        let second = quick.take_shelf_commit(now).unwrap();
        assert_eq!((second.steps.last, second.steps.put.len()), (2, 1));
        quick.adopt_cupboard(open(Vec::new()));
        assert!(quick.shelf().knows(&oats), "on its way: neither unsaved nor saved");
        quick.shelf_written(second.slot.head.rev);
        quick.undo_shelf();
        quick.undo_shelf();
        assert_eq!(*quick.shelf(), Shelf::default());
    }
}
