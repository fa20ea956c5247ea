//! Whether a pH meter tells the truth, in words: its check with two buffers, readings that move, and what a reading leaves open.
#![allow(missing_docs, reason = "each constant is its own text")]

use super::chemistry::{Name, who};
use super::{DecimalSign, dose, number};
use crate::batch::dose::{DOSES_ON_TRUST, MeterDoubt, ReadingClash};
use crate::batch::{Instrument, LeftOpen, MeterCheck, MeterNow, MeterTrust, MeterVerdict, PhEvent, PhLog};
use crate::facts::{Buffer, IngredientId, meter_bounds};
use crate::quantity::{Decimal, Ph, Quantity};
use crate::sheet::ph::Bar;

pub const CHECK: &str = "Check the meter with two buffers";
pub const FIRST: &str = "First buffer";
pub const SECOND: &str = "Second buffer";
pub const SHOWN: &str = "The meter shows";
pub const RECORD_CHECK: &str = "Record this check";
pub const TAKE_OVER: &str = "Use the last check";
pub const GO_ON: &str = "Go on without a check";
pub const STEADY: &str = "Unchanged for a minute: record";
pub const MOVING: &str = "Still moving: note only";
/// How a check is made. Common practice, no source.
pub const HOW_TO_CHECK: &str = "Rinse the electrode, dab it dry, and wait in each buffer until the reading has not changed for a minute. Use fresh buffers near 25\u{202f}\u{b0}C: one near 7, one near 4. What was in the buffer is thrown away.";
/// What goes on without a check means.
pub const WITHOUT: &str = "Without buffers you can go on. A meter that is off by the same amount everywhere shows nothing of it in the readings: the batch ends off by as much.";
pub const FAILED: &str = "Calibrate the meter";
/// After a reading that moved.
pub const WAIT: &str = "The last reading was still moving, so it decides nothing. Leave the electrode in for another minute, then read again.";

fn hundredths(value: f64, sign: DecimalSign) -> String {
    let text = number(&Decimal::new((value.abs() * 100.0).round() as i64, 2).fixed(), sign);
    if (value * 100.0).round() < 0.0 { format!("\u{2212}{text}") } else { text }
}

fn exact(ph: Ph, sign: DecimalSign) -> String {
    number(&ph.canonical(), sign)
}

/// Slope and offset, as "slope 97.0 %, offset 0.10".
fn line(check: &MeterCheck, sign: DecimalSign) -> String {
    let slope = Decimal::new((check.slope() * 1000.0).round() as i64, 1).fixed();
    format!("slope {}\u{202f}%, offset {}", number(&slope, sign), hundredths(check.offset(), sign))
}

/// A buffer in a list.
pub fn buffer(buffer: &Buffer, sign: DecimalSign) -> String {
    number(buffer.name, sign)
}

/// A check as it stands in the log.
fn check(found: &MeterCheck, sign: DecimalSign) -> String {
    let one =
        |of: &crate::batch::BufferReading| format!("{} in buffer {}", exact(of.shown, sign), exact(of.buffer, sign));
    let text = format!("Meter checked: {}, {}: {}", one(&found.first), one(&found.second), line(found, sign));
    match found.verdict() {
        MeterVerdict::Fits => text,
        _ => format!("{text}. Failed"),
    }
}

/// An entry of the log that is about the meter; nothing of any other.
pub(super) fn entry(event: &PhEvent, sign: DecimalSign) -> Option<String> {
    match event {
        PhEvent::Buffers(found) => Some(check(found, sign)),
        PhEvent::Unchecked => Some("Gone on without a check of the meter".to_owned()),
        PhEvent::Read { .. } | PhEvent::Dose { .. } | PhEvent::Sample { .. } => None,
    }
}

/// An entry in its log: what a reading counts as stands behind it.
pub fn in_log(log: &PhLog, place: usize, name: &dyn Fn(&IngredientId) -> String, sign: DecimalSign) -> String {
    let Some((_, event)) = log.events.get(place) else { return String::new() };
    let text = dose::entry(event, name, sign);
    let PhEvent::Read { ph, steady, .. } = event else { return text };
    if log.is_struck(place) {
        return text;
    }
    match log.counted(place) {
        None if *steady == Some(false) => text,
        None => {
            let failed = log.events.get(place).is_some_and(|(at, _)| log.trust(place, *at) != MeterTrust::Doubted);
            let why = if failed { "the meter failed its check" } else { "the meter was checked only later" };
            format!("{text}; does not count, {why}")
        }
        Some(counted) if (counted * 100.0).round() as i64 == ph.units() => text,
        Some(counted) => format!("{text}; counts as {}, by the check of the meter", hundredths(counted, sign)),
    }
}

/// A reading in the record of its batch, with what it counts as.
pub(super) fn reading(ph: Ph, counted: Option<Ph>, sign: DecimalSign) -> String {
    let shown = exact(ph, sign);
    match counted {
        None => format!("pH {shown}, not counted"),
        Some(counted) if counted == ph => format!("pH {shown}"),
        Some(counted) => format!("pH {}, corrected from {shown}", exact(counted, sign)),
    }
}

/// What speaks for the meter now, in one line.
pub fn status(meter: &MeterNow, sign: DecimalSign) -> String {
    match (meter.trust, meter.last) {
        (MeterTrust::Checked(check), _) => {
            format!("Meter checked today: {}. Its readings are corrected by that.", line(&check, sign))
        }
        (MeterTrust::Failed(check), _) => format!("The meter failed its check: {}.", line(&check, sign)),
        (MeterTrust::Unchecked | MeterTrust::Doubted, Some(_)) => {
            format!("The last check of the meter is older than {} hours. Check it again.", meter_bounds().hours)
        }
        (MeterTrust::Unchecked | MeterTrust::Doubted, None) => "Meter not checked today.".to_owned(),
    }
}

/// What a check that is typed comes to, before it is recorded.
pub fn verdict(check: &MeterCheck, sign: DecimalSign) -> String {
    let line = line(check, sign);
    match check.verdict() {
        MeterVerdict::Fits => format!("{line}: within the usual bounds. Readings are corrected by this."),
        MeterVerdict::TooClose => failed(check, sign),
        MeterVerdict::Slope | MeterVerdict::Offset => format!("{line}. {}", failed(check, sign)),
    }
}

/// Why a check failed, and what to do.
pub fn failed(check: &MeterCheck, sign: DecimalSign) -> String {
    let bounds = meter_bounds();
    let (least, most) = bounds.slope;
    match check.verdict() {
        MeterVerdict::Fits => String::new(),
        MeterVerdict::TooClose => format!(
            "Both buffers are less than {} pH apart, which is too near to tell the slope. Use one near 7 and one near 4.",
            number(&Decimal::new(bounds.apart, 2).canonical(), sign)
        ),
        MeterVerdict::Slope => format!(
            "Between the buffers the meter moves by too much or too little: usual is {least} to {most}\u{202f}% of what they differ by. Rinse and soak the electrode, wait longer in each buffer, and calibrate the meter; a slow or worn electrode needs replacing. Then check it again. Until then its readings decide nothing.",
        ),
        MeterVerdict::Offset => format!(
            "In a buffer of pH 7 the meter is off by more than {}, the usual most. Calibrate it with fresh buffers, then check it again. Until then its readings decide nothing.",
            number(&Decimal::new(bounds.offset, 2).canonical(), sign)
        ),
    }
}

/// Why the meter is to be checked now.
pub(super) fn doubt(doubt: MeterDoubt) -> String {
    let why = match doubt {
        MeterDoubt::DosesOnTrust => format!(
            "{DOSES_ON_TRUST} doses have gone in by a meter that was not checked today. Check it before the next one."
        ),
        MeterDoubt::BeforeBatch => {
            "The side sample was read with a meter that was not checked today. Check it before the batch gets anything."
                .to_owned()
        }
        MeterDoubt::BeforeStop => {
            "By this reading the batch needs nothing, but the meter was not checked today, and a slow electrode can show the same. Check it, then read the batch again."
                .to_owned()
        }
        MeterDoubt::Misfit => {
            "The readings do not fit together, and the meter was not checked today. Check it before the next dose."
                .to_owned()
        }
        MeterDoubt::Strong => "What went in moved the pH less than this formula explains. Either the electrode is slow, or something buffers the pH that the formula does not name. Check the meter before the next dose.".to_owned(),
        MeterDoubt::Weak => "What went in moved the pH further than this formula explains. Either the meter is off, or the solution is stronger than it says. Check the meter before the next dose.".to_owned(),
    };
    format!("{why} {WITHOUT}")
}

/// What two readings that contradict each other show, and what to do.
pub(super) fn clash(a: usize, b: usize, clash: ReadingClash) -> String {
    let (a, b) = (a + 1, b + 1);
    let what = match clash {
        ReadingClash::WrongWay => {
            "the pH moved against what went in between them. Stir, take a fresh sample, and measure again"
        }
        ReadingClash::Moved => "nothing went in between them, and the pH moved. Take a fresh sample, and measure again",
        ReadingClash::Slow => {
            "nothing went in between them, and the pH went on moving the same way, as a slow electrode shows it. Wait until the reading has not changed for a minute, and measure again"
        }
    };
    format!(
        "No dose: entries {a} and {b} of the log contradict each other: {what}. Cross out the one that is wrong. If it happens again, check the meter with two buffers."
    )
}

/// Between which ends a batch lies that is left as it is, and on which side of the windows of its preservatives.
pub fn ends(ends: &LeftOpen, name: Name<'_>, sign: DecimalSign) -> Vec<String> {
    let (low, high) = (exact(ends.low, sign), exact(ends.high, sign));
    let with = match ends.instrument {
        Instrument::Meter => "A meter tells the pH to \u{b1}0.05",
        Instrument::Strip => "A strip tells the pH to \u{b1}0.5",
    };
    let mut said = vec![format!("{}: the batch is between pH {low} and {high}.", number(with, sign))];
    let names = |bars: &[Bar]| bars.iter().map(|bar| who(bar.who, name)).collect::<Vec<_>>().join(", ");
    if !ends.above.is_empty() {
        said.push(format!(
            "At the upper end it is above the pH window of {}, which may not preserve there. Measure with a meter, or aim lower.",
            names(&ends.above)
        ));
    }
    if !ends.below.is_empty() {
        said.push(format!(
            "At the lower end it is below the pH window of {}. Measure with a meter, or aim higher.",
            names(&ends.below)
        ));
    }
    if ends.unchecked {
        said.push(
            "The meter was not checked today: if it is off, so is the batch. Check it with two buffers before you fill."
                .to_owned(),
        );
    }
    said
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::batch::{BufferReading, Vessel};
    use crate::quantity::{Mass, Timestamp};

    fn two(seven: i64, four: i64) -> MeterCheck {
        let one = |buffer, shown| BufferReading { buffer: Ph::from_units(buffer), shown: Ph::from_units(shown) };
        MeterCheck { first: one(700, seven), second: one(401, four), done: None }
    }

    #[test]
    fn check_is_told_with_its_slope_and_its_offset() {
        assert_eq!(
            check(&two(690, 398), DecimalSign::Comma),
            "Meter checked: 6,9 in buffer 7, 3,98 in buffer 4,01: slope 97,7\u{202f}%, offset \u{2212}0,10"
        );
        assert!(check(&two(700, 440), DecimalSign::Point).ends_with("Failed"));
        let said = verdict(&two(710, 420), DecimalSign::Point);
        assert_eq!(said, "slope 97.0\u{202f}%, offset 0.10: within the usual bounds. Readings are corrected by this.");
    }

    #[test]
    fn failed_check_says_what_is_usual_and_what_to_do() {
        let slope = failed(&two(700, 440), DecimalSign::Point);
        assert!(slope.contains("95 to 105\u{202f}%") && slope.contains("slow or worn electrode"), "{slope}");
        let offset = failed(&two(760, 461), DecimalSign::Comma);
        assert!(offset.contains("more than 0,5") && offset.contains("Calibrate"), "{offset}");
        let close = failed(&two(700, 401), DecimalSign::Point);
        assert_eq!(close, "");
    }

    #[test]
    fn every_doubt_says_what_to_do_and_that_one_may_go_on() {
        use MeterDoubt::*;
        for one in [DosesOnTrust, BeforeBatch, BeforeStop, Misfit, Strong, Weak] {
            let text = doubt(one);
            assert!(text.contains("heck") && text.contains("you can go on"), "{text}");
        }
        for one in [ReadingClash::WrongWay, ReadingClash::Moved, ReadingClash::Slow] {
            let text = clash(0, 2, one);
            assert!(text.contains("entries 1 and 3 of the log contradict each other"), "{text}");
            assert!(text.contains("measure again") && text.contains("two buffers"), "{text}");
        }
    }

    #[test]
    fn reading_in_its_log_says_what_it_counts_as() {
        let name = |_: &IngredientId| String::new();
        let read = |steady| PhEvent::Read {
            vessel: Vessel::Batch,
            ph: Ph::from_units(515),
            instrument: Instrument::Meter,
            dilution: 5,
            taken: Mass::ZERO,
            steady,
        };
        let mut log = PhLog::new(Mass::micrograms(500_000_000), Ph::from_units(520));
        let events = [PhEvent::Buffers(two(710, 420)), read(Some(true)), read(Some(false)), PhEvent::Unchecked];
        log.events = events.into_iter().map(|event| (Timestamp::default(), event)).collect();
        let told = |place| in_log(&log, place, &name, DecimalSign::Point);
        assert_eq!(
            told(1),
            "pH 5.15 of the batch: meter, 1 in 5 (2 + 8\u{202f}g), unchanged for a minute; counts as 4.99, by the check of the meter"
        );
        assert!(told(2).ends_with("still moving, not counted"), "{}", told(2));
        assert_eq!(told(3), "Gone on without a check of the meter");
    }

    #[test]
    fn strip_leaves_an_interval_and_names_the_preservative_that_it_may_lose() {
        use crate::facts::{Basis, PhWindow};
        use crate::formula::LineId;
        let window = PhWindow { min: None, max: Some(Ph::from_units(550)) };
        let line = LineId::of(3);
        let bar = Bar { who: crate::sheet::ph::Who::Preservative(line), window, worst: None, basis: Basis::MAKER };
        let found = LeftOpen {
            low: Ph::from_units(450),
            high: Ph::from_units(550),
            instrument: Instrument::Strip,
            unchecked: false,
            below: Vec::new(),
            above: vec![bar],
        };
        let name = |_| "Sodium benzoate".to_owned();
        let said = ends(&found, &name, DecimalSign::Comma);
        assert_eq!(said[0], "A strip tells the pH to \u{b1}0,5: the batch is between pH 4,5 and 5,5.");
        assert!(said[1].contains("upper end") && said[1].contains("window of Sodium benzoate"), "{said:?}");
        assert_eq!(said.len(), 2);
        let meter = LeftOpen { instrument: Instrument::Meter, unchecked: true, above: Vec::new(), ..found };
        assert!(ends(&meter, &name, DecimalSign::Point)[1].contains("not checked today"));
    }
}
