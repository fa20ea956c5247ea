//! What is known about materials: the built-in table, the maker's own entries and overrides, and the search over both.
//!
//! Every value says where it comes from ([`Origin`]): the table, with its source and whether that was seen, or the
//! maker. Nothing here judges a formula; that is for `rules`. There is no clock, no storage and no stored format here:
//! the desk keeps what [`Shelf::entries`] gives and hands it back to [`Shelf::restore`].

mod acid_shares;
mod acid_told;
mod acid_values;
mod acid_words;
mod acids;
mod alkali;
mod allergens;
mod basis;
mod builtin;
mod by_inci;
mod capped;
mod carrier;
mod cas;
mod cautions;
mod certificate;
mod classes;
mod composition;
mod criterion;
mod emulsifiers;
mod evidence;
mod fat;
mod fat_allergens;
mod fat_kind;
mod fat_values;
mod fats;
mod fatty_acid;
mod field;
mod field_check;
mod fold;
mod hazards;
mod hlb;
mod id;
mod ingredient;
mod join;
mod limits;
mod lots;
mod months;
mod net_content;
mod preservative_row;
mod preservatives;
mod profile;
mod saponification;
mod search;
mod shelf;
mod skin;
mod sources;
mod spelling;
mod substance_names;
mod supplier_sheet;
mod table;

pub use acid_values::{AcidValue, acid_value};
pub use acids::{Acid, Adjusts, DissociationStep, UNCOUNTED, acid, acids};
pub use alkali::{Alkali, AlkaliRow, strongest_lye};
pub use allergens::{Allergen, allergen, allergen_of_cas, allergen_of_key, allergens};
pub use basis::{Basis, Seen, source_text};
pub(crate) use builtin::{MaterialNames, material_names};
pub(crate) use by_inci::acid_named;
pub use by_inci::preservative_named;
pub use capped::{HIGHEST_CAP, may_be_capped};
pub use carrier::{Solvent, carries, dissolves_in, premix_strength};
pub use cautions::caution;
pub use certificate::{Certificate, read_certificate};
pub use classes::{ShareClass, SubstanceClass, in_class, share_in, us_name, us_name_basis};
pub use composition::{Composition, Contained, read_composition};
pub use criterion::{
    Criterion, CriterionKey, CriterionUnit, Kilodaltons, ListedCriterion, Millimetres, Ratio, criteria, criterion,
};
pub use emulsifiers::{Emulsifier, EmulsifierKind, EmulsifierShare, RatioOf, emulsifier};
pub use evidence::{Evidence, Status};
pub use fat::{Disagreement, Fat, SV_SPREAD, TRIGLYCERIDE_SV};
pub use fat_allergens::Allergens;
pub use fat_kind::{FatClass, FatKind};
pub(crate) use fat_values::nearest_tenth;
pub use fat_values::{Cox, Iv, MolarMass, Span, Sv};
pub use fats::{Doubts, FatRow, fat_row, fats};
pub use fatty_acid::{FattyAcid, Kinship};
pub use field::{Field, FieldKind, UsualPhase};
pub use field_check::{FieldProblem, check};
pub use fold::{fold, mid_sentence};
pub(crate) use fold::{is_silent, plain_letters};
pub use hazards::{Hazard, When, hazard, hazards, statement};
pub use hlb::Hlb;
pub use id::{IdProblem, IngredientId};
pub use ingredient::{Cell, Ingredient, Links, Origin, PhWindow, Sourced, UseRange, beginning};
pub use join::{Clash, ShelfChange};
pub use limits::{LegalLimit, limits};
pub use lots::{Counted, Lot, LotField};
pub use months::Months;
pub use net_content::{Tolerance, figure_height, tolerances};
pub use preservatives::{
    Barred, BlendPart, ChildRule, Cover, LabelDuty, Preservative, PreservativeGroup, preservative, preservatives,
};
pub use profile::{OtherAcids, OxidationOutlook, Profile};
pub use saponification::{SvApart, SvFrom, sv_ends};
pub use search::{Matched, SearchHit, search};
pub use shelf::{MOST_ENTRIES, MOST_LOTS, Shelf};
pub use skin::skin_window;
pub(crate) use spelling::{is_stereo, position};
pub(crate) use substance_names::substance_names;
pub use substance_names::{Named, recognise};
pub use supplier_sheet::SheetFinding;
pub use table::{CsvRow, CsvTable, RowProblem, Wrong};
