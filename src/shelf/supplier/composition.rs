//! What a supplier's paper says that a fragrance or oil holds, as pasted: names with shares, one a line.
//!
//! Reading never fails: a line that gives no name with a share is kept as not understood, for the maker to see.

use super::contained::Contained;
use crate::facts::{allergen, fold, is_material};
use crate::quantity::{Number, Percent, Quantity, mul_div_nearest, read_number};
use crate::shelf::supplier::cas::take_cas;

/// A whole paper.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Composition {
    /// What was understood, in its order.
    pub items: Vec<Contained>,
    /// Lines in which no name with a share was found, as pasted.
    pub unread: Vec<String>,
}

impl Composition {
    /// What was read and is known to be an allergen or none, or is not there at all.
    pub fn recognised(&self) -> impl Iterator<Item = &Contained> {
        self.items.iter().filter(|item| !item.is_unrecognised())
    }

    /// What was read and may be an allergen, since nobody here knows the name.
    pub fn unrecognised(&self) -> impl Iterator<Item = &Contained> {
        self.items.iter().filter(|item| item.is_unrecognised())
    }
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
    // A number of the chemical registry alone names a substance, too.
    let rest = if rest.chars().any(char::is_alphabetic) { rest } else { format!("CAS {rest}") };
    let read = |text: &str| none(text).or_else(|| shares(text));
    // Brackets may be part of a name, or stand around a share.
    let loose = || rest.replace(['(', ')', '[', ']'], " ");
    let (name, low, high) = read(&rest).or_else(|| read(loose().trim()))?;
    let name =
        name.trim_matches(|c: char| c.is_whitespace() || matches!(c, ':' | '-' | '\u{2013}' | ',' | '|' | '.' | '='));
    let name = match &cas {
        Some(number) if name == "CAS" => number.clone(),
        _ if name == "CAS" => return None,
        _ => name.to_owned(),
    };
    let readable = cas.as_deref() == Some(&name) || name.chars().any(char::is_alphabetic);
    readable.then_some(Contained { name, cas, low, high })
}

fn none(text: &str) -> Option<(String, Percent, Percent)> {
    let lower = text.to_lowercase();
    let word = NONE.iter().find(|word| {
        lower.strip_suffix(*word).is_some_and(|name| name.ends_with([' ', '\t', ':', '-']) && lower.len() == text.len())
    })?;
    Some((text.get(..text.len() - word.len())?.to_owned(), Percent::ZERO, Percent::ZERO))
}

/// In small letters, as long as before.
fn small(text: &str) -> String {
    text.to_ascii_lowercase()
}

/// The share at the end of a line, and the name before it. Nothing where either could mean something else: what is
/// guessed wrong here is missing on a label.
fn shares(text: &str) -> Option<(String, Percent, Percent)> {
    let lower = small(text);
    let (body, per_million) = if let Some(body) = lower.strip_suffix("ppm").or_else(|| lower.strip_suffix("mg/kg")) {
        (body.trim_end().len(), true)
    } else {
        (text.trim_end_matches(['%', ' ']).trim_end_matches("w/w").trim_end_matches(['%', ' ', '(']).len(), false)
    };
    let (before, last) = split_number(text.get(..body)?)?;
    let high = share(last, per_million)?;
    let (before, bound) = take_bound(before);
    let dash = before.strip_suffix(['-', '\u{2013}', '\u{2014}']).or_else(|| before.strip_suffix(" to"));
    let first = dash.and_then(|left| split_number(left.trim_end().trim_end_matches('%').trim_end()));
    let (name, low) = match (first, bound) {
        (_, Some(Bound::Least)) => return None,
        (Some((left, first)), _) => match (take_bound(left), share(first, per_million)?) {
            ((name, Some(Bound::Most)), first) if first <= high => (name, Percent::ZERO),
            ((name, _), first) if first <= high => (name, first),
            _ => return None,
        },
        (None, Some(Bound::Most)) => (before, Percent::ZERO),
        (None, _) => (before, high),
    };
    // A last group of three digits may be the end of a number that was cut: `1 200`.
    let cut = per_million && last.bytes().take_while(u8::is_ascii_digit).count() == 3;
    is_name(name, cut).then(|| (name.to_owned(), low, high))
}

/// What a word or sign right before a number makes of it.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Bound {
    /// Nothing more than that it may be rounded.
    About,
    /// Up to it.
    Most,
    /// From it on, to nobody knows what.
    Least,
}

/// Longer ones first where one ends in another.
const BOUNDS: [(&str, Bound); 32] = [
    ("not more than", Bound::Most),
    ("no more than", Bound::Most),
    ("less than", Bound::Most),
    ("at most", Bound::Most),
    ("up to", Bound::Most),
    ("maximum", Bound::Most),
    ("max.", Bound::Most),
    ("max", Bound::Most),
    ("below", Bound::Most),
    ("under", Bound::Most),
    ("<=", Bound::Most),
    ("=<", Bound::Most),
    ("<", Bound::Most),
    ("\u{2264}", Bound::Most),
    ("more than", Bound::Least),
    ("at least", Bound::Least),
    ("minimum", Bound::Least),
    ("min.", Bound::Least),
    ("min", Bound::Least),
    ("above", Bound::Least),
    ("over", Bound::Least),
    ("from", Bound::Least),
    (">=", Bound::Least),
    ("=>", Bound::Least),
    (">", Bound::Least),
    ("\u{2265}", Bound::Least),
    ("approx.", Bound::About),
    ("about", Bound::About),
    ("ca.", Bound::About),
    ("=", Bound::About),
    ("~", Bound::About),
    ("\u{2248}", Bound::About),
];

/// Splits the words and signs at the end of a text that bound the number behind it from what stands before them.
fn take_bound(text: &str) -> (&str, Option<Bound>) {
    let (mut text, mut bound) = (text.trim_end(), None);
    loop {
        let found = BOUNDS.iter().find_map(|(word, found)| {
            let (left, end) = text.split_at_checked(text.len().checked_sub(word.len())?)?;
            if !end.eq_ignore_ascii_case(word) {
                return None;
            }
            let hangs = word.starts_with(char::is_alphabetic) && left.ends_with(char::is_alphanumeric);
            (!hangs).then_some((left, *found))
        });
        let Some((left, found)) = found else { return (text, bound) };
        text = left.trim_end();
        bound = match (bound, found) {
            (Some(Bound::Least), _) | (_, Bound::Least) => Some(Bound::Least),
            (Some(Bound::Most), _) | (_, Bound::Most) => Some(Bound::Most),
            _ => Some(Bound::About),
        };
    }
}

/// Whether what stands before the shares can be the name alone: no sign of comparing is left in it, and no number by
/// itself at its end, unless that belongs to a name that is known. `cut` says that such a number may be the beginning
/// of the share.
fn is_name(text: &str, cut: bool) -> bool {
    if text.contains(['<', '>', '\u{2264}', '\u{2265}']) {
        return false;
    }
    let letters = |word: &str| word.chars().any(char::is_alphabetic);
    let mut words = text.split_whitespace().rev().filter(|word| word.chars().any(char::is_alphanumeric));
    let Some(last) = words.next() else { return false };
    if letters(last) {
        return !["to", "and", "between", "max", "min"].contains(&&*small(last));
    }
    // Colours go by a number of five digits.
    let colour = last.len() == 5 && words.next().is_some_and(|word| word.eq_ignore_ascii_case("ci"));
    !cut && (colour || allergen(text).is_some() || is_material(&fold(text)))
}

/// Splits the number at the end of a text from what stands before it. A number that hangs on a word is part of the name.
fn split_number(text: &str) -> Option<(&str, &str)> {
    let start = text
        .rfind(|c: char| !(c.is_ascii_digit() || c == '.' || c == ','))
        .map_or(0, |at| at + text.get(at..).and_then(|rest| rest.chars().next()).map_or(1, char::len_utf8));
    let (before, number) = text.split_at_checked(start)?;
    let ends_in = |text: &str, test: fn(char) -> bool| text.chars().next_back().is_some_and(test);
    let hyphen = before.strip_suffix('-').is_some_and(|word| ends_in(word, char::is_alphabetic));
    let hangs = hyphen || ends_in(before, char::is_alphanumeric);
    (!number.is_empty() && !before.is_empty() && !hangs).then_some((before, number))
}

/// A share as text. Of a million parts both readings of `1,200` are possible, so it is none; of a hundred only one is.
pub(super) fn share(text: &str, per_million: bool) -> Option<Percent> {
    let Number { digits, places, maybe_thousands, .. } = read_number(text).ok()?;
    if per_million && maybe_thousands {
        return None;
    }
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
            // The ranges of safety data sheets, as the European regulation on classification has them written.
            ("Limonene >= 25 - < 50 %", "Limonene", "25", "50"),
            ("Limonene \u{2265}25 \u{2013} <50 %", "Limonene", "25", "50"),
            ("Limonene > 1 - 5", "Limonene", "1", "5"),
            ("Citral 0.1-<0.5 %", "Citral", "0.1", "0.5"),
            ("Citral < 1 - < 5 %", "Citral", "0", "5"),
            ("Linalool max 5 %", "Linalool", "0", "5"),
            ("Linalool (max. 5 %)", "Linalool", "0", "5"),
            ("Linalool up to 5 %", "Linalool", "0", "5"),
            ("Linalool not more than 5 %", "Linalool", "0", "5"),
            ("Linalool <= 5 %", "Linalool", "0", "5"),
            ("Linalool about 5 %", "Linalool", "5", "5"),
            ("Linalool 78-70-6 201-134-4 12.3", "Linalool", "12.3", "12.3"),
            ("Coumarin 1200 ppm", "Coumarin", "0.12", "0.12"),
            ("Coumarin 0,500 ppm", "Coumarin", "0.00005", "0.00005"),
            ("Linalool 12,345 %", "Linalool", "12.345", "12.345"),
            ("Polysorbate 20 30", "Polysorbate 20", "30", "30"),
            ("CI 77891 5 %", "CI 77891", "5", "5"),
            ("Rose ketone-4 - 0.05", "Rose ketone-4", "0.05", "0.05"),
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

    /// Each of these has two readings, or an end that is open: an allergen must not get lost by the wrong one.
    #[test]
    fn composition_what_could_mean_two_things_is_not_guessed() {
        for line in [
            "Limonene 1,200 ppm",
            "Limonene 1.200 mg/kg",
            "Limonene 1,200 - 2,500 ppm",
            "Coumarin 1 200 ppm",
            "Coumarin 1\u{a0}200 ppm",
            "Coumarin 1'200 ppm",
            "Coumarin 200 - 1 200 ppm",
            "Rose ketone 4 200 ppm",
            "Linalool\t5\t10",
            "Linalool 5 % 10 %",
            "Linalool min 5 max 10 %",
            "Linalool between 5 and 10 %",
            "Limonene > 25 %",
            "Limonene at least 25 %",
            "Limonene 50 - 25 %",
            "Linalool-12.3 %",
        ] {
            let read = read_composition(line);
            assert_eq!((read.items, read.unread.len()), (Vec::new(), 1), "{line}");
        }
    }

    #[test]
    fn composition_allergens_are_known_by_name_or_number() {
        let read = read_composition("LINALOOL 35\n3,7-Dimethyl-1,6-octadien-3-ol 78-70-6 35\nTriacetin 5");
        let names: Vec<_> = read.items.iter().map(|item| item.allergen().map(|row| row.name)).collect();
        assert_eq!(names, [Some("Linalool"), Some("Linalool"), None]);
    }

    #[test]
    fn composition_names_keep_what_belongs_to_them_and_lose_numbers() {
        for (line, name, cas) in [
            ("(+)-Limonene 45 %", "(+)-Limonene", None),
            ("(R)-(+)-Citronellol (1117-61-9) 2 %", "(R)-(+)-Citronellol", Some("1117-61-9")),
            ("Citral (neral + geranial) 1.2 %", "Citral (neral + geranial)", None),
            ("Citronellol, CAS No. 106-22-9 12 %", "Citronellol", Some("106-22-9")),
            ("Linalool (CAS-Nr. 78-70-6) 12", "Linalool", Some("78-70-6")),
            ("Benzyl Cinnamate | 103-41-3 | 0.2", "Benzyl Cinnamate", Some("103-41-3")),
            ("Limonene 5989 - 27 - 5 45 %", "Limonene", Some("5989-27-5")),
            ("Limonene 5989\u{2011}27\u{2011}5 45 %", "Limonene", Some("5989-27-5")),
            ("Limonene(5989-27-5) 45 %", "Limonene", Some("5989-27-5")),
            ("5989-27-5 45 %", "5989-27-5", Some("5989-27-5")),
            ("CAS 5989-27-5: 45 %", "5989-27-5", Some("5989-27-5")),
            ("Linalool ............ 34.2 %", "Linalool", None),
        ] {
            let read = read_composition(line);
            let found: Vec<_> = read.items.iter().map(|item| (item.name.as_str(), item.cas.as_deref())).collect();
            assert_eq!(found, [(name, cas)], "{line}: {read:?}");
        }
    }

    #[test]
    fn composition_names_that_nobody_knows_are_kept_apart_unless_nothing_of_them_is_there() {
        let read = read_composition("Linalool 3\nNerol 2\nSecret base 5\nOther thing not present\nLilac accord 0");
        let names = |items: Vec<&Contained>| items.into_iter().map(|item| item.name.clone()).collect::<Vec<_>>();
        assert_eq!(names(read.unrecognised().collect()), ["Secret base"]);
        assert_eq!(names(read.recognised().collect()), ["Linalool", "Nerol", "Other thing", "Lilac accord"]);
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
