//! Cooling against scipy, against curves by hand, and against nonsense.

use super::guesses::{Assumed, Guesses, PotReading, RoomBelief};
use super::*;
use proptest::prelude::*;
use serde_json::Value;

const BEGUN: i64 = 1_790_000_000_000;

fn at(minutes: f64) -> Timestamp {
    Timestamp::from_millis(BEGUN + (minutes * MINUTE_MS).round() as i64)
}

fn minutes(at: Timestamp) -> f64 {
    (at.millis() - BEGUN) as f64 / MINUTE_MS
}

fn forecast(readings: &[(f64, f64)], target: f64) -> Cooling {
    let readings: Vec<_> = readings.iter().map(|(minutes, degrees)| (at(*minutes), celsius(*degrees))).collect();
    forecast_cooling(&readings, celsius(target))
}

fn told(readings: &[(f64, f64)], target: f64) -> Forecast {
    match forecast(readings, target) {
        Cooling::Forecast(told) => told,
        other => panic!("{other:?} of {readings:?}"),
    }
}

/// A room that is all but known.
fn known(room: f64) -> RoomBelief {
    RoomBelief { usual: room, below: 0.01, above: 0.01, weight: 1.0 }
}

/// A room of which nothing is known.
const ANY_ROOM: RoomBelief = RoomBelief { usual: 20.0, below: 1_000.0, above: 1_000.0, weight: 1.0 };

/// The minutes to a target in the middle of what is believed, of readings as `(minutes, °C)`.
fn middle(readings: &[(f64, f64)], room: RoomBelief, target: f64) -> f64 {
    let readings: Vec<PotReading> =
        readings.iter().map(|(minutes, celsius)| PotReading { minutes: *minutes, celsius: *celsius }).collect();
    let assumed = Assumed { rooms: vec![room], error: 0.5 / 3.0f64.sqrt(), rates: (1.0 / 2_880.0, 1.0) };
    let [middle] = Guesses::of(&readings, &assumed).unwrap().quantiles(|guess| guess.minutes_to(target), [0.5]);
    middle
}

// Worked by hand: a room of 20 °C, a pot of 80 °C whose excess of 60 °C halves every 30 minutes (50 °C, 35 °C). 40 °C are a
// third of the excess: 30 × ln 3 ÷ ln 2 = 47.55 min.
#[test]
fn pot_whose_excess_halves_is_where_it_should_be() {
    let readings = [(0.0, 80.0), (30.0, 50.0), (60.0, 35.0)];
    assert!((middle(&readings, known(20.0), 40.0) - 47.55).abs() < 0.1);
    let told = told(&[(0.0, 80.0), (10.0, 20.0 + 60.0 * 0.793_700_5), (30.0, 50.0)], 40.0);
    assert!((minutes(told.at) - 47.55).abs() < 1.0, "{told:?}");
    assert_eq!(told.readings, 3);
}

#[test]
fn what_gives_no_time_says_why() {
    for (readings, target, expected) in [
        (&[][..], 40.0, Cooling::TooFew),
        (&[(0.0, 80.0)], 40.0, Cooling::TooFew),
        (&[(0.0, 80.0), (0.0, 70.0)], 40.0, Cooling::TooFew),
        (&[(0.0, 40.0)], 40.0, Cooling::There),
        (&[(0.0, 80.0), (30.0, 39.0)], 40.0, Cooling::There),
        (&[(30.0, 40.0), (30.0, 39.0), (0.0, 80.0)], 40.0, Cooling::There),
        (&[(0.0, 80.0), (30.0, 80.0)], 40.0, Cooling::NotFalling),
        (&[(0.0, 80.0), (30.0, 79.0)], 40.0, Cooling::NotFalling),
        (&[(0.0, 60.0), (10.0, 80.0)], 40.0, Cooling::NotFalling),
        (&[(0.0, 80.0), (30.0, 60.0)], 15.0, Cooling::NotReached),
        (&[(0.0, 80.0), (30.0, 60.0)], -20.0, Cooling::NotReached),
    ] {
        assert_eq!(forecast(readings, target), expected, "{readings:?} to {target}");
    }
}

#[test]
fn hotter_of_two_readings_at_one_time_decides() {
    let both = told(&[(0.0, 80.0), (30.0, 39.0), (30.0, 41.0)], 40.0);
    assert_eq!(both.earliest, at(30.0), "not before the last reading");
    assert!(both.latest.is_some_and(|latest| latest > both.at));
}

#[test]
fn target_near_the_room_may_never_be_reached() {
    let few = told(&[(0.0, 75.0), (20.0, 60.0)], 24.0);
    assert_eq!(few.latest, None);
    let span = minutes(few.curve.last().unwrap().at);
    assert!((span - 2.0 * minutes(few.at)).abs() < 0.01, "{few:?}");
    assert!(told(&[(0.0, 75.0), (20.0, 60.0)], 40.0).latest.is_some());
}

#[test]
fn heating_again_begins_a_new_curve() {
    let alone = [(50.0, 70.0), (60.0, 62.0), (75.0, 53.0)];
    let mut with = vec![(0.0, 80.0), (20.0, 65.0), (40.0, 55.0)];
    with.extend(alone);
    assert_eq!(told(&with, 40.0), told(&alone, 40.0));
    // A rise that two readings may be wrong by is none.
    assert_eq!(told(&[(0.0, 70.0), (5.0, 68.0), (6.0, 69.0), (20.0, 60.0)], 40.0).readings, 4);
}

#[test]
fn readings_that_fit_no_curve_make_the_range_wide() {
    let width = |readings: &[(f64, f64)]| {
        let told = told(readings, 40.0);
        minutes(told.latest.unwrap()) - minutes(told.earliest)
    };
    let smooth = [(0.0, 75.0), (10.0, 68.2), (20.0, 62.2), (30.0, 56.9), (40.0, 52.3)];
    let mut stirred = smooth;
    (stirred[1].1, stirred[3].1) = (72.0, 52.9);
    assert!(width(&stirred) > 3.0 * width(&smooth), "{} {}", width(&stirred), width(&smooth));
}

#[test]
fn curve_meets_the_target_where_the_times_say() {
    let told = told(&[(0.0, 75.0), (15.0, 64.0), (30.0, 55.5), (45.0, 49.0)], 40.0);
    let crossing = |of: fn(&CurvePoint) -> Celsius| {
        let pair = told.curve.windows(2).find(|pair| of(&pair[1]) <= celsius(40.0)).unwrap();
        (minutes(pair[0].at) - 0.1, minutes(pair[1].at) + 0.1)
    };
    let within = |(from, to): (f64, f64), at: Timestamp| from <= minutes(at) && minutes(at) <= to;
    assert!(within(crossing(|point| point.middle), told.at), "{told:?}");
    assert!(within(crossing(|point| point.low), told.earliest), "{told:?}");
    assert!(within(crossing(|point| point.high), told.latest.unwrap()), "{told:?}");
}

fn vectors() -> Value {
    serde_json::from_str(include_str!("../../../tests/vectors/cooling.json")).unwrap()
}

/// A pot of the vectors.
struct Sample {
    target: f64,
    room: f64,
    readings: Vec<(f64, f64)>,
    /// Infinite where the room is not below the target.
    truth: f64,
    fixed: Option<f64>,
    /// With its standard error.
    free: Option<(f64, f64)>,
}

fn samples(group: &str) -> Vec<Sample> {
    let numbers =
        |value: &Value| -> Vec<f64> { value.as_array().unwrap().iter().map(|n| n.as_f64().unwrap()).collect() };
    let all = vectors();
    let sample = |pot: &Value| Sample {
        target: pot["target"].as_f64().unwrap(),
        room: pot["room"].as_f64().unwrap(),
        readings: numbers(&pot["minutes"]).into_iter().zip(numbers(&pot["celsius"])).collect(),
        truth: pot["true"].as_f64().unwrap_or(f64::INFINITY),
        fixed: pot["fixed"].as_f64(),
        free: pot["free"].as_array().map(|pair| (pair[0].as_f64().unwrap(), pair[1].as_f64().unwrap())),
    };
    all[group].as_array().unwrap().iter().map(sample).collect()
}

// Source: scipy's curve_fit on pots with a fixed seed (`tests/vectors/cooling.py`), the room known. They differ by 0.36 % at
// the most.
#[test]
fn time_in_a_known_room_is_that_of_least_squares() {
    let (mut compared, mut worst) = (0, 0.0f64);
    for sample in samples("usual") {
        let Some(expected) = sample.fixed else { continue };
        let found = middle(&sample.readings, known(sample.room), sample.target);
        worst = worst.max((found - expected).abs() / expected);
        compared += 1;
    }
    assert!(compared > 180 && worst < 0.01, "{compared} {worst}");
}

// Source: the same, the room fitted too. Where many rooms go with the readings the middle of what is believed is not the best
// fit, so they are compared in standard errors of scipy's, and only where that is less than a fortieth
// of the time: 0.29 of them at the most.
#[test]
fn time_in_an_unknown_room_is_that_of_least_squares() {
    let (mut compared, mut worst) = (0, 0.0f64);
    for sample in samples("usual").into_iter().chain(samples("unusual")) {
        let Some((expected, error)) = sample.free.filter(|(time, error)| *error < time / 40.0) else { continue };
        let found = middle(&sample.readings, ANY_ROOM, sample.target);
        worst = worst.max((found - expected).abs() / error);
        compared += 1;
    }
    assert!(compared > 40 && worst < 0.5, "{compared} {worst}");
}

/// The earliest time and the latest of a sample by some of its readings, in minutes; any time where they do not fall.
fn range(sample: &Sample, readings: &[(f64, f64)]) -> [f64; 2] {
    let readings: Vec<_> = readings.iter().map(|(minutes, degrees)| (at(*minutes), celsius(*degrees))).collect();
    let pot = CoolingPot::since_heated(&readings, 0.5);
    let guesses = pot.believed(&cooling_figures().unwrap().0);
    let [earliest, _, latest] = guesses.map_or([0.0, 0.0, f64::INFINITY], |all| pot.minutes_to(&all, sample.target));
    [earliest, latest]
}

/// In how many of a hundred samples the true time is within the range, rounded down.
fn held(group: &str) -> usize {
    let samples = samples(group);
    let covers = |sample: &&Sample| {
        let [earliest, latest] = range(sample, &sample.readings);
        earliest - 0.01 <= sample.truth && sample.truth <= latest + 0.01
    };
    let held = samples.iter().filter(covers).count();
    assert!(samples.len() > 60);
    held * 100 / samples.len()
}

/// Of the ranges that should hold in nineteen of twenty cases 94 and 96 of a hundred do, in rooms from 17 to 26 °C that are all
/// alike likely. In rooms of 2 to 12 °C or 30 to 34 °C it is 80: there twelve readings or more have to speak against what is
/// assumed, and not all do.
#[test]
fn ranges_hold_as_often_as_they_say() {
    assert!(held("usual") >= 90);
    assert!(held("low target") >= 90);
    assert!(held("unusual") >= 75);
}

#[test]
fn ranges_narrow_as_readings_come() {
    let mut pots = samples("usual");
    pots.retain(|pot| pot.readings.len() == 40);
    let widths = [5, 10, 20, 40].map(|count| {
        let width = |pot: &Sample| {
            let [earliest, latest] = range(pot, pot.readings.get(..count).unwrap());
            (latest - earliest) / pot.truth
        };
        let mut all: Vec<f64> = pots.iter().map(width).collect();
        all.sort_by(f64::total_cmp);
        all[all.len() / 2]
    });
    assert!(widths.windows(2).all(|pair| pair[1] < pair[0] * 0.9), "{widths:?}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(ProptestConfig::default().cases / 4))]

    #[test]
    fn any_readings_give_a_range_in_order(
        readings in prop::collection::vec((any::<i64>(), any::<i64>()), 0..6), target in any::<i64>(),
    ) {
        let readings: Vec<_> = readings.into_iter().map(|(at, celsius)| {
            (Timestamp::from_millis(at), Celsius::from_units(celsius))
        }).collect();
        in_order_or_none(&readings, Celsius::from_units(target))?;
    }

    #[test]
    fn plain_readings_give_a_range_in_order(
        readings in prop::collection::vec((0i64..20_000_000, -60_000i64..310_000), 0..9), target in -50_000i64..100_000,
    ) {
        let readings: Vec<_> = readings.into_iter().map(|(at, celsius)| {
            (Timestamp::from_millis(BEGUN + at), Celsius::from_units(celsius))
        }).collect();
        in_order_or_none(&readings, Celsius::from_units(target))?;
    }

    #[test]
    fn falling_readings_are_told_in_any_order(
        steps in prop::collection::vec((1i64..40, 1i64..120), 2..8), turn in any::<prop::sample::Index>(),
    ) {
        let (mut readings, mut now, mut degrees) = (Vec::new(), 0, 90.0);
        for (wait, fall) in steps {
            readings.push((now as f64, degrees));
            (now, degrees) = (now + wait, degrees - fall as f64 / 10.0 - 1.0);
        }
        readings.push((now as f64, degrees));
        let found = forecast(&readings, degrees - 5.0);
        let turned = turn.index(readings.len());
        readings.rotate_left(turned);
        prop_assert_eq!(&forecast(&readings, degrees - 5.0), &found);
    }
}

fn in_order_or_none(readings: &[(Timestamp, Celsius)], target: Celsius) -> Result<(), TestCaseError> {
    if let Cooling::Forecast(told) = forecast_cooling(readings, target) {
        prop_assert!(told.earliest <= told.at && told.latest.is_none_or(|latest| told.at <= latest), "{:?}", told);
        prop_assert!(told.readings >= 2 && told.readings <= readings.len());
        prop_assert_eq!(told.curve.len(), POINTS as usize + 1);
        for pair in told.curve.windows(2) {
            prop_assert!(pair[0].at <= pair[1].at && pair[0].middle >= pair[1].middle);
        }
        prop_assert!(told.curve.iter().all(|point| point.low <= point.middle && point.middle <= point.high));
    }
    Ok(())
}
