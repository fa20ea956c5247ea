//! What a maker asks of a swap.

use crate::facts::{Allergens, Cox, Hlb, Iv};
use crate::quantity::{Money, Percent, Quantity};

/// Above this iodine value an oil dries to a film, as linseed and tung do. Common practice, no source: books draw the line between
/// 120 and 140.
pub fn drying() -> Iv {
    Iv::from_units(13_000)
}

/// Which oils may be offered.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum OilPool {
    /// All that the shelf knows.
    #[default]
    Everything,
    /// Those that the maker has.
    InHand,
}

/// Which differences count how much.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Weighting {
    /// Every acid alike.
    #[default]
    Plain,
    /// Linoleic and linolenic acid twice, for who minds keeping most.
    Keeping,
}

/// The limits of a swap. What is absent is no limit.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Limits {
    /// Which oils may be offered.
    pub pool: OilPool,
    /// Only fats of plants. One whose origin is not known is left out then.
    pub plants_only: bool,
    /// No drying oils: none with an iodine value above [`drying`].
    pub no_drying: bool,
    /// Allergens that no offered oil may carry. An oil whose allergens are not known is left out then.
    pub avoid: Allergens,
    /// At most so many oils, 1 to [`super::MOST_OILS`].
    pub most_oils: Option<u8>,
    /// At most this share of the mixture for any one of them.
    pub most_of_one: Option<Percent>,
    /// The mixture oxidises at most so readily.
    pub oxidizability: Option<Cox>,
    /// The mixture's required HLB differs from the old oil's by at most so much.
    pub hlb_within: Option<Hlb>,
    /// A kilogram of the mixture costs no more than one of the old oil. An oil without a price is left out then.
    pub no_dearer: bool,
    /// A kilogram of the mixture costs at most so much; likewise.
    pub cost: Option<Money>,
}

/// One limit, to name it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SwapLimit {
    /// [`Limits::pool`]: only what is in hand.
    InHand,
    /// [`Limits::plants_only`].
    PlantsOnly,
    /// [`Limits::no_drying`].
    NoDrying,
    /// [`Limits::avoid`].
    Avoid(Allergens),
    /// [`Limits::most_oils`].
    MostOils(u8),
    /// [`Limits::most_of_one`].
    MostOfOne(Percent),
    /// [`Limits::oxidizability`].
    Oxidizability(Cox),
    /// [`Limits::hlb_within`].
    HlbWithin(Hlb),
    /// [`Limits::no_dearer`].
    NoDearer,
    /// [`Limits::cost`].
    CostAtMost(Money),
}

impl Limits {
    /// Those that are set.
    pub fn each(&self) -> Vec<SwapLimit> {
        let mut all = Vec::new();
        if self.pool == OilPool::InHand {
            all.push(SwapLimit::InHand);
        }
        if self.plants_only {
            all.push(SwapLimit::PlantsOnly);
        }
        if self.no_drying {
            all.push(SwapLimit::NoDrying);
        }
        if !self.avoid.is_empty() {
            all.push(SwapLimit::Avoid(self.avoid));
        }
        all.extend(self.most_oils.map(SwapLimit::MostOils));
        all.extend(self.most_of_one.map(SwapLimit::MostOfOne));
        all.extend(self.oxidizability.map(SwapLimit::Oxidizability));
        all.extend(self.hlb_within.map(SwapLimit::HlbWithin));
        all.extend(self.no_dearer.then_some(SwapLimit::NoDearer));
        all.extend(self.cost.clone().map(SwapLimit::CostAtMost));
        all
    }

    /// The same without one of them.
    #[must_use]
    pub(super) fn without(&self, limit: &SwapLimit) -> Self {
        let mut rest = self.clone();
        match limit {
            SwapLimit::InHand => rest.pool = OilPool::Everything,
            SwapLimit::PlantsOnly => rest.plants_only = false,
            SwapLimit::NoDrying => rest.no_drying = false,
            SwapLimit::Avoid(_) => rest.avoid = Allergens::NONE,
            SwapLimit::MostOils(_) => rest.most_oils = None,
            SwapLimit::MostOfOne(_) => rest.most_of_one = None,
            SwapLimit::Oxidizability(_) => rest.oxidizability = None,
            SwapLimit::HlbWithin(_) => rest.hlb_within = None,
            SwapLimit::NoDearer => rest.no_dearer = false,
            SwapLimit::CostAtMost(_) => rest.cost = None,
        }
        rest
    }
}
