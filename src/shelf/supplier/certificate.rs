//! The limits on a supplier's certificate for a fragrance or oil, as pasted: a category and a percent, one a line.
//!
//! Reading never fails: a line that gives no category with a limit is kept as not understood, for the maker to see.

use crate::quantity::Percent;
use crate::shelf::supplier::composition::share;

/// A whole certificate.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Certificate {
    /// Limits by category, in their order; `None` stands for every category that is not named.
    pub limits: Vec<(Option<String>, Percent)>,
    /// Lines in which no category with a limit was found, as pasted.
    pub unread: Vec<String>,
}

/// Words for "none of it", and for "as much as you like", as certificates have them.
const NOTHING: [&str; 3] = ["not permitted", "not allowed", "prohibited"];
const NO_LIMIT: [&str; 4] = ["no restriction", "not restricted", "unrestricted", "no limit"];

/// Reads pasted lines such as `5A 0.42`, `Category 5B: 0,2 %`, `9 Rinse-off 2.1 %`, `1 not permitted`; a percent alone
/// holds for every category.
pub fn read_certificate(text: &str) -> Certificate {
    let mut certificate = Certificate::default();
    for line in text.split(['\n', ';']).map(str::trim).filter(|line| !line.is_empty()) {
        match read_line(line) {
            Some(limit) => certificate.limits.push(limit),
            None => certificate.unread.push(line.chars().take(200).collect()),
        }
    }
    certificate
}

fn read_line(line: &str) -> Option<(Option<String>, Percent)> {
    let lower = line.to_lowercase();
    let body = lower.trim_start_matches("category").trim_start_matches("cat.").trim_start_matches("cat").trim_start();
    let words: Vec<&str> = body.split([' ', '\t', ':', '=', '|']).filter(|word| !word.is_empty()).collect();
    let (first, rest) = words.split_first()?;
    let category = category(first);
    let said = |all: &[&str]| all.iter().any(|word| body.ends_with(word));
    let limit = if said(&NOTHING) {
        Percent::ZERO
    } else if said(&NO_LIMIT) {
        Percent::WHOLE
    } else {
        let number = body.trim_end_matches(['%', ' ']);
        let start = number.rfind([' ', '\t', ':', '=', '|']).map_or(0, |at| at + 1);
        let digits =
            number.get(start..).filter(|text| text.bytes().all(|b| b.is_ascii_digit() || b == b'.' || b == b','))?;
        share(digits, false)?
    };
    match category {
        Some(category) if !rest.is_empty() && rest != ["%"] => Some((Some(category), limit)),
        // One number alone: a limit, not a category. `9` could be either and is left to the maker.
        _ if words.iter().all(|word| *word == "%" || word.trim_end_matches('%') == first.trim_end_matches('%')) => {
            (first.contains(['.', ',', '%']) || rest == ["%"]).then_some((None, limit))
        }
        _ => None,
    }
}

/// `5a` as `5A`: a number from 1 to 12, and a letter from A to D behind some.
fn category(word: &str) -> Option<String> {
    let letter = word.ends_with(['a', 'b', 'c', 'd']);
    let number = if letter { word.get(..word.len() - 1)? } else { word };
    let known = number.bytes().all(|b| b.is_ascii_digit()) && matches!(number.parse::<u8>(), Ok(1..=12));
    known.then(|| word.to_uppercase())
}

impl Certificate {
    /// The limit of a category: the least that stands there for it, else the one for every category.
    pub fn limit(&self, category: &str) -> Option<Percent> {
        let of = |wanted: Option<&str>| {
            self.limits.iter().filter(|(known, _)| known.as_deref() == wanted).map(|(_, limit)| *limit).min()
        };
        of(Some(category)).or_else(|| of(None))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Quantity;
    use proptest::prelude::*;

    fn limit(text: &str, category: &str) -> Option<String> {
        read_certificate(text).limit(category).map(Quantity::canonical)
    }

    #[test]
    fn certificate_limit_is_that_of_the_category() {
        let text = "5A 0.42; 5B: 0.2 %; 9 2,1";
        for (category, expected) in [("5A", Some("0.42")), ("5B", Some("0.2")), ("9", Some("2.1")), ("5C", None)] {
            assert_eq!(limit(text, category).as_deref(), expected, "{category}");
        }
        for (text, category, expected) in [
            ("Category 5A: 0.7", "5A", Some("0.7")),
            ("cat. 5A\tBody lotion\t0,7 %", "5A", Some("0.7")),
            ("5a=0.7%", "5A", Some("0.7")),
            ("9 Rinse-off products 2.1 %", "9", Some("2.1")),
            ("1 Lip products: not permitted", "1", Some("0")),
            ("12 no restriction", "12", Some("100")),
            ("0.4 %", "5D", Some("0.4")),
            ("0.4", "5D", Some("0.4")),
            ("0.4; 5D 0.1", "5D", Some("0.1")),
            ("5A 0.7\n5A 0.4", "5A", Some("0.4")),
        ] {
            assert_eq!(limit(text, category).as_deref(), expected, "{text}");
            assert_eq!(read_certificate(text).unread, Vec::<String>::new(), "{text}");
        }
    }

    #[test]
    fn certificate_what_is_not_understood_is_kept() {
        let read = read_certificate(
            "Certificate of conformity\n5A\n9\n13A 0.2\n5A, 5B 0.3\n5B see annex\n5C 0.2.1\n5D 120 %\n5A see annex 3b",
        );
        assert_eq!(read.limits, []);
        assert_eq!(read.unread.len(), 9);
        assert_eq!(read.unread[4], "5A, 5B 0.3");
    }

    proptest! {
        #[test]
        fn certificate_of_any_text_is_read(text in "\\PC{0,120}") {
            let read = read_certificate(&text);
            prop_assert!(read.limits.iter().all(|(_, limit)| *limit <= Percent::WHOLE && *limit >= Percent::ZERO));
            let _ = read.limit("5A");
        }
    }
}
