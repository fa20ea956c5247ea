//! Meters that lie, and makers who check them or do not.
//!
//! What a meter shows lies on a straight line of the true pH, moves with every reading a little further, and is approached
//! from what it showed before: by one and the same share of the way in each minute. A patient maker waits until the reading
//! has not changed for a minute; any other reads after one.

use super::population::{Random, Setting, read};
use hundred_parts::batch::{BufferReading, Instrument, MeterCheck};
use hundred_parts::quantity::{Ph, Quantity};

/// Longer than this nobody waits for a reading.
const MOST_MINUTES: usize = 10;
/// What is read of a buffer is off by as much at random: nothing is diluted there.
const BUFFER_ERROR: f64 = 0.02;
/// What a reading of a product is off by at random.
const SAMPLE_ERROR: f64 = 0.05;

/// What is wrong with a meter.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum Fault {
    /// Nothing.
    None,
    /// Shows 60 to 95 % of the way after a minute.
    Slow,
    /// Off by up to 0.3 everywhere.
    Offset,
    /// Shows 85 to 100 % of a difference.
    Slope,
    /// Moves by up to 0.005 with each reading.
    Drift,
    /// All of these.
    All,
}

/// What a maker does about the meter.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum Care {
    /// Nothing; asked, goes on without a check.
    Trusting,
    /// Nothing at first; asked, checks it and waits from then on.
    Asked,
    /// Checks it before the first reading, and waits with each.
    Checking,
}

/// What readings are taken with.
pub(super) struct Meter {
    instrument: Instrument,
    slope: f64,
    offset: f64,
    response: f64,
    drift: f64,
    shown: f64,
    readings: f64,
    pub(super) patient: bool,
    calibrated: Vec<MeterCheck>,
}

impl Meter {
    pub(super) fn new(setting: Setting, fault: Fault, patient: bool, random: &mut Random) -> Self {
        let mut of = |one: Fault, (low, high): (f64, f64), sound: f64| {
            if fault == one || fault == Fault::All { random.between(low, high) } else { sound }
        };
        let (response, offset) = (of(Fault::Slow, (0.6, 0.95), 1.0), of(Fault::Offset, (-0.3, 0.3), 0.0));
        let (slope, drift) = (of(Fault::Slope, (0.85, 1.0), 1.0), of(Fault::Drift, (-0.005, 0.005), 0.0));
        Self {
            instrument: setting.instrument,
            slope,
            offset,
            response,
            drift,
            shown: 7.0,
            readings: 0.0,
            patient,
            calibrated: Vec::new(),
        }
    }

    /// What it shows of a product.
    pub(super) fn read(&mut self, ph: f64, random: &mut Random) -> f64 {
        match self.instrument {
            Instrument::Meter => self.show(ph, SAMPLE_ERROR, random),
            Instrument::Strip => read(self.instrument, ph, random),
        }
    }

    fn show(&mut self, ph: f64, error: f64, random: &mut Random) -> f64 {
        let line = 7.0 + self.offset + self.slope * (ph - 7.0) + self.drift * self.readings;
        self.readings += 1.0;
        for _ in 0..if self.patient { MOST_MINUTES } else { 1 } {
            let before = self.shown;
            self.shown += self.response * (line - before);
            if ((self.shown - before) * 100.0).round() == 0.0 {
                break;
            }
        }
        let raw = self.shown + random.between(-error, error);
        (self.calibrated.iter().fold(raw, |shown, check| check.corrected(shown)) * 100.0).round() / 100.0
    }

    /// Its check in buffers of 7.00 and 4.01.
    pub(super) fn check(&mut self, random: &mut Random) -> MeterCheck {
        let mut one = |buffer: i64| {
            let shown = self.show(buffer as f64 / 100.0, BUFFER_ERROR, random);
            BufferReading { buffer: Ph::from_units(buffer), shown: super::ph(shown) }
        };
        MeterCheck { first: one(700), second: one(401), done: None }
    }

    /// Sets it by two buffers.
    pub(super) fn calibrate(&mut self, random: &mut Random) {
        let check = self.check(random);
        if check.slope() > 0.0 {
            self.calibrated.push(check);
        }
    }
}
