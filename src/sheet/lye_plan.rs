//! What is to be saponified, and how: the maker's wishes, as typed.

use crate::facts::Alkali;
use crate::formula::LineId;
use crate::quantity::{Percent, Scale, Typed, keyed, quantity};

/// How much less alkali is used than the fats would take up, in units of 0.000001 %, −20 to 50 %. Soap makers call it
/// superfat. Under nothing there is more alkali than the fats take up: the soap stays caustic.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct LyeDiscount(i64);

quantity! {
    LyeDiscount: LyeDiscount, 6, -20_000_000, 50_000_000,
    |unit| matches!(unit, "" | "%").then_some(Scale::exact(1_000_000))
}

/// Parts of water for one part of lye, in thousandths, 0.1 to 20.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct WaterRatio(i64);

quantity! {
    WaterRatio: WaterRatio, 3, 100, 20_000,
    |unit| matches!(unit, "" | ":1" | ": 1").then_some(Scale::exact(1000))
}

keyed! {
    /// Which alkali makes the soap.
    #[derive(Default)]
    AlkaliChoice {
        /// Sodium hydroxide: a bar.
        #[default]
        Sodium = "naoh",
        /// Potassium hydroxide: soft or liquid soap.
        Potassium = "koh",
        /// Both.
        Both = "both",
    }
}

keyed! {
    /// How the water for the lye is stated.
    #[derive(Default)]
    WaterBy {
        /// The alkali as weighed, in per cent of the solution.
        #[default]
        Concentration = "concentration",
        /// The pure alkali in it, in per cent of the solution; what is not alkali in the flakes counts as water.
        PureConcentration = "pure-concentration",
        /// Parts of water for one part of alkali as weighed.
        Ratio = "ratio",
    }
}

keyed! {
    /// From which saponification values the lye follows.
    #[derive(Default)]
    SvBasis {
        /// The low end of each fat's range: never too much alkali if the fats are within their ranges.
        #[default]
        Low = "low",
        /// Typical values.
        Typical = "typical",
    }
}

/// What is saponified.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub enum Saponified {
    /// Every fat of a soap; nothing of any other formula.
    #[default]
    Soap,
    /// These lines, whatever the formula is.
    Lines(Vec<LineId>),
}

impl Saponified {
    /// With a line taken in or left out. Without any line it is the soap again.
    #[must_use]
    pub fn with(&self, line: LineId, taken: bool) -> Self {
        let mut lines = match self {
            Self::Lines(lines) => lines.clone(),
            Self::Soap => Vec::new(),
        };
        lines.retain(|other| *other != line);
        if taken {
            lines.push(line);
        }
        if lines.is_empty() { Self::Soap } else { Self::Lines(lines) }
    }

    /// True if this line was chosen by name.
    pub fn names(&self, line: LineId) -> bool {
        matches!(self, Self::Lines(lines) if lines.contains(&line))
    }
}

/// The maker's word for having read a warning.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum Acknowledgement {
    /// Not given, or taken back.
    #[default]
    Missing,
    /// Given.
    Given,
}

impl Acknowledgement {
    /// Given if it holds.
    pub const fn given_if(holds: bool) -> Self {
        if holds { Self::Given } else { Self::Missing }
    }

    /// True if it was given.
    pub const fn is_given(self) -> bool {
        matches!(self, Self::Given)
    }
}

/// A plan for lye.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct LyePlan {
    /// What is saponified.
    pub part: Saponified,
    /// Which alkali.
    pub alkali: AlkaliChoice,
    /// Of both, the share of moles that is sodium hydroxide.
    pub sodium_share: Typed<Percent>,
    /// Purity of the sodium hydroxide. Empty counts as pure, which weighs out least.
    pub sodium_purity: Typed<Percent>,
    /// Purity of the potassium hydroxide. Empty counts as pure.
    pub potassium_purity: Typed<Percent>,
    /// Lye discount. Empty means [`LyePlan::DISCOUNT`].
    pub discount: Typed<LyeDiscount>,
    /// Whether the maker knows that a discount of nothing or less leaves no margin.
    pub no_margin: Acknowledgement,
    /// From which values.
    pub basis: SvBasis,
    /// How the water is stated.
    pub water_by: WaterBy,
    /// Alkali in the solution. Empty means [`LyePlan::CONCENTRATION`].
    pub concentration: Typed<Percent>,
    /// Water for one part of alkali. Empty means [`LyePlan::RATIO`].
    pub ratio: Typed<WaterRatio>,
}

/// A field of the plan, for messages and for putting the focus there.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum LyeField {
    /// [`LyePlan::sodium_share`].
    SodiumShare,
    /// [`LyePlan::sodium_purity`].
    SodiumPurity,
    /// [`LyePlan::potassium_purity`].
    PotassiumPurity,
    /// [`LyePlan::discount`].
    Discount,
    /// [`LyePlan::concentration`].
    Concentration,
    /// [`LyePlan::ratio`].
    Ratio,
}

impl LyeField {
    /// Its name, for the field's id in the page.
    pub const fn key(self) -> &'static str {
        match self {
            Self::SodiumShare => "sodium-share",
            Self::SodiumPurity => "sodium-purity",
            Self::PotassiumPurity => "potassium-purity",
            Self::Discount => "discount",
            Self::Concentration => "concentration",
            Self::Ratio => "ratio",
        }
    }
}

impl LyePlan {
    /// Covers the natural spread of olive oil. Common practice, no source.
    pub const DISCOUNT: LyeDiscount = LyeDiscount(5_000_000);
    /// Two parts of water for one of alkali, nearly. Common practice, no source.
    pub const CONCENTRATION: Percent = Percent::millionths(33_000_000);
    /// Common practice, no source.
    pub const RATIO: WaterRatio = WaterRatio(2_000);

    /// The purity of an alkali as typed.
    pub fn purity(&self, alkali: Alkali) -> &Typed<Percent> {
        match alkali {
            Alkali::Sodium => &self.sodium_purity,
            Alkali::Potassium => &self.potassium_purity,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn saponified_lines_come_and_go_and_none_is_the_soap() {
        let (olive, shea) = (LineId::of(1), LineId::of(2));
        let both = Saponified::Soap.with(olive, true).with(shea, true).with(olive, true);
        assert_eq!(both, Saponified::Lines(vec![shea, olive]), "each once");
        assert!(both.names(olive) && !Saponified::Soap.names(olive));
        assert_eq!(both.with(olive, false).with(shea, false), Saponified::Soap);
    }
}
