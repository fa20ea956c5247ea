//! Where the values of the materials come from. A table of its own: the card of a material shows it, and lines and masses,
//! which the first part of the program is for, do without.

use crate::facts::CsvTable;
use std::sync::LazyLock;

static TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("../data/ingredient-sources.csv")));

/// The source of a material's row, and in words what of it was seen there.
pub(crate) fn source_of(id: &str) -> Option<(&'static str, &'static str)> {
    let row = TABLE.rows().find(|row| row.get("id") == Ok(id))?;
    Some((row.get("source").ok()?, row.get("verification").ok()?))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::facts::ingredients::materials;

    #[test]
    fn every_material_has_a_source_and_no_other_row_stands_there() {
        let ids: Vec<_> = TABLE.rows().map(|row| row.get("id").unwrap()).collect();
        assert_eq!(ids, materials().map(|material| material.id.as_str()).collect::<Vec<_>>());
        for material in materials() {
            let told = source_of(material.id.as_str());
            assert!(told.is_some_and(|(source, seen)| !source.is_empty() && !seen.is_empty()), "{}", material.id);
        }
    }
}
