//! Reading one decimal number as people type it, exactly.

use super::ParseProblem;

/// What was read of a typed number: `digits` × 10^-`places`, and what stood behind it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Number<'a> {
    /// All digits as one integer, negative if a minus stood before them.
    pub digits: i128,
    /// How many of the digits stand after the decimal sign.
    pub places: u32,
    /// True if the one sign could as well divide thousands: one sign, one to three digits before it (the first not
    /// zero), exactly three after it, nothing grouped.
    pub maybe_thousands: bool,
    /// The trimmed text after the number: a unit, or nothing.
    pub unit: &'a str,
}

/// More digits than any quantity here holds; keeps the arithmetic far from the edge of `i128`.
const MOST_DIGITS: usize = 24;

/// Spaces that people and programs put between groups of three digits, and the apostrophes used for the same.
fn groups(c: char) -> bool {
    matches!(c, ' ' | '\u{a0}' | '\u{2009}' | '\u{202f}' | '\'' | '\u{2019}')
}

/// Reads a number with `.` or `,` as its decimal sign and an optional unit behind it.
///
/// Digits may be grouped in threes by spaces or apostrophes. The text must not be empty.
///
/// # Errors
/// [`ParseProblem::TwoDecimalSigns`] for a second sign, [`ParseProblem::NotANumber`] for anything else that is no plain decimal
/// number (exponents, words, broken groups), [`ParseProblem::TooLong`] for more digits than any quantity holds.
pub fn read_number(text: &str) -> Result<Number<'_>, ParseProblem> {
    let text = text.trim_matches(|c: char| c.is_whitespace());
    let (negative, body) = match text.strip_prefix(['-', '\u{2212}']) {
        Some(rest) => (true, rest.trim_start()),
        None => (false, text),
    };
    let end = body.find(|c: char| !(c.is_ascii_digit() || c == '.' || c == ',' || groups(c))).unwrap_or(body.len());
    let (number, unit) = body.split_at(end);
    let number = number.trim_end_matches(groups);
    let (whole, fraction) = split_sign(number)?;
    let grouped = whole.contains(groups);
    let whole_digits = ungroup(whole)?;
    if fraction.contains(groups) || (whole_digits.is_empty() && fraction.is_empty()) {
        return Err(ParseProblem::NotANumber);
    }
    if whole_digits.len() + fraction.len() > MOST_DIGITS {
        return Err(ParseProblem::TooLong);
    }
    let digits =
        whole_digits.chars().chain(fraction.chars()).fold(0i128, |sum, c| sum * 10 + i128::from(c as u8 - b'0'));
    Ok(Number {
        digits: if negative { -digits } else { digits },
        places: fraction.len() as u32,
        maybe_thousands: !grouped
            && fraction.len() == 3
            && (1..=3).contains(&whole_digits.len())
            && !whole_digits.starts_with('0'),
        unit: unit.trim(),
    })
}

/// Splits at the one decimal sign; the fraction is empty where there is none.
fn split_sign(number: &str) -> Result<(&str, &str), ParseProblem> {
    match number.split_once(['.', ',']) {
        None => Ok((number, "")),
        Some((_, fraction)) if fraction.contains(['.', ',']) => Err(ParseProblem::TwoDecimalSigns),
        Some(parts) => Ok(parts),
    }
}

/// Removes grouping marks after checking that each group but the first has three digits.
fn ungroup(whole: &str) -> Result<String, ParseProblem> {
    let mut parts = whole.split(groups);
    let mut digits = parts.next().unwrap_or_default().to_owned();
    for (n, part) in parts.enumerate() {
        if part.len() != 3 || (n == 0 && !(1..=3).contains(&digits.len())) {
            return Err(ParseProblem::NotANumber);
        }
        digits.push_str(part);
    }
    Ok(digits)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(text: &str, digits: i128, places: u32, unit: &str) {
        let number = read_number(text).unwrap_or_else(|problem| panic!("{text:?}: {problem:?}"));
        assert_eq!((number.digits, number.places, number.unit), (digits, places, unit), "{text:?}");
    }

    #[test]
    fn number_either_sign_reads_alike() {
        check("4.5", 45, 1, "");
        check("4,5", 45, 1, "");
        check(" 4.50 % ", 450, 2, "%");
        check(".5", 5, 1, "");
        check("5.", 5, 0, "");
        check("1.2kg", 12, 1, "kg");
        check("\u{2212}3", -3, 0, "");
    }

    #[test]
    fn number_grouped_in_threes_reads_as_one() {
        for text in ["1 234,5", "1'234.5", "1\u{2019}234.5", "1\u{202f}234,5", "1\u{a0}234.5"] {
            check(text, 12_345, 1, "");
        }
        check("12 345 678 g", 12_345_678, 0, "g");
    }

    #[test]
    fn number_other_text_is_refused() {
        for text in ["NaN", "inf", "abc", "-", ".", ",", "12 34", "1 23", "1234 567", "1.5 000"] {
            assert_eq!(read_number(text), Err(ParseProblem::NotANumber), "{text:?}");
        }
        for text in ["1.2.3", "1,2,3", "1.234,5", "1,234.5"] {
            assert_eq!(read_number(text), Err(ParseProblem::TwoDecimalSigns), "{text:?}");
        }
        assert_eq!(read_number("1234567890123456789012345"), Err(ParseProblem::TooLong));
    }

    #[test]
    fn number_exponent_leaves_a_unit_that_no_quantity_knows() {
        check("1e3", 1, 0, "e3");
    }

    #[test]
    fn number_three_places_may_mean_thousands() {
        for (text, expected) in [
            ("1.234", true),
            ("12,345", true),
            ("1.000", true),
            ("0.123", false),
            ("1.2345", false),
            ("1.23", false),
            ("1234.567", false),
            ("1 234.567", false),
        ] {
            assert_eq!(read_number(text).map(|number| number.maybe_thousands), Ok(expected), "{text:?}");
        }
    }
}
