//! The conditions of an entry as far as a program can read them.

use super::{AnnexEntry, Scope};
use crate::quantity::Day;
use crate::quantity::Percent;

/// A condition of an entry, and the words of the law that say it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Condition {
    /// For which sub-entries it holds.
    pub letters: Letters,
    /// What it says.
    pub what: What,
    /// The law's own words for it.
    pub words: String,
}

/// What a condition says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum What {
    /// The substance is prohibited in those products.
    Prohibited(Scope),
    /// At most so much of it in the ready for use preparation.
    Maximum(Maximum),
    /// Not in those products.
    NotFor(Scope),
    /// Its presence is indicated in the list of ingredients above those shares.
    Declare {
        /// In products that stay on.
        leave_on: Percent,
        /// In products that are rinsed off.
        rinse_off: Percent,
        /// Under that name, where the entry gives one.
        name: Option<String>,
    },
    /// Words for the label or the directions for use.
    Label {
        /// When they have to be there.
        when: WordingWhen,
    },
    /// What has to be confirmed by other means than a formula.
    Confirm(Untold),
    /// Days from which products that do not comply are not placed on the market, and not made available there.
    From {
        /// Not placed on the market from that day on.
        placed: Option<Day>,
        /// Not made available on the market from that day on.
        available: Option<Day>,
    },
    /// Words that set no condition: a reference to another entry, what a limit refers to.
    Note,
    /// Words that no program has understood. They may say anything.
    Unread,
}

/// A maximum concentration.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Maximum {
    /// Up to that it is allowed however the words are taken …
    pub least: Percent,
    /// … and beyond that it is not. The same as `least` unless the law gives several figures by what a formula does not say,
    /// such as general and professional use.
    pub most: Percent,
    /// As what it is reckoned, such as `acid` or `free SO2`; none for the substance as it is.
    pub reckoned_as: Option<String>,
    /// In those products, where the figure itself names them.
    pub only: Option<Scope>,
    /// It holds for the mixture that is applied, which is weaker than what is packed.
    pub after_mixing: bool,
}

/// When words have to be on the label.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum WordingWhen {
    /// Always, where the entry applies.
    Always,
    /// Above that share.
    Above(Percent),
    /// In those products.
    In(Box<Scope>),
    /// On a condition that the words themselves say.
    AsSaid,
}

/// What a formula does not tell.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Untold {
    /// Purity, impurities, particles, peroxides: the supplier's papers say.
    Material,
    /// What it is in the product for, and that the presentation says so.
    Purpose,
    /// General or professional use.
    Users,
    /// Several substances together, or several uses of one.
    Together,
    /// The pH of the product.
    Ph,
    /// What may not be in the same product.
    Company,
}

/// Sub-entries by their letters, `(a)` to `(z)`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Letters(u32);

impl Letters {
    /// The whole entry.
    pub const ALL: Self = Self(u32::MAX);
    /// No sub-entry.
    pub const NONE: Self = Self(0);

    /// With that letter, if it is one.
    #[must_use]
    pub fn with(self, letter: char) -> Self {
        if letter.is_ascii_lowercase() { Self(self.0 | 1 << (letter as u32 - 'a' as u32)) } else { self }
    }

    /// Whether the letter is among them.
    pub fn has(self, letter: char) -> bool {
        letter.is_ascii_lowercase() && self.0 & 1 << (letter as u32 - 'a' as u32) != 0
    }

    /// Whether they share one.
    pub fn meet(self, other: Self) -> bool {
        self.0 & other.0 != 0
    }

    /// Those letters, in order.
    pub fn iter(self) -> impl Iterator<Item = char> {
        ('a'..='z').filter(move |letter| self.has(*letter))
    }
}

/// A product type that an entry allows, with its sub-entry.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UseOf {
    /// Its letter; none where the entry has one list of product types for all.
    pub letter: Option<char>,
    /// What it covers; none if the words are not understood.
    pub scope: Option<Scope>,
    /// The law's own words.
    pub words: String,
}

/// An entry with what a program has read of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct EntryReading<'a> {
    /// The entry.
    pub entry: &'a AnnexEntry,
    /// The product types that it allows; none listed means all products.
    pub uses: Vec<UseOf>,
    /// Its conditions, each with its words.
    pub conditions: Vec<Condition>,
}

/// How much of an entry a program has read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Extent {
    /// Every condition and every product type.
    Whole,
    /// Some of them.
    Part,
    /// None.
    None,
}

impl EntryReading<'_> {
    /// How much of the entry has been read.
    pub fn extent(&self) -> Extent {
        let unread_use = |of: &&UseOf| of.scope.is_none();
        let unread = self.conditions.iter().filter(|condition| condition.what == What::Unread).count()
            + self.uses.iter().filter(unread_use).count();
        match (unread, self.conditions.len() + self.uses.len()) {
            (0, _) => Extent::Whole,
            (unread, all) if unread < all => Extent::Part,
            _ => Extent::None,
        }
    }
}
