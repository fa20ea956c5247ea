//! What the shelf is sorted by when somebody looks for an ingredient: what it is for, and whether it is there.

use super::Ingredient;
use crate::quantity::keyed;

keyed! {
    /// What an ingredient is for, as a maker sorts a shelf.
    #[derive(Default)]
    Family {
        /// All of them.
        #[default]
        Everything = "everything",
        /// Oils, butters and waxes.
        Fats = "fats",
        /// What holds oil and water together.
        Emulsifiers = "emulsifiers",
        /// What keeps microbes from growing.
        Preservatives = "preservatives",
        /// What holds water.
        Humectants = "humectants",
        /// What thickens.
        Thickeners = "thickeners",
        /// What cleans.
        Surfactants = "surfactants",
        /// What is there for its scent.
        Scents = "scents",
        /// What sets the pH.
        Acids = "acids",
    }
}

impl Family {
    /// Whether an ingredient belongs to it, by its functions in the terms of CosIng.
    pub fn holds(self, ingredient: &Ingredient) -> bool {
        let any = |functions: &[&str]| functions.iter().any(|function| ingredient.has_function(function));
        match self {
            Self::Everything => true,
            Self::Fats => ingredient.is_fat(),
            Self::Emulsifiers => any(&["Emulsifying", "Surfactant - emulsifying", "Emulsion stabilising"]),
            Self::Preservatives => any(&["Preservative", "Antimicrobial"]),
            Self::Humectants => any(&["Humectant", "Skin conditioning - humectant"]),
            Self::Thickeners => any(&["Viscosity controlling", "Gel forming", "Binding"]),
            Self::Surfactants => any(&["Surfactant - cleansing", "Cleansing", "Foaming", "Surfactant - foam boosting"]),
            Self::Scents => any(&["Perfuming", "Fragrance", "Masking"]),
            Self::Acids => any(&["Buffering"]),
        }
    }
}

keyed! {
    /// Which part of the shelf is looked at.
    #[derive(Default)]
    Kept {
        /// What the maker has.
        #[default]
        InStock = "in-stock",
        /// What the maker has added.
        Own = "own",
        /// All that is known.
        All = "all",
    }
}

impl Kept {
    /// Whether an ingredient belongs to it.
    pub fn holds(self, ingredient: &Ingredient) -> bool {
        match self {
            Self::InStock => ingredient.in_hand(),
            Self::Own => ingredient.is_own(),
            Self::All => true,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::facts::{Field, IngredientId};
    use crate::shelf::Shelf;

    fn of(shelf: &Shelf, id: &str) -> Ingredient {
        shelf.entry(&IngredientId::parse(id).unwrap()).unwrap()
    }

    #[test]
    fn families_hold_what_a_maker_looks_for_there() {
        let shelf = Shelf::default();
        for (id, family) in [
            ("shea", Family::Fats),
            ("glycerin", Family::Humectants),
            ("xanthan-gum", Family::Thickeners),
            ("phenoxyethanol", Family::Preservatives),
            ("lactic-acid", Family::Acids),
            ("parfum", Family::Scents),
        ] {
            assert!(family.holds(&of(&shelf, id)), "{id} is in {}", family.key());
            assert!(Family::Everything.holds(&of(&shelf, id)));
        }
        assert!(!Family::Fats.holds(&of(&shelf, "glycerin")));
        for family in Family::ALL {
            let held =
                shelf.ids().iter().filter(|id| shelf.entry(id).is_some_and(|entry| family.holds(&entry))).count();
            assert!(held > 2, "{} holds {held}", family.key());
        }
    }

    #[test]
    fn families_know_what_is_in_stock_and_own() {
        let mut shelf = Shelf::default();
        let own = shelf.add_own("Hayfield fragrance");
        let shea = IngredientId::parse("shea").unwrap();
        let held = |shelf: &Shelf, kept: Kept, id: &IngredientId| kept.holds(&shelf.entry(id).unwrap());
        assert!(held(&shelf, Kept::Own, &own) && held(&shelf, Kept::InStock, &own), "who adds it has it");
        assert!(!held(&shelf, Kept::InStock, &shea) && held(&shelf, Kept::All, &shea));
        shelf.set(&shea, Field::InHand, "yes");
        assert!(held(&shelf, Kept::InStock, &shea) && !held(&shelf, Kept::Own, &shea));
    }
}
