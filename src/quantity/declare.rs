//! How quantities, and enums with fixed keys, are declared: what differs from one to the other, and nothing else.

/// Makes an integer newtype a quantity: its kind, the decimal places of its smallest unit, the least and the greatest
/// count of that, and the scale of a unit that may be written behind a number.
macro_rules! quantity {
    ($name:ident: $kind:ident, $places:expr, $min:expr, $max:expr, $scale:expr) => {
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
                let scale: fn(&str) -> Option<$crate::quantity::Scale> = $scale;
                scale(unit)
            }
        }
    };
}
pub(crate) use quantity;

/// Declares one without a unit: a bare number between two ends.
macro_rules! unitless {
    ($(#[$about:meta])* $name:ident, $kind:ident, $places:literal, $min:literal, $max:literal) => {
        $(#[$about])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(i64);

        $crate::quantity::quantity! {
            $name: $kind, $places, $min, $max,
            |unit| unit.is_empty().then_some($crate::quantity::Scale::exact(10i128.pow($places)))
        }
    };
}
pub(crate) use unitless;

/// Gives a quantity sums and differences. They stop at the edge of the integer, which is far beyond any formula or batch.
macro_rules! summed {
    ($name:ident) => {
        impl $name {
            /// Nothing.
            pub const ZERO: Self = Self(0);

            /// The sum.
            #[must_use]
            pub const fn plus(self, other: Self) -> Self {
                Self(self.0.saturating_add(other.0))
            }

            /// The difference; negative if `other` is more.
            #[must_use]
            pub const fn minus(self, other: Self) -> Self {
                Self(self.0.saturating_sub(other.0))
            }
        }

        impl core::iter::Sum for $name {
            fn sum<I: Iterator<Item = Self>>(all: I) -> Self {
                all.fold(Self::ZERO, Self::plus)
            }
        }
    };
}
pub(super) use summed;

/// Declares an enum whose values have a fixed key in files and tables.
macro_rules! keyed {
    ($(#[$about:meta])* $name:ident { $($(#[$doc:meta])* $value:ident = $key:literal),+ $(,)? }) => {
        $(#[$about])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum $name {
            $($(#[$doc])* $value),+
        }

        impl $name {
            /// Every value, in the order in which it is offered.
            pub const ALL: &'static [Self] = &[$(Self::$value),+];

            /// Their keys, in the same order.
            pub const KEYS: &'static [&'static str] = &[$($key),+];

            /// Its key in files and tables. Never changes.
            pub const fn key(self) -> &'static str {
                match self { $(Self::$value => $key),+ }
            }

            /// The value of that key.
            pub fn from_key(key: &str) -> Option<Self> {
                Self::KEYS.iter().position(|known| *known == key).and_then(|place| Self::ALL.get(place).copied())
            }
        }
    };
}
pub(crate) use keyed;
