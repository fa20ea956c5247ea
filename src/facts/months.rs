//! How long an unopened material keeps.

use crate::quantity::{Kind, Quantity, Scale};

/// Whole months, 1 to 600.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Months(i64);

impl Quantity for Months {
    const KIND: Kind = Kind::Months;
    const PLACES: u32 = 0;
    const MIN: i64 = 1;
    const MAX: i64 = 600;

    fn from_units(units: i64) -> Self {
        Self(units)
    }

    fn units(self) -> i64 {
        self.0
    }

    fn scale(unit: &str) -> Option<Scale> {
        unit.is_empty().then_some(Scale::exact(1))
    }
}
