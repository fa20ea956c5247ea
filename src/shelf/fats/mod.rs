//! A fat of the shelf: its row of the table with a supplier's sheet over it, and how such a sheet is read.

mod acid_shares;
mod fat;
mod fat_sheet;
mod saponification;

pub use fat::{Disagreement, Fat};
pub use fat_sheet::SheetFinding;
pub use saponification::{SvApart, SvFrom, sv_ends};
