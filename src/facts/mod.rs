//! What is known about materials: the built-in table, the maker's own entries and overrides, and the search over both.
//!
//! Every value says where it comes from ([`Origin`]): the table, with its source and whether that was seen, or the
//! maker. Nothing here judges a formula; that is for `rules`. There is no clock, no storage and no stored format here:
//! the desk keeps what [`Shelf::entries`] gives and hands it back to [`Shelf::restore`].

mod alkali;
mod builtin;
mod carrier;
mod fat;
mod fat_allergens;
mod fat_values;
mod fats;
mod fatty_acid;
mod field;
mod fold;
mod hlb;
mod id;
mod ingredient;
mod months;
mod profile;
mod search;
mod shelf;
mod supplier_sheet;
mod table;

pub use alkali::{Alkali, AlkaliRow};
pub use carrier::{Solvent, carries, dissolves_in};
pub use fat::{Disagreement, Fat, TRIGLYCERIDE_SV};
pub use fat_allergens::Allergens;
pub(crate) use fat_values::nearest_tenth;

pub use fat_values::{Cox, Iv, MolarMass, Span, Sv};
pub use fats::{Doubts, Evidence, FatClass, FatKind, FatRow, Status, fat_row, fats};
pub use fatty_acid::{Acid, Kinship};
pub use field::{Field, Shape, UsualPhase, check};
pub use fold::fold;
pub use hlb::Hlb;
pub use id::{IdProblem, IngredientId};
pub use ingredient::{Cell, Ingredient, Links, Origin, PhWindow, Sourced, UseRange};
pub use months::Months;
pub use profile::{Outlook, Profile, Rest};
pub use search::{Hit, Matched, search};
pub use shelf::Shelf;
pub use supplier_sheet::SheetFinding;
pub use table::{Row, RowProblem, Table, Wrong};
