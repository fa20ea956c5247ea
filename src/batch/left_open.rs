//! What a reading at the target leaves open: no instrument tells more than an interval.

use super::{Instrument, PhLog, Vessel};
use crate::facts::{Acid, IngredientId};
use crate::quantity::{Ph, Quantity};
use crate::sheet::ph::{Bar, Who};

/// Between which ends the pH of a batch lies that is left as it is, and what that means for its preservatives.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LeftOpen {
    /// The lower one.
    pub low: Ph,
    /// The upper one.
    pub high: Ph,
    /// What it was read with.
    pub instrument: Instrument,
    /// True if nothing speaks for the meter that it was read with.
    pub unchecked: bool,
    /// Windows of preservatives that the lower end lies below.
    pub below: Vec<Bar>,
    /// Windows of preservatives that the upper end lies above.
    pub above: Vec<Bar>,
}

impl LeftOpen {
    /// Between which ends the newest reading of the batch puts it.
    pub(super) fn of(log: &PhLog, row: &dyn Fn(&IngredientId) -> Option<&'static Acid>, bars: &[Bar]) -> Option<Self> {
        let course = log.course(row);
        let reading = course.readings.iter().rev().find(|reading| reading.vessel == Vessel::Batch)?;
        let half = reading.instrument.half_width();
        let end = |ph: f64| Ph::from_units(((ph * 100.0).round() as i64).clamp(Ph::MIN, Ph::MAX));
        let (low, high) = (end(reading.ph - half), end(reading.ph + half));
        let preservatives = || bars.iter().filter(|bar| matches!(bar.who, Who::Preservative(_))).copied();
        Some(Self {
            low,
            high,
            instrument: reading.instrument,
            unchecked: !reading.checked,
            below: preservatives().filter(|bar| bar.window.min.is_some_and(|min| low < min)).collect(),
            above: preservatives().filter(|bar| bar.window.max.is_some_and(|max| high > max)).collect(),
        })
    }
}
