//! Studies for the tests: a batch of our own.

use hundred_parts::batch::EntryId;
use hundred_parts::batch::study::{
    ConditionKind, Observation, PullPoint, Study, StudyBasis, StudyEntry, StudyEvent, StudyLot, usual_plan,
};
use hundred_parts::facts::Months;
use hundred_parts::quantity::{Day, Mass, Ph, Quantity, Timestamp};

pub(crate) fn day(text: &str) -> Day {
    Day::read(text).unwrap()
}

pub(crate) fn ph(text: &str) -> Ph {
    Ph::from_canonical(text).unwrap()
}

pub(crate) fn entry(n: u64, event: StudyEvent) -> StudyEntry {
    StudyEntry { id: EntryId::random(n), at: Timestamp::from_millis(1_796_000_000_000 + n as i64 * 1000), event }
}

pub(crate) fn lot(name: &str, lot: &str, expiry: Option<&str>) -> StudyLot {
    StudyLot { name: name.into(), lot: lot.into(), expiry: expiry.map(day) }
}

/// A study of six months with a target pH of 5.2 and packs of 50 g.
pub(crate) fn begun() -> StudyEvent {
    StudyEvent::Begun {
        basis: StudyBasis {
            batch: "batch.00000000000000aa".into(),
            code: "H2811".into(),
            title: "Harbour hand lotion".into(),
            made: day("2026-11-28"),
            began: day("2026-11-30"),
            content: Some(Mass::from_canonical("50").unwrap()),
            lots: vec![
                lot("Water", "", None),
                lot("Plum kernel oil", "0412", Some("2027-09-30")),
                lot("Tocopherol", "0366", Some("2027-05-31")),
            ],
        },
        plan: usual_plan(Months::from_units(6), Some(ph("5.2"))),
    }
}

pub(crate) fn looked(condition: ConditionKind, point: &str, on: &str, seen: Observation) -> StudyEvent {
    StudyEvent::Observed { condition, point: PullPoint::parse(point).unwrap(), on: day(on), seen }
}

pub(crate) fn with_ph(text: &str) -> Observation {
    Observation { ph: Some(ph(text)), ..Observation::default() }
}

/// A study with these events after its beginning.
pub(crate) fn study(events: Vec<StudyEvent>) -> Study {
    let all: Vec<StudyEntry> =
        std::iter::once(begun()).chain(events).zip(1..).map(|(event, n)| entry(n, event)).collect();
    Study::of(&all).unwrap()
}
