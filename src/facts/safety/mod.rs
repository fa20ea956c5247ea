//! What the safety rules rest on: allergens, limits, classes of substances, hazards and the figures of the rules.

mod allergens;
mod basis;
mod classes;
mod criterion;
mod hazards;
mod limits;
mod oil_contents;

pub use allergens::{Allergen, allergen, allergen_of_cas, allergen_of_key, allergens};
pub(crate) use basis::basis;
pub use basis::source_text;
pub use classes::{ShareClass, SubstanceClass, in_class, share_in, us_name, us_name_basis};
pub use criterion::{
    Criterion, CriterionKey, CriterionUnit, Kilodaltons, ListedCriterion, Millimetres, Ratio, criteria, criterion,
};
pub use hazards::{Hazard, When, hazard, hazards, hazards_named, statement};
pub use limits::{LegalLimit, limits};
pub use oil_contents::{OilContent, oil_contents};
