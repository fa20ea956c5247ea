//! What is to be said of a lye, and why there may be none.

use super::{LyeField, NoSheet};
use crate::facts::{Alkali, Sv};
use crate::formula::LineId;
use crate::quantity::{Mass, Percent};
use crate::shelf::SvApart;

/// Something to be said about a lye that could be computed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum LyeNote {
    /// In the worst case more alkali than the fats take up.
    MarginBelowNothing(Percent),
    /// No purity is entered, so the alkali counts as pure.
    PurityAssumed(Alkali),
    /// No saponification value of this fat was measured: it is computed from its acids.
    NotMeasured(LineId),
    /// The saponification value of this fat is not verified.
    NotVerified(LineId),
    /// The maker's saponification value stands out and is not confirmed: the lower one counts.
    SvApart(LineId, SvApart),
    /// It stands out, and the maker says why it is right.
    SvConfirmed(LineId, SvApart, String),
    /// What this acid takes up was not seen in its source.
    AcidNotVerified(LineId),
    /// The formula has water of its own, which is that of the lye.
    WaterInFormula {
        /// How much.
        there: Mass,
        /// How much the lye asks for beside it.
        more: Mass,
        /// How strong the lye gets with both.
        concentration: Percent,
    },
    /// A wax or sterol ester: it saponifies in part and slowly.
    InPart(LineId),
    /// A hydrocarbon: nothing of it saponifies.
    NotAtAll(LineId),
    /// Nothing is known about how this line saponifies, though it may: no lye is computed for it.
    NotCounted(LineId),
    /// An alkali stands in the formula as well: it is not counted here, and would come on top.
    AlkaliInFormula(LineId),
    /// The maker has acknowledged that there is no margin.
    NoDiscount,
}

impl LyeNote {
    /// The line it is about.
    pub const fn line(&self) -> Option<LineId> {
        match self {
            Self::NotMeasured(line)
            | Self::NotVerified(line)
            | Self::InPart(line)
            | Self::NotAtAll(line)
            | Self::NotCounted(line)
            | Self::SvApart(line, _)
            | Self::SvConfirmed(line, ..)
            | Self::AcidNotVerified(line)
            | Self::AlkaliInFormula(line) => Some(*line),
            Self::MarginBelowNothing(_) | Self::PurityAssumed(_) | Self::NoDiscount | Self::WaterInFormula { .. } => {
                None
            }
        }
    }

    /// True if it is about a saponification value that stands out.
    pub const fn is_of_a_value(&self) -> bool {
        matches!(self, Self::SvApart(..) | Self::SvConfirmed(..))
    }

    /// Its name in files. It never changes.
    pub const fn key(&self) -> &'static str {
        match self {
            Self::MarginBelowNothing(_) => "margin-below-nothing",
            Self::PurityAssumed(_) => "purity-assumed",
            Self::NotMeasured(_) => "not-measured",
            Self::NotVerified(_) => "not-verified",
            Self::SvApart(..) => "value-apart",
            Self::SvConfirmed(..) => "value-confirmed",
            Self::AcidNotVerified(_) => "acid-not-verified",
            Self::WaterInFormula { .. } => "water-in-formula",
            Self::InPart(_) => "in-part",
            Self::NotAtAll(_) => "not-at-all",
            Self::NotCounted(_) => "not-counted",
            Self::AlkaliInFormula(_) => "alkali-in-formula",
            Self::NoDiscount => "no-discount",
        }
    }
}

/// Why there is no lye.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NoLye {
    /// Nothing is to be saponified.
    NoFats,
    /// The masses are not known yet.
    NoMasses(NoSheet),
    /// A field that cannot be used.
    Unread(LyeField),
    /// The discount is nothing or less and nobody has said that this is meant.
    Unacknowledged(Percent),
    /// Nothing usable is known about how this fat saponifies.
    SvUnknown(LineId),
    /// No triglyceride has such a saponification value.
    SvImpossible(LineId, Sv),
    /// An acid of which nothing tells how much alkali it takes up.
    AcidUnknown(LineId),
    /// No such solution exists near 20 °C.
    TooStrong {
        /// How strong it would be.
        concentration: Percent,
        /// The strongest that stays one.
        most: Percent,
    },
    /// None of the fats takes up alkali.
    NothingSaponifies,
    /// The batch is so small that a scale of these steps would show no alkali.
    TooSmall(Mass),
}

impl NoLye {
    /// The line it is about.
    pub const fn line(&self) -> Option<LineId> {
        match self {
            Self::SvUnknown(line) | Self::SvImpossible(line, _) | Self::AcidUnknown(line) => Some(*line),
            _ => None,
        }
    }

    /// Its name in files. It never changes.
    pub const fn key(&self) -> &'static str {
        match self {
            Self::NoFats => "no-fats",
            Self::NoMasses(_) => "no-masses",
            Self::Unread(_) => "unread",
            Self::Unacknowledged(_) => "unacknowledged",
            Self::SvUnknown(_) => "value-unknown",
            Self::SvImpossible(..) => "value-impossible",
            Self::AcidUnknown(_) => "acid-unknown",
            Self::TooStrong { .. } => "too-strong",
            Self::NothingSaponifies => "nothing-saponifies",
            Self::TooSmall(_) => "too-small",
        }
    }
}
