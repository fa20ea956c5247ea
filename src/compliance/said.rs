//! What one condition of an entry comes to for a product whose shares are ranges.

use crate::law::{Judgement, Letters, Ruling};
use crate::quantity::{Day, Percent};

/// What a condition comes to, the gravest last.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum LawOutcome {
    /// Kept, at the upper end of the shares too.
    Within,
    /// It has to be named in the list of ingredients, at the upper end at least.
    Indicate,
    /// Its words have to be printed, at the upper end at least.
    Print,
    /// It cannot be told by program: the words have to be read.
    Unknown,
    /// Above the maximum at the upper end, not at the lower one.
    MayBeAbove,
    /// Above the maximum.
    Above,
    /// Prohibited in this product, or not among those that the entry allows.
    Prohibited,
}

/// One condition of an entry that bears on a product.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Said {
    /// What it comes to.
    pub outcome: LawOutcome,
    /// The share beyond which something follows, in the terms of the entry.
    pub limit: Option<Percent>,
    /// The sub-entries that say so.
    pub letters: Letters,
    /// The law's own words.
    pub words: &'static str,
    /// The day from which products have to comply to be placed on the market, where one is given.
    pub placed_from: Option<Day>,
    /// The day from which they have to comply to be made available there, where one is given.
    pub available_from: Option<Day>,
}

impl Said {
    /// What a condition comes to at both ends; nothing where it asks nothing of this product.
    pub(super) fn of(high: &Judgement<'static>, low: Option<Ruling>) -> Option<Self> {
        Some(Self {
            outcome: outcome(high.ruling, low)?,
            limit: high.limit,
            letters: high.letters,
            words: high.words,
            placed_from: high.placed_from,
            available_from: high.available_from,
        })
    }
}

const fn outcome(high: Ruling, low: Option<Ruling>) -> Option<LawOutcome> {
    Some(match high {
        Ruling::Prohibited | Ruling::NotAmong => LawOutcome::Prohibited,
        Ruling::Over if matches!(low, Some(Ruling::Over)) => LawOutcome::Above,
        Ruling::Over => LawOutcome::MayBeAbove,
        Ruling::At | Ruling::Under => LawOutcome::Within,
        Ruling::Indicate => LawOutcome::Indicate,
        Ruling::Print => LawOutcome::Print,
        Ruling::Open => LawOutcome::Unknown,
        Ruling::Nothing => return None,
    })
}
