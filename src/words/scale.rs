//! Words about a scale that sends what it shows.
#![allow(missing_docs, reason = "each constant is its own text")]

use super::{DecimalSign, grams};
use crate::batch::ScaleReading;
use crate::quantity::Mass;

pub const CONNECT: &str = "Connect a scale by Bluetooth";
pub const TAKE_READING: &str = "Take it";
pub const SILENT: &str = "The scale is connected. Nothing was sent yet: many send once they rest.";
pub const REFUSED: &str = "No scale was connected. Type what its display shows.";
pub const GONE: &str = "The scale is not connected any more. Type what its display shows, or connect it again.";
pub const FAILED: &str = "The scale could not weigh. Wait until it rests.";
pub const UNREADABLE: &str = "The scale sent something that is no weight. Type what its display shows.";

/// What a scale shows, and how much of that is the line.
pub fn shows(reading: ScaleReading, line: Mass, sign: DecimalSign) -> String {
    let shown = grams(reading.mass, sign);
    if line == reading.mass {
        format!("The scale shows {shown}.")
    } else {
        format!("The scale shows {shown}, {} of it this line.", grams(line, sign))
    }
}

/// Why a reading is not taken.
pub fn too_coarse(step: Mass, sign: DecimalSign) -> String {
    format!("It sends steps of {}, too coarse for this line: type what its display shows.", grams(step, sign))
}
