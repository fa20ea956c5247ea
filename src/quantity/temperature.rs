//! A temperature reading.

use super::{Kind, Quantity, Scale};

/// Thousandths of a degree Celsius, −50 to 300 °C: freezer to hot oil.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Celsius(i64);

impl Celsius {
    /// 25 °C, at which tables give constants and a pH is read.
    pub const ROOM: Self = Self(25_000);
}

impl Quantity for Celsius {
    const KIND: Kind = Kind::Temperature;
    const PLACES: u32 = 3;
    const MIN: i64 = -50_000;
    const MAX: i64 = 300_000;

    fn from_units(units: i64) -> Self {
        Self(units)
    }

    fn units(self) -> i64 {
        self.0
    }

    fn scale(unit: &str) -> Option<Scale> {
        matches!(unit, "" | "C" | "c" | "\u{b0}C" | "\u{b0}c" | "\u{b0}").then_some(Scale::exact(1000))
    }
}
