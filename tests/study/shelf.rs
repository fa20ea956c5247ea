//! How long a batch keeps by the shelf as it is now: days from dateutil (tests/vectors/study.py), lots by hand.

use crate::made::{day, entry, lot, study};
use hundred_parts::batch::BatchRecord;
use hundred_parts::batch::study::{
    LotEndBasis, ShelfLimit, Study, StudyBasis, StudyEvent, lot_ends, shelf_life, usual_plan,
};
use hundred_parts::desk::{BatchRef, read_export};
use hundred_parts::facts::{Field, IngredientId, Months, OxidationOutlook};
use hundred_parts::quantity::{Day, Quantity};
use hundred_parts::shelf::{Lot, LotField, Shelf};
use serde_json::Value;

const PLUM: &str = "plum-kernel";

fn id(text: &str) -> IngredientId {
    IngredientId::parse(text).unwrap()
}

fn of_lot(name: &str, expiry: &str, opened: &str, months: &str) -> Lot {
    Lot::of(&[
        (LotField::Name, name),
        (LotField::Expiry, expiry),
        (LotField::Opened, opened),
        (LotField::AfterOpening, months),
    ])
}

/// A shelf on which lots of glycerin and of an oil of the maker's own stand.
fn shelf(glycerin: Vec<Lot>, oil: Vec<Lot>) -> Shelf {
    let mut shelf = Shelf::default();
    shelf.set(&id("glycerin"), Field::Name, "Glycerin");
    shelf.keep_lots(&id("glycerin"), glycerin);
    let own = shelf.add_own("Plum kernel oil");
    assert!(own.as_str().starts_with(PLUM), "{own:?}");
    shelf.keep_lots(&own, oil);
    shelf
}

/// The record of a batch of water and glycerin, of which lot L7 went in, noted with an end on 2027-06-30.
fn record(change: impl Fn(&mut Value)) -> BatchRecord {
    let mut file: Value = serde_json::from_str(include_str!("../formats/version-1-methods.json")).unwrap();
    change(&mut file["records"][0]);
    match &read_export(&file.to_string()).unwrap().documents[0].batches[0] {
        BatchRef::Carried(record) => BatchRecord::clone(&record.record().unwrap()),
        stored @ BatchRef::Stored { .. } => panic!("{stored:?}"),
    }
}

/// A study of the batch of [`record`], with these events after its beginning.
fn study_of(record: &BatchRecord, events: Vec<StudyEvent>) -> Study {
    let basis = StudyBasis::of(record, "batch.00000000000000aa".into(), day("2026-11-28"), day("2026-11-30")).unwrap();
    let begun = StudyEvent::Begun { basis, plan: usual_plan(Months::from_units(6), None) };
    let all: Vec<_> = std::iter::once(begun).chain(events).zip(1..).map(|(event, n)| entry(n, event)).collect();
    Study::of(&all).unwrap()
}

// Source: python-dateutil, whose relativedelta ends months as ours should; tests/vectors/study.py.
#[test]
fn lot_keeps_until_the_earlier_of_its_own_end_and_that_after_opening() {
    let vectors: Value = serde_json::from_str(include_str!("../vectors/study.json")).unwrap();
    let rows = vectors["lots"].as_array().unwrap();
    assert!(rows.len() >= 100, "{}", rows.len());
    for row in rows {
        let text = |place: usize| row[place].as_str().unwrap();
        let months = row[2].as_i64().unwrap();
        let months = if months == 0 { String::new() } else { months.to_string() };
        let found = of_lot("A", text(0), text(1), &months).keeps_until().map_or_else(String::new, Day::text);
        assert_eq!(found, text(3), "{row}");
    }
    assert_eq!(of_lot("A", "", "2026-05-31", "some").keeps_until(), None, "what cannot be read ends nothing");
    assert_eq!(of_lot("A", "2027-01-01", "last spring", "6").keeps_until(), Some(day("2027-01-01")));
}

// The days after opening are dateutil's: 2026-05-31 and 6 months is 2026-11-30, 2026-08-29 and 6 months 2027-02-28.
#[test]
fn shelf_gives_ends_that_nothing_noted_and_the_earliest_of_all_binds() {
    let noted = study(Vec::new());
    let life = |shelf: &Shelf| shelf_life(&noted, None, shelf);
    let bare = life(&Shelf::default());
    assert_eq!(bare.best_before(), Some(day("2027-05-31")), "as the study noted it");
    assert_eq!(
        (bare.lots_without_end(), bare.without_lot()),
        (0, 1),
        "water has no lot: that is no lot without an end"
    );
    // The lot of the oil was opened: it ends before the end that the study knows, 2027-09-30.
    let opened = shelf(Vec::new(), vec![of_lot("0412", "2027-09-30", "2026-08-29", "6")]);
    let found = life(&opened);
    assert_eq!(found.best_before(), Some(day("2027-02-28")));
    let Some((_, ShelfLimit::Lot(binding, basis))) = found.limits.first() else { panic!("{:?}", found.limits) };
    assert_eq!((binding.lot.as_str(), *basis), ("0412", LotEndBasis::Opened(day("2026-08-29"), Months::from_units(6))));
    let oil = found.lots.iter().find(|end| end.lot.lot == "0412").unwrap();
    assert_eq!(oil.ends.len(), 2, "the day that is noted and stands on the shelf, too, is told once: {:?}", oil.ends);
    // On the shelf it turns out to end sooner; another lot of that name there, or of another ingredient, is not asked.
    let sooner = shelf(vec![of_lot("0412", "2026-12-05", "", "")], vec![of_lot("0412", "2027-01-31", "", "")]);
    assert_eq!(life(&sooner).best_before(), Some(day("2027-01-31")));
    let other = shelf(Vec::new(), vec![of_lot("0999", "2026-12-31", "", "")]);
    assert_eq!(life(&other).best_before(), Some(day("2027-05-31")));
    // A lot of which nothing was noted takes its end from the shelf.
    let unknown = study(vec![StudyEvent::Lot(lot("Plum kernel oil", "0412", None))]);
    let ends = lot_ends(&unknown, None, &sooner);
    let oil = ends.iter().find(|end| end.lot.lot == "0412").unwrap();
    assert_eq!(oil.ends, [(day("2027-01-31"), LotEndBasis::Shelf)]);
}

#[test]
fn record_says_which_lots_went_in_as_it_is_put_right_and_the_study_what_was_noted_since() {
    let whole = record(|_| {});
    let none = Shelf::default();
    let begun = study_of(&whole, Vec::new());
    let ends = |study: &Study, record: &BatchRecord, shelf: &Shelf| {
        let ends = lot_ends(study, Some(record), shelf);
        ends.iter().map(|end| (end.lot.lot.clone(), end.day().map_or_else(String::new, Day::text))).collect::<Vec<_>>()
    };
    let told = |lots: &[(&str, &str)]| lots.iter().map(|(a, b)| ((*a).to_owned(), (*b).to_owned())).collect::<Vec<_>>();
    assert_eq!(ends(&begun, &whole, &none), told(&[("still", ""), ("L7", "2027-06-30")]));
    // The record is put right: it was lot L8, of which the shelf knows the end.
    let right = record(|record| {
        let weighed = record["entries"].as_array_mut().unwrap().iter_mut().find(|entry| entry["lot"] == "L7").unwrap();
        weighed["lot"] = "L8".into();
        weighed.as_object_mut().unwrap().remove("expiry");
    });
    let shelf = shelf(vec![of_lot("L7", "2026-12-01", "", ""), of_lot("L8", "2027-04-30", "", "")], Vec::new());
    let found = ends(&begun, &right, &shelf);
    assert_eq!(found.iter().find(|(lot, _)| lot == "L8").map(|(_, day)| day.as_str()), Some("2027-04-30"));
    assert!(found.iter().all(|(lot, _)| lot != "L7"), "a lot that did not go in ends nothing: {found:?}");
    // What the study noted since stands in the place of what the record says.
    let noted = study_of(&whole, vec![StudyEvent::Lot(lot("Glycerin", "L7", Some("2027-03-31")))]);
    assert_eq!(ends(&noted, &whole, &none)[1], ("L7".to_owned(), "2027-03-31".to_owned()));
    // Without the record the study knows its lots by itself.
    assert_eq!(shelf_life(&noted, None, &none).best_before(), Some(day("2027-03-31")));
}

// Class by the oxidizability of linoleic oils: Cox and the bounds are those of src/facts/fats/profile.rs; that an oil of two
// thirds linoleic acid goes rancid soon is common practice, no source.
#[test]
fn outlook_of_the_oils_is_a_class_and_ends_nothing() {
    let fatty = record(|record| {
        let lines = record["made_from"]["formula"]["phases"][0]["lines"].as_array_mut().unwrap();
        lines.push(serde_json::json!({"ingredient": "flaxseed", "percent": "31"}));
    });
    let study = study_of(&fatty, Vec::new());
    let found = shelf_life(&study, Some(&fatty), &Shelf::default());
    assert_eq!(found.outlook, Some(OxidationOutlook::VeryShort));
    assert_eq!(found.limits.len(), 1, "the lot alone: {:?}", found.limits);
    let plain = record(|_| {});
    assert_eq!(shelf_life(&study_of(&plain, Vec::new()), Some(&plain), &Shelf::default()).outlook, None);
    assert_eq!(
        shelf_life(&study, None, &Shelf::default()).outlook,
        None,
        "without its record nothing is known of them"
    );
}
