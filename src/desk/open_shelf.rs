//! The maker's shelf beside the open document: changed, undone and written beside whatever formula is open.

use super::shelf_document::ShelfDocument;
use super::{OpenDocument, ShelfAction};
use crate::facts::IngredientId;
use crate::quantity::Timestamp;
use crate::shelf::{Shelf, ShelfChange};

impl OpenDocument {
    /// Changes the shelf. Gives the id of a new ingredient.
    pub fn act_on_shelf(&mut self, action: ShelfAction, now: Timestamp) -> Option<IngredientId> {
        let mut shelf = self.shelf_document.shelf.clone();
        let (made, group) = action.apply(&mut shelf);
        self.shelf_document.change(shelf, group, now);
        made
    }

    /// The change of the shelf before the last one.
    pub fn undo_shelf(&mut self, now: Timestamp) {
        let shelf = self.shelf_document.history.undo();
        self.shelf_document.took(shelf, now);
    }

    /// The change of the shelf that was undone.
    pub fn redo_shelf(&mut self, now: Timestamp) {
        let shelf = self.shelf_document.history.redo();
        self.shelf_document.took(shelf, now);
    }

    /// True if the shelf can go a step back.
    pub fn can_undo_shelf(&self) -> bool {
        self.shelf_document.history.can_undo()
    }

    /// True if the shelf can go a step forward.
    pub fn can_redo_shelf(&self) -> bool {
        self.shelf_document.history.can_redo()
    }

    /// Takes over what another shelf adds to this one. Where both have a value, this one's stays.
    pub fn take_shelf(&mut self, other: &Shelf, now: Timestamp) {
        let joined = self.shelf_document.shelf.joined(other);
        self.shelf_document.change(joined, None, now);
    }

    /// A stored shelf takes the place of this one, if this one `gives_way`; else it is what this one goes on from. Gives both,
    /// if something that was typed in this tab may have gone with it.
    pub fn adopt_shelf(&mut self, stored: ShelfDocument, gives_way: bool) -> Option<ShelfChange> {
        if gives_way {
            return self.shelf_document.give_way(stored);
        }
        self.shelf_document.remember(stored);
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::{DocId, Fresh, News, Persist, Reopen, StoredDocument, demo};
    use crate::facts::Field;

    fn now() -> Timestamp {
        Timestamp::from_millis(1)
    }

    fn opened(shelf_document: ShelfDocument) -> OpenDocument {
        OpenDocument::new(DocId::random(1), demo(), shelf_document, now())
    }

    fn glycerin() -> IngredientId {
        IngredientId::parse("glycerin").unwrap()
    }

    fn set(open: &mut OpenDocument, field: Field, text: &str) {
        open.act_on_shelf(ShelfAction::Set(glycerin(), field, text.into()), now());
        open.end_undo_group(now());
    }

    fn text(open: &OpenDocument, field: Field) -> Option<String> {
        open.shelf().entry(&glycerin()).unwrap().cell(field).map(|cell| cell.text.to_owned())
    }

    fn fresh() -> Fresh {
        Fresh { id: DocId::random(9), title: String::new(), now: now() }
    }

    #[test]
    fn shelf_change_is_undone_and_its_history_is_stored() {
        let mut open = opened(ShelfDocument::default());
        let id = open.act_on_shelf(ShelfAction::Add("Plum oil".into()), now()).unwrap();
        for text in ["1", "12", "12."] {
            open.act_on_shelf(ShelfAction::Set(id.clone(), Field::Max, text.into()), now());
        }
        let commit = open.shelf_document.take_commit().unwrap();
        let mut again = self::opened(ShelfDocument::open(&commit.stored, commit.steps.put).unwrap());
        assert_eq!(again.shelf(), open.shelf());
        again.undo_shelf(now());
        assert!(again.shelf().entry(&id).unwrap().cell(Field::Max).is_none(), "typing in one field is one step");
        again.undo_shelf(now());
        assert!(!again.shelf().knows(&id) && !again.can_undo_shelf());
        again.redo_shelf(now());
        assert!(again.shelf().knows(&id) && again.is_dirty());
    }

    #[test]
    fn shelf_reason_for_a_value_is_stored_with_it() {
        let mut open = opened(ShelfDocument::default());
        let olive = IngredientId::parse("olive").unwrap();
        for (field, text) in [(Field::SvLow, "205"), (Field::SvReason, "titrated twice")] {
            open.act_on_shelf(ShelfAction::Set(olive.clone(), field, text.into()), now());
        }
        let commit = open.shelf_document.take_commit().unwrap();
        let again = self::opened(ShelfDocument::open(&commit.stored, commit.steps.put).unwrap());
        assert_eq!(again.shelf().entry(&olive).unwrap().sv_reason(), Some("titrated twice"));
    }

    #[test]
    fn shelf_of_another_tab_is_joined_over_what_both_began_with_and_can_be_undone() {
        let mut mine = opened(ShelfDocument::default());
        set(&mut mine, Field::Max, "10");
        let first = mine.shelf_document.take_commit().unwrap();
        mine.shelf_document.arrived(first.stored.meta.revision);
        let mut theirs = opened(ShelfDocument::open(&first.stored, first.steps.put.clone()).unwrap());
        set(&mut theirs, Field::Max, "12");
        let second = theirs.shelf_document.take_commit().unwrap();
        let steps = first.steps.put.into_iter().chain(second.steps.put).collect();
        // Unaware of it, this tab changes the same value and another one.
        set(&mut mine, Field::Density, "1.25");
        set(&mut mine, Field::Max, "11");
        assert_eq!(mine.shelf_document.take_commit().unwrap().expected, Some(1));
        let News::ShelfJoined(change) = mine.shelf_document.overtaken(&second.stored, steps, fresh()) else { panic!() };
        assert_eq!(
            (text(&mine, Field::Max).as_deref(), text(&mine, Field::Density).as_deref()),
            (Some("11"), Some("1.25"))
        );
        let clash = &change.clashes()[..];
        assert!(
            matches!(clash, [one] if one.field == Field::Max && one.kept == "11" && one.other == "12"),
            "{clash:?}"
        );
        // Back over what was typed here, joined; then to what the other tab had; then to what both began with.
        let steps: Vec<_> = core::iter::from_fn(|| {
            mine.can_undo_shelf().then(|| {
                mine.undo_shelf(now());
                (text(&mine, Field::Max), text(&mine, Field::Density))
            })
        })
        .collect();
        let table = opened(ShelfDocument::default());
        let (max, density) = (text(&table, Field::Max), text(&table, Field::Density));
        assert_eq!(
            steps,
            [
                (Some("12".into()), Some("1.25".into())),
                (Some("12".into()), density.clone()),
                (Some("10".into()), density.clone()),
                (max, density),
            ]
        );
    }

    #[test]
    fn shelf_of_a_newer_release_is_not_written_over() {
        let mut mine = opened(ShelfDocument::default());
        set(&mut mine, Field::Max, "10");
        let first = mine.shelf_document.take_commit().unwrap().stored;
        set(&mut mine, Field::Max, "11");
        let newer =
            StoredDocument { body: first.body.replace("\"version\":1", "\"additions\":99,\"version\":1"), ..first };
        let newer = newer.sealed();
        assert_eq!(mine.shelf_document.overtaken(&newer, Vec::new(), fresh()), News::Newer(newer));
        assert!(mine.shelf_document.take_commit().is_none() && mine.is_dirty());
    }

    #[test]
    fn value_typed_here_that_another_tab_changes_is_told() {
        let mut mine = opened(ShelfDocument::default());
        set(&mut mine, Field::Max, "10");
        let first = mine.shelf_document.take_commit().unwrap();
        mine.shelf_document.arrived(first.stored.meta.revision);
        let mut theirs = opened(ShelfDocument::open(&first.stored, Vec::new()).unwrap());
        set(&mut theirs, Field::Density, "1.2");
        let second = theirs.shelf_document.take_commit().unwrap();
        let told = mine.adopt_shelf(ShelfDocument::open(&second.stored, Vec::new()).unwrap(), true);
        assert_eq!(told.map(|change| change.clashes()), Some(Vec::new()));
        theirs.shelf_document.arrived(second.stored.meta.revision);
        set(&mut theirs, Field::Max, "13");
        let third = theirs.shelf_document.take_commit().unwrap();
        let told = mine.adopt_shelf(ShelfDocument::open(&third.stored, Vec::new()).unwrap(), true).unwrap().clashes();
        assert!(matches!(&told[..], [one] if one.kept == "13" && one.other == "10"), "{told:?}");
    }

    #[test]
    fn shelf_changed_before_the_stored_one_was_read_keeps_its_history() {
        let mut before = opened(ShelfDocument::default());
        before.act_on_shelf(ShelfAction::Add("Plum oil".into()), now());
        let first = before.shelf_document.take_commit().unwrap();
        let open = |steps| ShelfDocument::open(&first.stored, steps).unwrap();
        let mut quick = opened(open(Vec::new()));
        let oats = quick.act_on_shelf(ShelfAction::Add("Oat flour".into()), now()).unwrap();
        quick.adopt_shelf(open(first.steps.put.clone()), false);
        assert!(quick.shelf().knows(&oats));
        let second = quick.shelf_document.take_commit().unwrap();
        assert_eq!((second.expected, second.steps.last, second.steps.put.len()), (Some(1), 2, 1));
        quick.undo_shelf(now());
        quick.undo_shelf(now());
        assert_eq!(*quick.shelf(), Shelf::default());
    }

    #[test]
    fn reading_the_shelf_that_is_open_and_typed_in_leaves_it_as_it_is() {
        let mut mine = opened(ShelfDocument::default());
        set(&mut mine, Field::Max, "10");
        let first = mine.shelf_document.take_commit().unwrap();
        mine.shelf_document.arrived(first.stored.meta.revision);
        set(&mut mine, Field::Density, "1.25");
        mine.adopt_shelf(ShelfDocument::open(&first.stored, first.steps.put).unwrap(), false);
        let next = mine.shelf_document.take_commit().unwrap();
        assert_eq!(
            next.expected,
            Some(first.stored.meta.revision),
            "what is stored is this tab's own, and no other one's"
        );
    }

    #[test]
    fn shelf_of_the_mirror_that_is_ahead_is_written_and_never_taken_back() {
        // Typed, saved; typed again and closed before the write: the local mirror is ahead.
        let mut before = opened(ShelfDocument::default());
        set(&mut before, Field::Max, "10");
        let saved = before.shelf_document.take_commit().unwrap();
        before.shelf_document.arrived(saved.stored.meta.revision);
        set(&mut before, Field::Density, "1.25");
        let words = before.shelf_document.unsaved().unwrap();
        assert!(words.is_ahead_of(&saved.stored));
        let open = || {
            let mut stored = ShelfDocument::open(&words, Vec::new()).unwrap();
            stored.rebase(Some(&saved.stored));
            stored
        };
        // Whether the maker types before the journal is read or not, it goes over the journal's revision.
        for typed in [false, true] {
            let mut again = opened(ShelfDocument::open(&words, Vec::new()).unwrap());
            if typed {
                set(&mut again, Field::PhMin, "4");
            }
            again.adopt_shelf(open(), !typed);
            let commit = again.shelf_document.take_commit().unwrap();
            assert_eq!(commit.expected, Some(saved.stored.meta.revision));
            assert_eq!(text(&again, Field::Density).as_deref(), Some("1.25"));
            again.shelf_document.arrived(commit.stored.meta.revision);
            set(&mut again, Field::Max, "11");
            assert_eq!(text(&again, Field::Density).as_deref(), Some("1.25"));
        }
    }
}
