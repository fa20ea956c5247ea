//! Which entries of the annexes of Regulation (EC) No 1223/2009 list a name or a number.
//!
//! `data/annex-names.csv` is made from the Commission's files (`src/law/annexes/`) by `tests/names/annex_table.rs`.

use std::sync::LazyLock;

use super::key::key;
use super::plain::plain;
use crate::facts::CsvTable;
use crate::quantity::sort_by;

/// The entries, each with its names and numbers.
pub(super) struct Annexes {
    /// Keys of names with the entry and the name as written.
    names: Vec<AnnexNames>,
    /// CAS numbers with the entry.
    numbers: Vec<(&'static str, &'static str)>,
}

#[derive(Clone)]
pub(super) struct AnnexNames {
    pub(super) key: String,
    pub(super) name: &'static str,
    pub(super) entry: &'static str,
}

static TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("data/annex-names.csv")));

static ANNEXES: LazyLock<Annexes> = LazyLock::new(|| {
    let mut all = Annexes { names: Vec::new(), numbers: Vec::new() };
    for row in TABLE.rows() {
        let (Ok(entry), Ok(names), Ok(cas)) = (row.get("entry"), row.get("names"), row.get("cas")) else { continue };
        for name in names.split('|').filter(|name| !name.is_empty()) {
            all.names.push(AnnexNames { key: key(&plain(name)), name, entry });
        }
        all.numbers.extend(cas.split(' ').filter(|number| !number.is_empty()).map(|number| (number, entry)));
    }
    sort_by(&mut all.names, |a, b| a.key.cmp(&b.key));
    sort_by(&mut all.numbers, |a, b| a.0.cmp(b.0));
    all
});

/// All names, sorted by key.
pub(super) fn names() -> &'static [AnnexNames] {
    &ANNEXES.names
}

/// The entries that list a key.
pub(super) fn entries_named(key: &str) -> impl Iterator<Item = &'static str> {
    let names = names();
    let start = names.partition_point(|listed| listed.key.as_str() < key);
    let end = names.partition_point(|listed| listed.key.as_str() <= key);
    names.get(start..end).unwrap_or_default().iter().map(|listed| listed.entry)
}

/// The entries that list a CAS number.
pub(super) fn entries_numbered(cas: &str) -> impl Iterator<Item = &'static str> {
    let numbers = &ANNEXES.numbers;
    let start = numbers.partition_point(|(number, _)| *number < cas);
    let end = numbers.partition_point(|(number, _)| *number <= cas);
    numbers.get(start..end).unwrap_or_default().iter().map(|(_, entry)| *entry)
}
