//! A filled volume.

use super::{Density, Mass, Quantity, Scale, mul_div_nearest, quantity};

/// Nanolitres, 0 to 1000 L. A bare number means millilitres; `mL` and `L` may be written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Volume(i64);

impl Volume {
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
}
