//! When a pot will have cooled to a temperature, such as that at which what takes no heat goes in.
//!
//! Newton's law of cooling: T(t) = room + (start − room) e^(−kt). It holds for a pot that stands and is left alone; a lid that
//! is taken off, a cold bath or stirring begin another curve, which only the readings after that tell. Nobody measures the
//! room: it is taken for a usual one (`facts::cooling_figures`) until four or more readings speak against that. What comes
//! out is a time with a range in which it lies in nineteen of twenty cases, if the model holds and the room is such a one.
//! The pot is to be measured all the same.

mod guesses;

use guesses::{Assumed, Guesses, PotReading, RoomBelief};

use crate::facts::{CoolingFigures, RoomRange, cooling_figures};
use crate::quantity::{Celsius, Quantity, Timestamp, sort_by};

/// The temperatures of one moment, for drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CurvePoint {
    /// When.
    pub at: Timestamp,
    /// Half of what is believed is below it.
    pub middle: Celsius,
    /// One in forty is below it.
    pub low: Celsius,
    /// One in forty is above it.
    pub high: Celsius,
}

/// When the target will be reached.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Forecast {
    /// As likely before as after. Never before the last reading.
    pub at: Timestamp,
    /// One in forty that it is before.
    pub earliest: Timestamp,
    /// One in forty that it is after. `None` where the room may be no colder than the target, so that it is never reached.
    pub latest: Option<Timestamp>,
    /// From the first reading that counts to `latest`, or to twice the time to `at` if that comes first.
    pub curve: Vec<CurvePoint>,
    /// How many readings it rests on: those since the pot was last heated.
    pub readings: usize,
}

/// What can be said of a pot that cools.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Cooling {
    /// The last reading is at the target or below it.
    There,
    /// Fewer than two readings at different times.
    TooFew,
    /// It does not fall, or by no more than two readings may be wrong by.
    NotFalling,
    /// It falls, but the room is more likely not below the target than below it.
    NotReached,
    /// When.
    Forecast(Forecast),
}

/// The parts of what is believed that lie below the earliest time, the middle and the latest one.
const PARTS: [f64; 3] = [0.025, 0.5, 0.975];
/// From so many readings on they may speak against a usual room: three are used up by start, rate and room. A choice of
/// this program.
const TELLING: usize = 4;
/// How likely an unusual room is held before they do. A choice of this program.
const UNUSUAL: f64 = 0.5;
/// The error of a reading is believed as firmly as if so many readings had told it. A choice of this program.
const FIRMNESS: f64 = 4.0;
/// Points of the curve but for the first.
const POINTS: i32 = 24;
/// Half of the width of a range that holds in nineteen of twenty cases, in standard deviations.
const TWO_SIDED: f64 = 1.96;
const MINUTE_MS: f64 = 60_000.0;

/// When a pot will have cooled to `target`, from readings in any order. A reading of something else than a temperature
/// that can be typed does not count.
pub fn forecast_cooling(readings: &[(Timestamp, Celsius)], target: Celsius) -> Cooling {
    let Some((figures, _)) = cooling_figures() else { return Cooling::TooFew };
    let error = degrees(figures.reading_error);
    let all = in_order(readings);
    let (Some((start, _)), Some((end, _))) = (all.first(), all.last()) else { return Cooling::TooFew };
    // Of two readings at one time the hotter one decides: what takes no heat must not go in too early.
    if all.iter().filter(|(at, _)| at == end).all(|(_, celsius)| *celsius <= target) {
        return Cooling::There;
    }
    if all.iter().all(|(at, _)| at == start) {
        return Cooling::TooFew;
    }
    let pot = CoolingPot::since_heated(&all, error);
    match pot.believed(&figures) {
        Some(guesses) => pot.forecast(&guesses, degrees(target)),
        None => Cooling::NotFalling,
    }
}

/// °C as a float.
fn degrees(celsius: Celsius) -> f64 {
    celsius.units() as f64 / 1_000.0
}

/// °C of a float, to a thousandth and kept within what can be typed.
fn celsius(degrees: f64) -> Celsius {
    Celsius::from_units((degrees * 1_000.0).round().clamp(Celsius::MIN as f64, Celsius::MAX as f64) as i64)
}

/// By time, and at one time the hottest first, so that the order in which they were noted does not matter.
fn in_order(readings: &[(Timestamp, Celsius)]) -> Vec<(Timestamp, Celsius)> {
    let range = Celsius::MIN..=Celsius::MAX;
    let mut all: Vec<_> = readings.iter().copied().filter(|(_, celsius)| range.contains(&celsius.units())).collect();
    sort_by(&mut all, |a, b| a.0.cmp(&b.0).then(b.1.cmp(&a.1)));
    all
}

/// The pot since it was last heated: the readings after the last rise by more than two readings may be wrong by.
struct CoolingPot {
    start: Timestamp,
    readings: Vec<PotReading>,
}

impl CoolingPot {
    fn since_heated(all: &[(Timestamp, Celsius)], error: f64) -> Self {
        let rises = |pair: &[(Timestamp, Celsius)]| match pair {
            [(_, before), (_, after)] => degrees(*after) - degrees(*before) > 2.0 * error,
            _ => false,
        };
        let first = all.windows(2).rposition(rises).map_or(0, |before| before + 1);
        let run = all.get(first..).unwrap_or_default();
        let start = run.first().map_or(Timestamp::default(), |(at, _)| *at);
        let minutes = |at: Timestamp| at.millis().saturating_sub(start.millis()) as f64 / MINUTE_MS;
        let readings = run.iter().map(|(at, celsius)| PotReading { minutes: minutes(*at), celsius: degrees(*celsius) });
        Self { start, readings: readings.collect() }
    }

    /// What is believed of it; `None` if it does not fall.
    fn believed(&self, figures: &CoolingFigures) -> Option<Guesses> {
        let (first, last) = (self.readings.first()?, self.readings.last()?);
        let fall = first.celsius - last.celsius;
        if last.minutes <= first.minutes || fall <= 2.0 * degrees(figures.reading_error) {
            return None;
        }
        let usual = || guesses(&self.readings, figures, vec![belief(&figures.room, 1.0)]);
        if self.readings.len() < TELLING {
            return usual();
        }
        let both = vec![belief(&figures.room, 1.0 - UNUSUAL), belief(&figures.elsewhere, UNUSUAL)];
        let both = guesses(&self.readings, figures, both)?;
        // Only where the readings speak against a usual room: else what is possible elsewhere would widen every range.
        if both.share_of(0) < 1.0 - UNUSUAL { Some(both) } else { usual() }
    }

    /// Minutes to the target that one in forty, half, and all but one in forty guesses are below.
    fn minutes_to(&self, guesses: &Guesses, target: f64) -> [f64; 3] {
        let last = self.readings.last().map_or(0.0, |reading| reading.minutes);
        guesses.quantiles(|guess| guess.minutes_to(target), PARTS).map(|minutes| minutes.max(last))
    }

    fn forecast(&self, guesses: &Guesses, target: f64) -> Cooling {
        let [earliest, middle, latest] = self.minutes_to(guesses, target);
        if middle.is_infinite() {
            return Cooling::NotReached;
        }
        let end = latest.min(2.0 * middle);
        Cooling::Forecast(Forecast {
            at: self.after(middle),
            earliest: self.after(earliest),
            latest: latest.is_finite().then(|| self.after(latest)),
            curve: (0..=POINTS).map(|n| self.point(guesses, end * f64::from(n) / f64::from(POINTS))).collect(),
            readings: self.readings.len(),
        })
    }

    fn after(&self, minutes: f64) -> Timestamp {
        Timestamp::from_millis(self.start.millis().saturating_add((minutes * MINUTE_MS).round() as i64))
    }

    fn point(&self, guesses: &Guesses, minutes: f64) -> CurvePoint {
        let [low, middle, high] = guesses.quantiles(|guess| guess.celsius(minutes), PARTS).map(celsius);
        CurvePoint { at: self.after(minutes), middle, low, high }
    }
}

/// A range as a belief, with so much given to it.
fn belief(range: &RoomRange, weight: f64) -> RoomBelief {
    let usual = degrees(range.usual);
    let (below, above) = (usual - degrees(range.least), degrees(range.greatest) - usual);
    RoomBelief { usual, below: below / TWO_SIDED, above: above / TWO_SIDED, weight }
}

/// The guesses, with readings taken for less certain where they are further from every curve than their error says: the
/// model does not hold then, and the range is as wide as that.
fn guesses(readings: &[PotReading], figures: &CoolingFigures, rooms: Vec<RoomBelief>) -> Option<Guesses> {
    // An error anywhere within ± a is a/√3 as a standard deviation.
    let error = degrees(figures.reading_error) / 3.0f64.sqrt();
    let rates = (1.0 / figures.longest_minutes as f64, 1.0 / figures.shortest_minutes as f64);
    let assumed = Assumed { rooms, error, rates };
    let found = Guesses::of(readings, &assumed)?;
    // Three are fitted.
    let spare = readings.len().saturating_sub(3) as f64;
    let squares = FIRMNESS * error.powi(2) + found.misfit()?;
    let seen = (squares / (FIRMNESS + spare)).sqrt();
    if spare < 1.0 || seen <= error {
        return Some(found);
    }
    Guesses::of(readings, &Assumed { error: seen, ..assumed })
}

#[cfg(test)]
mod tests;
