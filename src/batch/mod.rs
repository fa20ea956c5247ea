//! What happens to one batch. Its record is a list of entries that only grows; everything else, such as the setting of its
//! pH, is a fold over it.

pub mod dose;
mod log;
mod next_step;
mod record;
mod units;

pub use log::{Instrument, PhEvent, PhLog, PhReading, ReplayedLog, SAMPLING_METHODS, Vessel, VesselState};
pub use next_step::{Adjuster, Dot, NextStep, Picture, Tools, adjusters, next_step};
pub use record::{BatchEntry, BatchRecord, EntryId, Event, FrozenFinding, FrozenLine, MadeFrom, PhSetting};
pub use units::{Kilograms, MolPerKg};
