//! Which substances belong together for a rule, what shares of them count, and the figures that rules compare with.
//!
//! `data/classes.csv` names the members of a class by INCI name (`~part` stands for every name with these words in it),
//! `data/shares.csv` gives a share for some, `data/criteria.csv` holds single figures by key, `data/us-names.csv` names
//! that a label in the United States has instead. Every row has its source and how well it is known.

use std::sync::LazyLock;

use super::allergens::percent;
use super::basis::basis;
use super::{Basis, CsvRow, CsvTable, RowProblem, Seen, fold};
use crate::quantity::Percent;

struct Class {
    key: &'static str,
    names: Vec<String>,
    parts: Vec<String>,
    basis: Basis,
}

/// A figure that a rule compares with, and where it comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Criterion {
    /// The figure in units of 0.000001: of a percent, of a pH, of a degree or of one, as its key says.
    pub millionths: i64,
    /// Where it comes from.
    pub basis: Basis,
}

impl Criterion {
    /// As a share.
    pub const fn percent(self) -> Percent {
        Percent::millionths(self.millionths)
    }

    /// In hundredths, as pH and HLB are counted.
    pub const fn hundredths(self) -> i64 {
        self.millionths / 10_000
    }

    /// In thousandths, as temperatures are counted.
    pub const fn thousandths(self) -> i64 {
        self.millionths / 1_000
    }
}

/// The basis of a class, if the substance of this folded name belongs to it.
pub fn in_class(class: &str, folded: &str) -> Option<Basis> {
    let class = CLASSES.0.iter().find(|row| row.key == class)?;
    let within = class.names.iter().any(|name| name == folded) || class.parts.iter().any(|part| folded.contains(part));
    within.then_some(class.basis)
}

/// The share that a class gives a substance of this folded name.
pub fn share_in(class: &str, folded: &str) -> Option<(Percent, Basis)> {
    SHARES.0.iter().find(|row| row.0 == class && row.1 == folded).map(|row| (row.2, row.3))
}

/// The figure of a key. A test sees to it that every key that a rule uses is there; where it were not, the figure would
/// be nothing and from memory, on which no Stop rests.
pub fn criterion(key: &str) -> Criterion {
    CRITERIA
        .0
        .iter()
        .find(|row| row.0 == key)
        .map_or(Criterion { millionths: 0, basis: Basis { source: "not in the table", seen: Seen::Memory } }, |row| {
            Criterion { millionths: crate::quantity::Quantity::units(row.1), basis: row.2 }
        })
}

/// The name that a label in the United States has for an INCI name, where it differs.
pub fn us_name(inci: &str) -> Option<&'static str> {
    US.0.iter().find(|(known, ..)| *known == inci).map(|(_, name, _)| *name)
}

/// Where such a name was read, by the name itself.
pub fn us_name_basis(name: &str) -> Option<Basis> {
    US.0.iter().find(|(_, known, _)| *known == name).map(|(.., basis)| *basis)
}

type Read<T> = LazyLock<(Vec<T>, Vec<RowProblem>)>;

static CLASS_TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("data/classes.csv")));
static CLASSES: Read<Class> = LazyLock::new(|| CLASS_TABLE.parse(read_class));
static SHARE_TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("data/shares.csv")));
static SHARES: Read<(&str, String, Percent, Basis)> = LazyLock::new(|| {
    SHARE_TABLE.parse(|row| Ok((row.get("class")?, fold(row.get("name")?), percent(row, "percent")?, basis(row)?)))
});
static CRITERION_TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("data/criteria.csv")));
static CRITERIA: Read<(&str, Percent, Basis)> =
    LazyLock::new(|| CRITERION_TABLE.parse(|row| Ok((row.get("key")?, percent(row, "value")?, basis(row)?))));
static US_TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("data/us-names.csv")));
static US: Read<(&str, &str, Basis)> =
    LazyLock::new(|| US_TABLE.parse(|row| Ok((row.get("inci")?, row.get("name")?, basis(row)?))));

fn read_class(row: CsvRow<'static>) -> Result<Class, RowProblem> {
    let names = || row.get("names").map(|names| names.split("; "));
    Ok(Class {
        key: row.get("class")?,
        names: names()?.filter(|name| !name.starts_with('~')).map(fold).collect(),
        parts: names()?.filter_map(|name| name.strip_prefix('~')).map(fold).collect(),
        basis: basis(row)?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn problems<T>(read: &(Vec<T>, Vec<RowProblem>)) -> Vec<String> {
        read.1.iter().map(ToString::to_string).collect()
    }

    #[test]
    fn classes_shares_criteria_and_names_are_read_sorted_and_sourced() {
        for wrong in [problems(&CLASSES), problems(&SHARES), problems(&CRITERIA), problems(&US)] {
            assert_eq!(wrong, Vec::<String>::new());
        }
        assert!(CLASSES.0.is_sorted_by(|a, b| a.key < b.key));
        assert!(SHARES.0.is_sorted_by(|a, b| (a.0, &a.1) < (b.0, &b.1)));
        assert!(CRITERIA.0.is_sorted_by(|a, b| a.0 < b.0));
        assert!(US.0.is_sorted_by(|a, b| a.0 < b.0));
        for class in &CLASSES.0 {
            assert!(!class.basis.source.is_empty(), "{}", class.key);
            let all: Vec<_> = class.names.iter().chain(&class.parts).collect();
            assert!(!all.is_empty() && all.iter().all(|name| !name.is_empty()), "{}", class.key);
            assert!((1..all.len()).all(|n| !all[..n].contains(&all[n])), "{}: a name twice", class.key);
        }
    }

    #[test]
    fn classes_take_whole_names_and_words() {
        let hit = |class, name: &str| in_class(class, &fold(name)).is_some();
        assert!(hit("water", "Aqua") && hit("water", "Rosa Centifolia Flower Water") && !hit("water", "Aquatic"));
        assert!(hit("peanut", "Arachis Hypogaea Oil") && !hit("no-such-class", "Aqua"));
    }
}
