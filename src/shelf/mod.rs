//! The maker's shelf: the built-in table with the maker's own entries, overrides and lots over it, the readers of
//! suppliers' papers, and the search over all of it.
//!
//! What the maker typed is kept as typed ([`Shelf`]); everything else is computed from it and the tables when asked
//! ([`Ingredient`]). There is no clock, no storage and no stored format here: the desk keeps what [`Shelf::entries`] gives and
//! hands it back to [`Shelf::restore`].

mod capped;
mod carrier;
mod entries;
mod families;
mod fats;
mod field_groups;
mod ingredient;
mod join;
mod lots;
mod prices;
mod search;
mod supplier;
mod typed;

pub use capped::{HIGHEST_CAP, may_be_capped};
pub use carrier::{carries, dissolves_in, premix_strength};
pub use entries::{MOST_ENTRIES, MOST_LOTS, Shelf};
pub use families::{Family, Kept};
pub use fats::{Disagreement, Fat, SheetFinding, SvApart, SvFrom, sv_ends};
pub use field_groups::{FieldGroup, field_groups};
pub use ingredient::{Cell, Ingredient, Sourced};
pub use join::{Clash, ShelfChange};
pub use lots::{Counted, Lot, LotField};
pub use prices::{NoPrice, UnitPrice};
pub use search::{SearchHit, Wanted, search};
pub use supplier::{Certificate, Composition, Contained, read_certificate, read_composition};
pub use typed::check;
