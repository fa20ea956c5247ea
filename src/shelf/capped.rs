//! Which ingredients a rule may cap, so that no batch is weighed above a cap.
//!
//! What law and advice cap stands in tables that the masses do without. The column `capped` of `data/ingredients.csv` says
//! yes where any of them names the ingredient, or a substance in it; a test holds it to those tables. What the maker
//! entered may be anything that they name.

use crate::facts::Field;
use crate::quantity::Percent;
use crate::shelf::Ingredient;

/// No cap that the tables know is higher, by the line of a pure substance; a test sees to it. More of one is not capped, or
/// far over its cap whichever way it is rounded.
pub const HIGHEST_CAP: Percent = Percent::millionths(20_000_000);

/// Whether a line of an ingredient may be capped by a rule, other than by the most that the shelf gives for it.
pub fn may_be_capped(ingredient: &Ingredient, share: Percent) -> bool {
    let typed = |field| ingredient.text(field).is_some();
    // What it holds may be capped at any share of it.
    let mixture = ingredient.inci().is_some_and(|inci| inci.value.contains(';')) || typed(Field::Components);
    let stated = typed(Field::AllergenStatement) || typed(Field::Certificate) || !ingredient.lots().is_empty();
    let changed = [Field::Inci, Field::Functions, Field::Components].map(|field| ingredient.is_typed_over(field));
    let named = ingredient.is_in_capped_tables() || ingredient.is_own() || changed.contains(&true);
    stated || (named && (mixture || share <= HIGHEST_CAP))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::facts::IngredientId;
    use crate::shelf::Shelf;

    fn capped(shelf: &Shelf, id: &str, share: i64) -> bool {
        may_be_capped(&shelf.entry(&IngredientId::parse(id).unwrap()).unwrap(), Percent::millionths(share * 1_000_000))
    }

    #[test]
    fn capped_is_what_the_tables_name_and_what_the_maker_entered() {
        let mut shelf = Shelf::default();
        assert!(capped(&shelf, "phenoxyethanol", 1) && capped(&shelf, "lactic-acid", 10));
        assert!(!capped(&shelf, "water", 1) && !capped(&shelf, "xanthan-gum", 1) && !capped(&shelf, "glycerin", 1));
        let own = shelf.add_own("Spring water");
        assert!(capped(&shelf, own.as_str(), 5), "it may be anything");
        assert!(!capped(&shelf, own.as_str(), 70), "so much of it is no capped substance");
        shelf.set(&own, Field::Components, "water 99; salicylic acid 1");
        assert!(capped(&shelf, own.as_str(), 70), "it may hold one");
        let glycerin = IngredientId::parse("glycerin").unwrap();
        shelf.set(&glycerin, Field::Max, "7");
        assert!(!capped(&shelf, "glycerin", 5), "a most is kept by itself");
        shelf.set(&glycerin, Field::Inci, "Salicylic Acid");
        assert!(capped(&shelf, "glycerin", 5));
    }
}
