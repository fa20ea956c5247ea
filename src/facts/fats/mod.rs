//! Fats and fatty acids: the table of fats, the names of the acids, and what follows from a fat's acids.

mod acid_told;
mod acid_values;
mod acid_words;
mod evidence;
mod fat_allergens;
mod fat_kind;
mod fat_row;
mod fat_values;
mod fatty_acid;
mod profile;

pub use acid_values::{AcidValue, acid_value};
pub(crate) use acid_words::{Form, NamedAcid, Word, read_word};
pub use evidence::Evidence;
pub use fat_allergens::Allergens;
pub use fat_kind::{FatClass, FatKind};
pub use fat_row::{Doubts, FatRow, fat_row, fats};
pub use fat_values::{Cox, Iv, MolarMass, SV_SPREAD, Span, Sv, TRIGLYCERIDE_SV};
pub(crate) use fat_values::{around, nearest_tenth};
pub use fatty_acid::{FattyAcid, Kinship};
pub(crate) use profile::UNKNOWN;
pub use profile::{OtherAcids, OxidationOutlook, Profile};
