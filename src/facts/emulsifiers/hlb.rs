//! How an emulsifier leans between water and oil.

use crate::quantity::unitless;

unitless! {
    /// Hydrophilic-lipophilic balance in hundredths, 0 to 40 (sodium lauryl sulfate, the top of the published scales, has
    /// 40).
    ///
    /// The same scale serves for what an emulsifier has and for what an oil requires.
    Hlb, Hlb, 2, 0, 4_000
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{ParseProblem, Parsed, Quantity};

    #[test]
    fn hlb_typed_text_is_read_to_hundredths() {
        assert_eq!(Hlb::read("11.5"), Parsed::Value(Hlb(1150)));
        assert_eq!(Hlb::read("15,36"), Parsed::Value(Hlb(1536)));
        assert_eq!(Hlb::read("7.123"), Parsed::Unread(ParseProblem::TooFine { places: 2 }));
        assert!(matches!(Hlb::read("41"), Parsed::Unread(ParseProblem::OutOfRange { .. })));
    }
}
