//! The constant tables: what is known about materials, fats, acids, preservatives, emulsifiers and hazards.
//!
//! Every value says where it comes from and how well it is known. Nothing here depends on what a maker entered; that is
//! `shelf`. Nothing judges a formula; that is `rules`. What all tables share stands beside this file. The folders, each of which
//! rests only on those before it: acids, preservatives, emulsifiers, safety, fats, ingredients, label.

mod acids;
mod cooling;
mod craft;
mod currency;
mod data_file;
mod emulsifiers;
mod fats;
mod fold;
mod gradual;
mod id;
mod ingredients;
mod label;
mod meter;
mod months;
mod partition;
mod preservatives;
mod provenance;
mod ranges;
mod safety;
mod sources;
mod stability;
mod table;

pub use acids::*;
pub use cooling::{CoolingFigures, RoomRange, cooling_figures};
pub use craft::{Craft, craft};
pub use currency::minor_places;
pub use data_file::{DataFile, DataFileProblem};
pub(crate) use data_file::{data_file, embedded};
pub use emulsifiers::*;
pub use fats::*;
pub use fold::{fold, mid_sentence};
pub(crate) use fold::{is_silent, plain_letters};
pub(crate) use gradual::{Gradual, InPieces};
pub use id::{IdProblem, IngredientId};
pub use ingredients::*;
pub use label::*;
pub use meter::{Buffer, MeterBounds, buffers, meter_bounds};
pub use months::Months;
pub use partition::*;
pub use preservatives::*;
pub use provenance::{Basis, Provenance};
pub use ranges::{PhWindow, UseRange};
pub use safety::*;
pub(crate) use sources::{read_sources, sources_of};
pub use stability::{ConditionRow, StabilityFigures, stability_conditions, stability_figures};
pub use table::{CsvRow, CsvTable, RowProblem, Wrong};
