//! A number of whole things.

use super::unitless;

unitless! {
    /// A number of jars, 1 to 100 000.
    Count, Count, 0, 1, 100_000
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{ParseProblem, Parsed, Quantity};

    #[test]
    fn count_only_whole_things_are_read() {
        assert_eq!(Count::read("12"), Parsed::Value(Count(12)));
        assert_eq!(Count::read("1.5"), Parsed::Unread(ParseProblem::TooFine { places: 0 }));
        // Where a thousand could be meant it is asked about, and never taken for granted.
        assert_eq!(Count::read("1.234"), Parsed::Ambiguous { decimal: None, thousands: Count(1234) });
        assert_eq!(Count::read("1,234"), Parsed::Ambiguous { decimal: None, thousands: Count(1234) });
        assert_eq!(Count::read("0.234"), Parsed::Unread(ParseProblem::TooFine { places: 0 }));
        assert!(matches!(Count::read("0"), Parsed::Unread(ParseProblem::OutOfRange { .. })));
    }
}
