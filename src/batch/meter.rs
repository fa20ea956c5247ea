//! Whether a pH meter tells the truth: its check with two buffers, and which readings of a log that speaks for.
//!
//! A meter that was set shows a straight line of the true pH: its slope and its offset follow from two buffers whose pH is
//! known, and a reading is taken back along that line. A check speaks for the readings after it, up to the next one. The
//! first check of a log speaks for those before it, too, while nothing has gone in; after a dose it was made in doubt, and
//! whether those readings had been waited for is in doubt as well: they count no more, and the vessels are read anew. A check
//! that failed speaks for no reading.

use super::{Instrument, PhEvent, PhLog};
use crate::facts::meter_bounds;
use crate::quantity::{Ph, Quantity, Timestamp};

/// Milliseconds of an hour.
const HOUR: i64 = 3_600_000;
/// Where an offset is told, in pH.
const NEUTRAL: f64 = 7.0;

/// A meter in a buffer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct BufferReading {
    /// What the bottle says.
    pub buffer: Ph,
    /// What the meter showed.
    pub shown: Ph,
}

/// A meter in two buffers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct MeterCheck {
    /// The first.
    pub first: BufferReading,
    /// The second.
    pub second: BufferReading,
    /// When it was done, if that was before it was noted: the check of the day may be taken over from another batch.
    pub done: Option<Timestamp>,
}

/// What a check comes to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MeterVerdict {
    /// Within the usual bounds: readings are corrected by it.
    Fits,
    /// The buffers are too near to each other to tell a slope.
    TooClose,
    /// It moves by too little or too much between the buffers: the electrode is slow, dirty or worn.
    Slope,
    /// It is off by too much in a buffer of pH 7.
    Offset,
}

/// What speaks for the readings of a meter.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MeterTrust {
    /// No check, or none of the day.
    Unchecked,
    /// A check that fits.
    Checked(MeterCheck),
    /// A check that failed, and none since.
    Failed(MeterCheck),
    /// A check that was made in doubt later, after a dose.
    Doubted,
}

fn of(ph: Ph) -> f64 {
    ph.units() as f64 / 100.0
}

impl MeterCheck {
    /// What the meter shows of the difference between the buffers: 1 if all of it. Zero for buffers of the same pH.
    pub fn slope(&self) -> f64 {
        let apart = of(self.second.buffer) - of(self.first.buffer);
        if apart == 0.0 { 0.0 } else { (of(self.second.shown) - of(self.first.shown)) / apart }
    }

    /// What it would show in a buffer of pH 7, less 7.
    pub fn offset(&self) -> f64 {
        of(self.first.shown) + self.slope() * (NEUTRAL - of(self.first.buffer)) - NEUTRAL
    }

    /// What it comes to.
    pub fn verdict(&self) -> MeterVerdict {
        let bounds = meter_bounds();
        let apart = (self.second.buffer.units() - self.first.buffer.units()).abs();
        // As shown, to a hundredth: what is told and what is judged are one figure.
        let (slope, offset) = ((self.slope() * 1000.0).round(), (self.offset() * 100.0).round().abs());
        let (least, most) = bounds.slope;
        if apart < bounds.apart {
            MeterVerdict::TooClose
        } else if slope < least as f64 * 10.0 || slope > most as f64 * 10.0 {
            MeterVerdict::Slope
        } else if offset > bounds.offset as f64 {
            MeterVerdict::Offset
        } else {
            MeterVerdict::Fits
        }
    }

    /// The true pH of what the meter shows; what it shows itself by a check that has no slope.
    pub fn corrected(&self, shown: f64) -> f64 {
        let slope = self.slope();
        if slope > 0.0 { of(self.first.buffer) + (shown - of(self.first.shown)) / slope } else { shown }
    }

    /// True if it still holds at an instant; `noted` is when it was noted.
    pub fn holds(&self, noted: Timestamp, at: Timestamp) -> bool {
        let done = self.done.unwrap_or(noted);
        (at.millis() - done.millis()).abs() <= meter_bounds().hours * HOUR
    }

    /// As text that a device can keep for the batches after this one.
    pub fn write(&self, done: Timestamp) -> String {
        let one = |of: BufferReading| format!("{} {}", of.buffer.canonical(), of.shown.canonical());
        format!("{} {} {}", done.text(), one(self.first), one(self.second))
    }

    /// From that text; nothing if it is none.
    pub fn read(text: &str) -> Option<Self> {
        let mut parts = text.split(' ');
        let done = Timestamp::read(parts.next()?)?;
        let mut ph = || parts.next().and_then(|text| Ph::from_canonical(text).ok());
        let (first, second) = ((ph()?, ph()?), (ph()?, ph()?));
        let one = |(buffer, shown)| BufferReading { buffer, shown };
        Some(Self { first: one(first), second: one(second), done: Some(done) })
    }

    fn trust(self) -> MeterTrust {
        if self.verdict() == MeterVerdict::Fits { MeterTrust::Checked(self) } else { MeterTrust::Failed(self) }
    }
}

impl PhLog {
    /// The checks that were not struck, with their places and when they were noted.
    fn checks(&self) -> impl DoubleEndedIterator<Item = (usize, Timestamp, &MeterCheck)> {
        self.events.iter().enumerate().filter_map(|(place, (at, event))| match event {
            PhEvent::Buffers(check) if !self.is_struck(place) => Some((place, *at, check)),
            _ => None,
        })
    }

    /// True if the meter was checked between the entries at these two places.
    pub fn was_checked_between(&self, from: usize, to: usize) -> bool {
        self.checks().any(|(check, ..)| check > from && check < to)
    }

    /// What speaks for a reading of a meter at a place in the log, made at this instant. The place after the last entry is
    /// that of the next reading.
    pub fn trust(&self, place: usize, at: Timestamp) -> MeterTrust {
        let before = self.checks().rev().find(|check| check.0 < place);
        let first = || self.checks().next();
        if before.is_none() && first().is_some_and(|(later, ..)| self.is_dosed_before(later)) {
            return MeterTrust::Doubted;
        }
        match before.or_else(first) {
            Some((_, noted, check)) if check.holds(noted, at) => check.trust(),
            // What failed is not mended by waiting.
            Some((_, _, check)) if check.verdict() != MeterVerdict::Fits => check.trust(),
            _ => MeterTrust::Unchecked,
        }
    }

    /// The pH that a reading at a place stands for: that of a meter by its check. Nothing if it decides nothing: it was not
    /// steady, a check of its meter failed, or it is no reading.
    pub fn counted(&self, place: usize) -> Option<f64> {
        let (at, event) = self.events.get(place).filter(|_| !self.is_struck(place))?;
        let PhEvent::Read { ph, instrument, steady, .. } = event else { return None };
        if *instrument != Instrument::Meter {
            return Some(of(*ph));
        }
        match self.trust(place, *at) {
            _ if *steady == Some(false) => None,
            MeterTrust::Failed(_) | MeterTrust::Doubted => None,
            MeterTrust::Unchecked => Some(of(*ph)),
            MeterTrust::Checked(check) => Some(check.corrected(of(*ph)).clamp(0.0, 14.0)),
        }
    }

    fn is_dosed_before(&self, place: usize) -> bool {
        let dosed = |(n, (_, event)): (usize, &(Timestamp, PhEvent))| {
            n < place && matches!(event, PhEvent::Dose { .. }) && !self.is_struck(n)
        };
        self.events.iter().enumerate().any(dosed)
    }

    /// True if the maker said that the meter stays unchecked.
    pub fn goes_on_unchecked(&self) -> bool {
        let said = |(place, (_, event)): (usize, &(Timestamp, PhEvent))| {
            matches!(event, PhEvent::Unchecked) && !self.is_struck(place)
        };
        self.events.iter().enumerate().any(said)
    }

    /// The last check that was not struck, with the instant at which it was done.
    pub fn last_check(&self) -> Option<(MeterCheck, Timestamp)> {
        self.checks().next_back().map(|(_, noted, check)| (*check, check.done.unwrap_or(noted)))
    }

    /// True if the newest reading of the log was not steady, and none has been made since.
    pub fn is_unsteady(&self) -> bool {
        let newest = self.events.iter().enumerate().rev().find_map(|(place, (_, event))| match event {
            PhEvent::Read { steady, .. } if !self.is_struck(place) => Some(*steady),
            _ => None,
        });
        newest == Some(Some(false))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::batch::Vessel;
    use crate::quantity::Mass;

    fn in_buffer(buffer: i64, shown: i64) -> BufferReading {
        BufferReading { buffer: Ph::from_units(buffer), shown: Ph::from_units(shown) }
    }

    fn check(seven: i64, four: i64) -> MeterCheck {
        MeterCheck { first: in_buffer(700, seven), second: in_buffer(401, four), done: None }
    }

    // Worked by hand: 7.10 and 4.20 shown in 7.00 and 4.01 are 2.90 of 2.99, 97.0 %, and 0.10 too much at 7. A reading of
    // 5.15 lies 1.95 below 7.10, which is 2.0105 of true pH: 4.99.
    #[test]
    fn slope_offset_and_correction_are_those_of_a_straight_line() {
        let check = check(710, 420);
        assert!((check.slope() - 0.9699).abs() < 1e-4 && (check.offset() - 0.1).abs() < 1e-9);
        assert!((check.corrected(5.15) - 4.9895).abs() < 1e-4);
        assert_eq!(check.verdict(), MeterVerdict::Fits);
        // The buffers themselves come out as what they are, in either order.
        let turned = MeterCheck { first: check.second, second: check.first, done: None };
        for check in [check, turned] {
            assert!((check.corrected(7.1) - 7.0).abs() < 1e-9 && (check.corrected(4.2) - 4.01).abs() < 1e-9);
        }
    }

    #[test]
    fn check_is_kept_as_text_with_its_time() {
        let done = Timestamp::read("2026-11-29T08:10:00Z").unwrap();
        let text = check(710, 420).write(done);
        assert_eq!(text, "2026-11-29T08:10:00Z 7 7.1 4.01 4.2");
        assert_eq!(MeterCheck::read(&text), Some(MeterCheck { done: Some(done), ..check(710, 420) }));
        for wrong in ["", "2026-11-29T08:10:00Z 7 7.1 4.01", "now 7 7.1 4.01 4.2", "2026-11-29T08:10:00Z 7 x 4.01 4.2"]
        {
            assert_eq!(MeterCheck::read(wrong), None, "{wrong:?}");
        }
    }

    #[test]
    fn check_is_refused_outside_of_the_usual_bounds() {
        use MeterVerdict::*;
        // 2.99 apart: 95 % is 2.8405, 105 % is 3.1395.
        for (seven, four, verdict) in [
            (700, 415, Fits),
            (700, 417, Slope),
            (700, 387, Fits),
            (700, 385, Slope),
            (750, 451, Fits),
            (751, 452, Offset),
            (649, 350, Offset),
            (401, 700, Slope),
            (700, 700, Slope),
        ] {
            assert_eq!(check(seven, four).verdict(), verdict, "{seven} {four}");
        }
        let close = MeterCheck { first: in_buffer(700, 700), second: in_buffer(686, 686), done: None };
        assert_eq!(close.verdict(), TooClose);
        let same = MeterCheck { second: close.first, ..close };
        assert_eq!((same.verdict(), same.corrected(5.0)), (TooClose, 5.0));
    }

    #[test]
    fn readings_before_a_check_that_was_made_in_doubt_count_no_more() {
        let dose = PhEvent::Dose {
            vessel: Vessel::Batch,
            titrant: crate::facts::IngredientId::parse("citric-acid").unwrap(),
            strength: crate::quantity::Percent::WHOLE,
            mass: Mass::micrograms(100_000),
            step: Mass::micrograms(10_000),
            lot: String::new(),
        };
        let check = PhEvent::Buffers(check(690, 391));
        let mut log = log(&[(0, read(None)), (1, dose), (2, read(None)), (3, check), (4, read(Some(true)))]);
        assert_eq!((log.counted(0), log.counted(2)), (None, None));
        near(log.counted(4), 6.2);
        // Without the dose it was simply late.
        log.struck.push(1);
        near(log.counted(0), 6.2);
    }

    const MINUTE: i64 = 60_000;

    fn log(events: &[(i64, PhEvent)]) -> PhLog {
        let mut log = PhLog::new(Mass::micrograms(500_000_000), Ph::from_units(520));
        log.events = events.iter().map(|(at, event)| (Timestamp::from_millis(at * MINUTE), event.clone())).collect();
        log
    }

    fn read(steady: Option<bool>) -> PhEvent {
        PhEvent::Read {
            vessel: Vessel::Batch,
            ph: Ph::from_units(610),
            instrument: Instrument::Meter,
            dilution: 5,
            taken: Mass::ZERO,
            steady,
        }
    }

    fn near(found: Option<f64>, expected: f64) {
        assert!(found.is_some_and(|found| (found - expected).abs() < 1e-9), "{found:?}, not {expected}");
    }

    #[test]
    fn check_speaks_for_the_readings_after_it_and_the_first_for_those_before() {
        let (lower, higher) = (PhEvent::Buffers(check(690, 391)), PhEvent::Buffers(check(720, 421)));
        let mut log = log(&[(0, read(None)), (5, lower), (10, read(Some(true))), (20, higher), (30, read(Some(true)))]);
        near(log.counted(0), 6.2);
        near(log.counted(2), 6.2);
        near(log.counted(4), 5.9);
        assert_eq!(log.counted(1), None, "a check is no reading");
        log.struck.push(3);
        near(log.counted(4), 6.2);
    }

    #[test]
    fn check_holds_for_a_day() {
        let day = 24 * 60;
        let mut log = log(&[(0, PhEvent::Buffers(check(690, 391))), (day, read(None)), (day + 1, read(None))]);
        near(log.counted(1), 6.2);
        near(log.counted(2), 6.1);
        let now = |minutes: i64| Timestamp::from_millis(minutes * MINUTE);
        assert!(matches!(log.trust(3, now(day)), MeterTrust::Checked(_)));
        assert_eq!(log.trust(3, now(day + 1)), MeterTrust::Unchecked);
        // Taken over from an earlier batch, it is as old as it is.
        let done = Some(Timestamp::from_millis(-60 * MINUTE));
        log.events[0].1 = PhEvent::Buffers(MeterCheck { done, ..check(690, 391) });
        near(log.counted(1), 6.1);
        assert_eq!(log.last_check().map(|(_, at)| at), done);
    }

    #[test]
    fn readings_of_a_meter_that_failed_decide_nothing_until_it_passes() {
        let (failed, passed) = (PhEvent::Buffers(check(700, 440)), PhEvent::Buffers(check(700, 401)));
        let log = log(&[(0, read(None)), (1, failed), (2, read(Some(true))), (3, passed), (4, read(Some(true)))]);
        assert_eq!((log.counted(0), log.counted(2)), (None, None));
        near(log.counted(4), 6.1);
    }

    #[test]
    fn unsteady_reading_is_noted_and_decides_nothing() {
        let mut log = log(&[(0, read(Some(true))), (1, read(Some(false)))]);
        assert_eq!(log.counted(1), None);
        assert!(log.is_unsteady() && log.counted(0).is_some());
        log.struck.push(1);
        assert!(!log.is_unsteady());
        assert!(!log.goes_on_unchecked());
        log.events.push((Timestamp::default(), PhEvent::Unchecked));
        assert!(log.goes_on_unchecked());
        log.struck.push(log.events.len() - 1);
        assert!(!log.goes_on_unchecked(), "it was taken back");
    }
}
