//! What a scale sends by the Weight Scale service of Bluetooth (service 0x181D, characteristic 0x2A9D).
//!
//! Source: Bluetooth SIG, GATT Specification Supplement, "Weight Measurement": one byte of flags, then the weight as an unsigned
//! number of 16 bits, the low byte first, in steps of 0.005 kg or, where the lowest flag is set, of 0.01 lb; 0xFFFF stands
//! for a measurement that failed (the last from memory). What follows, time, person and height, is not read.

use super::{AtStove, Task};
use crate::quantity::{Mass, Quantity};

/// 0.005 kg.
const METRIC_STEP: Mass = Mass::micrograms(5_000_000);
/// A hundredth of the international pound of 0.45359237 kg, in tenths of a microgram.
const POUND_STEP: i64 = 45_359_237;
const FAILED: u16 = 0xFFFF;

/// Why there is no reading.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoReading {
    /// The scale says that it could not weigh.
    Failed,
    /// It sent something else.
    Unreadable,
}

/// What a scale shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ScaleReading {
    /// How much lies on it.
    pub mass: Mass,
    /// The steps in which it tells that.
    pub step: Mass,
}

impl ScaleReading {
    /// Reads what was sent.
    ///
    /// # Errors
    /// There is no reading in it.
    pub fn read(sent: &[u8]) -> Result<Self, NoReading> {
        let [flags, low, high, ..] = *sent else { return Err(NoReading::Unreadable) };
        let steps = match u16::from_le_bytes([low, high]) {
            FAILED => return Err(NoReading::Failed),
            steps => i64::from(steps),
        };
        let pounds = |steps: i64| Mass::from_units((steps * POUND_STEP + 5) / 10);
        Ok(match flags & 1 {
            0 => Self { mass: Mass::from_units(steps * METRIC_STEP.units()), step: METRIC_STEP },
            _ => Self { mass: pounds(steps), step: pounds(1) },
        })
    }

    /// Whether it tells a mass finely enough for something that may be off by so much: half a step is its doubt.
    pub fn is_fine_enough(self, allowed: Mass) -> bool {
        self.step.units() <= allowed.units().saturating_mul(2)
    }
}

impl AtStove {
    /// What a reading says of the line that is weighed: all of it where the scale was set to zero before, or what it shows
    /// above the lines before in the same vessel, whichever is nearer to what is to go in.
    pub fn of_reading(&self, task: Task, reading: Mass) -> Mass {
        let Task::Weigh { line, .. } = task else { return reading };
        let Some(target) = self.making.lines.get(line).map(|line| line.target) else { return reading };
        let before = self.making.in_vessel(task).minus(target);
        let above = reading.minus(before);
        let off = |mass: Mass| mass.units().abs_diff(target.units());
        if above > Mass::ZERO && off(above) < off(reading) { above } else { reading }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn grams(text: &str) -> Mass {
        Mass::from_canonical(text).unwrap()
    }

    #[test]
    fn readings_are_read_in_both_units() {
        // 181 steps of 5 g, with a time, a person and a height behind them that nobody asks for.
        let sent = [0x0E, 181, 0, 0xEA, 0x07, 11, 30, 9, 0, 0, 1, 0, 0, 0, 0];
        assert_eq!(ScaleReading::read(&sent).unwrap().mass, grams("905"));
        // The highest step: 65,534 × 5 g.
        assert_eq!(ScaleReading::read(&[0, 0xFE, 0xFF]).unwrap().mass, grams("327670"));
        // 1.00 lb is 453.59237 g; a hundredth of that, 4.5359237 g, to the nearest microgram.
        let pound = ScaleReading::read(&[1, 100, 0]).unwrap();
        assert_eq!((pound.mass, pound.step), (grams("453.59237"), grams("4.535924")));
    }

    #[test]
    fn readings_that_are_none_are_said_to_be_none() {
        assert_eq!(ScaleReading::read(&[0, 0xFF, 0xFF]), Err(NoReading::Failed));
        for sent in [&[][..], &[0], &[1, 2]] {
            assert_eq!(ScaleReading::read(sent), Err(NoReading::Unreadable), "{sent:?}");
        }
    }

    #[test]
    fn readings_in_steps_of_five_grams_are_for_large_lines_only() {
        let reading = ScaleReading::read(&[0, 181, 0]).unwrap();
        assert!(reading.is_fine_enough(grams("2.5")) && !reading.is_fine_enough(grams("2.499999")));
    }
}
