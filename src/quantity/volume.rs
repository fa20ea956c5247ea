//! A filled volume.

use super::{Decimal, Density, Mass, Quantity, Scale, mul_div_floor, mul_div_nearest, quantity};

/// Nanolitres, 0 to 1000 L. A bare number means millilitres; `mL` and `L` may be written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Volume(i64);

/// One US fluid ounce is 29.5735295625 mL, by definition (231 cubic inches to the gallon of 128); rounded up to a
/// nanolitre.
const NANOLITRES_PER_US_FLUID_OUNCE: i64 = 29_573_530;

impl Volume {
    /// One litre.
    pub const LITRE: Self = Self(1_000_000_000);

    /// In litres, to the microlitre; what is less is cut off.
    pub const fn litres(self) -> Decimal {
        Decimal::new(self.0, 9).cut(6)
    }

    /// In US fluid ounces, to 0.01; what is less is cut off.
    pub fn us_fluid_ounces(self) -> Decimal {
        Decimal::new(mul_div_floor(self.0, 100, NANOLITRES_PER_US_FLUID_OUNCE), 2)
    }

    /// The mass of this volume at a density: the only way from one to the other.
    #[must_use]
    pub fn at(self, density: Density) -> Mass {
        // nL × (1e-6 g/mL) ÷ 1e6 = µg
        Mass::from_units(mul_div_nearest(self.0, density.units(), 1_000_000))
    }
}

quantity! {
    Volume: Volume, 6, 0, 1_000_000_000_000,
    |unit| match unit.to_ascii_lowercase().as_str() {
        "" | "ml" => Some(Scale::exact(1_000_000)),
        "l" => Some(Scale::exact(1_000_000_000)),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // Source: worked by hand from m = V × rho; 50 mL at 0.985 g/mL.
    #[test]
    fn volume_at_density_is_a_mass() {
        assert_eq!(Volume(50_000_000).at(Density::from_units(985_000)), Mass::micrograms(49_250_000));
    }

    // Source: NIST Handbook 44, Appendix C (1 US fluid ounce = 29.573 53 mL, 1 US pint = 473.176 5 mL = 16 fl oz). From
    // memory.
    #[test]
    fn volume_in_other_units_is_never_stated_as_more() {
        for (microlitres, ounces, litres) in [
            (29_573, "0.99", "0.029573"),
            (29_574, "1", "0.029574"),
            (100_000, "3.38", "0.1"),
            (473_177, "16", "0.473177"),
            (1_500_000, "50.72", "1.5"),
        ] {
            let volume = Volume(microlitres * 1_000);
            assert_eq!(volume.us_fluid_ounces().canonical(), ounces, "{microlitres}");
            assert_eq!(volume.litres().canonical(), litres, "{microlitres}");
        }
        assert_eq!(Volume(1_000_000_999).litres().canonical(), "1");
    }
}
