//! How far below its nominal content a pack may be: the table of Directive 76/211/EEC.
//!
//! `data/net-content.csv` holds its rows in order; each holds above `from` up to and with `to`, grams or millilitres alike.

use std::sync::LazyLock;

use super::allergens::percent;
use super::{RowProblem, Table};
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
    /// Whether the row was seen in a copy of the directive.
    pub seen: bool,
}

/// The rows in order.
pub fn tolerances() -> &'static [Tolerance] {
    &ROWS.0
}

static TABLE: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("data/net-content.csv")));
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
            share: if share { None } else { Some(percent(row, "percent")?) },
            amount: if share { Some(mass("amount")?) } else { None },
            seen: row.get("seen")? == "stored",
        })
    })
});

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tolerances_join_without_a_gap() {
        assert!(ROWS.1.is_empty());
        assert_eq!(tolerances().len(), 7);
        for pair in tolerances().windows(2) {
            assert_eq!(pair[0].to, pair[1].from);
        }
        for row in tolerances() {
            assert!(row.from < row.to && (row.share.is_some() != row.amount.is_some()) && row.seen);
        }
    }
}
