//! A temperature reading.

use super::{Scale, quantity};

/// Thousandths of a degree Celsius, −50 to 300 °C: freezer to hot oil.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Celsius(i64);

impl Celsius {
    /// 25 °C, at which tables give constants and a pH is read.
    pub const ROOM: Self = Self(25_000);
}

quantity! {
    Celsius: Temperature, 3, -50_000, 300_000,
    |unit| matches!(unit, "" | "C" | "c" | "\u{b0}C" | "\u{b0}c" | "\u{b0}").then_some(Scale::exact(1000))
}
