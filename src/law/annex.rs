//! The five annexes, and days as the law writes them.

use core::fmt;

/// An annex of Regulation (EC) No 1223/2009.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Annex {
    /// Substances prohibited in cosmetic products.
    II,
    /// Substances that are allowed only under restrictions.
    III,
    /// Colourants allowed.
    IV,
    /// Preservatives allowed.
    V,
    /// UV filters allowed.
    VI,
}

impl Annex {
    /// All of them, in the order of the law.
    pub const ALL: [Self; 5] = [Self::II, Self::III, Self::IV, Self::V, Self::VI];

    /// Its number, as the law writes it.
    pub const fn numeral(self) -> &'static str {
        match self {
            Self::II => "II",
            Self::III => "III",
            Self::IV => "IV",
            Self::V => "V",
            Self::VI => "VI",
        }
    }

    /// The annex of that number.
    pub fn from_numeral(text: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|annex| annex.numeral() == text)
    }
}

impl fmt::Display for Annex {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "Annex {}", self.numeral())
    }
}

/// A day of the calendar. Days compare as they follow each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Day {
    year: u16,
    month: u8,
    day: u8,
}

const MONTHS: [&str; 12] = [
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
];

impl Day {
    /// A day, if there may be one: months have up to 31 days here, the calendar is not asked.
    pub fn new(year: u16, month: u8, day: u8) -> Option<Self> {
        let real = (1000..=9999).contains(&year) && (1..=12).contains(&month) && (1..=31).contains(&day);
        real.then_some(Self { year, month, day })
    }

    /// Reads `28/08/2026`.
    pub fn from_slashes(text: &str) -> Option<Self> {
        let mut parts = text.trim().split('/');
        let (day, month, year) = (parts.next()?, parts.next()?, parts.next()?);
        let whole = parts.next().is_none() && day.len() == 2 && month.len() == 2 && year.len() == 4;
        whole.then(|| Self::new(year.parse().ok()?, month.parse().ok()?, day.parse().ok()?)).flatten()
    }

    /// Reads `2026-08-28`.
    pub fn from_iso(text: &str) -> Option<Self> {
        let mut parts = text.trim().split('-');
        let (year, month, day) = (parts.next()?, parts.next()?, parts.next()?);
        let whole = parts.next().is_none() && day.len() == 2 && month.len() == 2 && year.len() == 4;
        whole.then(|| Self::new(year.parse().ok()?, month.parse().ok()?, day.parse().ok()?)).flatten()
    }

    /// Reads `1 May 2027` at the start of a text, and gives the rest of it.
    pub(super) fn from_words(text: &str) -> Option<(Self, &str)> {
        let (day, rest) = text.trim_start().split_once(' ')?;
        let (month, rest) = rest.trim_start().split_once(' ')?;
        let rest = rest.trim_start();
        let month = MONTHS.iter().position(|name| month.eq_ignore_ascii_case(name))? as u8 + 1;
        Some((Self::new(rest.get(..4)?.parse().ok()?, month, day.parse().ok()?)?, rest.get(4..)?))
    }
}

impl fmt::Display for Day {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn annex_numerals_come_back() {
        for annex in Annex::ALL {
            assert_eq!(Annex::from_numeral(annex.numeral()), Some(annex));
        }
        assert_eq!(Annex::from_numeral("VII"), None);
    }

    #[test]
    fn day_is_read_in_each_form_and_nothing_else_is() {
        let day = Day::new(2027, 5, 1);
        assert_eq!(Day::from_slashes("01/05/2027"), day);
        assert_eq!(Day::from_iso("2027-05-01"), day);
        assert_eq!(Day::from_words("1 May 2027 cosmetic products"), day.map(|day| (day, " cosmetic products")));
        assert_eq!(Day::from_words(" 3 September   2017: 1,5 %").map(|(day, _)| day), Day::new(2017, 9, 3));
        for text in ["", "1/5/2027", "01/13/2027", "01/05/2027/1", "00/05/2027", "aa/bb/cccc"] {
            assert_eq!(Day::from_slashes(text), None, "{text:?}");
        }
        for text in ["", "1", "1 May", "1 Mai 2027", "32 May 2027", "1 May 20", "1 May 20ü7"] {
            assert_eq!(Day::from_words(text), None, "{text:?}");
        }
        assert!(Day::new(2026, 8, 28) < day);
    }
}
