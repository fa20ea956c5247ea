//! A share of the whole formula.

use super::{Scale, mul_div_nearest, quantity, summed};

/// A share in units of 0.000001 %: 100 % is exactly 100 000 000. Typed shares are 0 to 100 %; sums may be more.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Percent(i64);

impl Percent {
    /// The whole formula.
    pub const WHOLE: Self = Self(100_000_000);

    /// From units of 0.000001 %.
    pub const fn millionths(units: i64) -> Self {
        Self(units)
    }

    /// This share of another one, to the nearest 0.000001 %: 90 % of 1.2 % is 1.08 %.
    #[must_use]
    pub fn of(self, other: Self) -> Self {
        Self(mul_div_nearest(self.0, other.0, Self::WHOLE.0))
    }
}

summed!(Percent);

quantity! {
    Percent: Percent, 6, 0, Percent::WHOLE.0,
    |unit| matches!(unit, "" | "%").then_some(Scale::exact(1_000_000))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{ParseProblem, Parsed, Quantity, Typed};

    #[test]
    fn percent_forms_of_one_value_read_alike() {
        for text in ["4.5", "4,5", " 4.50 % ", "4.5%", "4.500000"] {
            assert_eq!(Typed::<Percent>::new(text).value(), Some(Percent::from_units(4_500_000)), "{text:?}");
        }
    }

    #[test]
    fn percent_three_places_are_never_thousands() {
        assert_eq!(Percent::read("1.234"), Parsed::Value(Percent::from_units(1_234_000)));
    }

    // Worked by hand.
    #[test]
    fn percent_of_a_percent_is_rounded_to_the_nearest() {
        for (part, whole, expected) in [
            ("90", "1.2", "1.08"),
            ("100", "0.7", "0.7"),
            ("0", "5", "0"),
            ("50", "0.000001", "0.000001"),
            ("33.3", "0.1", "0.0333"),
        ] {
            let read = |text: &str| Percent::from_canonical(text).unwrap();
            assert_eq!(read(part).of(read(whole)), read(expected), "{part} of {whole}");
        }
    }

    #[test]
    fn percent_bad_text_says_why() {
        let unread = |text| match Percent::read(text) {
            Parsed::Unread(problem) => problem,
            other => panic!("{text:?} gave {other:?}"),
        };
        assert_eq!(unread("1e3"), ParseProblem::UnknownUnit);
        assert_eq!(unread("NaN"), ParseProblem::NotANumber);
        assert_eq!(unread("1.2.3"), ParseProblem::TwoDecimalSigns);
        assert_eq!(unread("0.1234567"), ParseProblem::TooFine { places: 6 });
        assert_eq!(unread("-1"), ParseProblem::Negative);
        assert_eq!(unread("100.000001"), ParseProblem::OutOfRange { min: "0".into(), max: "100".into() });
        assert_eq!(unread("4 g"), ParseProblem::UnknownUnit);
    }

    #[test]
    fn percent_canonical_has_no_needless_digits() {
        for (units, text) in [(0, "0"), (1, "0.000001"), (4_500_000, "4.5"), (100_000_000, "100"), (-1_300_000, "-1.3")]
        {
            assert_eq!(Percent::from_units(units).canonical(), text);
        }
    }
}
