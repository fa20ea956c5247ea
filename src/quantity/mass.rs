//! A weighed amount.

use super::{Percent, Quantity, Scale, mul_div_nearest, quantity, summed};

/// Micrograms, 0 to 1000 kg. A bare number means grams; `mg`, `g`, `kg` and `oz` may be written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Mass(i64);

/// The units in which masses are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum MassUnit {
    /// Grams.
    #[default]
    Gram,
    /// Kilograms.
    Kilogram,
    /// Avoirdupois ounces.
    Ounce,
}

/// One avoirdupois ounce is exactly 28.349523125 g (the international pound of 1959, 0.45359237 kg, by sixteen).
const OUNCE: Scale = Scale { units: 28_349_523_125, per: 1000, rounds: true };

impl Mass {
    /// One kilogram.
    pub const KILOGRAM: Self = Self(1_000_000_000);

    /// From micrograms.
    pub const fn micrograms(micrograms: i64) -> Self {
        Self(micrograms)
    }

    /// This share of the mass, to the nearest microgram.
    #[must_use]
    pub fn share(self, share: Percent) -> Self {
        Self(mul_div_nearest(self.0, share.units(), Percent::WHOLE.units()))
    }

    /// The number in `unit` with a point and without a unit: exact in grams and kilograms, to 0.0001 oz in ounces.
    pub fn number_in(self, unit: MassUnit) -> String {
        let decimal = super::decimal_text::plain_decimal;
        match unit {
            MassUnit::Gram => decimal(self.0.into(), 6),
            MassUnit::Kilogram => decimal(self.0.into(), 9),
            MassUnit::Ounce => {
                let per_ten_thousandth = OUNCE.units;
                let scaled = i128::from(self.0) * OUNCE.per * 10_000;
                decimal((scaled * 2 + per_ten_thousandth).div_euclid(per_ten_thousandth * 2), 4)
            }
        }
    }
}

summed!(Mass);

quantity! {
    Mass: Mass, 6, 0, 1_000_000_000_000,
    |unit| match unit.to_ascii_lowercase().as_str() {
        "" | "g" => Some(Scale::exact(1_000_000)),
        "mg" => Some(Scale::exact(1_000)),
        "kg" => Some(Scale::exact(1_000_000_000)),
        "oz" => Some(OUNCE),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Parsed, Typed};

    #[test]
    fn mass_units_convert() {
        for (text, micrograms) in [
            ("12", 12_000_000),
            ("0,5 kg", 500_000_000),
            ("250 mg", 250_000),
            ("1 oz", 28_349_523),
            ("16oz", 453_592_370),
        ] {
            assert_eq!(Mass::read(text), Parsed::Value(Mass(micrograms)), "{text:?}");
        }
    }

    #[test]
    fn mass_three_places_are_asked_about() {
        assert_eq!(
            Mass::read("1.234"),
            Parsed::Ambiguous { decimal: Some(Mass(1_234_000)), thousands: Mass(1_234_000_000) }
        );
        // 1234 kg is beyond the range, so only one reading is left.
        assert_eq!(Mass::read("1.234 kg"), Parsed::Value(Mass(1_234_000_000)));
    }

    #[test]
    fn mass_written_by_us_is_never_ambiguous() {
        assert_eq!(Typed::of(Mass(1_234_000)).text(), "1.2340");
        assert_eq!(Typed::<Mass>::new("1.2340").value(), Some(Mass(1_234_000)));
    }

    // Source: NIST Handbook 44, Appendix C (1 oz avoirdupois = 28.349 523 125 g, exact; 1 lb = 453.592 37 g). From memory.
    #[test]
    fn mass_in_ounces_matches_the_definition() {
        assert_eq!(Mass(453_592_370).number_in(MassUnit::Ounce), "16");
        assert_eq!(Mass(100_000_000).number_in(MassUnit::Ounce), "3.5274");
        assert_eq!(Mass(1_236_000_000).number_in(MassUnit::Kilogram), "1.236");
    }
}
