//! A number of whole things.

use super::{Kind, Quantity, Scale};

/// A number of jars, 1 to 100 000.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Count(i64);

impl Quantity for Count {
    const KIND: Kind = Kind::Count;
    const PLACES: u32 = 0;
    const MIN: i64 = 1;
    const MAX: i64 = 100_000;

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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Problem, Reading};

    #[test]
    fn count_only_whole_things_are_read() {
        assert_eq!(Count::read("12"), Reading::Value(Count(12)));
        assert_eq!(Count::read("1.5"), Reading::Unread(Problem::TooFine { places: 0 }));
        // Where a thousand could be meant it is asked about, and never taken for granted.
        assert_eq!(Count::read("1.234"), Reading::Ambiguous { decimal: None, thousands: Count(1234) });
        assert_eq!(Count::read("1,234"), Reading::Ambiguous { decimal: None, thousands: Count(1234) });
        assert_eq!(Count::read("0.234"), Reading::Unread(Problem::TooFine { places: 0 }));
        assert!(matches!(Count::read("0"), Reading::Unread(Problem::OutOfRange { .. })));
    }
}
