//! What a value of the safety tables rests on.
//!
//! `data/safety-sources.csv` holds what the short keys of allergens, hazards, limits, classes, criteria and rules stand
//! for.

use std::sync::LazyLock;

use crate::facts::{CsvRow, CsvTable, RowProblem, read_sources, sources_of};

/// How well a value is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Seen {
    /// Seen in a stored copy of its source.
    Stored,
    /// A choice of this program that only spares: up to it a check that rests on a verified source is not applied, such as
    /// up to how much water no preservative is called for. What stops beyond it is that source.
    Allowance,
    /// A custom of the trade or a cautious choice of this program: there is nothing to verify, and it says so. It may warn
    /// but never stop.
    Custom,
    /// Known, not seen. It may warn but never stop.
    Memory,
}

/// Where a value comes from and how well it is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Basis {
    /// The source, as shown.
    pub source: &'static str,
    /// How well it is known.
    pub seen: Seen,
}

impl Basis {
    /// Whether nothing of it is from memory.
    pub fn holds(self) -> bool {
        self.seen != Seen::Memory
    }

    /// Whether a Stop may rest on it: neither on memory, nor on what is a custom and no law.
    pub fn may_stop(self) -> bool {
        self.holds() && self.seen != Seen::Custom
    }
}

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
    let seen = match row.get("seen")? {
        "stored" => Seen::Stored,
        "allowance" => Seen::Allowance,
        "custom" => Seen::Custom,
        "memory" => Seen::Memory,
        other => return Err(row.wrong_cell("seen", other, "stored, allowance, custom or memory")),
    };
    Ok(Basis { source, seen })
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
