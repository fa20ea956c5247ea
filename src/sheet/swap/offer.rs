//! What a swap answers: offers, what is left out, and why there may be no answer.

use super::SwapLimit;
use crate::facts::{Allergens, FatClass, FatKind, Hlb, IngredientId, Iv};
use crate::quantity::Percent;
use crate::sheet::fats::{Figures, Values};
use crate::shelf::NoPrice;

/// Why an oil cannot be swapped by its acids.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoSwap {
    /// It is not known as a fat.
    NotAFat,
    /// It is no triglyceride.
    NotTriglyceride(FatKind),
    /// Its acids are not known.
    NoAcids,
    /// So much of its acids is not known that the others tell little.
    AcidsUnknown(Percent),
    /// The required HLB is to be kept, but that of the old oil is not known.
    HlbUnknown,
    /// It is to cost no more than the old oil, but what that costs is not known.
    PriceUnknown(NoPrice),
}

/// Why an oil is not offered.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WhyLeftOut {
    /// It carries allergens that are to be avoided.
    Carries(Allergens),
    /// It is not known what it carries.
    AllergensUnknown,
    /// It is of animals.
    OfAnimals,
    /// It is not known whether it is of plants.
    OriginUnknown,
    /// It dries: its iodine value is so much.
    Drying(Iv),
    /// So much of its acids is not known that the others tell little.
    AcidsUnknown(Percent),
    /// The oxidation index does not fit its acids, and a limit is set on it.
    OxidationUnknown,
    /// Its required HLB is not known, and a limit is set on it.
    HlbUnknown,
    /// Its price is not known, and a limit is set on the cost.
    NoPrice(NoPrice),
    /// Its price is in another currency than the limit.
    OtherCurrency,
}

/// An oil that is not offered.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LeftOut {
    /// Which.
    pub id: IngredientId,
    /// Why.
    pub why: WhyLeftOut,
}

/// Something that the acids do not tell and that a source supports.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Hint {
    /// This part is solid where the old oil is liquid, or the other way round.
    Firmness(IngredientId, FatClass),
    /// About eight times as thick as seed oils (castor).
    Thick(IngredientId),
    /// Clearly thinner than seed oils (medium-chain triglycerides).
    Thin(IngredientId),
    /// The old oil is about eight times as thick as these.
    OldWasThick,
    /// The oxidation index says little about this part.
    OxidationDoubtful(IngredientId),
    /// It is not known which allergens this part carries.
    AllergensUnknown(IngredientId),
}

impl Offer {
    /// Whether it comes near enough to be called a match.
    pub fn is_match(&self) -> bool {
        self.misplaced <= REAL_MATCH
    }
}

impl Hint {
    /// The part that it is about; nothing if it is about the old oil.
    pub const fn about(&self) -> Option<&IngredientId> {
        match self {
            Self::Firmness(id, _)
            | Self::Thick(id)
            | Self::Thin(id)
            | Self::OxidationDoubtful(id)
            | Self::AllergensUnknown(id) => Some(id),
            Self::OldWasThick => None,
        }
    }
}

/// Points of a hundred of the acids beyond which nothing is a real match. A choice of this program: about the spread of one oil from
/// harvest to harvest.
pub const REAL_MATCH: Percent = Percent::millionths(12_000_000);

/// One way to do it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Offer {
    /// What takes the old oil's place, the most first; the shares are of its place and sum to 100 %.
    pub parts: Vec<(IngredientId, Percent)>,
    /// How much of the acids is another, in points.
    pub misplaced: Percent,
    /// What it comes to.
    pub figures: Figures,
    /// Its measured values.
    pub values: Option<Values>,
    /// Its required HLB, if that of every part is known.
    pub required_hlb: Option<Hlb>,
    /// Allergens that the old oil did not carry.
    pub gained: Allergens,
    /// Allergens that only the old oil carries.
    pub lost: Allergens,
    /// What else there is to know.
    pub hints: Vec<Hint>,
    /// Limits that it breaks; only singles are shown in spite of one.
    pub breaks: Vec<SwapLimit>,
}

/// One oil alone, as it stands in the list; [`super::offer_of`] tells the rest.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Single {
    /// Which.
    pub id: IngredientId,
    /// How much of the acids is another, in points.
    pub misplaced: Percent,
    /// Limits that it breaks.
    pub breaks: Vec<SwapLimit>,
}

/// What there is to choose from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SwapAnswer {
    /// What the old oil is.
    pub before: Figures,
    /// Its measured values.
    pub before_values: Option<Values>,
    /// Its required HLB.
    pub before_hlb: Option<Hlb>,
    /// Every oil alone: those within the limits first, the nearest first.
    pub singles: Vec<Single>,
    /// The nearest mixture; else the limits that clash, none of which could be left out of the clash. No limit named
    /// means that there is nothing to choose from at all.
    pub blend: Result<Offer, Vec<SwapLimit>>,
    /// Oils that are not offered because of what is not known or not wanted of them.
    pub left_out: Vec<LeftOut>,
}
