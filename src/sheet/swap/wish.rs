//! What is asked of a swap, as typed into its fields.

use super::{Limits, OilPool, Weighting};
use crate::facts::{Allergens, Cox, Hlb};
use crate::quantity::{Percent, Quantity, Typed};

/// The fields of a swap. An empty one is no limit.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct SwapWish {
    /// Nothing from nuts, doubtful ones too.
    pub nut_free: bool,
    /// Only what the maker has.
    pub in_hand: bool,
    /// At most so many oils; 0 is any number.
    pub most_oils: u8,
    /// At most this share for one.
    pub most_of_one: Typed<Percent>,
    /// Oxidation index at most.
    pub oxidizability: Typed<Cox>,
    /// Required HLB within.
    pub hlb_within: Typed<Hlb>,
    /// Which differences count twice.
    pub keeping: bool,
}

impl SwapWish {
    /// The limits; nothing while a field cannot be read.
    pub fn limits(&self) -> Option<Limits> {
        Some(Limits {
            pool: if self.in_hand { OilPool::InHand } else { OilPool::Everything },
            avoid: if self.nut_free { Allergens::NUTS } else { Allergens::NONE },
            most_oils: (self.most_oils > 0).then_some(self.most_oils),
            most_of_one: read(&self.most_of_one)?,
            oxidizability: read(&self.oxidizability)?,
            hlb_within: read(&self.hlb_within)?,
        })
    }

    /// The weighting.
    pub const fn weighting(&self) -> Weighting {
        if self.keeping { Weighting::Keeping } else { Weighting::Plain }
    }
}

/// Nothing inside where the field is empty, nothing at all where it cannot be read.
fn read<T: Quantity>(typed: &Typed<T>) -> Option<Option<T>> {
    if typed.is_empty() { Some(None) } else { typed.value().map(Some) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheet::SwapLimit;

    #[test]
    fn wish_empty_has_no_limit_and_unread_has_none_at_all() {
        assert_eq!(SwapWish::default().limits(), Some(Limits::default()));
        let wish = SwapWish { most_of_one: Typed::new("half"), ..SwapWish::default() };
        assert_eq!(wish.limits(), None);
    }

    #[test]
    fn wish_filled_in_sets_every_limit() {
        let wish = SwapWish {
            nut_free: true,
            in_hand: true,
            most_oils: 2,
            most_of_one: Typed::new("60"),
            oxidizability: Typed::new("2.5"),
            hlb_within: Typed::new("1"),
            keeping: true,
        };
        let limits = wish.limits().unwrap();
        assert_eq!(limits.each().len(), 6);
        assert!(limits.each().contains(&SwapLimit::MostOfOne(Percent::millionths(60_000_000))));
        assert_eq!(wish.weighting(), Weighting::Keeping);
    }
}
