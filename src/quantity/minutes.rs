//! How long something is held, mixed or left.

use super::{Scale, quantity};

/// Whole minutes, 1 to 10 000: a moment of blending to a week of rest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Minutes(i64);

impl Minutes {
    /// As milliseconds.
    pub const fn millis(self) -> i64 {
        self.0 * 60_000
    }
}

quantity! {
    Minutes: Minutes, 0, 1, 10_000,
    |unit| match unit {
        "" | "min" | "minutes" | "minute" => Some(Scale::exact(1)),
        "h" => Some(Scale::exact(60)),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Parsed, Quantity};

    #[test]
    fn minutes_are_read_with_and_without_a_unit() {
        for text in ["20", "20 min", "20 minutes"] {
            assert_eq!(Minutes::read(text), Parsed::Value(Minutes(20)), "{text}");
        }
        assert_eq!(Minutes::read("1.5 h"), Parsed::Value(Minutes(90)));
        assert!(matches!(Minutes::read("0"), Parsed::Unread(_)));
        assert!(matches!(Minutes::read("1.5"), Parsed::Unread(_)), "no half minutes");
        assert_eq!(Minutes::from_units(2).millis(), 120_000);
    }
}
