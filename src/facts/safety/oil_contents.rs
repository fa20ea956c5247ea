//! What essential oils hold of substances that the law caps or prohibits, as a rule, where no supplier's statement says it.
//!
//! `data/oil-contents.csv`: least and greatest share of the oil, from memory. They warn and never stop.

use std::sync::LazyLock;

use super::basis::basis;
use crate::facts::{Basis, CsvRow, CsvTable, RowProblem, fold};
use crate::quantity::Percent;

/// A substance in an oil.
#[derive(Debug)]
pub struct OilContent {
    oil: String,
    /// Its name on labels.
    pub substance: &'static str,
    /// Least share of the oil.
    pub low: Percent,
    /// Greatest share of the oil.
    pub high: Percent,
    /// Where that was read.
    pub basis: Basis,
}

static TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("../data/oil-contents.csv")));
static ROWS: LazyLock<(Vec<OilContent>, Vec<RowProblem>)> = LazyLock::new(|| TABLE.parse(read_row));

/// What an oil of this folded INCI name holds as a rule.
pub fn oil_contents(folded: &str) -> impl Iterator<Item = &'static OilContent> {
    ROWS.0.iter().filter(move |row| row.oil == folded)
}

fn read_row(row: CsvRow<'static>) -> Result<OilContent, RowProblem> {
    Ok(OilContent {
        oil: fold(row.get("oil")?),
        substance: row.get("substance")?,
        low: row.percent("low")?,
        high: row.percent("high")?,
        basis: basis(row)?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Quantity;

    #[test]
    fn oil_contents_are_read_sorted_and_in_range() {
        assert_eq!(ROWS.1.iter().map(ToString::to_string).collect::<Vec<_>>(), Vec::<String>::new());
        assert!(ROWS.0.is_sorted_by(|a, b| (&a.oil, a.substance) < (&b.oil, b.substance)));
        for row in &ROWS.0 {
            assert!(row.low <= row.high && row.high <= Percent::WHOLE && row.high.units() > 0, "{}", row.oil);
        }
        assert_eq!(oil_contents(&fold("Gaultheria Procumbens Leaf Oil")).count(), 1);
    }
}
