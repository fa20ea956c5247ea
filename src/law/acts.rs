//! From which day an entry holds, where only the act that changed it says so.
//!
//! The exports show an entry as it will be as soon as the act is published. Days that the entry itself states come first.

use crate::quantity::Day;
use std::sync::LazyLock;

use super::{AnnexEntry, FILE};
use crate::facts::{CsvRow, CsvTable, Provenance, RowProblem};

static TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(FILE.text("data/acts.csv")));
static ACTS: LazyLock<(Vec<Act>, Vec<RowProblem>)> = LazyLock::new(|| TABLE.parse(act));

/// An act that changed the annexes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Act {
    /// Its number, as the entries name it.
    pub number: &'static str,
    /// From which day products have to comply to be placed on the market.
    pub placed: Day,
    /// From which day they have to comply to be made available there.
    pub available: Day,
    /// Where the days were read.
    pub source: &'static str,
    /// How well they are known.
    pub provenance: Provenance,
}

/// The act that an entry rests on, if its days are known here.
pub fn act_of(entry: &AnnexEntry) -> Option<&'static Act> {
    ACTS.0.iter().find(|act| entry.regulation == act.number)
}

fn act(row: CsvRow<'static>) -> Result<Act, RowProblem> {
    Ok(Act {
        number: row.get("act")?,
        placed: day(row, "placed")?,
        available: day(row, "available")?,
        source: row.get("source")?,
        provenance: Provenance::read(row, "seen")?,
    })
}

fn day(row: CsvRow<'_>, column: &str) -> Result<Day, RowProblem> {
    row.day(column)?.ok_or_else(|| row.wrong_cell(column, "", "a day such as 2027-01-01"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::law::{Annex, COMPACT, Law};

    #[test]
    fn acts_are_read_whole_and_named_by_entries() {
        assert_eq!(ACTS.1, []);
        let law = Law::read(COMPACT).unwrap();
        for act in &ACTS.0 {
            assert!(law.entries().iter().any(|entry| entry.regulation == act.number), "{}", act.number);
            assert!(act.placed <= act.available && !act.source.is_empty(), "{}", act.number);
        }
        let citral = law.find(Annex::III, "70").next().unwrap();
        assert_eq!(act_of(citral).map(|act| act.placed), Day::from_calendar(2027, 1, 1));
    }
}
