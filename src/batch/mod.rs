//! What happens to one batch: so far the setting of its pH. A log is a list of events that only grows; everything else
//! is a fold over it.

pub mod dose;
mod log;
mod next_step;

pub use log::{Instrument, PhEvent, PhLog, PhReading, ReplayedLog, SAMPLING_METHODS, Vessel, VesselState};
pub use next_step::{Adjuster, Dot, NextStep, Picture, Tools, adjusters, next_step};
