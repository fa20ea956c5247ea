//! Whatever happens to a batch, its record folds and keeps it.

use super::*;
use crate::batch::{BufferReading, Check, Decision, MassSource, MeterCheck, Pot};
use crate::facts::IngredientId;
use crate::quantity::Percent;
use proptest::prelude::*;

/// What happens at the stove.
fn made() -> impl Strategy<Value = Event> {
    let mass = || (0..=Mass::MAX).prop_map(Mass::micrograms);
    let place = 0usize..200;
    let text = || ".{0,20}";
    let day = prop::option::of((0i64..40_000).prop_map(Day::from_number));
    prop_oneof![
        (text(), text()).prop_map(|(code, maker)| Event::Begun { code, maker }),
        place.clone().prop_map(|step| Event::StepDone { step }),
        (place.clone(), mass(), prop::sample::select(MassSource::ALL.to_vec()), text(), day, any::<bool>()).prop_map(
            |(line, actual, source, lot, expiry, kept)| Event::Weighed { line, actual, source, lot, expiry, kept }
        ),
        (prop::sample::select(Pot::ALL.to_vec()), Celsius::MIN..=Celsius::MAX)
            .prop_map(|(pot, units)| Event::Temperature { pot, reading: Celsius::from_units(units) }),
        (place, Minutes::MIN..=Minutes::MAX)
            .prop_map(|(step, units)| Event::TimerStarted { step, minutes: Minutes::from_units(units) }),
        (mass(), any::<bool>()).prop_map(|(mass, after)| Event::PotWeighed { mass, after }),
        (text(), mass()).prop_map(|(what, mass)| Event::Added { what, mass }),
        (text(), text()).prop_map(|(what, decision)| Event::Deviation { what, decision }),
        (mass(), text()).prop_map(|(batch, reason)| Event::Rescaled { batch, reason }),
        (mass(), text(), text()).prop_map(|(mass, code, what)| Event::SplitOff { mass, code, what }),
        (prop::sample::select(Check::ALL.to_vec()), text()).prop_map(|(check, found)| Event::Checked { check, found }),
        mass().prop_map(|mass| Event::Filled { mass }),
        (text(), mass()).prop_map(|(what, mass)| Event::Lost { what, mass }),
        (text(), mass()).prop_map(|(what, mass)| Event::Retained { what, mass }),
        (prop::sample::select(Decision::ALL.to_vec()), text(), text())
            .prop_map(|(decision, by, remark)| Event::Decided { decision, by, remark }),
        text().prop_map(|reason| Event::Abandoned { reason }),
        text().prop_map(|text| Event::Remark { text }),
        (prop::collection::vec((0u64..20).prop_map(EntryId::random), 0..4), "[0-9a-f]{64}")
            .prop_map(|(entries, digest)| Event::Sealed { entries, digest }),
    ]
}

fn any_event() -> impl Strategy<Value = Event> {
    let vessel = || prop_oneof![Just(Vessel::Batch), Just(Vessel::Side)];
    let any_id = || (0u64..20).prop_map(EntryId::random);
    prop_oneof![
        (0..=Mass::MAX, 0i64..=1400).prop_map(|(mass, target)| Event::PhBegun {
            batch: Mass::micrograms(mass),
            target: Ph::from_units(target),
        }),
        (0i64..=1400, 0i64..=1400, any::<bool>()).prop_map(|(shown, other, taken_over)| {
            let one = |buffer, shown| BufferReading { buffer: Ph::from_units(buffer), shown: Ph::from_units(shown) };
            let done = taken_over.then(Timestamp::default);
            Event::Ph(PhEvent::Buffers(MeterCheck { first: one(700, shown), second: one(401, other), done }))
        }),
        Just(Event::Ph(PhEvent::Unchecked)),
        (vessel(), 0i64..=1400, 1u8..=100, prop::option::of(any::<bool>())).prop_map(
            |(vessel, ph, dilution, steady)| Event::Ph(PhEvent::Read {
                vessel,
                ph: Ph::from_units(ph),
                instrument: Instrument::Meter,
                dilution,
                taken: Mass::ZERO,
                steady
            })
        ),
        (vessel(), 0i64..50_000_000, "[A-Z0-9]{0,6}").prop_map(|(vessel, mass, lot)| Event::Ph(PhEvent::Dose {
            vessel,
            titrant: IngredientId::parse("citric-acid").unwrap(),
            strength: Percent::WHOLE,
            mass: Mass::micrograms(mass),
            step: Mass::micrograms(10_000),
            lot,
        })),
        (0i64..600_000_000).prop_map(|mass| Event::Ph(PhEvent::Sample { mass: Mass::micrograms(mass) })),
        (any_id(), ".{0,20}").prop_map(|(entry, reason)| Event::Struck { entry, reason }),
        made(),
    ]
}

/// Notes them with changes of the formula between, and looks for each in memory, store and file.
fn every_one_is_kept(events: Vec<Event>) {
    let (journal, mut open) = (MemoryJournal::default(), opened());
    begin(&mut open, 9);
    let mut noted = vec![EntryId::random(0)];
    for (n, event) in (1..).zip(events) {
        // What the page cannot offer to strike is not struck.
        if matches!(&event, Event::Struck { entry, .. } if !noted.contains(entry)) {
            continue;
        }
        let id = EntryId::random(n);
        let entry = BatchEntry { id: id.clone(), at: at((n as i64 * 7) % 5), event };
        let took = [open.note(&entry), open.note(&entry)];
        assert_eq!(took, [true, false], "an id names one entry");
        noted.push(id);
        open.act(Action::Title(format!("Title {n}")), at(3));
        if n % 3 == 0 {
            open.undo(at(4));
            open.redo(at(4));
            open.undo(at(4));
        }
        assert_eq!(ids(&open), noted.clone());
    }
    let folded = record(&open).ph();
    if let Some(setting) = &folded {
        let acid = |id: &IngredientId| crate::facts::acid(id.as_str());
        setting.log.course(&acid);
    }
    write(&mut open, &journal);
    assert_eq!(record(&reopen(&journal, open.id())), record(&open));
    let text = document_text(&open.with_records(&[]), open.shelf());
    assert_eq!(record(&imported(&text, &journal)).ph(), folded);
}

/// A property test found it once: a name of white space alone.
#[test]
fn record_begun_by_a_maker_without_a_name_is_kept() {
    every_one_is_kept(vec![Event::Begun { code: String::new(), maker: "\u{b}".into() }]);
}

proptest! {
    /// Whatever happens, a record folds; what was noted stays, in its order, through store and file; and no undo, redo or
    /// change of the formula takes any of it away.
    #[test]
    fn record_of_any_events_folds_and_keeps_them_all(events in prop::collection::vec(any_event(), 0..20)) {
        every_one_is_kept(events);
    }
}
