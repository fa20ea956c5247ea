//! The built-in table of materials: its rows, what their columns hold, and the names by which a row is found.

mod builtin;
mod by_inci;
mod field;
mod field_check;
mod functions;
mod links;
mod search_keys;
mod solvent;
mod sources;

pub(crate) use builtin::{Material, MaterialNames, material, material_names, materials};
pub use by_inci::preservative_named;
pub(crate) use by_inci::{acid_named, inci_names, is_material, is_material_inci};
pub(crate) use field::choice;
pub use field::{Field, FieldKind, UsualPhase};
pub use field_check::FieldProblem;
pub(crate) use field_check::{check_single, readable, words_count};
pub(crate) use functions::{is_function, named_functions};
pub use links::Links;
pub(crate) use search_keys::SearchKeys;
pub use search_keys::{Matched, beginning};
pub use solvent::Solvent;
pub(crate) use sources::source_of;
