//! Sums of money in whatever currency a maker writes beside them.

use super::{Decimal, Mass, Minutes, ParseProblem, Percent, Quantity, mul_div_nearest, read_number};

/// A sum of money: millionths of its currency's unit. A sum without a currency is in the same as those beside it.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Money {
    /// Millionths of the unit, 0 to 1 000 000 000 units as typed; sums and differences may be outside that.
    pub micros: i64,
    /// As written, such as `EUR` or a sign; empty where none stood there.
    pub currency: String,
}

/// Why a text is no sum of money.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NoMoney {
    /// The number in it cannot be read.
    Number(ParseProblem),
    /// The one sign could be decimal or divide thousands.
    Ambiguous,
    /// Something stands on both sides of the number, or the currency is too long to be one.
    Currency,
}

/// Decimal places of the smallest part.
const PLACES: u32 = 6;
/// The most that is read, in units of the currency.
const MOST: i128 = 1_000_000_000;
/// The longest currency, in characters.
const MOST_CURRENCY: usize = 12;

impl Money {
    /// Reads an amount with its currency before or behind it, or without one. `None` where nothing was typed.
    ///
    /// # Errors
    /// Why it is no sum of money.
    pub fn read(text: &str) -> Result<Option<Self>, NoMoney> {
        let text = text.trim();
        if text.is_empty() {
            return Ok(None);
        }
        let start = text.find(|c: char| c.is_ascii_digit()).ok_or(NoMoney::Number(ParseProblem::NotANumber))?;
        let (before, number) = text.split_at(start);
        let before = before.trim();
        if before.ends_with(['-', '\u{2212}']) {
            return Err(NoMoney::Number(ParseProblem::Negative));
        }
        let number = read_number(number).map_err(NoMoney::Number)?;
        if number.maybe_thousands {
            return Err(NoMoney::Ambiguous);
        }
        let currency = if before.is_empty() { number.unit } else { before };
        let both = !before.is_empty() && !number.unit.is_empty();
        if both || currency.chars().count() > MOST_CURRENCY || currency.contains(|c: char| c.is_ascii_digit()) {
            return Err(NoMoney::Currency);
        }
        let finer =
            PLACES.checked_sub(number.places).ok_or(NoMoney::Number(ParseProblem::TooFine { places: PLACES }))?;
        let micros = number.digits.checked_mul(10_i128.pow(finer)).filter(|micros| *micros <= MOST * 1_000_000);
        let most = || ParseProblem::OutOfRange { min: "0".into(), max: MOST.to_string() };
        let micros = micros.and_then(|micros| i64::try_from(micros).ok()).ok_or_else(|| NoMoney::Number(most()))?;
        Ok(Some(Self { micros, currency: currency.to_owned() }))
    }

    /// The sum; `None` where both name a currency, and not the same.
    #[must_use]
    pub fn plus(&self, other: &Self) -> Option<Self> {
        let micros = self.micros.saturating_add(other.micros);
        Some(Self { micros, currency: self.with_currency(other)?.to_owned() })
    }

    /// The currency of both; `None` where they have two.
    pub fn with_currency<'a>(&'a self, other: &'a Self) -> Option<&'a str> {
        match (self.currency.as_str(), other.currency.as_str()) {
            ("", theirs) => Some(theirs),
            (ours, theirs) if theirs.is_empty() || ours == theirs => Some(ours),
            _ => None,
        }
    }

    /// What `part` costs where this is the price of `whole`, to the nearest millionth. `None` of a whole of nothing.
    #[must_use]
    pub fn of_mass(&self, part: Mass, whole: Mass) -> Option<Self> {
        (whole > Mass::ZERO).then(|| self.scaled(part.units(), whole.units()))
    }

    /// What so many minutes cost where this is the price of an hour.
    #[must_use]
    pub fn of_minutes(&self, minutes: Minutes) -> Self {
        self.scaled(minutes.units(), 60)
    }

    /// So many times this.
    #[must_use]
    pub fn times(&self, count: i64) -> Self {
        Self { micros: self.micros.saturating_mul(count), currency: self.currency.clone() }
    }

    /// One of so many equal parts, to the nearest millionth. `None` of no parts.
    #[must_use]
    pub fn divided(&self, parts: i64) -> Option<Self> {
        (parts > 0).then(|| self.scaled(1, parts))
    }

    /// The price of which this is what is left without the margin, a share of the price. `None` for a margin of all of it.
    #[must_use]
    pub fn with_margin(&self, margin: Percent) -> Option<Self> {
        let rest = Percent::WHOLE.units() - margin.units();
        (rest > 0).then(|| self.scaled(Percent::WHOLE.units(), rest))
    }

    fn scaled(&self, by: i64, of: i64) -> Self {
        Self { micros: mul_div_nearest(self.micros, by, of), currency: self.currency.clone() }
    }

    /// The number alone, exactly, with a point: what files and exports hold.
    pub fn canonical(&self) -> String {
        Decimal::new(self.micros, PLACES).canonical()
    }

    /// The number as people are shown sums: to the places of its currency, or to one more where it is less than the smallest
    /// of these, and so would be shown as nothing.
    pub fn shown(&self, places: u32) -> String {
        self.finer_below(1, places)
    }

    /// The number as people are shown the price of so much: to one more place where fewer than ten of the smallest would be
    /// shown.
    pub fn shown_per_unit(&self, places: u32) -> String {
        self.finer_below(10, places)
    }

    fn finer_below(&self, smallest: u64, places: u32) -> String {
        let whole = Decimal::new(self.micros, PLACES);
        let bound = smallest.saturating_mul(10_u64.pow(PLACES.saturating_sub(places)));
        let finer = self.micros != 0 && self.micros.unsigned_abs() < bound;
        whole.rounded(if finer { places + 1 } else { places }).fixed()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn money(text: &str) -> Money {
        Money::read(text).unwrap().unwrap()
    }

    #[test]
    fn money_is_read_with_any_currency_on_either_side() {
        for (text, micros, currency) in [
            ("12.50", 12_500_000, ""),
            ("12,5 \u{20ac}", 12_500_000, "\u{20ac}"),
            ("EUR 1 234.05", 1_234_050_000, "EUR"),
            ("$3", 3_000_000, "$"),
            ("0 kr", 0, "kr"),
            ("0.000001 CHF", 1, "CHF"),
        ] {
            assert_eq!(Money::read(text), Ok(Some(Money { micros, currency: currency.into() })), "{text}");
        }
        assert_eq!(Money::read("  "), Ok(None));
    }

    #[test]
    fn money_that_is_none_says_why() {
        use ParseProblem::{Negative, NotANumber, TooFine};
        for (text, why) in [
            ("free", NoMoney::Number(NotANumber)),
            ("-3 EUR", NoMoney::Number(Negative)),
            ("EUR -3", NoMoney::Number(Negative)),
            ("0.0000001", NoMoney::Number(TooFine { places: 6 })),
            ("1.234", NoMoney::Ambiguous),
            ("EUR 3 \u{20ac}", NoMoney::Currency),
            ("3 euros and some", NoMoney::Currency),
        ] {
            assert_eq!(Money::read(text), Err(why), "{text}");
        }
        assert!(matches!(Money::read("2000000000"), Err(NoMoney::Number(ParseProblem::OutOfRange { .. }))));
    }

    // Worked by hand: 250 g of what costs 18.90 for 1 kg are 4.725; 90 minutes at 24 an hour are 36; a third of 10 is
    // 3.333333; with a margin of 60 % of the price 4 becomes 10.
    #[test]
    fn money_is_reckoned_exactly() {
        let grams = |grams: i64| Mass::micrograms(grams * 1_000_000);
        assert_eq!(money("18.90").of_mass(grams(250), Mass::KILOGRAM).unwrap().canonical(), "4.725");
        assert_eq!(money("24").of_minutes(Minutes::from_units(90)), money("36"));
        assert_eq!(money("10").divided(3).unwrap().canonical(), "3.333333");
        assert_eq!(money("4").with_margin(Percent::millionths(60_000_000)), Some(money("10")));
        assert_eq!(money("4").with_margin(Percent::WHOLE), None);
        assert_eq!(money("4").of_mass(grams(1), Mass::ZERO), None);
        assert_eq!(money("1 \u{20ac}").plus(&money("2")), Some(money("3 \u{20ac}")));
        assert_eq!(money("1 \u{20ac}").plus(&money("2 kr")), None, "two currencies have no sum");
    }

    #[test]
    fn money_is_shown_to_the_places_of_its_currency() {
        for (text, places, sum, per_unit) in [
            ("4.7250", 2, "4.73", "4.73"),
            ("0.0511", 2, "0.05", "0.051"),
            ("0.0099", 2, "0.010", "0.010"),
            ("0.0042", 2, "0.004", "0.004"),
            ("0.1", 2, "0.10", "0.10"),
            ("0", 2, "0.00", "0.00"),
            ("1234.5", 0, "1235", "1235"),
            ("7.5", 0, "8", "7.5"),
            ("0.4", 0, "0.4", "0.4"),
            ("0.0511", 3, "0.051", "0.051"),
            ("0.0051", 3, "0.005", "0.0051"),
        ] {
            let money = money(text);
            assert_eq!((money.shown(places), money.shown_per_unit(places)), (sum.into(), per_unit.into()), "{text}");
        }
    }

    proptest! {
        #[test]
        fn money_text_is_read_or_refused(text in "\\PC{0,16}") {
            if let Ok(Some(read)) = Money::read(&text) {
                prop_assert!(read.micros >= 0);
            }
        }

        /// The parts of a mass cost what the whole costs, but for half a millionth each.
        #[test]
        fn money_of_parts_is_that_of_the_whole(micros in 0..10_i64.pow(12), a in 1..10_i64.pow(9), b in 1..10_i64.pow(9)) {
            let price = Money { micros, currency: String::new() };
            let of = |part: i64| price.of_mass(Mass::micrograms(part), Mass::KILOGRAM).unwrap().micros;
            prop_assert!((of(a) + of(b) - of(a + b)).abs() <= 1);
        }
    }
}
