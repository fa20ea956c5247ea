//! Further names of the substances in suppliers' statements.
//!
//! `data/substance-names.csv` holds those beside the names of the table of allergens, sorted by name: `means` is the name on
//! labels; where that is no allergen's, the substance is known to be none. `positions` are the prefixes of position under
//! which it is the same entry (alpha- and beta-pinene), with `=` where one of them must be there. Prefixes of stereochemistry
//! never matter.

use std::sync::LazyLock;

use super::FILE;
use super::isomers::position;
use crate::facts::{CsvRow, CsvTable, RowProblem};

/// One further name of a substance on statements.
#[derive(Debug, Clone)]
pub(super) struct StatementName {
    /// As written.
    pub(super) name: &'static str,
    /// The name on labels, of an allergen or of what is none.
    pub(super) means: &'static str,
    /// Prefixes of position under which it is the same.
    pub(super) positions: Vec<&'static str>,
    /// One of them must be there.
    pub(super) positioned: bool,
    /// CAS numbers.
    pub(super) cas: Vec<&'static str>,
}

static TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(FILE.text("data/substance-names.csv")));

/// The further names, as the table has them.
pub(super) fn statement_names() -> Vec<StatementName> {
    TABLE.parse(read_row).0
}

fn read_row(row: CsvRow<'static>) -> Result<StatementName, RowProblem> {
    let positions = row.get("positions")?;
    Ok(StatementName {
        name: row.get("name")?,
        means: row.get("means")?,
        positions: positions.trim_start_matches('=').split(' ').filter_map(position).collect(),
        positioned: positions.starts_with('='),
        cas: row.get("cas")?.split(' ').filter(|number| !number.is_empty()).collect(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::facts::{allergen, allergen_of_cas, basis, fold};

    fn squeezed(name: &str) -> String {
        fold(name).split_whitespace().collect()
    }

    #[test]
    fn statement_names_are_read_sorted_sourced_and_each_once() {
        let (rows, problems) = TABLE.parse(read_row);
        assert_eq!(problems.iter().map(ToString::to_string).collect::<Vec<_>>(), Vec::<String>::new());
        assert!(rows.len() > 400 && rows.is_sorted_by(|a, b| (fold(a.name), a.name) <= (fold(b.name), b.name)));
        assert!(TABLE.parse(basis).0.iter().all(|basis| !basis.source.is_empty()));
        let mut keys: Vec<_> = rows.iter().map(|row| squeezed(row.name)).collect();
        keys.sort();
        assert!(keys.windows(2).all(|pair| pair[0] != pair[1]), "a name twice");
        // No further name of one allergen is a name of another, nor of what is none.
        for row in &rows {
            assert!(!row.means.is_empty(), "{}", row.name);
            if let Some(known) = allergen(row.name) {
                assert_eq!(row.means, known.name, "{}", row.name);
            }
        }
    }

    /// Source: the check digit of CAS registry numbers, and that each number stands for one substance only.
    #[test]
    fn statement_names_numbers_are_right_and_belong_to_one_substance() {
        let mut seen: Vec<&str> = Vec::new();
        for row in statement_names() {
            for cas in row.cas {
                let digits: Vec<u32> = cas.chars().filter_map(|c| c.to_digit(10)).collect();
                let (check, body) = digits.split_last().unwrap();
                let sum: u32 = body.iter().rev().zip(1..).map(|(digit, weight)| digit * weight).sum();
                assert_eq!(sum % 10, *check, "{cas}");
                assert!(!seen.contains(&cas), "{cas} twice");
                let allergen = allergen_of_cas(cas).map(|row| row.name);
                assert!(allergen.is_none_or(|name| name == row.means), "{cas} is of {allergen:?}");
                seen.push(cas);
            }
        }
        assert!(seen.len() > 80);
    }
}
