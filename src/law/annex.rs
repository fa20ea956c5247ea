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
}
