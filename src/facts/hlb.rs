//! How an emulsifier leans between water and oil.

use crate::quantity::{Kind, Quantity, Scale};

/// Hydrophilic-lipophilic balance in hundredths, 0 to 40 (sodium lauryl sulfate, the top of the published scales, has
/// 40).
///
/// The same scale serves for what an emulsifier has and for what an oil requires.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Hlb(i64);

impl Quantity for Hlb {
    const KIND: Kind = Kind::Hlb;
    const PLACES: u32 = 2;
    const MIN: i64 = 0;
    const MAX: i64 = 4_000;

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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Problem, Reading};

    #[test]
    fn hlb_typed_text_is_read_to_hundredths() {
        assert_eq!(Hlb::read("11.5"), Reading::Value(Hlb(1150)));
        assert_eq!(Hlb::read("15,36"), Reading::Value(Hlb(1536)));
        assert_eq!(Hlb::read("7.123"), Reading::Unread(Problem::TooFine { places: 2 }));
        assert!(matches!(Hlb::read("41"), Reading::Unread(Problem::OutOfRange { .. })));
    }
}
