//! How well a value is known, and where it comes from.
//!
//! Every table says it the same way. A column `seen` speaks for the whole row, `<values>_seen` for one value or one group of
//! values of it. The cell holds one of the words of [`Provenance::key`]; it is empty only where there is no value. Where the
//! values of a row are known unequally well and are many, `seen` lists the names of those that were seen in the source; all
//! others, and in a row with an empty cell all of them, are from memory ([`Provenance::of_value`]).

use super::{CsvRow, RowProblem};

/// How well a value is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Provenance {
    /// The maker's own, from a supplier's document or from experience. No table says so.
    Maker,
    /// Seen in a stored copy of its source.
    Verified,
    /// Known, not seen, but a value that was seen agrees.
    Checked,
    /// Partly seen.
    Mixed,
    /// A choice of this program that only spares: up to it a check that rests on a verified source is not applied, such as
    /// up to how much water no preservative is called for. What stops beyond it is that source.
    Allowance,
    /// A custom of the trade or a cautious choice of this program: there is nothing to verify, and it says so. It may warn
    /// but never stop.
    Custom,
    /// Known, not seen. It may warn but never stop.
    Memory,
}

impl Provenance {
    /// All that a table can say.
    const OF_TABLES: [Self; 6] =
        [Self::Verified, Self::Checked, Self::Mixed, Self::Allowance, Self::Custom, Self::Memory];

    /// Its word in tables and in exported files.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Maker => "maker",
            Self::Verified => "stored",
            Self::Checked => "checked",
            Self::Mixed => "mixed",
            Self::Allowance => "allowance",
            Self::Custom => "custom",
            Self::Memory => "memory",
        }
    }

    /// True for the maker's own.
    pub const fn is_makers(self) -> bool {
        matches!(self, Self::Maker)
    }

    /// Reads a column that holds one word.
    ///
    /// # Errors
    /// If there is no such column, or if it holds anything else.
    pub(crate) fn read(row: CsvRow<'_>, column: &str) -> Result<Self, RowProblem> {
        let cell = row.get(column)?;
        let found = Self::OF_TABLES.into_iter().find(|one| one.key() == cell);
        found.ok_or_else(|| row.wrong_cell(column, cell, "stored, checked, mixed, allowance, custom or memory"))
    }

    /// Reads the column `seen` that lists the values that were seen, for one of the `values` that it may list.
    ///
    /// # Errors
    /// If there is no such column, or if it lists anything else.
    pub(crate) fn of_value(row: CsvRow<'_>, value: &str, values: &[&str]) -> Result<Self, RowProblem> {
        let cell = row.get("seen")?;
        let mut found = Self::Memory;
        for name in cell.split(' ').filter(|name| !name.is_empty()) {
            if !values.contains(&name) {
                return Err(row.wrong_cell("seen", cell, "names of values that were seen"));
            }
            if name == value {
                found = Self::Verified;
            }
        }
        Ok(found)
    }

    /// True if it was seen in its source; only then is it shown as verified.
    pub const fn is_verified(self) -> bool {
        matches!(self, Self::Verified)
    }

    /// True if there is nothing better to ask for: seen in its source, or the maker's own.
    pub const fn is_settled(self) -> bool {
        matches!(self, Self::Verified | Self::Maker)
    }

    /// Whether nothing of it is from memory.
    pub const fn holds(self) -> bool {
        !matches!(self, Self::Checked | Self::Mixed | Self::Memory)
    }

    /// Whether a Stop may rest on it: neither on memory, nor on what is a custom and no law.
    pub const fn may_stop(self) -> bool {
        self.holds() && !matches!(self, Self::Custom)
    }
}

/// Where a value comes from and how well it is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Basis {
    /// The source, as shown; empty for the maker's own.
    pub source: &'static str,
    /// How well it is known.
    pub provenance: Provenance,
}

impl Basis {
    /// The maker's own.
    pub const MAKER: Self = Self { source: "", provenance: Provenance::Maker };

    /// A source of which this was seen.
    pub const fn verified(source: &'static str) -> Self {
        Self { source, provenance: Provenance::Verified }
    }

    /// A custom of the trade or a choice of ours.
    pub const fn custom(source: &'static str) -> Self {
        Self { source, provenance: Provenance::Custom }
    }

    /// Known from a source of which this was not seen.
    pub const fn memory(source: &'static str) -> Self {
        Self { source, provenance: Provenance::Memory }
    }

    /// True for the maker's own.
    pub const fn is_makers(self) -> bool {
        self.provenance.is_makers()
    }

    /// The same, with these words for its source if it is the maker's own.
    pub const fn or_own(self, source: &'static str) -> Self {
        if self.is_makers() { Self { source, ..self } } else { self }
    }

    /// Whether nothing of it is from memory.
    pub const fn holds(self) -> bool {
        self.provenance.holds()
    }

    /// Whether a Stop may rest on it; see [`Provenance::may_stop`].
    pub const fn may_stop(self) -> bool {
        self.provenance.may_stop()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::facts::CsvTable;

    #[test]
    fn provenance_is_one_of_its_words() {
        let words = "seen\nstored\nchecked\nmixed\nallowance\ncustom\nmemory\nmaker\nStored\nlimit\n\n";
        let (read, problems) = CsvTable::read(words).parse(|row| Provenance::read(row, "seen"));
        assert_eq!(read, Provenance::OF_TABLES);
        let lines: Vec<u64> = problems.iter().map(|problem| problem.line).collect();
        assert_eq!(lines, [8, 9, 10]);
        assert!(problems[0].to_string().contains("found `maker`, expected stored"), "{}", problems[0]);
    }

    #[test]
    fn provenance_of_a_value_is_whether_it_is_listed() {
        let table = CsvTable::read("id,seen\na,limit rules\nb,\nc,rules\nd,limits\n");
        let (read, problems) = table.parse(|row| Provenance::of_value(row, "limit", &["limit", "rules"]));
        assert_eq!(read, [Provenance::Verified, Provenance::Memory, Provenance::Memory]);
        assert_eq!(problems.len(), 1, "a name that is none is no memory, but a fault");
        assert_eq!(problems[0].line, 5);
    }

    /// What a Stop may rest on: `Finding::downgrade` asks for nothing else.
    #[test]
    fn provenance_that_may_stop_is_verified_spared_or_the_makers() {
        let may: Vec<_> = Provenance::OF_TABLES.into_iter().filter(|one| one.may_stop()).collect();
        assert_eq!(may, [Provenance::Verified, Provenance::Allowance]);
        assert!(Provenance::Maker.may_stop() && Provenance::Custom.holds());
        assert!([Provenance::Memory, Provenance::Mixed, Provenance::Checked].iter().all(|one| !one.holds()));
    }
}
