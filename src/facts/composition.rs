//! What a supplier's paper says that a fragrance or oil holds, as pasted: names with shares, one a line.
//!
//! Reading never fails: a line that gives no name with a share is kept as not understood, for the maker to see.

use super::{Allergen, allergen, allergen_of_cas};
use crate::quantity::{Number, Percent, Quantity, mul_div_nearest, read_number};

/// One substance and its share of the material.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Contained {
    /// As the supplier writes it.
    pub name: String,
    /// CAS number, if one stands beside it.
    pub cas: Option<String>,
    /// Least share.
    pub low: Percent,
    /// Greatest share: what a check counts.
    pub high: Percent,
}

impl Contained {
    /// The allergen that it is, by name, else by CAS number.
    pub fn allergen(&self) -> Option<&'static Allergen> {
        allergen(&self.name).or_else(|| allergen_of_cas(self.cas.as_deref()?))
    }
}

/// A whole paper.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Composition {
    /// What was understood, in its order.
    pub items: Vec<Contained>,
    /// Lines in which no name with a share was found, as pasted.
    pub unread: Vec<String>,
}

/// Reads pasted lines such as `Linalool 12.3 %`, `Linalool<tab>78-70-6<tab>12,3`, `Limonene: 20-45 %`, `Citral < 0.1`,
/// `Coumarin 120 ppm`, `Farnesol not present`.
pub fn read_composition(text: &str) -> Composition {
    let mut composition = Composition::default();
    for line in text.split(['\n', ';']).map(str::trim).filter(|line| !line.is_empty()) {
        match read_line(line) {
            Some(item) => composition.items.push(item),
            None => composition.unread.push(line.chars().take(200).collect()),
        }
    }
    composition
}

/// Words for "none", as suppliers write them.
const NONE: [&str; 7] = ["not present", "absent", "n.d.", "nd", "none", "nil", "not detected"];

fn read_line(line: &str) -> Option<Contained> {
    let (rest, cas) = take_cas(line);
    let (name, low, high) = none(&rest).or_else(|| shares(&rest))?;
    let name =
        name.trim_matches(|c: char| c.is_whitespace() || matches!(c, ':' | '-' | '\u{2013}' | ',' | '|' | '.' | '='));
    let readable = name.chars().any(char::is_alphabetic);
    readable.then(|| Contained { name: name.to_owned(), cas, low, high })
}

fn none(text: &str) -> Option<(String, Percent, Percent)> {
    let lower = text.to_lowercase();
    let word = NONE.iter().find(|word| {
        lower.strip_suffix(*word).is_some_and(|name| name.ends_with([' ', '\t', ':', '-']) && lower.len() == text.len())
    })?;
    Some((text.get(..text.len() - word.len())?.to_owned(), Percent::ZERO, Percent::ZERO))
}

/// Takes a CAS number out of a line.
fn take_cas(line: &str) -> (String, Option<String>) {
    let mut cas = None;
    let kept: Vec<&str> = line
        .split([' ', '\t', '(', ')', '[', ']', '|'])
        .filter(|word| {
            let found = is_cas(word.trim_matches([',', ';']));
            if found && cas.is_none() {
                cas = Some(word.trim_matches([',', ';']).to_owned());
            }
            !found && !word.eq_ignore_ascii_case("cas") && !word.eq_ignore_ascii_case("cas:")
        })
        .collect();
    (kept.join(" ").trim().to_owned(), cas)
}

fn is_cas(word: &str) -> bool {
    let parts: Vec<&str> = word.split('-').collect();
    matches!(parts.as_slice(), [a, b, c] if (2..=7).contains(&a.len()) && b.len() == 2 && c.len() == 1)
        && word.bytes().all(|b| b.is_ascii_digit() || b == b'-')
}

/// The share at the end of a line, and the name before it.
fn shares(text: &str) -> Option<(String, Percent, Percent)> {
    let lower = text.to_lowercase();
    let (body, per_million) = if let Some(body) = lower.strip_suffix("ppm").or_else(|| lower.strip_suffix("mg/kg")) {
        (body.trim_end().len(), true)
    } else {
        (text.trim_end_matches(['%', ' ']).trim_end_matches("w/w").trim_end_matches(['%', ' ', '(']).len(), false)
    };
    let body = text.get(..body)?;
    let (before, last) = split_number(body)?;
    let high = share(last, per_million)?;
    let joined = before.trim_end();
    let dash = joined.strip_suffix(['-', '\u{2013}', '\u{2014}']).or_else(|| joined.strip_suffix(" to"));
    if let Some((name, first)) = dash.and_then(|left| split_number(left.trim_end().trim_end_matches('%').trim_end()))
        && let Some(low) = share(first, per_million)
        && low <= high
    {
        return Some((name.to_owned(), low, high));
    }
    let name = joined.trim_end_matches(['<', '\u{2264}', '=', '~']).trim_end();
    let bound = joined.len() != name.len() && (joined.contains('<') || joined.contains('\u{2264}'));
    Some((name.to_owned(), if bound { Percent::ZERO } else { high }, high))
}

/// Splits the number at the end of a text from what stands before it. A number that hangs on a word is part of the name.
fn split_number(text: &str) -> Option<(&str, &str)> {
    let start = text
        .rfind(|c: char| !(c.is_ascii_digit() || c == '.' || c == ','))
        .map_or(0, |at| at + text.get(at..).and_then(|rest| rest.chars().next()).map_or(1, char::len_utf8));
    let (before, number) = text.split_at_checked(start)?;
    let hangs = before.chars().next_back().is_some_and(char::is_alphanumeric);
    (!number.is_empty() && !before.is_empty() && !hangs).then_some((before, number))
}

pub(super) fn share(text: &str, per_million: bool) -> Option<Percent> {
    let Number { digits, places, .. } = read_number(text).ok()?;
    let digits = i64::try_from(digits).ok()?;
    let power = 10i64.checked_pow(places)?;
    // One part in a million is 0.0001 %, a hundred units.
    let units = mul_div_nearest(digits, if per_million { 100 } else { 1_000_000 }, power);
    (0..=Percent::WHOLE.units()).contains(&units).then(|| Percent::from_units(units))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn percent(text: &str) -> Percent {
        Percent::from_canonical(text).unwrap()
    }

    #[test]
    fn composition_lines_of_many_shapes_are_read() {
        for (line, name, low, high) in [
            ("Linalool 12.3 %", "Linalool", "12.3", "12.3"),
            ("Linalool\t78-70-6\t12,3", "Linalool", "12.3", "12.3"),
            ("Limonene: 20-45 %", "Limonene", "20", "45"),
            ("Limonene 20 \u{2013} 45%", "Limonene", "20", "45"),
            ("Limonene 20 % - 45 %", "Limonene", "20", "45"),
            ("Limonene 20 to 45 %", "Limonene", "20", "45"),
            ("Citral < 0.1 %", "Citral", "0", "0.1"),
            ("Citral \u{2264}0,1", "Citral", "0", "0.1"),
            ("Coumarin 120 ppm", "Coumarin", "0.012", "0.012"),
            ("Coumarin 120 mg/kg", "Coumarin", "0.012", "0.012"),
            ("Methyl 2-Octynoate 0.001", "Methyl 2-Octynoate", "0.001", "0.001"),
            ("3-Propylidenephthalide (17369-59-4) 0.02 %", "3-Propylidenephthalide", "0.02", "0.02"),
            ("Rose ketone 4  0.05", "Rose ketone 4", "0.05", "0.05"),
            ("Farnesol not present", "Farnesol", "0", "0"),
            ("Geraniol 1.5 % w/w", "Geraniol", "1.5", "1.5"),
        ] {
            let read = read_composition(line);
            assert_eq!(read.unread, Vec::<String>::new(), "{line}");
            let item = &read.items[0];
            assert_eq!((item.name.as_str(), item.low, item.high), (name, percent(low), percent(high)), "{line}");
        }
    }

    #[test]
    fn composition_what_is_not_understood_is_kept() {
        let read = read_composition("Allergen statement\nLinalool 35 %\n\n12 %\nGeraniol traces\nCitral 120 %");
        assert_eq!(read.items.len(), 1);
        assert_eq!(read.unread, ["Allergen statement", "12 %", "Geraniol traces", "Citral 120 %"]);
    }

    #[test]
    fn composition_allergens_are_known_by_name_or_number() {
        let read = read_composition("LINALOOL 35\n3,7-Dimethyl-1,6-octadien-3-ol 78-70-6 35\nTriacetin 5");
        let names: Vec<_> = read.items.iter().map(|item| item.allergen().map(|row| row.name)).collect();
        assert_eq!(names, [Some("Linalool"), Some("Linalool"), None]);
    }

    proptest! {
        #[test]
        fn composition_of_any_text_is_read(text in "\\PC{0,120}") {
            let read = read_composition(&text);
            for item in read.items {
                prop_assert!(item.low <= item.high && item.high <= Percent::WHOLE);
            }
        }
    }
}
