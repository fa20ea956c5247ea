//! Warnings that a label carries, word for word where a law or an authority words them.
//!
//! `data/cautions.csv` holds one row a warning, sorted by key, with where its wording was read.

use std::sync::LazyLock;

use crate::facts::{Basis, CsvTable, RowProblem, basis};

static TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("../data/cautions.csv")));
/// Key, wording, where it was read.
type Wording = (&'static str, &'static str, Basis);

static ROWS: LazyLock<(Vec<Wording>, Vec<RowProblem>)> =
    LazyLock::new(|| TABLE.parse(|row| Ok((row.get("key")?, row.get("wording")?, basis(row)?))));

/// The wording of a warning and where it was read; `None` for a key that the table does not have, which a test excludes.
pub fn caution(key: &str) -> Option<(&'static str, Basis)> {
    ROWS.0.iter().find(|(known, ..)| *known == key).map(|(_, wording, basis)| (*wording, *basis))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cautions_every_row_is_read_sorted_and_a_sentence() {
        assert_eq!(ROWS.1.iter().map(ToString::to_string).collect::<Vec<_>>(), Vec::<String>::new());
        assert_eq!(ROWS.0.len(), 9);
        assert!(ROWS.0.is_sorted_by(|a, b| a.0 < b.0));
        assert!(ROWS.0.iter().all(|(_, wording, _)| wording.ends_with('.')));
    }
}
