//! What is asked of a swap, as typed into its fields.

use super::{Limits, OilPool, Weighting};
use crate::facts::{Allergens, Cox, Hlb};
use crate::quantity::{Money, Percent, Quantity, Typed};

/// The fields of a swap. An empty one is no limit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SwapWish {
    /// What no oil may carry.
    pub avoid: Allergens,
    /// Only what the maker has.
    pub in_hand: bool,
    /// Only fats of plants.
    pub plants_only: bool,
    /// No drying oils.
    pub no_drying: bool,
    /// At most so many oils; 0 is any number.
    pub most_oils: u8,
    /// At most this share for one.
    pub most_of_one: Typed<Percent>,
    /// Oxidation index at most.
    pub oxidizability: Typed<Cox>,
    /// Required HLB within.
    pub hlb_within: Typed<Hlb>,
    /// No dearer than the old oil.
    pub no_dearer: bool,
    /// A kilogram costs at most so much: a [`Money`], as typed.
    pub cost: String,
    /// Which differences count twice.
    pub keeping: bool,
}

/// How many oils a maker weighs willingly in the place of one. A choice of this program.
const USUAL_OILS: u8 = 3;

impl Default for SwapWish {
    fn default() -> Self {
        Self {
            avoid: Allergens::NONE,
            in_hand: false,
            plants_only: false,
            no_drying: false,
            most_oils: USUAL_OILS,
            most_of_one: Typed::default(),
            oxidizability: Typed::default(),
            hlb_within: Typed::default(),
            no_dearer: false,
            cost: String::new(),
            keeping: false,
        }
    }
}

impl SwapWish {
    /// The limits; nothing while a field cannot be read.
    pub fn limits(&self) -> Option<Limits> {
        Some(Limits {
            pool: if self.in_hand { OilPool::InHand } else { OilPool::Everything },
            plants_only: self.plants_only,
            no_drying: self.no_drying,
            avoid: self.avoid,
            most_oils: (self.most_oils > 0).then_some(self.most_oils),
            most_of_one: read(&self.most_of_one)?,
            oxidizability: read(&self.oxidizability)?,
            hlb_within: read(&self.hlb_within)?,
            no_dearer: self.no_dearer,
            cost: Money::read(&self.cost).ok()?,
        })
    }

    /// The weighting.
    pub const fn weighting(&self) -> Weighting {
        if self.keeping { Weighting::Keeping } else { Weighting::Plain }
    }

    /// Whether any of a set of allergens is to be avoided.
    pub const fn avoids(&self, allergens: Allergens) -> bool {
        self.avoid.meets(allergens)
    }

    /// Avoids a set of allergens, or no longer.
    pub const fn set_avoids(&mut self, allergens: Allergens, avoids: bool) {
        self.avoid = if avoids { self.avoid.with(allergens) } else { self.avoid.without(allergens) };
    }

    /// As it is kept on a device: words apart by spaces. A field that cannot be read is not kept.
    pub fn kept(&self) -> String {
        let mut words: Vec<String> = self.avoid.keys().map(|key| format!("{AVOID}{key}")).collect();
        let flags = [self.in_hand, self.plants_only, self.no_drying, self.keeping, self.no_dearer];
        words.extend(FLAGS.iter().zip(flags).filter(|(_, set)| *set).map(|(word, _)| (*word).to_owned()));
        words.push(format!("{MOST}{}", self.most_oils));
        let figures = [
            self.most_of_one.value().map(Quantity::canonical),
            self.oxidizability.value().map(Quantity::canonical),
            self.hlb_within.value().map(Quantity::canonical),
        ];
        words.extend(FIGURES.iter().zip(figures).filter_map(|(word, figure)| Some(format!("{word}{}", figure?))));
        if Money::read(&self.cost).is_ok_and(|cost| cost.is_some()) {
            words.push(format!("{COST}{}", self.cost.trim().replace(char::is_whitespace, BLANK)));
        }
        words.join(" ")
    }

    /// What was kept; what cannot be read of it is as in a new one.
    pub fn read(kept: &str) -> Self {
        let mut wish = Self::default();
        for word in kept.split_whitespace() {
            if let Some(key) = word.strip_prefix(AVOID) {
                wish.avoid = wish.avoid.with(Allergens::from_key(key).unwrap_or(Allergens::NONE));
            } else if let Some(most) = word.strip_prefix(MOST) {
                wish.most_oils = most.parse().ok().filter(|most| *most <= USUAL_OILS).unwrap_or(USUAL_OILS);
            } else if let Some(cost) = word.strip_prefix(COST) {
                wish.cost = cost.replace(BLANK, " ");
            } else if let Some((place, text)) = figure(word) {
                match place {
                    0 => wish.most_of_one = Typed::new(text),
                    1 => wish.oxidizability = Typed::new(text),
                    _ => wish.hlb_within = Typed::new(text),
                }
            }
            let SwapWish { in_hand, plants_only, no_drying, keeping, no_dearer, .. } = &mut wish;
            let flags = [in_hand, plants_only, no_drying, keeping, no_dearer];
            for (known, flag) in FLAGS.iter().zip(flags) {
                *flag |= *known == word;
            }
        }
        if wish.limits().is_some() { wish } else { Self::default() }
    }
}

const AVOID: &str = "without-";
const MOST: &str = "most=";
const COST: &str = "cost=";
/// Stands for a blank within a word.
const BLANK: &str = "_";
const FLAGS: [&str; 5] = ["in-hand", "plants", "no-drying", "keeping", "no-dearer"];
const FIGURES: [&str; 3] = ["one=", "oxidation=", "hlb="];

/// Which figure a word holds, and its text.
fn figure(word: &str) -> Option<(usize, &str)> {
    FIGURES.iter().enumerate().find_map(|(place, start)| Some((place, word.strip_prefix(start)?)))
}

/// Nothing inside where the field is empty, nothing at all where it cannot be read.
fn read<T: Quantity>(typed: &Typed<T>) -> Option<Option<T>> {
    if typed.is_empty() { Some(None) } else { typed.value().map(Some) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheet::SwapLimit;

    fn filled_in() -> SwapWish {
        SwapWish {
            avoid: Allergens::NUTS.with(Allergens::SOYA),
            in_hand: true,
            plants_only: true,
            no_drying: true,
            most_oils: 2,
            most_of_one: Typed::new("60"),
            oxidizability: Typed::new("2.5"),
            hlb_within: Typed::new("1"),
            no_dearer: true,
            cost: "12.50 EUR".into(),
            keeping: true,
        }
    }

    #[test]
    fn wish_new_asks_for_three_oils_and_unread_for_nothing_at_all() {
        let three = Limits { most_oils: Some(3), ..Limits::default() };
        assert_eq!(SwapWish::default().limits(), Some(three));
        let wish = SwapWish { most_of_one: Typed::new("half"), ..SwapWish::default() };
        assert_eq!(wish.limits(), None);
        assert_eq!(SwapWish { cost: "cheap".into(), ..SwapWish::default() }.limits(), None);
    }

    #[test]
    fn wish_filled_in_sets_every_limit() {
        let limits = filled_in().limits().unwrap();
        assert_eq!(limits.each().len(), 10);
        assert!(limits.each().contains(&SwapLimit::MostOfOne(Percent::millionths(60_000_000))));
        assert_eq!(filled_in().weighting(), Weighting::Keeping);
    }

    #[test]
    fn wish_is_kept_and_read_again() {
        for wish in [filled_in(), SwapWish::default(), SwapWish { most_oils: 0, ..filled_in() }] {
            assert_eq!(SwapWish::read(&wish.kept()), wish);
        }
        for nonsense in ["", "most=900 one=half without-stones x", "most= = hlb=-"] {
            assert_eq!(SwapWish::read(nonsense), SwapWish::default(), "{nonsense}");
        }
        let mut wish = SwapWish::default();
        wish.set_avoids(Allergens::NUTS, true);
        assert!(wish.avoids(Allergens::PEANUT) && !wish.avoids(Allergens::SOYA));
        wish.set_avoids(Allergens::NUTS, false);
        assert_eq!(wish, SwapWish::default());
    }
}
