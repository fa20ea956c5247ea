//! Words of the list of ingredients: by what it is narrowed, and how the fields of one are grouped.
#![allow(missing_docs, reason = "each constant is its own text")]

use crate::shelf::{Family, FieldGroup, Kept};

pub const NOTHING_IN_STOCK: &str =
    "Nothing is marked as in stock yet. Open an ingredient and write yes under In stock.";
pub const INGREDIENTS: &str = "Ingredients";
pub const WHICH_INGREDIENTS: &str = "Which ingredients";
pub const BY_FUNCTION: &str = "By function";
pub const DAGGER: &str = " \u{2020} means unverified.";

/// A part of the shelf.
pub const fn kept(kept: Kept) -> &'static str {
    match kept {
        Kept::InStock => "In stock",
        Kept::Own => "Yours",
        Kept::All => "All",
    }
}

/// What ingredients are for.
pub const fn family(family: Family) -> &'static str {
    match family {
        Family::Everything => "Everything",
        Family::Fats => "Oils and butters",
        Family::Emulsifiers => "Emulsifiers",
        Family::Preservatives => "Preservatives",
        Family::Humectants => "Humectants",
        Family::Thickeners => "Thickeners",
        Family::Surfactants => "Surfactants",
        Family::Scents => "Scents",
        Family::Acids => "Acids and bases",
    }
}

/// The heading of a group of fields.
pub const fn field_group(group: FieldGroup) -> &'static str {
    match group {
        FieldGroup::Stock => "In stock",
        FieldGroup::Identity => "What it is",
        FieldGroup::Bounds => "How much, how hot, at which pH",
        FieldGroup::Figures => "Figures",
        FieldGroup::Fat => "As a fat",
        FieldGroup::Remarks => "Remarks",
    }
}
