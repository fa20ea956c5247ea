//! Which of the two solvents of a lotion an ingredient goes into, and which ingredients can carry a small dose.

use super::{Field, Ingredient, Origin};

/// The two liquids that a premix can be made with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Solvent {
    /// Water and what mixes with it.
    Water,
    /// Liquid oil.
    Oil,
}

impl Solvent {
    /// The solvent of a key in the table's `carrier` column.
    pub(super) fn from_key(key: &str) -> Option<Self> {
        match key {
            "water" => Some(Self::Water),
            "oil" => Some(Self::Oil),
            _ => None,
        }
    }
}

/// What the ingredient dissolves in well enough to be diluted: the first word of its solubility; fats need none, they
/// go into oil. What dissolves only a little ("water (limited)") gives nothing, since a premix of it would part.
pub fn dissolves_in(ingredient: &Ingredient) -> Option<Solvent> {
    let typed = ingredient.solubility();
    let by_maker = typed.is_some_and(|text| text.origin == Origin::Maker);
    if ingredient.links().fat.is_some() && !by_maker && !ingredient.is_overridden(Field::Solubility) {
        return Some(Solvent::Oil);
    }
    typed.and_then(|text| first_solvent(text.value))
}

/// Words that say that little dissolves.
const LITTLE: [&str; 5] = ["poor", "limit", "slight", "sparing", "insolub"];

fn first_solvent(solubility: &str) -> Option<Solvent> {
    let first = solubility.split(['/', ',', ';']).next()?.to_lowercase();
    if LITTLE.iter().any(|word| first.contains(word)) {
        return None;
    }
    let word = first.split(|c: char| !c.is_alphabetic()).find(|word| !word.is_empty())?;
    Solvent::from_key(word)
}

/// Which small doses the ingredient can carry as a premix, as the table's `carrier` column says.
///
/// The column is common practice without a source: for water, water itself, glycerin, the plain glycols, hydrosols and
/// aloe juice; for oil, triglyceride oils that are liquid at room temperature, jojoba, squalane, liquid esters and
/// mineral oil. Preservatives, emulsifiers, acids, fragrances, silicones and anything solid or thick carry nothing, and
/// neither do the maker's own entries, of which that is not known.
pub fn carries(ingredient: &Ingredient) -> Option<Solvent> {
    ingredient.carrier()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::facts::{IngredientId, Shelf};

    fn of(id: &str) -> Ingredient {
        Shelf::default().entry(&IngredientId::parse(id).unwrap()).unwrap_or_else(|| panic!("{id}"))
    }

    #[test]
    fn dissolves_in_table_rows_follow_their_solubility() {
        for (id, expected) in [
            ("water", Some(Solvent::Water)),
            ("xanthan-gum", Some(Solvent::Water)),
            ("carbomer", Some(Solvent::Water)),
            ("allantoin", None),
            ("phenoxyethanol-ethylhexylglycerin", None),
            ("caprylyl-glycol", Some(Solvent::Oil)),
            ("lecithin-soy", Some(Solvent::Oil)),
            ("ethylhexylglycerin", None),
            ("kaolin", None),
            ("marula", Some(Solvent::Oil)),
            ("tocopherol", Some(Solvent::Oil)),
            ("phenoxyethanol", None),
        ] {
            assert_eq!(dissolves_in(&of(id)), expected, "{id}");
        }
    }

    #[test]
    fn dissolves_in_makers_text_is_read_by_its_first_word() {
        for (text, expected) in [
            ("Water soluble", Some(Solvent::Water)),
            ("water-soluble", Some(Solvent::Water)),
            ("OIL", Some(Solvent::Oil)),
            ("oil; not water", Some(Solvent::Oil)),
            ("water insoluble", None),
            ("not in water", None),
            ("", None),
            ("(?)", None),
        ] {
            assert_eq!(first_solvent(text), expected, "{text:?}");
        }
    }

    #[test]
    fn dissolves_in_override_beats_the_fat_link() {
        let id = IngredientId::parse("olive").unwrap();
        let mut shelf = Shelf::default();
        shelf.set(&id, Field::Solubility, "water (a sulfated grade)");
        assert_eq!(dissolves_in(&shelf.entry(&id).unwrap()), Some(Solvent::Water));
    }

    #[test]
    fn carries_only_liquids_that_do_nothing_else() {
        for (id, expected) in [
            ("water", Some(Solvent::Water)),
            ("glycerin", Some(Solvent::Water)),
            ("rose-hydrosol", Some(Solvent::Water)),
            ("mct", Some(Solvent::Oil)),
            ("jojoba", Some(Solvent::Oil)),
            ("isopropyl-myristate", Some(Solvent::Oil)),
            ("marula", Some(Solvent::Oil)),
            ("coconut", None),
            ("shea", None),
            ("beeswax", None),
            ("ethanol", None),
            ("lactic-acid", None),
            ("polysorbate-20", None),
            ("dimethicone-350", None),
            ("phenoxyethanol", None),
        ] {
            assert_eq!(carries(&of(id)), expected, "{id}");
        }
    }
}
