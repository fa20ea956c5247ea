//! Substances that are banned or capped, beside the list of preservatives.
//!
//! `data/limits.csv` holds one row a rule, sorted by id. What counts against a cap may be a part of the substance
//! (`name=54.58`: so many percent of it count).

use std::sync::LazyLock;

use super::basis::basis;
use crate::facts::{Basis, CsvRow, CsvTable, LabelDuty, RowProblem, Wrong, fold};
use crate::quantity::{Day, Percent, Quantity};

/// One ban or cap.
#[derive(Debug)]
pub struct LegalLimit {
    /// Its id.
    pub id: &'static str,
    /// The substances, folded, and how much of each counts.
    pub names: Vec<(String, Percent)>,
    /// Their greatest sum; none if they are banned.
    pub most: Option<Percent>,
    /// `leave-on` or `rinse-off` if it holds only there, else empty.
    pub purpose: &'static str,
    /// The areas for which it holds; empty for all.
    pub areas: Vec<&'static str>,
    /// The day since which it holds; none if it always did.
    pub since: Option<Day>,
    /// What the label must say, whatever the share.
    pub label: Option<LabelDuty>,
    /// Its entry.
    pub entry: &'static str,
    /// Where the row was read.
    pub basis: Basis,
}

impl LegalLimit {
    /// True if it holds for a product that stays on the skin or is washed off it, of an area.
    pub fn holds_for(&self, leave_on: bool, area: &str) -> bool {
        let purpose = if leave_on { "leave-on" } else { "rinse-off" };
        (self.purpose.is_empty() || self.purpose == purpose) && (self.areas.is_empty() || self.areas.contains(&area))
    }
}

/// All rows, sorted by id.
pub fn limits() -> &'static [LegalLimit] {
    &ROWS.0
}

static TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("../data/limits.csv")));
static ROWS: LazyLock<(Vec<LegalLimit>, Vec<RowProblem>)> = LazyLock::new(|| TABLE.parse(read_row));

fn read_row(row: CsvRow<'static>) -> Result<LegalLimit, RowProblem> {
    let name = |text: &'static str| match text.split_once('=') {
        None => Ok((fold(text), Percent::WHOLE)),
        Some((name, part)) => Percent::from_canonical(part).map(|part| (fold(name), part)).map_err(|problem| {
            row.wrong(Wrong::Number { column: "names".to_owned(), found: text.to_owned(), problem })
        }),
    };
    Ok(LegalLimit {
        id: row.get("id")?,
        names: row.get("names")?.split("; ").map(name).collect::<Result<_, _>>()?,
        most: match row.get("effect")? {
            "banned" => None,
            "cap" => Some(row.percent("percent")?),
            other => return Err(row.wrong_cell("effect", other, "banned or cap")),
        },
        purpose: row.get("use")?,
        areas: row.get("area")?.split(' ').filter(|area| !area.is_empty()).collect(),
        since: row.day("since")?,
        label: match row.get("label")? {
            "" => None,
            "vitamin-a" => Some(LabelDuty::VitaminA),
            other => return Err(row.wrong_cell("label", other, "vitamin-a or nothing")),
        },
        entry: row.get("entry")?,
        basis: basis(row)?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn limits_every_row_is_read_sorted_and_in_range() {
        assert_eq!(ROWS.1.iter().map(ToString::to_string).collect::<Vec<_>>(), Vec::<String>::new());
        assert_eq!(limits().len(), 39);
        assert!(limits().is_sorted_by(|a, b| a.id < b.id));
        for row in limits() {
            assert!(!row.names.is_empty() && !row.entry.is_empty() && !row.basis.source.is_empty(), "{}", row.id);
            assert!(row.most.is_none_or(|most| (1..=10_000_000).contains(&most.units())), "{}", row.id);
            assert!(matches!(row.purpose, "" | "leave-on" | "rinse-off"), "{}", row.id);
            for area in &row.areas {
                assert!(["body", "face", "hand", "lip", "nappy", "hair"].contains(area), "{}: {area}", row.id);
            }
            assert!(row.names.iter().all(|(name, _)| !name.is_empty()), "{}", row.id);
        }
    }
}
