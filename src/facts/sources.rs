//! Lists of sources that tables refer to by short keys.

use super::{CsvRow, CsvTable, RowProblem};

/// Makes a list of `key,source` rows into pairs; a row that cannot be read is left out and found by a test.
pub(crate) fn read_sources(table: &CsvTable) -> Vec<(&str, &str)> {
    table.parse(|row| Ok((row.get("key")?, row.get("source")?))).0
}

/// The texts of the keys in a row's `sources` cell.
///
/// # Errors
/// If there is none, or one that the list does not have.
pub(crate) fn sources_of<'a>(row: CsvRow<'a>, list: &[(&str, &'a str)]) -> Result<Vec<&'a str>, RowProblem> {
    let cell = row.get("sources")?;
    if cell.is_empty() {
        return Err(row.wrong_cell("sources", cell, "a source"));
    }
    let text = |key: &str| list.iter().find(|(known, _)| *known == key).map(|(_, text)| *text);
    cell.split(' ').map(|key| text(key).ok_or_else(|| row.wrong_cell("sources", cell, "known keys"))).collect()
}
