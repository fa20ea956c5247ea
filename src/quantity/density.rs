//! Mass per volume.

use super::{Kind, Quantity, Scale};

/// In units of 0.000001 g/mL, above 0 to 25 g/mL (no liquid or powder of the trade is denser).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Density(i64);

impl Quantity for Density {
    const KIND: Kind = Kind::Density;
    const PLACES: u32 = 6;
    const MIN: i64 = 1;
    const MAX: i64 = 25_000_000;

    fn from_units(units: i64) -> Self {
        Self(units)
    }

    fn units(self) -> i64 {
        self.0
    }

    fn scale(unit: &str) -> Option<Scale> {
        matches!(unit.to_ascii_lowercase().as_str(), "" | "g/ml").then_some(Scale::exact(1_000_000))
    }
}
