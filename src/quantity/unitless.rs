//! Quantities without a unit: a bare number between two ends.

/// Declares one: its kind, the decimal places of its smallest unit, the least and the greatest count of that.
macro_rules! unitless {
    ($(#[$about:meta])* $name:ident, $kind:ident, $places:literal, $min:literal, $max:literal) => {
        $(#[$about])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(i64);

        impl $crate::quantity::Quantity for $name {
            const KIND: $crate::quantity::Kind = $crate::quantity::Kind::$kind;
            const PLACES: u32 = $places;
            const MIN: i64 = $min;
            const MAX: i64 = $max;

            fn from_units(units: i64) -> Self {
                Self(units)
            }

            fn units(self) -> i64 {
                self.0
            }

            fn scale(unit: &str) -> Option<$crate::quantity::Scale> {
                unit.is_empty().then_some($crate::quantity::Scale::exact(10i128.pow($places)))
            }
        }
    };
}
pub(crate) use unitless;
