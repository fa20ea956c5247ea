//! The pH log of a batch: readings, doses and what was taken away, in order, and what follows from them. It is a fold over
//! the record of the batch.

use super::dose::near_enough;
use super::units::{Kilograms, MolPerKg, fraction};
use super::{MeterCheck, MeterTrust};
use crate::facts::{Acid, IngredientId};
use crate::quantity::{Mass, Percent, Ph, Quantity, Timestamp, keyed};

keyed! {
    /// Where something is done.
    Vessel {
        /// The batch itself.
        Batch = "batch",
        /// The side sample that was taken last: what goes wrong there costs 20 to 50 g, not the batch.
        Side = "side",
    }
}

keyed! {
    /// What a pH was read with.
    #[derive(Default)]
    Instrument {
        /// A meter, calibrated: ±0.05.
        #[default]
        Meter = "meter",
        /// A strip: ±0.5.
        Strip = "strip",
    }
}

impl Instrument {
    /// Half the width of its error, in pH. Common practice, no source; a calibrated meter's sheet says its own.
    pub const fn half_width(self) -> f64 {
        match self {
            Self::Meter => 0.05,
            Self::Strip => 0.5,
        }
    }
}

/// The ways in which a reading is taken: one part of product in so many, and how much of it that takes away. Common
/// practice, no source.
pub const SAMPLING_METHODS: [(u8, Mass); 3] =
    [(5, Mass::micrograms(2_000_000)), (10, Mass::micrograms(1_000_000)), (1, Mass::ZERO)];

/// One entry of the log.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PhEvent {
    /// A pH was read on a sample that was then thrown away.
    Read {
        /// Of what.
        vessel: Vessel,
        /// What was read.
        ph: Ph,
        /// With what.
        instrument: Instrument,
        /// One part of product in so many parts: 1 as it is, 5 for 2 g in 8 g of distilled water, 10 for 1 + 9.
        dilution: u8,
        /// How much was taken away for it.
        taken: Mass,
        /// Whether it was unchanged for a minute; nothing where that was not asked. One that was not decides nothing.
        steady: Option<bool>,
    },
    /// Acid or base went in.
    Dose {
        /// Into what.
        vessel: Vessel,
        /// Which.
        titrant: IngredientId,
        /// The share of the substance itself in what was added: 100 % for a pure solid.
        strength: Percent,
        /// How much of that was added.
        mass: Mass,
        /// The step of the scale that it was weighed on.
        step: Mass,
        /// The lot that it was made from; empty where none was noted.
        lot: String,
    },
    /// A side sample was taken from the batch; the one before is given up.
    Sample {
        /// How much.
        mass: Mass,
    },
    /// The meter was checked with two buffers.
    Buffers(MeterCheck),
    /// The meter stays unchecked, on the maker's word.
    Unchecked,
}

/// The log of one batch with what it started from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PhLog {
    /// The mass of the batch when the log began, frozen then.
    pub batch: Mass,
    /// The pH to be reached, by the same way of reading.
    pub target: Ph,
    /// What happened, in order, each with its time as the page's clock had it.
    pub events: Vec<(Timestamp, PhEvent)>,
    /// Events that were a mistake and count no more, by their places among them from 0.
    pub struck: Vec<usize>,
}

/// One reading in its place.
#[derive(Debug, Clone, PartialEq)]
pub struct PhReading {
    /// Its place in the log.
    pub event: usize,
    /// Of what.
    pub vessel: Vessel,
    /// What was read, by the check of its meter: [`PhLog::counted`].
    pub ph: f64,
    /// True for a strip, and for a meter that a check speaks for.
    pub checked: bool,
    /// With what.
    pub instrument: Instrument,
    /// One part in so many.
    pub dilution: u8,
    /// What had been added by then, in the order of [`ReplayedLog::titrants`].
    pub added: Vec<MolPerKg>,
    /// Variance of each of those from weighing, in (mol/kg)².
    pub doubt: Vec<f64>,
}

/// The state of a vessel.
#[derive(Debug, Clone, PartialEq)]
pub struct VesselState {
    /// The product in it, without what was added.
    pub product: Kilograms,
    /// Everything in it.
    pub total: Kilograms,
    /// What was added so far, in the order of [`ReplayedLog::titrants`].
    pub added: Vec<MolPerKg>,
    /// Variance of each of those from weighing, in (mol/kg)².
    pub doubt: Vec<f64>,
    /// How many doses of each it had itself.
    pub doses: Vec<usize>,
}

/// What follows from a log.
#[derive(Debug, Clone)]
pub struct ReplayedLog {
    /// Every acid and base that was added.
    pub titrants: Vec<&'static Acid>,
    /// Readings that count, in order.
    pub readings: Vec<PhReading>,
    /// The batch.
    pub batch: VesselState,
    /// The side sample, if one was taken.
    pub side: Option<VesselState>,
    /// How many side samples were taken.
    pub samples: usize,
    /// Places of doses whose substance the table does not know: nothing can be computed past them.
    pub unknown: Vec<usize>,
}

/// Standard uncertainty of a weighing in steps of the scale: two readings, each rounded, 1 / √6.
const WEIGHING: f64 = 0.41;

impl PhLog {
    /// A log that begins now.
    pub fn new(batch: Mass, target: Ph) -> Self {
        Self { batch, target, events: Vec::new(), struck: Vec::new() }
    }

    /// True if the entry at this place was struck.
    pub fn is_struck(&self, place: usize) -> bool {
        self.struck.contains(&place)
    }

    /// Whether the batch was read as near to its target as counts, and nothing has gone into it since.
    pub fn is_at_target(&self) -> bool {
        let of_batch = self.events.iter().enumerate().rev().filter(|(place, _)| !self.is_struck(*place));
        let last = of_batch.map(|(place, (_, event))| (place, event)).find_map(|(place, event)| match event {
            PhEvent::Read { vessel: Vessel::Batch, instrument, .. } => {
                let hundredths = (self.counted(place)? * 100.0).round();
                Some((hundredths - self.target.units() as f64).abs() / 100.0 <= near_enough(*instrument))
            }
            PhEvent::Dose { vessel: Vessel::Batch, .. } => Some(false),
            _ => None,
        });
        last.unwrap_or(false)
    }

    /// True if there is a side sample.
    pub fn has_side(&self) -> bool {
        let sampled = |(place, (_, event)): (usize, &(Timestamp, PhEvent))| {
            matches!(event, PhEvent::Sample { .. }) && !self.is_struck(place)
        };
        self.events.iter().enumerate().any(sampled)
    }

    /// The lot that an acid or base was last dosed from; nothing where none of it was, or no lot was noted.
    pub fn last_lot(&self, titrant: &IngredientId) -> Option<&str> {
        let lot = |(place, (_, event)): (usize, &'_ (Timestamp, PhEvent))| match event {
            PhEvent::Dose { titrant: of, .. } if of == titrant && !self.is_struck(place) => Some(place),
            _ => None,
        };
        let place = self.events.iter().enumerate().rev().find_map(lot)?;
        match self.events.get(place) {
            Some((_, PhEvent::Dose { lot, .. })) if !lot.is_empty() => Some(lot),
            _ => None,
        }
    }

    /// True if a solution of this strength was used before: some of it may be left.
    pub fn has_used(&self, titrant: &IngredientId, strength: Percent) -> bool {
        let used = |event: &PhEvent| match event {
            PhEvent::Dose { titrant: of, strength: with, .. } => of == titrant && *with == strength,
            _ => false,
        };
        self.events.iter().enumerate().any(|(place, (_, event))| used(event) && !self.is_struck(place))
    }

    /// The strength of the acid or base that went last into a vessel, else into any.
    pub fn last_strength(&self, vessel: Vessel, of: &str) -> Option<Percent> {
        let mut anywhere = None;
        for (place, (_, event)) in self.events.iter().enumerate().rev() {
            let PhEvent::Dose { vessel: into, titrant, strength, .. } = event else { continue };
            if titrant.as_str() != of || self.is_struck(place) {
                continue;
            }
            if *into == vessel {
                return Some(*strength);
            }
            anywhere = anywhere.or(Some(*strength));
        }
        anywhere
    }

    /// How the last reading was taken.
    pub fn last_way(&self) -> Option<(Instrument, u8)> {
        self.events.iter().rev().find_map(|(_, event)| match event {
            PhEvent::Read { instrument, dilution, .. } => Some((*instrument, *dilution)),
            _ => None,
        })
    }

    /// Follows the log. `row` gives the acid or base of an ingredient.
    pub fn course(&self, row: &dyn Fn(&IngredientId) -> Option<&'static Acid>) -> ReplayedLog {
        let batch = VesselState {
            product: Kilograms::of(self.batch),
            total: Kilograms::of(self.batch),
            added: Vec::new(),
            doubt: Vec::new(),
            doses: Vec::new(),
        };
        let mut course = ReplayedLog {
            titrants: Vec::new(),
            readings: Vec::new(),
            batch,
            side: None,
            samples: 0,
            unknown: Vec::new(),
        };
        for (place, (at, event)) in self.events.iter().enumerate() {
            if self.is_struck(place) {
                continue;
            }
            match event {
                PhEvent::Read { vessel, instrument, dilution, taken, .. } => {
                    let Some(state) = course.vessel_mut(*vessel) else { continue };
                    let (added, doubt) = (state.added.clone(), state.doubt.clone());
                    state.take(Kilograms::of(*taken));
                    let Some(ph) = self.counted(place) else { continue };
                    let of_meter = *instrument == Instrument::Meter;
                    course.readings.push(PhReading {
                        event: place,
                        vessel: *vessel,
                        ph,
                        checked: !of_meter || matches!(self.trust(place, *at), MeterTrust::Checked(_)),
                        instrument: *instrument,
                        dilution: *dilution,
                        added,
                        doubt,
                    });
                }
                PhEvent::Dose { vessel, titrant, strength, mass, step, .. } => match row(titrant) {
                    Some(row) => {
                        course.dose(*vessel, row, *strength, Kilograms::of(*mass), Kilograms::of(*step));
                    }
                    None => course.unknown.push(place),
                },
                PhEvent::Sample { mass } => {
                    let mass = Kilograms::of(*mass).min(course.batch.total);
                    let mut side = course.batch.clone();
                    let part = if side.total > Kilograms::ZERO { mass.part_of(side.total) } else { 0.0 };
                    side.product = side.product * part;
                    side.total = mass;
                    side.doses.fill(0);
                    course.batch.take(mass);
                    course.side = Some(side);
                    course.samples += 1;
                }
                PhEvent::Buffers(_) | PhEvent::Unchecked => {}
            }
        }
        course.know(course.titrants.len());
        course
    }
}

impl VesselState {
    /// How many doses of anything it had itself.
    pub fn dosed(&self) -> usize {
        self.doses.iter().sum()
    }

    /// Takes away some of what is in it, well mixed.
    fn take(&mut self, mass: Kilograms) {
        if self.total > Kilograms::ZERO {
            self.product = self.product * (1.0 - mass.part_of(self.total)).max(0.0);
            self.total = (self.total - mass).max(Kilograms::ZERO);
        }
    }
}

impl ReplayedLog {
    /// The state of a vessel, if it exists.
    pub fn vessel(&self, vessel: Vessel) -> Option<&VesselState> {
        match vessel {
            Vessel::Batch => Some(&self.batch),
            Vessel::Side => self.side.as_ref(),
        }
    }

    fn vessel_mut(&mut self, vessel: Vessel) -> Option<&mut VesselState> {
        match vessel {
            Vessel::Batch => Some(&mut self.batch),
            Vessel::Side => self.side.as_mut(),
        }
    }

    /// The place of an acid or base among the titrants. One that comes late was added nowhere before.
    pub fn place_of(&mut self, row: &'static Acid) -> usize {
        if let Some(place) = self.titrants.iter().position(|known| known.id == row.id) {
            return place;
        }
        self.titrants.push(row);
        self.know(self.titrants.len());
        self.titrants.len() - 1
    }

    /// Makes room for so many titrants everywhere.
    fn know(&mut self, titrants: usize) {
        for reading in &mut self.readings {
            reading.added.resize(titrants, MolPerKg::ZERO);
            reading.doubt.resize(titrants, 0.0);
        }
        for state in [Some(&mut self.batch), self.side.as_mut()].into_iter().flatten() {
            state.added.resize(titrants, MolPerKg::ZERO);
            state.doubt.resize(titrants, 0.0);
            state.doses.resize(titrants, 0);
        }
    }

    fn dose(&mut self, vessel: Vessel, row: &'static Acid, strength: Percent, mass: Kilograms, step: Kilograms) {
        let at = self.place_of(row);
        let Some(state) = self.vessel_mut(vessel) else { return };
        if state.product > Kilograms::ZERO
            && let (Some(added), Some(doubt)) = (state.added.get_mut(at), state.doubt.get_mut(at))
        {
            // What each kilogram of what was weighed brings.
            let each = MolPerKg::of(Kilograms(fraction(strength)), row, state.product);
            *added += each * mass.0;
            *doubt += (WEIGHING * step.0 * each.0).powi(2);
        }
        state.total += mass;
        if let Some(doses) = state.doses.get_mut(at) {
            *doses += 1;
        }
    }
}
