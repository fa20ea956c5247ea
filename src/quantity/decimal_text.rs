//! Writing a decimal number, exactly: the one way from units and places to text.

use super::Quantity;

/// A number to be written: `units` × 10^-`places`. For what is rounded before it is shown, and for figures that are no
/// quantity of their own, such as a length on paper or the difference of two readings.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Decimal {
    units: i64,
    places: u32,
}

impl Decimal {
    /// `units` × 10^-`places`; 18 places at the most.
    pub const fn new(units: i64, places: u32) -> Self {
        Self { units, places }
    }

    /// A quantity in the unit that a bare number means.
    pub fn of<Q: Quantity>(value: Q) -> Self {
        Self::new(value.units(), Q::PLACES)
    }

    /// To `places`, halves away from zero; the same number where it has no more of them.
    #[must_use]
    pub const fn rounded(self, places: u32) -> Self {
        let step = self.step(places);
        let (whole, rest) = (self.units / step, self.units % step);
        let away = if rest.abs() * 2 >= step { rest.signum() } else { 0 };
        self.to(whole + away, places)
    }

    /// To `places`, the rest cut off: for what may not be stated as more than it is.
    #[must_use]
    pub const fn cut(self, places: u32) -> Self {
        self.to(self.units / self.step(places), places)
    }

    /// How many units the last of `places` stands for; 1 where there are no more places than that.
    const fn step(self, places: u32) -> i64 {
        10i64.pow(self.places.saturating_sub(places))
    }

    const fn to(self, units: i64, places: u32) -> Self {
        if places < self.places { Self::new(units, places) } else { self }
    }

    /// The shortest decimal text with a point.
    pub fn canonical(self) -> String {
        plain_decimal(self.units.into(), self.places)
    }

    /// The text with a point and all places, so that figures line up: 5.0 for fifty tenths.
    pub fn fixed(self) -> String {
        let (sign, whole, fraction) = parts(self.units.into(), self.places);
        match self.places {
            0 => format!("{sign}{whole}"),
            places => format!("{sign}{whole}.{fraction:0width$}", width = places as usize),
        }
    }
}

/// Sign, whole and fraction of `units` × 10^-`places`.
fn parts(units: i128, places: u32) -> (&'static str, i128, i128) {
    let power = 10i128.pow(places);
    let (sign, size) = if units < 0 { ("-", -units) } else { ("", units) };
    (sign, size / power, size % power)
}

/// `units` × 10^-`places` with no more digits than it needs.
pub(super) fn plain_decimal(units: i128, places: u32) -> String {
    let (sign, whole, fraction) = parts(units, places);
    let mut text = format!("{sign}{whole}");
    if fraction != 0 {
        let digits = format!("{fraction:0width$}", width = places as usize);
        text.push('.');
        text.push_str(digits.trim_end_matches('0'));
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Percent, Ph};

    // Worked by hand.
    #[test]
    fn decimal_is_rounded_with_halves_away_from_zero() {
        for (units, places, to, expected) in [
            (1_249, 3, 1, "1.2"),
            (1_250, 3, 1, "1.3"),
            (-1_249, 3, 1, "-1.2"),
            (-1_250, 3, 1, "-1.3"),
            (-49, 2, 0, "0"),
            (1_999, 3, 1, "2"),
            (1_999, 3, 3, "1.999"),
            (15, 1, 4, "1.5"),
            (i64::MAX, 6, 0, "9223372036855"),
        ] {
            assert_eq!(Decimal::new(units, places).rounded(to).canonical(), expected, "{units} {places} {to}");
        }
    }

    #[test]
    fn decimal_is_cut_towards_nothing() {
        for (units, places, to, expected) in
            [(1_299, 3, 1, "1.2"), (-1_299, 3, 1, "-1.2"), (1_000_999, 6, 2, "1"), (15, 1, 4, "1.5"), (99, 2, 0, "0")]
        {
            assert_eq!(Decimal::new(units, places).cut(to).canonical(), expected, "{units} {places} {to}");
        }
    }

    #[test]
    fn decimal_with_all_places_lines_up() {
        for (units, places, expected) in
            [(50, 1, "5.0"), (-5, 2, "-0.05"), (0, 3, "0.000"), (99_100, 3, "99.100"), (7, 0, "7")]
        {
            assert_eq!(Decimal::new(units, places).fixed(), expected, "{units} {places}");
        }
    }

    #[test]
    fn decimal_of_a_quantity_is_in_its_own_unit() {
        assert_eq!(Decimal::of(Percent::millionths(4_550_000)).canonical(), "4.55");
        assert_eq!(Decimal::of(Ph::from_units(545)).rounded(1).fixed(), "5.5");
    }
}
