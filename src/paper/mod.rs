//! What is printed or handed on, as plain structures: no markup, no page size.

mod csv;
mod weigh_sheet;

pub(crate) use weigh_sheet::line_name;

pub use csv::weigh_sheet_csv;
pub use weigh_sheet::{Block, PremixRow, Row, WeighPaper, weigh_paper};
