//! What is printed or handed on, as plain structures: no markup, no page size.

mod csv;
mod lye_sheet;
mod weigh_sheet;

pub(crate) use weigh_sheet::line_name;

pub use csv::weigh_sheet_csv;
pub use lye_sheet::{AlkaliOnPaper, Caution, FatRowOnPaper, LyePaper, lye_paper};
pub use weigh_sheet::{Block, PremixRow, Row, WeighPaper, weigh_paper};
