//! Acidity.

use super::{Kind, Quantity, Scale};

/// A pH in hundredths, 0 to 14. No meter of the trade reads finer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Ph(i64);

impl Quantity for Ph {
    const KIND: Kind = Kind::Ph;
    const PLACES: u32 = 2;
    const MIN: i64 = 0;
    const MAX: i64 = 1_400;

    fn from_units(units: i64) -> Self {
        Self(units)
    }

    fn units(self) -> i64 {
        self.0
    }

    fn scale(unit: &str) -> Option<Scale> {
        unit.is_empty().then_some(Scale::exact(100))
    }
}
