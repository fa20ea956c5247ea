//! What is printed is read back as the same value, with a point or a comma, for every kind of quantity.

use hundred_parts::quantity::{Celsius, Count, Density, Mass, Parsed, Percent, Ph, Quantity, Typed, Volume};
use hundred_parts::words::{DecimalSign, number};
use proptest::prelude::*;

/// The value is what was meant: read as such, or one of the two answers where the text could mean thousands.
fn means<Q: Quantity + PartialEq>(text: &str, value: Q) -> bool {
    match Typed::<Q>::new(text).reading() {
        Parsed::Value(read) => *read == value,
        Parsed::Ambiguous { decimal, thousands } => *decimal == Some(value) || *thousands == value,
        Parsed::Empty | Parsed::Unread(_) => false,
    }
}

fn round_trip<Q: Quantity + PartialEq + std::fmt::Debug>(seed: i64) -> Result<(), TestCaseError> {
    // The remainder keeps small seeds as they are, so that short texts come up too.
    let value =
        Q::from_units(if (Q::MIN..=Q::MAX).contains(&seed) { seed } else { Q::MIN + seed.rem_euclid(Q::MAX - Q::MIN) });
    let canonical = value.canonical();
    prop_assert_eq!(Typed::of(value).value(), Some(value));
    prop_assert_eq!(Typed::<Q>::new(Typed::of(value).text()).value(), Some(value), "as typed without doubt");
    prop_assert_eq!(Q::from_canonical(&canonical), Ok(value));
    for sign in [DecimalSign::Point, DecimalSign::Comma] {
        let shown = number(&canonical, sign);
        prop_assert!(means(&shown, value), "{shown}");
        prop_assert!(means(&format!("  {shown} "), value), "{shown}");
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(ProptestConfig::default().cases * 8))]

    #[test]
    fn printed_is_read_back(seed in prop_oneof![0i64..2000, 0i64..2_000_000, any::<i64>()]) {
        round_trip::<Percent>(seed)?;
        round_trip::<Mass>(seed)?;
        round_trip::<Volume>(seed)?;
        round_trip::<Density>(seed)?;
        round_trip::<Celsius>(seed)?;
        round_trip::<Ph>(seed)?;
        round_trip::<Count>(seed)?;
    }

    #[test]
    fn any_text_is_read_or_refused_and_never_changed(text in "\\PC{0,20}") {
        prop_assert!(Typed::<Percent>::new(text.clone()).text() == text);
        prop_assert!(Typed::<Mass>::new(text.clone()).text() == text);
        prop_assert!(Typed::<Celsius>::new(text.clone()).text() == text);
    }
}

#[test]
fn numbers_that_a_float_would_spoil_are_refused() {
    for text in ["1e3", "NaN", "inf", "0x10", "1,2.3", "1.2,3,4", "--1", "1 2", "½"] {
        assert!(Typed::<Percent>::new(text).value().is_none(), "{text}");
    }
    for text in ["4.5", "4,5", " 4.50 % ", "4.500000"] {
        assert_eq!(Typed::<Percent>::new(text).value(), Some(Percent::from_units(4_500_000)), "{text}");
    }
}
