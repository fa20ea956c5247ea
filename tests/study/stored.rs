//! A study as it is kept, joined, exported and read again.

use crate::made::{begun, entry, looked, lot, with_ph};
use hundred_parts::batch::EntryId;
use hundred_parts::batch::study::{
    ConditionKind, Observation, Separation, Study, StudyEntry, StudyEvent, StudyIncident, Viscosity, usual_plan,
};
use hundred_parts::desk::{
    DocId, Document, DocumentKind, Incoming, OpenDocument, Preview, RecordBody, RecordDocument, Reopen, ShelfDocument,
    StoredDocument, collection_text, demo, is_study_here, read_export, study_commits,
};
use hundred_parts::facts::Months;
use hundred_parts::quantity::{Mass, Quantity, Timestamp};
use hundred_parts::shelf::Shelf;
use proptest::prelude::*;

fn now() -> Timestamp {
    Timestamp::from_millis(1_796_000_000_000)
}

fn open_with(entries: &[StudyEntry]) -> OpenDocument {
    let mut open = OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), now());
    let (first, rest) = entries.split_first().unwrap();
    assert!(open.begin_study(DocId::study(7), first));
    for entry in rest {
        assert!(open.note_study(entry), "{entry:?}");
    }
    open
}

/// One event of every kind.
fn every_event() -> Vec<StudyEntry> {
    let mut plan = usual_plan(Months::from_units(12), None);
    plan.limits.viscosity = Viscosity::from_canonical("7000").ok().zip(Viscosity::from_canonical("11000.5").ok());
    plan.limits.viscosity_method = "spindle 4 at 20 rpm".into();
    let whole = Observation {
        appearance: Some(0),
        colour: Some(3),
        odour: Some(5),
        viscosity: Viscosity::from_canonical("9500.125").ok(),
        weight: Mass::from_canonical("61.2").ok(),
        separation: Some(Separation::Drops),
        note: "Sweats at the lid".into(),
        ..with_ph("5.15")
    };
    let events = [
        begun(),
        looked(ConditionKind::Room, "0d", "2026-11-30", with_ph("5.2")),
        looked(ConditionKind::FreezeThaw, "6d", "2026-12-07", whole),
        StudyEvent::Struck { entry: EntryId::random(2), reason: "Wrong jar".into() },
        StudyEvent::Planned(plan),
        StudyEvent::Happened { what: StudyIncident::Storage, text: "The warm box was off for a night".into() },
        StudyEvent::Lot(lot("Plum kernel oil", "0412", Some("2027-02-28"))),
        StudyEvent::Lot(lot("Water", "", None)),
        StudyEvent::Ruled(Some(Months::from_units(12))),
        StudyEvent::Ruled(None),
        StudyEvent::Remark { text: "Jars from another shop".into() },
    ];
    events.into_iter().zip(1..).map(|(event, n)| entry(n, event)).collect()
}

/// What the journal would have of the study that is open.
fn stored(open: &mut OpenDocument) -> StoredDocument {
    open.stored(&DocId::study(7)).unwrap().take_commit().unwrap().stored
}

#[test]
fn every_event_is_kept_as_it_was_noted() {
    let entries = every_event();
    let mut open = open_with(&entries);
    assert_eq!(open.open_ids()[1], DocId::study(7));
    let stored = stored(&mut open);
    assert_eq!(stored.meta.id.kind(), DocumentKind::Study);
    assert_eq!(stored.meta.title, "H2811 \u{b7} Harbour hand lotion");
    let again = RecordDocument::open(&stored, Vec::new()).unwrap();
    assert_eq!(again.body().study().as_deref(), Ok(entries.as_slice()));
    let value: serde_json::Value = serde_json::from_str(&stored.body).unwrap();
    assert_eq!(value["additions"], 7, "an older tab leaves it alone");
}

#[test]
fn study_goes_on_where_it_was_and_another_does_not_take_its_place_unwritten() {
    let mut open = open_with(&every_event());
    assert!(open.is_dirty());
    assert!(!open.begin_study(DocId::study(8), &entry(90, begun())), "the first is not written yet");
    let kept = stored(&mut open);
    open.stored(&DocId::study(7)).unwrap().arrived(1);
    assert!(open.begin_study(DocId::study(8), &entry(90, begun())));
    let mut later = OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), now());
    assert!(later.study().is_none());
    later.adopt_study(RecordDocument::open(&kept, Vec::new()).unwrap());
    assert_eq!(later.study().unwrap().unwrap(), Study::of(&every_event()).unwrap());
    assert!(!later.note_study(&every_event()[1]), "an entry is there once");
    assert!(
        !later.begin_study(DocId::study(9), &entry(91, StudyEvent::Ruled(None))),
        "a study begins with its beginning"
    );
}

#[test]
fn what_two_tabs_note_is_joined() {
    let mut here = open_with(&[entry(1, begun())]);
    let kept = stored(&mut here);
    let mut there = OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), now());
    there.adopt_study(RecordDocument::open(&kept, Vec::new()).unwrap());
    assert!(here.note_study(&entry(2, looked(ConditionKind::Room, "0d", "2026-11-30", with_ph("5.2")))));
    assert!(there.note_study(&entry(3, looked(ConditionKind::Warm, "0d", "2026-11-30", with_ph("5.1")))));
    let theirs = stored(&mut there);
    here.adopt_study(RecordDocument::open(&theirs, Vec::new()).unwrap());
    let found = here.study().unwrap().unwrap();
    assert_eq!(found.seen.len(), 2);
}

#[test]
fn studies_travel_in_the_file_of_everything_and_are_told_before_they_are_taken() {
    let open = open_with(&every_event());
    let body = open.open_study().unwrap().body().clone();
    let text = collection_text([demo(), Document::default()].iter(), std::slice::from_ref(&body), &Shelf::default());
    let incoming = read_export(&text).unwrap();
    assert_eq!(
        (incoming.documents.len(), incoming.studies.clone(), incoming.refused.len()),
        (2, vec![body.clone()], 0)
    );
    let new = Preview::new(incoming.clone(), &[], &Shelf::default()).beside_studies(&[]);
    assert_eq!((new.studies_here.clone(), new.wanted().studies.len()), (vec![false], 1));
    let known = Preview::new(incoming, &[], &Shelf::default()).beside_studies(std::slice::from_ref(&body));
    assert_eq!((known.studies_here.clone(), known.wanted().studies.len()), (vec![true], 0));
    let commits = study_commits(std::slice::from_ref(&body), &mut || DocId::study(5), now());
    let [commit] = commits.as_slice() else { panic!("{commits:?}") };
    let again = RecordDocument::open(&commit.stored, Vec::new()).unwrap();
    assert!(is_study_here(&body, &[again.body().clone()]) && again.title() == "H2811 \u{b7} Harbour hand lotion");
    let none = collection_text([demo()].iter(), &[], &Shelf::default());
    assert!(!none.contains("\"studies\"") && !none.contains("\"additions\""), "no file changes without one");
}

#[test]
fn study_that_is_wrong_is_left_out_with_its_reason() {
    let body = open_with(&every_event()).open_study().unwrap().body().clone();
    let text = collection_text([demo()].iter(), &[body], &Shelf::default());
    for (from, to, path) in [
        ("\"observed\"", "\"dreamt\"", "studies[0].entries[1].event"),
        ("\"point\": \"6d\"", "\"point\": \"6x\"", "studies[0].entries[2].point"),
        ("\"colour\": 3", "\"colour\": 6", "studies[0].entries[2].colour"),
        ("\"2027-02-28\"", "\"2027-02-30\"", "studies[0].entries[6].expiry"),
        ("\"months\": 6", "\"months\": 0", "studies[0].entries[0].plan.months"),
        ("\"study-begun\"", "\"remark\"", "studies[0].entries"),
        ("\"ph_low\": \"4.7\"", "\"ph_low\": \"5.8\"", "studies[0].entries[0].plan.limits.ph_high"),
    ] {
        assert!(text.contains(from), "{from}");
        let Incoming { documents, studies, refused, .. } = read_export(&text.replacen(from, to, 1)).unwrap();
        assert_eq!((documents.len(), studies.len()), (1, 0), "{to}");
        assert_eq!(refused.iter().map(|why| why.path.as_str()).collect::<Vec<_>>(), [path], "{refused:?}");
    }
}

proptest! {
    /// Whatever is noted is read again as it was.
    #[test]
    fn any_look_is_read_again(score in 0u8..=5, units in 0i64..=1400, weight in 0i64..1_000_000_000, note in "\\PC{0,40}", count in 0u16..=1200) {
        let seen = Observation {
            appearance: Some(score),
            weight: Some(Mass::from_units(weight)),
            note: hundred_parts::desk::clean(&note).into_owned(),
            ..with_ph(&hundred_parts::quantity::Ph::from_units(units).canonical())
        };
        let look = entry(2, looked(ConditionKind::Hot, &format!("{count}w"), "2027-01-31", seen));
        let open = open_with(&[entry(1, begun()), look.clone()]);
        let body: &RecordBody = open.open_study().unwrap().body();
        prop_assert_eq!(&body.study().unwrap()[1], &look);
    }
}
