//! The pH that suits the skin, by what a product is for: `data/skin-ph.csv`, from memory throughout.

use std::sync::LazyLock;

use crate::facts::{Basis, CsvTable, PhWindow};
use crate::quantity::{Ph, Quantity};

static TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("../data/skin-ph.csv")));

/// The window of `leave-on`, `rinse-off` or `child`.
pub fn skin_window(of: &str) -> Option<(PhWindow, Basis)> {
    let row = TABLE.rows().find(|row| row.get("for") == Ok(of))?;
    let end = |column: &str| row.get(column).ok().and_then(|text| Ph::from_canonical(text).ok());
    let basis = Basis::memory(row.get("source").ok()?);
    Some((PhWindow { min: end("min"), max: end("max") }, basis))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn skin_windows_are_read() {
        for key in ["leave-on", "rinse-off", "child"] {
            let (window, _) = skin_window(key).unwrap_or_else(|| panic!("{key}"));
            assert!(window.min.is_some() && window.min < window.max, "{key}");
        }
        assert_eq!(skin_window("soap"), None);
    }
}
