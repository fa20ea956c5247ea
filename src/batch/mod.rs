//! What happens to one batch: so far the setting of its pH. A log is a list of events that only grows; everything else
//! is a fold over it.

pub mod dose;
mod log;

pub use log::{Course, Instrument, PhEvent, PhLog, Reading, State, Vessel};
