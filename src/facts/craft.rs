//! Figures of the craft: customs of the trade that a first method starts from. They advise, and a maker changes them.

use std::sync::LazyLock;

use super::{CsvTable, Provenance, RowProblem};
use crate::quantity::{Celsius, Minutes, Percent, Quantity};

/// The rows of `data/craft.csv`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Craft {
    /// Below this what is added late goes in.
    pub add_below: Celsius,
    /// How long both phases are mixed once they are joined.
    pub blend: Minutes,
    /// How cold a cream may stand, where what is dissolved may come out.
    pub cold_store: Celsius,
    /// Within how many days a lot ends soon.
    pub ends_soon: i64,
    /// To which temperature both phases are heated.
    pub heat: Celsius,
    /// How long they are held there.
    pub hold: Minutes,
    /// How far apart they may be when they are joined, in degrees.
    pub join_gap: Celsius,
    /// Of what was delivered, the share below which stock is low.
    pub low_stock: Percent,
}

/// The figures of the craft.
pub fn craft() -> Craft {
    let degrees = |key| Celsius::from_units(figure(key, "celsius") * 10_i64.pow(Celsius::PLACES));
    let minutes = |key| Minutes::from_units(figure(key, "minute"));
    Craft {
        add_below: degrees("add-below"),
        blend: minutes("blend"),
        cold_store: degrees("cold-store"),
        ends_soon: figure("ends-soon", "day"),
        heat: degrees("heat"),
        hold: minutes("hold"),
        join_gap: degrees("join-gap"),
        low_stock: Percent::from_units(figure("low-stock", "percent") * 10_i64.pow(Percent::PLACES)),
    }
}

/// A figure in its unit. A test sees to it that each is in the table; one that were not would be nothing.
fn figure(key: &str, unit: &str) -> i64 {
    ROWS.0.iter().find(|row| row.key == key && row.unit == unit).map_or(0, |row| row.value)
}

#[derive(Debug, PartialEq, Eq)]
struct CraftRow {
    key: &'static str,
    value: i64,
    unit: &'static str,
}

static TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("data/craft.csv")));
static ROWS: LazyLock<(Vec<CraftRow>, Vec<RowProblem>)> = LazyLock::new(|| {
    TABLE.parse(|row| {
        Provenance::read(row, "seen")?;
        let text = row.get("value")?;
        let value = text.parse().map_err(|_| row.wrong_cell("value", text, "a whole number"))?;
        Ok(CraftRow { key: row.get("key")?, value, unit: row.get("unit")? })
    })
});

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn craft_figures_are_all_in_the_table() {
        assert_eq!(ROWS.1, Vec::new());
        let Craft { add_below, blend, cold_store, ends_soon, heat, hold, join_gap, low_stock } = craft();
        for degrees in [add_below, cold_store, heat, join_gap] {
            assert!(degrees.units() > 0);
        }
        assert!(blend.units() > 0 && hold.units() > 0 && ends_soon > 0 && low_stock > Percent::ZERO);
        assert_eq!(ROWS.0.len(), 8, "a row that nothing reads");
    }
}
