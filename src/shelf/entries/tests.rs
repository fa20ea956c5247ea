//! The shelf: what the maker says over the table, and that it can be stored and undone.

use super::*;
use crate::facts::Provenance;
use crate::quantity::{Percent, Quantity};
use crate::shelf::{carries, dissolves_in};
use proptest::collection::vec;
use proptest::prelude::*;

fn id(text: &str) -> IngredientId {
    IngredientId::parse(text).unwrap()
}

type StoredEntry = (IngredientId, bool, Vec<(Field, String)>);

fn stored(shelf: &Shelf) -> Vec<StoredEntry> {
    shelf.entries().map(|(id, own, texts)| (id.clone(), own, texts.to_vec())).collect()
}

#[test]
fn shelf_override_is_the_makers_and_keeps_the_tables() {
    let mut shelf = Shelf::default();
    assert!(shelf.set(&id("glycerin"), Field::Max, "12,5"));
    let glycerin = shelf.entry(&id("glycerin")).unwrap();
    let max = glycerin.max().unwrap();
    assert_eq!((max.value, max.provenance), (Percent::from_units(12_500_000), Provenance::Maker));
    assert_eq!(glycerin.original(Field::Max).unwrap().text, "20");
    assert_eq!(glycerin.max_basis(), None);
    assert!(glycerin.is_overridden(Field::Max) && !glycerin.is_overridden(Field::Density));
    assert_eq!(shelf.overridden(&id("glycerin")), [Field::Max]);
    assert!(!glycerin.is_own());
}

#[test]
fn shelf_one_end_overridden_makes_the_window_the_makers() {
    let mut shelf = Shelf::default();
    shelf.set(&id("glycerin"), Field::PhMin, "4");
    let window = shelf.entry(&id("glycerin")).unwrap().ph_window().unwrap();
    assert_eq!(window.provenance, Provenance::Maker);
    assert_eq!(window.value.max.map(Quantity::canonical).as_deref(), Some("10"));
}

#[test]
fn shelf_override_that_cannot_be_read_is_kept_and_not_used() {
    let mut shelf = Shelf::default();
    for text in ["1.2.", "-", "abc", "101", "1e3"] {
        shelf.set(&id("glycerin"), Field::Max, text);
        let glycerin = shelf.entry(&id("glycerin")).unwrap();
        let max = glycerin.max().unwrap();
        assert_eq!(max.value, Percent::from_units(20_000_000), "the table's counts: {text:?}");
        assert!(!max.provenance.is_makers() && glycerin.max_basis().is_some(), "{text:?}");
        assert_eq!(glycerin.cell(Field::Max).unwrap().text, text);
        assert!(glycerin.unread(Field::Max).is_some() && !glycerin.is_overridden(Field::Max));
        assert!(shelf.overridden(&id("glycerin")).is_empty());
    }
    // Blanks say that there is no value, and that is a value of the maker's.
    shelf.set(&id("glycerin"), Field::Max, " ");
    let glycerin = shelf.entry(&id("glycerin")).unwrap();
    assert_eq!((glycerin.max(), glycerin.unread(Field::Max)), (None, None));
    assert!(glycerin.is_overridden(Field::Max));
}

#[test]
fn shelf_words_that_are_none_of_those_to_choose_are_not_used() {
    let mut shelf = Shelf::default();
    let own = shelf.add_own("My wax");
    for (field, text) in [(Field::InHand, "maybe"), (Field::UsualPhase, "pan"), (Field::Functions, "Fragrance; wobble")]
    {
        shelf.set(&own, field, text);
    }
    let entry = shelf.entry(&own).unwrap();
    assert!(entry.in_hand(), "an own entry is taken to be there");
    assert_eq!(entry.usual_phase(), None);
    assert!(entry.has_function("Fragrance"), "what is known of a list counts");
    assert_eq!(entry.counted_provenance(Field::Functions), Some(Provenance::Maker));
    shelf.set(&id("glycerin"), Field::UsualPhase, "pan");
    let glycerin = shelf.entry(&id("glycerin")).unwrap();
    assert_eq!(glycerin.usual_phase().map(|phase| phase.value), Some(crate::facts::UsualPhase::Water));
    shelf.set(&id("glycerin"), Field::InHand, "YES");
    assert!(shelf.entry(&id("glycerin")).unwrap().in_hand());
}

#[test]
fn shelf_empty_text_takes_the_override_back() {
    let mut shelf = Shelf::default();
    shelf.set(&id("glycerin"), Field::Max, "12");
    shelf.set(&id("glycerin"), Field::Max, "");
    assert_eq!(shelf, Shelf::default());
    shelf.set(&id("glycerin"), Field::Max, "");
    assert_eq!(shelf, Shelf::default());
}

#[test]
fn shelf_unknown_id_is_not_set() {
    let mut shelf = Shelf::default();
    assert!(!shelf.set(&id("no-such-thing"), Field::Max, "12"));
    assert_eq!(shelf.entry(&id("no-such-thing")).map(|entry| entry.is_own()), None);
    assert_eq!(shelf, Shelf::default());
}

#[test]
fn shelf_own_ids_never_collide() {
    let mut shelf = Shelf::default();
    let ids: Vec<_> =
        ["Glycerin", "Kokum sorbet", "Kokum sorbet", "kókum sorbet!", "", ""].map(|name| shelf.add_own(name)).to_vec();
    let texts: Vec<_> = ids.iter().map(IngredientId::as_str).collect();
    assert_eq!(texts, ["glycerin-2", "kokum-sorbet", "kokum-sorbet-2", "kokum-sorbet-3", "own", "own-2"]);
    assert_eq!(shelf.own_ids().count(), 6);
    let table = Shelf::default().ids().len();
    assert_eq!((shelf.ids().len(), shelf.iter().count()), (table + 6, table + 6));
}

#[test]
fn shelf_own_entry_can_be_filled_and_removed() {
    let mut shelf = Shelf::default();
    let own = shelf.add_own("My oil");
    shelf.set(&own, Field::Density, "0.92");
    shelf.set(&own, Field::Name, "");
    let entry = shelf.entry(&own).unwrap();
    assert!(entry.is_own() && !entry.is_overridden(Field::Density));
    assert_eq!(entry.density().unwrap().provenance, Provenance::Maker);
    assert_eq!((entry.name(), entry.label()), (None, "my-oil"));
    assert!(shelf.overridden(&own).is_empty());
    assert!(shelf.remove_own(&own) && !shelf.remove_own(&own) && !shelf.remove_own(&id("glycerin")));
    assert_eq!(shelf, Shelf::default());
}

#[test]
fn shelf_own_entry_wins_over_a_row_that_came_later() {
    let shelf = Shelf::restore([(id("glycerin"), true, vec![(Field::Name, "My glycerin".to_owned())])]);
    let entry = shelf.entry(&id("glycerin")).unwrap();
    assert!(entry.is_own());
    assert_eq!(
        (entry.label(), entry.density(), entry.original(Field::Density), carries(&entry)),
        ("My glycerin", None, None, None)
    );
    assert_eq!(shelf.ids().len(), Shelf::default().ids().len());
}

#[test]
fn shelf_override_of_a_vanished_row_is_not_lost() {
    let shelf = Shelf::restore([(id("vanished"), false, vec![(Field::Density, "0.9".to_owned())])]);
    let entry = shelf.entry(&id("vanished")).unwrap();
    assert_eq!((entry.label(), entry.is_own()), ("vanished", false));
    assert!(entry.density().is_some());
    assert_eq!(stored(&shelf).len(), 1);
}

#[test]
fn shelf_restored_entries_are_tidied() {
    let texts = vec![
        (Field::Notes, "b".to_owned()),
        (Field::Max, "1".to_owned()),
        (Field::Max, "2".to_owned()),
        (Field::Inci, String::new()),
    ];
    let shelf = Shelf::restore([(id("water"), false, texts), (id("shea"), false, Vec::new())]);
    assert_eq!(
        stored(&shelf),
        [(id("water"), false, vec![(Field::Max, "2".to_owned()), (Field::Notes, "b".to_owned())])]
    );
}

#[test]
fn shelf_hostile_text_stays_text() {
    let long = "\u{202e}<script>".repeat(1000);
    let mut shelf = Shelf::default();
    let own = shelf.add_own(&long);
    for field in Field::ALL {
        shelf.set(&own, field, long.as_str());
    }
    let entry = shelf.entry(&own).unwrap();
    assert_eq!(entry.cell(Field::Name).unwrap().text, long);
    assert_eq!((entry.density(), entry.max(), entry.usual_phase()), (None, None, None));
    assert_eq!(Shelf::restore(stored(&shelf)), shelf);
}

proptest! {
    #[test]
    fn shelf_any_edits_are_kept_and_come_back(edits in vec((0usize..4, 0usize..33, ".{0,30}"), 0..20)) {
        let mut shelf = Shelf::default();
        let known = [id("water"), id("shea"), shelf.add_own("Own"), shelf.add_own("Öwn")];
        for (entry, field, text) in edits {
            let (entry, field) = (&known[entry], Field::ALL[field]);
            shelf.set(entry, field, text.as_str());
            let seen = shelf.entry(entry).unwrap();
            let typed = seen.cell(field).filter(|cell| cell.provenance.is_makers());
            let typed = typed.map(|cell| cell.text.to_string());
            prop_assert_eq!(typed.unwrap_or_default(), text);
            let _ = (seen.density(), seen.max(), seen.ph_window(), seen.functions());
            let _ = dissolves_in(&seen);
        }
        prop_assert_eq!(&Shelf::restore(stored(&shelf)), &shelf);
    }
}
