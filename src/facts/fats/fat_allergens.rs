//! The food allergens that a fat may carry.

use crate::facts::fats;

/// A set of allergens.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Allergens(u16);

impl Allergens {
    /// None of them.
    pub const NONE: Self = Self(0);
    /// Tree nuts: almond, brazil nut, hazelnut, macadamia, pistachio, walnut.
    pub const TREE_NUT: Self = Self(1);
    /// Peanut.
    pub const PEANUT: Self = Self(1 << 1);
    /// A nut by name, by some lists, or by traces: argan, apricot kernel, kukui, shea.
    pub const NUT_IN_DOUBT: Self = Self(1 << 2);
    /// Sesame.
    pub const SESAME: Self = Self(1 << 3);
    /// Soya.
    pub const SOYA: Self = Self(1 << 4);
    /// Wheat.
    pub const WHEAT: Self = Self(1 << 5);
    /// Mustard.
    pub const MUSTARD: Self = Self(1 << 6);
    /// Milk.
    pub const MILK: Self = Self(1 << 7);
    /// Wool wax, a contact allergen.
    pub const WOOL: Self = Self(1 << 8);
    /// What a nut-free product leaves out, doubtful ones too.
    pub const NUTS: Self = Self(Self::TREE_NUT.0 | Self::PEANUT.0 | Self::NUT_IN_DOUBT.0);

    /// Each one with its key in files.
    pub const EACH: [(Self, &'static str); 9] = [
        (Self::TREE_NUT, "tree-nut"),
        (Self::PEANUT, "peanut"),
        (Self::NUT_IN_DOUBT, "nut-in-doubt"),
        (Self::SESAME, "sesame"),
        (Self::SOYA, "soya"),
        (Self::WHEAT, "wheat"),
        (Self::MUSTARD, "mustard"),
        (Self::MILK, "milk"),
        (Self::WOOL, "wool"),
    ];

    /// Both sets together.
    #[must_use]
    pub const fn with(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// What is in this set and not in the other.
    #[must_use]
    pub const fn without(self, other: Self) -> Self {
        Self(self.0 & !other.0)
    }

    /// True if they have one in common.
    pub const fn meets(self, other: Self) -> bool {
        self.0 & other.0 != 0
    }

    /// True if there is none.
    pub const fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// The keys of those in the set.
    pub fn keys(self) -> impl Iterator<Item = &'static str> {
        Self::EACH.into_iter().filter(move |(one, _)| self.meets(*one)).map(|(_, key)| key)
    }

    /// The one of a key.
    pub fn from_key(key: &str) -> Option<Self> {
        Self::EACH.into_iter().find(|(_, own)| *own == key).map(|(one, _)| one)
    }

    /// What the maker's words on where a fat comes from say; nothing if one of them is not known here. That it carries
    /// none is said by the word "none" only.
    pub(crate) fn in_words(text: &str) -> Option<Self> {
        let text = text.to_lowercase().replace(" and ", ",").replace(" or ", ",");
        let parts = text.split([',', ';', '/', '+', '&', '(', ')', '\n']).map(|part| part.trim_matches([' ', '.']));
        let carried = |part: &str| {
            let found = WORDS.into_iter().filter(|(word, _)| part.contains(word));
            let found = found.fold(Self::NONE, |sum, (_, one)| sum.with(one));
            if part == "none" || !found.is_empty() { Some(found) } else { Self::of_named(part) }
        };
        let parts: Option<Vec<Self>> = parts.filter(|part| !part.is_empty()).map(carried).collect();
        parts.filter(|parts| !parts.is_empty()).map(|parts| parts.into_iter().fold(Self::NONE, Self::with))
    }
}

impl Allergens {
    /// What the fats of the table carry that begin with such words: `olive`, `sunflower seed oil`.
    fn of_named(part: &str) -> Option<Self> {
        let mut name = part;
        while let Some(shorter) = [" oil", " butter", " seed", " kernel"].iter().find_map(|end| name.strip_suffix(end))
        {
            name = shorter;
        }
        let begins = |id: &str| {
            id.strip_prefix(&*name.replace(' ', "-")).is_some_and(|rest| rest.is_empty() || rest.starts_with('-'))
        };
        fats().iter().filter(|row| begins(row.id)).map(|row| row.allergens).reduce(Self::with)
    }
}

/// Parts of words, in small letters. "nut" alone covers every nut, and coconut and nutmeg too: doubtful rather than
/// free.
const WORDS: [(&str, Allergens); 21] = [
    ("peanut", Allergens::PEANUT),
    ("arachis", Allergens::PEANUT),
    ("groundnut", Allergens::PEANUT),
    ("nut", Allergens::NUT_IN_DOUBT),
    ("tree nut", Allergens::TREE_NUT),
    ("almond", Allergens::TREE_NUT),
    ("hazel", Allergens::TREE_NUT),
    ("filbert", Allergens::TREE_NUT),
    ("walnut", Allergens::TREE_NUT),
    ("cashew", Allergens::TREE_NUT),
    ("pecan", Allergens::TREE_NUT),
    ("pistachio", Allergens::TREE_NUT),
    ("macadamia", Allergens::TREE_NUT),
    ("brazil", Allergens::TREE_NUT),
    ("sesame", Allergens::SESAME),
    ("soy", Allergens::SOYA),
    ("wheat", Allergens::WHEAT),
    ("mustard", Allergens::MUSTARD),
    ("milk", Allergens::MILK),
    ("wool", Allergens::WOOL),
    ("lanolin", Allergens::WOOL),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn allergens_are_found_in_words() {
        let keys = |text| Allergens::in_words(text).map(|found| found.keys().collect::<Vec<_>>());
        assert_eq!(keys("Tree nut (almond)"), Some(vec!["tree-nut", "nut-in-doubt"]));
        assert_eq!(keys("Wheat germ, soybean"), Some(vec!["soya", "wheat"]));
        assert_eq!(keys("Sesame and filbert"), Some(vec!["tree-nut", "sesame"]));
        assert_eq!(keys("None."), Some(vec![]));
        assert_eq!(keys("Olive oil or sunflower"), Some(vec![]));
        assert_eq!(keys("Argan"), Some(vec!["nut-in-doubt"]));
        for unknown in ["oil", "o", "Mandel", "ask supplier", "none known", "soy, Mandel", "()", "", "no"] {
            assert_eq!(keys(unknown), None, "{unknown}");
        }
    }

    #[test]
    fn allergens_keys_lead_back() {
        for (one, key) in Allergens::EACH {
            assert_eq!(Allergens::from_key(key), Some(one));
        }
    }
}
