//! How well the values of the table of fats are known, and from where.

use std::sync::LazyLock;

use crate::facts::{CsvTable, Provenance, read_sources};

/// Where a group of values comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Evidence {
    /// Keys of the list of sources, `;` between them, each with its place behind a space; see [`Evidence::text`].
    pub source: &'static str,
    /// How well they are known.
    pub provenance: Provenance,
}

impl Evidence {
    /// The maker, from a supplier's sheet.
    pub const MAKER: Self = Self { source: "", provenance: Provenance::Maker };

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

pub(super) static SOURCES: LazyLock<Vec<(&'static str, &'static str)>> = LazyLock::new(|| read_sources(&SOURCE_TABLE));
