//! What a value of the safety tables rests on.
//!
//! `data/safety-sources.csv` holds what the short keys of allergens, hazards, limits, classes, criteria and rules stand
//! for.

use std::sync::LazyLock;

use crate::facts::{Basis, CsvRow, CsvTable, Provenance, RowProblem, read_sources, sources_of};

static SOURCES: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("../data/safety-sources.csv")));
static LIST: LazyLock<Vec<(&'static str, &'static str)>> = LazyLock::new(|| read_sources(&SOURCES));

/// The basis of a row with the columns `sources` and `seen`. Several sources are joined once, for the life of the
/// program.
///
/// # Errors
/// If the row has no source, an unknown one, or no word for how well it is known.
pub(crate) fn basis(row: CsvRow<'static>) -> Result<Basis, RowProblem> {
    let texts = sources_of(row, &LIST)?;
    let source = match texts.as_slice() {
        [one] => *one,
        many => Box::leak(many.join("; ").into_boxed_str()),
    };
    Ok(Basis { source, provenance: Provenance::read(row, "seen")? })
}

/// The text of one source key; the key itself if it is not in the list, which a test excludes.
pub fn source_text(key: &'static str) -> &'static str {
    LIST.iter().find(|(known, _)| *known == key).map_or(key, |(_, text)| text)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sources_are_sorted_unique_and_say_something() {
        assert!(LIST.is_sorted_by(|a, b| a.0 < b.0), "{:?}", LIST.iter().map(|s| s.0).collect::<Vec<_>>());
        assert!(LIST.iter().all(|(_, text)| text.len() > 9));
        assert_eq!(SOURCES.rows().count(), LIST.len());
    }
}
