//! How well the values of the table of fats are known, and from where.

use std::sync::LazyLock;

use crate::facts::{CsvRow, CsvTable};

/// How well a group of values is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Status {
    /// From the maker's supplier.
    Maker,
    /// Seen in a stored copy of the source.
    Stored,
    /// Known, not seen, but a value that was seen agrees.
    Checked,
    /// Partly seen.
    Mixed,
    /// Known, not seen.
    Memory,
}

impl Status {
    /// Its name in files.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Maker => "maker",
            Self::Stored => "stored",
            Self::Checked => "checked",
            Self::Mixed => "mixed",
            Self::Memory => "memory",
        }
    }

    /// True if the values were seen in their source; only then are they shown as verified.
    pub const fn is_verified(self) -> bool {
        matches!(self, Self::Stored)
    }

    /// True if there is nothing better to ask for: seen in their source, or from the maker's own supplier.
    pub const fn is_settled(self) -> bool {
        matches!(self, Self::Stored | Self::Maker)
    }

    pub(super) fn from_key(key: &str) -> Option<Self> {
        [Self::Stored, Self::Checked, Self::Mixed, Self::Memory].into_iter().find(|status| status.key() == key)
    }
}

/// Where a group of values comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Evidence {
    /// Keys of the list of sources, `;` between them, each with its place behind a space; see [`Evidence::text`].
    pub source: &'static str,
    /// How well they are known.
    pub status: Status,
}

impl Evidence {
    /// The maker, from a supplier's sheet.
    pub const MAKER: Self = Self { source: "", status: Status::Maker };

    /// The sources in words; empty for the maker's own.
    pub fn text(self) -> String {
        let one = |cell: &'static str| {
            let (key, place) = cell.split_once(' ').unwrap_or((cell, ""));
            let text = SOURCES.iter().find(|(own, _)| *own == key).map_or(key, |(_, text)| text);
            if place.is_empty() { text.to_owned() } else { format!("{text} {place}") }
        };
        self.source.split(';').filter(|cell| !cell.is_empty()).map(one).collect::<Vec<_>>().join("; ")
    }
}

static SOURCE_TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("../data/fat-sources.csv")));

pub(super) static SOURCES: LazyLock<Vec<(&'static str, &'static str)>> =
    LazyLock::new(|| SOURCE_TABLE.parse(|row: CsvRow<'static>| Ok((row.get("key")?, row.get("text")?))).0);
