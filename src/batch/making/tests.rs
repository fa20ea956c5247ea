//! Batches as they are made, on a record of a few entries.

use super::*;
use crate::batch::{FrozenLine, FrozenScale};
use crate::formula::Formula;
use crate::quantity::{Percent, Quantity};
use proptest::prelude::*;
use std::sync::Arc;

fn grams(text: &str) -> Mass {
    Mass::from_canonical(text).unwrap()
}

fn line(name: &str, on_scale: &str) -> FrozenLine {
    FrozenLine {
        name: name.into(),
        share: Percent::ZERO,
        on_scale: grams(on_scale),
        lot: String::new(),
        inci: String::new(),
        phase: String::new(),
        capped: false,
    }
}

fn step(kind: StepKind, lines: &[usize]) -> FrozenStep {
    FrozenStep {
        kind,
        text: String::new(),
        why: String::new(),
        stirring: String::new(),
        lines: lines.to_vec(),
        temperature: None,
        minutes: None,
    }
}

/// 100 g of three lines: two are weighed together, the third later.
fn made_from() -> MadeFrom {
    MadeFrom {
        formula: Formula::default(),
        version: None,
        mark: 0,
        batch: Some(grams("100")),
        lines: vec![line("Water", "70"), line("Glycerin", "5"), line("Oil", "25")],
        steps: vec![
            step(StepKind::Clean, &[]),
            step(StepKind::Weigh, &[0, 1]),
            step(StepKind::Weigh, &[2]),
            step(StepKind::Hold, &[]),
        ],
        scale: Some(FrozenScale { step: grams("0.1"), tolerance: Percent::millionths(2_000_000) }),
        packs: None,
        findings: Vec::new(),
        rules_known_to: Day::read("2026-11-25").unwrap(),
    }
}

fn record(events: impl IntoIterator<Item = Event>) -> BatchRecord {
    let begun = Event::Begun { code: "H1".into(), maker: String::new() };
    let entries = [begun].into_iter().chain(events).zip(1..).map(|(event, n)| BatchEntry {
        id: EntryId::random(n),
        at: Timestamp::from_millis(60_000 * n as i64),
        event,
    });
    BatchRecord { made_from: Some(Arc::new(made_from())), entries: entries.collect() }
}

fn weighed(line: usize, actual: &str) -> Event {
    Event::Weighed {
        line,
        actual: grams(actual),
        source: MassSource::Typed,
        lot: String::new(),
        expiry: None,
        kept: false,
    }
}

fn making(events: impl IntoIterator<Item = Event>) -> Making {
    Making::of(&record(events)).unwrap()
}

#[test]
fn making_goes_from_task_to_task() {
    let tasks = making([]).tasks;
    let weigh = |step, line| Task::Weigh { step, line };
    assert_eq!(tasks, [Task::Step(0), weigh(1, 0), weigh(1, 1), weigh(2, 2), Task::Step(3), Task::Decide]);
    assert_eq!(making([]).next(), Some(0));
    let events = vec![Event::StepDone { step: 0 }, weighed(0, "70")];
    assert_eq!(making(events.clone()).next(), Some(2));
    // A line that was weighed out of turn stays weighed.
    let more = events.into_iter().chain([weighed(2, "25"), weighed(1, "5")]);
    assert_eq!(making(more).next(), Some(4));
}

#[test]
fn making_is_over_once_it_is_decided_or_given_up() {
    let decided = |decision| Event::Decided { decision, by: String::new(), remark: String::new() };
    assert_eq!(making([decided(Decision::Released)]).next(), None);
    assert_eq!(making([decided(Decision::Rejected)]).stage, BatchStage::Decided(Decision::Rejected));
    assert_eq!(making([decided(Decision::Waiting)]).next(), Some(0), "it waits, and goes on");
    assert_eq!(making([Event::Abandoned { reason: "Power cut".into() }]).next(), None);
}

#[test]
fn making_has_a_line_to_weigh_again_while_it_is_short() {
    // 2 % of 70 g is 1.4 g; of 5 g it is 0.1 g, as little as the scale shows.
    assert!(!making([weighed(0, "68.5")]).done[1]);
    assert!(making([weighed(0, "68.6")]).done[1]);
    assert!(making([weighed(0, "75")]).done[1], "too much is in, and cannot be weighed again");
    let kept = Event::Weighed {
        line: 0,
        actual: grams("60"),
        source: MassSource::Typed,
        lot: String::new(),
        expiry: None,
        kept: true,
    };
    assert!(making([kept.clone()]).done[1], "it is kept as it is");
    let larger = Event::Rescaled { batch: grams("110"), reason: String::new() };
    assert!(!making([kept, larger]).done[1], "and no more in a batch of another size");
    assert!(making([weighed(1, "4.9")]).done[2] && !making([weighed(1, "4.8")]).done[2]);
}

#[test]
fn making_rescaled_asks_for_the_rest_of_what_is_in() {
    let reason = || "Hand slipped".to_owned();
    let making =
        making([weighed(0, "70"), weighed(1, "5.5"), Event::Rescaled { batch: grams("110"), reason: reason() }]);
    let targets: Vec<Mass> = making.lines.iter().map(|line| line.target).collect();
    assert_eq!(targets, [grams("77"), grams("5.5"), grams("27.5")]);
    assert_eq!(making.next(), Some(0));
    assert!(!making.done[1] && making.done[2], "7 g of water are missing");
    assert_eq!((making.batch, making.charged()), (grams("110"), grams("75.5")));
}

#[test]
fn making_tells_what_stands_on_the_scale_of_one_vessel() {
    let weigh = |step, line| Task::Weigh { step, line };
    assert_eq!(making([]).in_vessel(weigh(1, 1)), grams("75"));
    assert_eq!(making([weighed(0, "70.3")]).in_vessel(weigh(1, 1)), grams("75.3"));
    assert_eq!(making([]).in_vessel(weigh(2, 2)), grams("25"), "another step, another vessel");
}

#[test]
fn timer_runs_by_recorded_instants_alone() {
    let timer = |minutes| Event::TimerStarted { step: 3, minutes: Minutes::from_units(minutes) };
    let twice = making([timer(20), timer(5)]);
    assert_eq!(twice.timers.len(), 1, "one for a step");
    let timer = &twice.timers[0];
    let at = |minute: i64| Timestamp::from_millis(60_000 * minute);
    assert_eq!((timer.began, timer.ends()), (at(3), at(8)));
    let left: Vec<i64> = [0, 3, 5, 8, 500].map(|minute| timer.left_millis(at(minute)) / 60_000).into();
    assert_eq!(left, [5, 5, 3, 0, 0]);
}

#[test]
fn cooling_begins_again_where_the_pot_was_heated_again() {
    let read = |pot, degrees: i64| Event::Temperature { pot, reading: Celsius::from_units(degrees * 1000) };
    let making = making([
        read(Pot::Water, 72),
        read(Pot::Batch, 66),
        read(Pot::Batch, 50),
        read(Pot::Batch, 60),
        read(Pot::Batch, 55),
    ]);
    let degrees: Vec<i64> = making.cooling().iter().map(|(_, celsius)| celsius.units() / 1000).collect();
    assert_eq!(degrees, [60, 55]);
    assert_eq!(making.temperature(Pot::Water).unwrap().celsius, Celsius::from_units(72_000));
}

#[test]
fn struck_entry_is_no_news_of_the_batch() {
    let strike = |n| Event::Struck { entry: EntryId::random(n), reason: "Misread".into() };
    let making = making([weighed(0, "70"), strike(2), weighed(0, "35"), Event::StepDone { step: 0 }, strike(5)]);
    assert_eq!(making.lines[0].weighed.as_ref().unwrap().mass, grams("35"));
    assert_eq!(making.next(), Some(0));
}

fn any_event() -> impl Strategy<Value = Event> {
    let mass = (0i64..200_000_000).prop_map(Mass::from_units);
    prop_oneof![
        (0usize..6, mass.clone()).prop_map(|(line, actual)| Event::Weighed {
            line,
            actual,
            source: MassSource::Typed,
            lot: String::new(),
            expiry: None,
            kept: false,
        }),
        (0usize..6).prop_map(|step| Event::StepDone { step }),
        (0usize..6, 1i64..100)
            .prop_map(|(step, minutes)| Event::TimerStarted { step, minutes: Minutes::from_units(minutes) }),
        mass.clone().prop_map(|batch| Event::Rescaled { batch, reason: String::new() }),
        mass.prop_map(|mass| Event::Filled { mass }),
        (1u64..30).prop_map(|n| Event::Struck { entry: EntryId::random(n), reason: String::new() }),
        (0i64..90_000).prop_map(|units| Event::Temperature { pot: Pot::Batch, reading: Celsius::from_units(units) }),
        Just(Event::Abandoned { reason: String::new() }),
    ]
}

proptest! {
    /// Whatever happens, it folds to a batch whose next task is one of those that are not done.
    #[test]
    fn any_events_fold_to_a_batch(events in prop::collection::vec(any_event(), 0..30)) {
        let record = record(events);
        // Striking the first entry takes the beginning away with it.
        if let Some(making) = Making::of(&record) {
            prop_assert_eq!(making.done.len(), making.tasks.len());
            match making.next() {
                Some(next) => prop_assert!(!making.done[next] && making.done[..next].iter().all(|done| *done)),
                None => prop_assert!(making.is_over()),
            }
            prop_assert!(making.cooling().is_sorted_by(|a, b| a.1 >= b.1));
            prop_assert_eq!(Making::of(&record.clone()), Some(making));
        }
    }
}
