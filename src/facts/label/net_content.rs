//! How far below its nominal content a pack may be, and how high its figures must stand: two tables of Directive
//! 76/211/EEC.
//!
//! `data/net-content.csv` holds the first in order; a row holds above `from` up to and with `to`, grams or millilitres
//! alike. `data/figures.csv` holds the second: a row holds up to and with `to`, the last one above all.

use std::sync::LazyLock;

use crate::facts::{CsvTable, Provenance, RowProblem};
use crate::quantity::{Mass, Percent, Quantity};

/// One row. Contents are held as masses; a millilitre stands as a gram.
#[derive(Debug, Clone, Copy)]
pub struct Tolerance {
    /// Contents from here …
    pub from: Mass,
    /// … up to here.
    pub to: Mass,
    /// A share of the content …
    pub share: Option<Percent>,
    /// … or an amount.
    pub amount: Option<Mass>,
    /// How well the row is known.
    pub provenance: Provenance,
}

/// The rows in order.
pub fn tolerances() -> &'static [Tolerance] {
    &ROWS.0
}

/// How high the figures of a content must be.
#[derive(Debug, Clone, Copy)]
struct Figure {
    /// Contents up to here and with it; nothing above the last bound.
    to: Option<Mass>,
    /// Their height in micrometres.
    height_um: i64,
}

/// How high the figures of a nominal content must be at least, in micrometres. A millilitre stands as a gram.
pub fn figure_height(nominal: Mass) -> Option<i64> {
    FIGURES.0.iter().find(|row| row.to.is_none_or(|to| nominal <= to)).map(|row| row.height_um)
}

static FIGURE_TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("../data/figures.csv")));
static FIGURES: LazyLock<(Vec<Figure>, Vec<RowProblem>)> = LazyLock::new(|| {
    FIGURE_TABLE.parse(|row| {
        let number = |column| {
            let text = row.get(column)?;
            Mass::from_canonical(text).map_err(|_| row.wrong_cell(column, text, "a number"))
        };
        let to = if row.get("to")?.is_empty() { None } else { Some(number("to")?) };
        // Millimetres are read like grams: a thousandth of what stands behind the point is a micrometre.
        Ok(Figure { to, height_um: number("height_mm")?.units() / 1_000 })
    })
});

static TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("../data/net-content.csv")));
static ROWS: LazyLock<(Vec<Tolerance>, Vec<RowProblem>)> = LazyLock::new(|| {
    TABLE.parse(|row| {
        let mass = |column| {
            let text = row.get(column)?;
            Mass::from_canonical(text).map_err(|_| row.wrong_cell(column, text, "grams"))
        };
        let share = row.get("percent")?.is_empty();
        Ok(Tolerance {
            from: mass("from")?,
            to: mass("to")?,
            share: if share { None } else { Some(row.percent("percent")?) },
            amount: if share { Some(mass("amount")?) } else { None },
            provenance: Provenance::read(row, "seen")?,
        })
    })
});

#[cfg(test)]
mod tests {
    use super::*;

    // Source: Directive 76/211/EEC Annex I 3.1, as told by the United States' mission to the European Union, January 2017.
    #[test]
    fn figures_are_as_high_as_their_content_asks() {
        for row in FIGURE_TABLE.rows() {
            assert_eq!((row.get("sources"), row.get("seen")), (Ok("heights"), Ok("stored")));
            assert!(crate::facts::source_text("heights").contains("76/211/EEC"));
        }
        assert!(FIGURES.1.is_empty() && FIGURES.0.iter().filter(|row| row.to.is_none()).count() == 1);
        for (grams, millimetres) in
            [("0.5", 2), ("50", 2), ("50.000001", 3), ("50.3", 3), ("200", 3), ("200.1", 4), ("1000", 4), ("1000.5", 6)]
        {
            let found = figure_height(Mass::from_canonical(grams).unwrap());
            assert_eq!(found, Some(millimetres * 1_000), "{grams}");
        }
    }

    #[test]
    fn tolerances_join_without_a_gap() {
        assert!(ROWS.1.is_empty());
        assert_eq!(tolerances().len(), 7);
        for pair in tolerances().windows(2) {
            assert_eq!(pair[0].to, pair[1].from);
        }
        for row in tolerances() {
            assert!(row.from < row.to && (row.share.is_some() != row.amount.is_some()) && row.provenance.is_verified());
        }
    }
}
