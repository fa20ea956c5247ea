//! Whatever happens to a batch, its record folds and keeps it.

use super::*;
use crate::facts::IngredientId;
use crate::quantity::Percent;
use proptest::prelude::*;

fn any_event() -> impl Strategy<Value = Event> {
    let vessel = || prop_oneof![Just(Vessel::Batch), Just(Vessel::Side)];
    let any_id = || (0u64..20).prop_map(EntryId::random);
    prop_oneof![
        (0..=Mass::MAX, 0i64..=1400).prop_map(|(mass, target)| Event::PhBegun {
            batch: Mass::micrograms(mass),
            target: Ph::from_units(target),
        }),
        (vessel(), 0i64..=1400, 1u8..=100).prop_map(|(vessel, ph, dilution)| Event::Ph(PhEvent::Read {
            vessel,
            ph: Ph::from_units(ph),
            instrument: Instrument::Meter,
            dilution,
            taken: Mass::ZERO,
        })),
        (vessel(), 0i64..50_000_000).prop_map(|(vessel, mass)| Event::Ph(PhEvent::Dose {
            vessel,
            titrant: IngredientId::parse("citric-acid").unwrap(),
            strength: Percent::WHOLE,
            mass: Mass::micrograms(mass),
            step: Mass::micrograms(10_000),
        })),
        (0i64..600_000_000).prop_map(|mass| Event::Ph(PhEvent::Sample { mass: Mass::micrograms(mass) })),
        (any_id(), ".{0,20}").prop_map(|(entry, reason)| Event::Struck { entry, reason }),
    ]
}

proptest! {
    /// Whatever happens, a record folds; what was noted stays, in its order, through store and file; and no undo, redo or
    /// change of the formula takes any of it away.
    #[test]
    fn record_of_any_events_folds_and_keeps_them_all(events in prop::collection::vec(any_event(), 0..20)) {
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
            prop_assert_eq!(took, [true, false], "an id names one entry");
            noted.push(id);
            open.act(Action::Title(format!("Title {n}")), at(3));
            if n % 3 == 0 {
                open.undo(at(4));
                open.redo(at(4));
                open.undo(at(4));
            }
            prop_assert_eq!(ids(&open), noted.clone());
        }
        let folded = record(&open).ph();
        if let Some(setting) = &folded {
            let acid = |id: &IngredientId| crate::facts::acid(id.as_str());
            setting.log.course(&acid);
        }
        write(&mut open, &journal);
        prop_assert_eq!(record(&reopen(&journal, open.id())), record(&open));
        let text = document_text(&open.with_records(&[]), open.shelf());
        prop_assert_eq!(record(&imported(&text, &journal)).ph(), folded);
    }
}
