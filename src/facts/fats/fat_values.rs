//! The numbers that describe a fat: saponification value, iodine value, oxidizability, mean molar mass.

use crate::quantity::{Percent, Quantity, unitless};

/// Declares a quantity in hundredths of its unit, which is never written behind it.
macro_rules! hundredths {
    ($(#[$about:meta])* $name:ident, $kind:ident, $min:literal, $max:literal) => {
        unitless! { $(#[$about])* $name, $kind, 2, $min, $max }

        impl $name {
            /// From whole units.
            pub const fn whole(units: i64) -> Self {
                Self(units * 100)
            }

            /// The nearest value that a result of a physical model comes to; a result that is no number is nothing.
            pub(crate) fn nearest(value: f64) -> Self {
                Self((value * 100.0 + 0.5).floor() as i64)
            }

            /// For physical models, in its unit.
            pub fn float(self) -> f64 {
                self.0 as f64 / 100.0
            }
        }
    };
}

hundredths! {
    /// Saponification value in hundredths of mg KOH per g, 0 to 600 (tributyrin, the shortest fat of the trade, has
    /// 557).
    Sv, Saponification, 0, 60_000
}
hundredths! {
    /// Iodine value in hundredths of g iodine per 100 g, 0 to 400 (no oil of the trade has more than 250).
    Iv, Iodine, 0, 40_000
}
hundredths! {
    /// Oxidizability (Cox) in hundredths, 0 to 25 (pure linolenic acid has 21.6). It has no unit.
    Cox, Oxidizability, 0, 2_500
}
hundredths! {
    /// Mean molar mass of fatty acids in hundredths of g/mol.
    MolarMass, MolarMass, 1, 200_000
}

/// The nearest value to one place, which is as much as a table or a model of fats supports, rounded once.
pub(crate) fn nearest_tenth<Q: Quantity>(value: f64) -> Q {
    Q::from_units((value * 10.0 + 0.5).floor() as i64 * 10)
}

/// The two ends of what was measured, or of what a standard allows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Span<T> {
    /// Low end.
    pub low: T,
    /// High end.
    pub high: T,
}

impl<T: Quantity> Span<T> {
    /// Reads `184-196`, or one value for both ends.
    pub(super) fn from_canonical(text: &str) -> Option<Self> {
        let (low, high) = text.split_once('-').unwrap_or((text, text));
        let (low, high) = (T::from_canonical(low).ok()?, T::from_canonical(high).ok()?);
        (low <= high).then_some(Self { low, high })
    }

    /// The value, kept within the two ends.
    pub fn clip(self, value: T) -> T {
        value.max(self.low).min(self.high)
    }

    /// The middle.
    pub fn middle(self) -> T {
        T::from_units((self.low.units() + self.high.units()).div_euclid(2))
    }
}

/// Half the width of the ranges of saponification values in Codex, in percent of the middle (median): taken for a fat
/// of which no value was measured.
pub const SV_SPREAD: Percent = Percent::millionths(2_600_000);
/// What the saponification value of a triglyceride can be at all: from long erucic oils to medium-chain triglycerides.
pub const TRIGLYCERIDE_SV: Span<Sv> = Span { low: Sv::whole(155), high: Sv::whole(365) };

/// A value with half the usual width of a range to either side.
pub(crate) fn around(sv: Sv) -> Span<Sv> {
    let spread = SV_SPREAD.units() as f64 / Percent::WHOLE.units() as f64;
    let end = |sign: f64| Sv::nearest(sv.float() * (1.0 + sign * spread));
    Span { low: end(-1.0), high: end(1.0) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{ParseProblem, Parsed};

    #[test]
    fn values_typed_text_is_read_to_hundredths() {
        assert_eq!(Sv::read("190,5"), Parsed::Value(Sv(19_050)));
        assert_eq!(Iv::read("124.67"), Parsed::Value(Iv(12_467)));
        assert!(matches!(Cox::read("30"), Parsed::Unread(ParseProblem::OutOfRange { .. })));
        assert_eq!(Sv::nearest(192.604).canonical(), "192.6");
        assert_eq!(nearest_tenth::<Sv>(50.4497), Sv(5_040), "rounded once");
    }

    #[test]
    fn span_of_a_cell_is_read() {
        let span = Span::<Sv>::from_canonical("184-196").unwrap();
        assert_eq!((span.middle(), span.clip(Sv(20_000))), (Sv(19_000), Sv(19_600)));
        assert_eq!(Span::<Sv>::from_canonical("190"), Some(Span { low: Sv(19_000), high: Sv(19_000) }));
        assert_eq!(Span::<Sv>::from_canonical("196-184"), None);
    }
}
