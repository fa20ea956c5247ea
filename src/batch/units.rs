//! The units in which the physical model of a batch reckons: floats with their unit, and the ways from exact masses and back.

use core::ops::{Add, AddAssign, Div, Mul, Sub};

use crate::facts::Acid;
use crate::quantity::{Mass, Percent, Quantity};

/// Declares a float of one unit with what keeps the unit.
macro_rules! unit {
    ($(#[$about:meta])* $name:ident) => {
        $(#[$about])*
        #[derive(Debug, Clone, Copy, Default, PartialEq, PartialOrd)]
        pub struct $name(pub f64);

        impl $name {
            /// Nothing.
            pub const ZERO: Self = Self(0.0);

            /// The greater of both.
            #[must_use]
            pub const fn max(self, other: Self) -> Self {
                Self(self.0.max(other.0))
            }

            /// The smaller of both.
            #[must_use]
            pub const fn min(self, other: Self) -> Self {
                Self(self.0.min(other.0))
            }
        }

        impl Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }

        impl AddAssign for $name {
            fn add_assign(&mut self, other: Self) {
                self.0 += other.0;
            }
        }

        impl Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }

        impl Mul<f64> for $name {
            type Output = Self;
            fn mul(self, times: f64) -> Self {
                Self(self.0 * times)
            }
        }

        impl Div<f64> for $name {
            type Output = Self;
            fn div(self, by: f64) -> Self {
                Self(self.0 / by)
            }
        }
    };
}

unit! {
    /// A mass in kilograms.
    Kilograms
}

unit! {
    /// Moles per kilogram of product, of a substance or of the acid or base that it delivers. What was added is no product.
    MolPerKg
}

impl Kilograms {
    /// Of an exact mass; less than nothing counts as nothing.
    pub fn of(mass: Mass) -> Self {
        Self(mass.units().max(0) as f64 / 1e9)
    }

    /// As an exact mass, rounded down and kept within 0 to 1000 t.
    pub const fn mass(self) -> Mass {
        Mass::micrograms((self.0 * 1e9).clamp(0.0, 1e15) as i64)
    }

    /// Which part of another mass this is.
    pub fn part_of(self, other: Self) -> f64 {
        self.0 / other.0
    }
}

impl MolPerKg {
    /// What so much pure acid or base brings into so much product: kg × 1000 g/kg ÷ (g/mol) ÷ kg.
    pub fn of(pure: Kilograms, row: &Acid, product: Kilograms) -> Self {
        Self(pure.0 * 1000.0 / row.mass / product.0)
    }

    /// The pure acid or base that brings it into so much product: mol/kg × kg × g/mol ÷ 1000 g/kg.
    pub fn pure(self, row: &Acid, product: Kilograms) -> Kilograms {
        Kilograms(self.0 * product.0 * row.mass / 1000.0)
    }

    /// The pure acid or base in one kilogram of product: mol/kg × g/mol; at most 1000 t.
    pub fn pure_per_kilogram(self, row: &Acid) -> Mass {
        Mass::micrograms((self.0 * row.mass * 1e6).min(1e15) as i64)
    }

    /// In mg per kg of product of an acid or base of this strength: mol/kg × g/mol × 1000 mg/g ÷ its pure part.
    pub fn milligrams_of(self, row: &Acid, strength: Percent) -> i64 {
        (self.0 * (row.mass * 1000.0 / fraction(strength).max(1e-6))).clamp(-1e12, 1e12).round() as i64
    }
}

/// A share as a part of one.
pub(super) fn fraction(share: Percent) -> f64 {
    share.units() as f64 / Percent::WHOLE.units() as f64
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::facts::acid;

    // Source: molar mass of citric acid 192.123 g/mol (IUPAC standard atomic weights, abridged): 1.92123 g are 10 mmol, in
    // half a kilogram 20 mmol/kg; of a solution of a half, 2 × 20 × 192.123 mg/kg.
    #[test]
    fn moles_and_masses_go_into_each_other() {
        let row = acid("citric-acid").unwrap();
        let product = Kilograms::of(Mass::micrograms(500_000_000));
        let found = MolPerKg::of(Kilograms::of(Mass::micrograms(1_921_230)), row, product);
        assert!((found.0 - 0.02).abs() < 1e-6, "{found:?}");
        let back = found.pure(row, product).mass().units();
        assert!((back - 1_921_230).abs() <= 1, "{back}");
        let per_kilogram = found.pure_per_kilogram(row).units();
        assert!((per_kilogram - 3_842_460).abs() <= 1, "{per_kilogram}");
        assert_eq!(found.milligrams_of(row, Percent::millionths(50_000_000)), 7_685);
    }

    #[test]
    fn kilograms_are_never_below_nothing() {
        assert_eq!(Kilograms::of(Mass::micrograms(-5)), Kilograms::ZERO);
        assert_eq!(Kilograms(-1.0).mass(), Mass::ZERO);
        assert_eq!(Kilograms(f64::INFINITY).mass(), Mass::micrograms(1_000_000_000_000_000));
    }
}
