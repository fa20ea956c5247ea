//! Shares that stand in a name: `50 %`, `86-88 %`, `< 0.1 %`, `not detected`; and that it is dissolved in water.
//!
//! `data/strengths.csv` says of solutions in the table of which strength they are: a name with another strength is none of
//! these rows.

use std::sync::LazyLock;

use super::FILE;
use crate::facts::CsvTable;
use crate::quantity::{Percent, Quantity};

/// What a name says of its strength.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct Strength {
    /// The share, where it is one number.
    pub(super) share: Option<Percent>,
    /// The ends of a range, of which both are the share where there is one.
    ends: Option<(Percent, Percent)>,
    /// It says that it is dissolved.
    pub(super) solution: bool,
    /// It says that it is a powder.
    pub(super) dry: bool,
}

/// What of a text is its strength, and the text without.
pub(super) fn take(plain: &str) -> (String, Strength) {
    let mut strength = Strength::default();
    let mut text = plain.to_owned();
    for nil in ["not detected", "not present", "none detected", "n.d."] {
        if let Some(at) = text.find(nil) {
            text.replace_range(at..at + nil.len(), " ");
            strength.share = Some(Percent::ZERO);
        }
    }
    for word in [" per cent", " percent", " pct"] {
        text = text.replace(word, "%");
    }
    let mut turns = 0;
    while let Some(at) = text.find('%')
        && turns < 4
    {
        turns += 1;
        let (start, ends, open) = number_before(text.get(..at).unwrap_or_default());
        if let Some((low, high)) = ends
            && strength.ends.is_none()
        {
            strength.ends = Some((low, high));
            strength.share = (low == high && !open).then_some(low);
        }
        text.replace_range(start..=at, " ");
    }
    (text, strength)
}

/// Where the number or range before a sign of percent begins, what it is, and whether one of its ends is open.
fn number_before(text: &str) -> (usize, Option<(Percent, Percent)>, bool) {
    let Some((start, high)) = last_number(text) else { return (text.len(), None, false) };
    let before = text.get(..start).unwrap_or_default().trim_end();
    let open = before.ends_with(['<', '>', '~']) || before.ends_with("max") || before.ends_with("min");
    let bare = before.trim_end_matches(['<', '>', '=', '~', ' ']);
    let range = bare.strip_suffix('-').or_else(|| bare.strip_suffix(" to")).and_then(last_number);
    match range {
        Some((start, low)) if low <= high => (start, Some((low, high)), false),
        _ => (bare.len(), Some((high, high)), open),
    }
}

/// The number at the end of a text, which hangs on no word.
fn last_number(text: &str) -> Option<(usize, Percent)> {
    let text = text.trim_end();
    let start = text
        .rfind(|c: char| !(c.is_ascii_digit() || c == '.' || c == ','))
        .map_or(0, |at| at + text.get(at..).and_then(|rest| rest.chars().next()).map_or(1, char::len_utf8));
    let number = text.get(start..)?.trim_start_matches([',', '.']).replace(',', ".");
    if !number.bytes().any(|b| b.is_ascii_digit()) {
        return None;
    }
    let start = text.len() - number.len();
    let hangs = text.get(..start)?.ends_with(char::is_alphabetic);
    let places = number.split_once('.').map_or("", |(_, places)| places).trim_end_matches('0');
    let whole = number.split('.').next()?.trim_start_matches('0');
    let canonical = match (whole, places) {
        ("", "") => "0".to_owned(),
        ("", places) => format!("0.{places}"),
        (whole, "") => whole.to_owned(),
        (whole, places) => format!("{whole}.{places}"),
    };
    let share = Percent::from_canonical(&canonical).ok()?;
    (!hangs && share <= Percent::WHOLE).then_some((start, share))
}

/// A row of the table that is of a certain strength.
#[derive(Debug, Clone, Copy)]
pub(super) struct Stocked {
    low: Percent,
    high: Percent,
    /// The substance without its solvent, for another strength; empty where any strength is the same row.
    pub(super) otherwise: &'static str,
    /// The row that the name stands for where it states no strength, or another one.
    pub(super) instead_of: &'static str,
    /// It holds water.
    pub(super) wet: bool,
    /// It is dry: a name with a smaller share stands for its solution.
    pub(super) dissolves: bool,
}

static TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(FILE.text("data/strengths.csv")));

/// What is known of the strength of a row.
pub(super) fn stocked(id: &str) -> Option<Stocked> {
    let row = TABLE.rows().find(|row| row.get("id").is_ok_and(|known| known == id))?;
    let percent = |column| row.get(column).ok().and_then(|text| Percent::from_canonical(text).ok());
    Some(Stocked {
        low: percent("low")?,
        high: percent("high")?,
        otherwise: row.get("otherwise").ok()?,
        instead_of: row.get("instead_of").ok()?,
        wet: row.get("wet").ok()? == "yes",
        dissolves: row.get("wet").ok()? == "dissolves",
    })
}

/// The row that takes the place of another where the name states its strength.
pub(super) fn diluted(id: &str, strength: Strength) -> Option<&'static str> {
    let mut ids = TABLE.rows().filter(|row| row.get("instead_of").is_ok_and(|other| other == id));
    let id = ids.next()?.get("id").ok()?;
    stocked(id).filter(|row| strength.ends.is_some() && strength.supports(*row)).map(|_| id)
}

impl Strength {
    /// Whether the name's strength is not that of a row.
    pub(super) fn contradicts(&self, stocked: Stocked) -> bool {
        match self.ends {
            Some((low, high)) => high < stocked.low || low > stocked.high,
            None => self.dry && stocked.wet,
        }
    }

    /// Whether the name states the strength of a row.
    pub(super) fn supports(&self, stocked: Stocked) -> bool {
        (self.ends.is_some() && !self.contradicts(stocked)) || (self.ends.is_none() && self.dry && !stocked.wet)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shares_are_taken_with_all_that_belongs_to_them() {
        for (text, rest, share) in [
            ("citric acid 50% solution", "citric acid solution", Some("50")),
            ("glycerol 86-88%", "glycerol", None),
            ("glycerol 99,5 %", "glycerol", Some("99.5")),
            ("coumarin < 0.1 %", "coumarin", None),
            ("eugenol - not detected", "eugenol -", Some("0")),
            ("polysorbate 20 30 %", "polysorbate 20", Some("30")),
            ("%", "", None),
            ("150 % x", "150 x", None),
        ] {
            let (left, strength) = take(text);
            assert_eq!(left.split_whitespace().collect::<Vec<_>>().join(" "), rest, "{text}");
            assert_eq!(strength.share, share.map(|text| Percent::from_canonical(text).unwrap()), "{text}");
        }
    }
}
