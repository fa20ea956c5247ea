//! Acidity: what the acids, bases and salts of a formula make of its water, and which pH the formula needs.
//!
//! A physical model, so it reckons in floats; what leaves it is rounded once, to quantities.

mod activity;
mod prediction;
mod reach;
mod solve;
mod water;
mod window;

pub use activity::{davies, pk_at, pkw};
pub use prediction::{Prediction, predict};
pub use reach::{Missed, Needed, missed};
pub use solve::{AcidBaseMixture, Dissolved, Solution, undissociated};
pub use water::{Electrolyte, MolalityRange, WaterPhase, water_phase};
pub use window::{Bar, Who, Window, window};
