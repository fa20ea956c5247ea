//! What a maker asks of a swap.

use crate::facts::{Allergens, Cox, Hlb};
use crate::quantity::Percent;

/// Which oils may be offered.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Pool {
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
    pub pool: Pool,
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
}

/// One limit, to name it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Limit {
    /// [`Limits::pool`]: only what is in hand.
    InHand,
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
}

impl Limits {
    /// Those that are set.
    pub fn each(&self) -> Vec<Limit> {
        let mut all = Vec::new();
        if self.pool == Pool::InHand {
            all.push(Limit::InHand);
        }
        if !self.avoid.is_empty() {
            all.push(Limit::Avoid(self.avoid));
        }
        all.extend(self.most_oils.map(Limit::MostOils));
        all.extend(self.most_of_one.map(Limit::MostOfOne));
        all.extend(self.oxidizability.map(Limit::Oxidizability));
        all.extend(self.hlb_within.map(Limit::HlbWithin));
        all
    }

    /// The same without one of them.
    #[must_use]
    pub(super) fn without(&self, limit: Limit) -> Self {
        let mut rest = self.clone();
        match limit {
            Limit::InHand => rest.pool = Pool::Everything,
            Limit::Avoid(_) => rest.avoid = Allergens::NONE,
            Limit::MostOils(_) => rest.most_oils = None,
            Limit::MostOfOne(_) => rest.most_of_one = None,
            Limit::Oxidizability(_) => rest.oxidizability = None,
            Limit::HlbWithin(_) => rest.hlb_within = None,
        }
        rest
    }
}
