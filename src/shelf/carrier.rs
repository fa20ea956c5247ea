//! Which of the two solvents of a lotion an ingredient goes into, and which ingredients can carry a small dose.

use crate::facts::{Field, Solvent};
use crate::quantity::Percent;
use crate::shelf::Ingredient;

/// What the ingredient dissolves in well enough to be diluted: the first word of its solubility; fats need none, they
/// go into oil. What dissolves only a little ("water (limited)") gives nothing, since a premix of it would part.
pub fn dissolves_in(ingredient: &Ingredient) -> Option<Solvent> {
    let typed = ingredient.solubility();
    let by_maker = typed.is_some_and(|text| text.provenance.is_makers());
    if ingredient.links().fat.is_some() && !by_maker && !ingredient.is_typed_over(Field::Solubility) {
        return Some(Solvent::Oil);
    }
    typed.and_then(|text| first_solvent(text.value))
}

/// Words that say that little dissolves.
const LITTLE: [&str; 5] = ["poor", "limit", "slight", "sparing", "insolub"];

fn first_solvent(solubility: &str) -> Option<Solvent> {
    let first = solubility.split(['/', ',', ';']).next()?.to_ascii_lowercase();
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

/// The largest strength of a premix of it in that of the two liquids which it dissolves in, in percent by mass; nothing
/// where none can be made.
///
/// The columns `premix_percent` and `premix_basis` of the table: far below what stirs in clear at room temperature, mostly a
/// cautious choice of this program (`custom`). Gums and carbomers swell into lumps and thick gels, hyaluronate into a jelly
/// above a percent or so; waxes, butters, fatty alcohols and other solids that need heat, what boils off, lyes, powders that
/// settle, and what is not known to mix have none. Nor has what the maker says dissolves in something else.
pub fn premix_strength(ingredient: &Ingredient) -> Option<Percent> {
    ingredient.premix().filter(|_| !ingredient.is_typed_over(Field::Solubility))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::facts::IngredientId;
    use crate::quantity::Quantity;
    use crate::shelf::Shelf;

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

    #[test]
    fn premix_strength_is_none_where_none_can_be_made() {
        for id in [
            "xanthan-gum",
            "guar-gum",
            "carbomer",
            "hydroxyethylcellulose",
            "sclerotium-gum",
            "cetyl-alcohol",
            "beeswax",
            "shea",
            "coconut",
            "stearic-acid",
            "glyceryl-stearate",
            "kaolin",
            "zinc-oxide",
            "ethanol",
            "allantoin",
            "potassium-hydroxide",
            "phenoxyethanol",
            "castor",
            "lecithin-soy",
            "petrolatum",
        ] {
            assert_eq!(premix_strength(&of(id)), None, "{id}");
        }
        assert_eq!(premix_strength(&of("sodium-hyaluronate")), Some(Percent::millionths(1_000_000)));
        for entry in Shelf::default().iter() {
            let Some(strength) = premix_strength(&entry) else { continue };
            assert!(dissolves_in(&entry).is_some(), "{}: in what?", entry.id());
            assert!((1..=50).contains(&(strength.units() / 1_000_000)), "{}", entry.id());
            let melts =
                entry.solubility().is_some_and(|text| text.value.contains("melts") || text.value.contains("wax"));
            assert!(!melts && !entry.has_function("Colorant") && !entry.has_function("Absorbent"), "{}", entry.id());
        }
    }

    #[test]
    fn premix_strength_holds_only_for_what_the_table_says_it_dissolves_in() {
        let id = IngredientId::parse("tocopherol").unwrap();
        let mut shelf = Shelf::default();
        assert!(premix_strength(&shelf.entry(&id).unwrap()).is_some());
        shelf.set(&id, Field::Solubility, "water (a powder on starch)");
        assert_eq!(premix_strength(&shelf.entry(&id).unwrap()), None);
    }
}
