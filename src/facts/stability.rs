//! What a stability study is begun with: `data/stability.csv` (conditions and days) and `data/stability-figures.csv` (limits
//! and factors). No standard sets them; the maker changes what does not suit.

use crate::facts::{Basis, CsvRow, CsvTable, Provenance, RowProblem};
use crate::quantity::{Celsius, Percent, Ph, Quantity, read_number};
use std::sync::LazyLock;

/// A condition that samples are kept under, as a study begins with it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ConditionRow {
    /// Its key, which is that of the condition in files.
    pub id: &'static str,
    /// How warm; nothing where that is not what it is about.
    pub celsius: Option<Celsius>,
    /// When samples are looked at: `7d 2w 3m`, days, weeks and months after the beginning.
    pub points: &'static str,
    /// Whether a study begins with it, or the maker adds it.
    pub usual: bool,
    /// Where it comes from, and how well that is known.
    pub basis: Basis,
}

/// Every condition, sorted by key.
pub fn stability_conditions() -> &'static [ConditionRow] {
    &CONDITIONS.0
}

/// Limits and factors.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StabilityFigures {
    /// From this change on (0 as the control, 5 quite another) a sample is looked into.
    pub change_care: u8,
    /// From this change on it is outside.
    pub change_outside: u8,
    /// A drift of the pH beyond this is looked into.
    pub ph_care: Ph,
    /// A drift of the pH beyond this is outside.
    pub ph_outside: Ph,
    /// A loss of weight beyond this is looked into.
    pub weight_loss: Percent,
    /// How many times faster a reaction is assumed to go when it is 10 °C warmer, in tenths: least, usual, greatest.
    pub q10_tenths: [i64; 3],
    /// Where the usual one comes from.
    pub q10_basis: Basis,
}

/// The figures. `None` only if the table were broken, which a test excludes.
pub fn stability_figures() -> Option<StabilityFigures> {
    let thousandths = |key: &str| FIGURES.0.iter().find(|row| row.key == key).map(|row| row.thousandths);
    let score = |key| u8::try_from(thousandths(key)? / 1_000).ok();
    let tenths = |key| thousandths(key).map(|value| value / 100);
    Some(StabilityFigures {
        change_care: score("change-care")?,
        change_outside: score("change-outside")?,
        ph_care: Ph::from_units(thousandths("ph-care")? / 10),
        ph_outside: Ph::from_units(thousandths("ph-outside")? / 10),
        weight_loss: Percent::from_units(thousandths("weight-loss")? * 1_000),
        q10_tenths: [tenths("q10-least")?, tenths("q10-usual")?, tenths("q10-greatest")?],
        q10_basis: FIGURES.0.iter().find(|row| row.key == "q10-usual")?.basis,
    })
}

struct Figure {
    key: &'static str,
    thousandths: i64,
    basis: Basis,
}

type Read<T> = LazyLock<(Vec<T>, Vec<RowProblem>)>;

static CONDITION_TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("data/stability.csv")));
static FIGURE_TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("data/stability-figures.csv")));
static CONDITIONS: Read<ConditionRow> = LazyLock::new(|| CONDITION_TABLE.parse(condition));
static FIGURES: Read<Figure> = LazyLock::new(|| FIGURE_TABLE.parse(figure));

fn condition(row: CsvRow<'static>) -> Result<ConditionRow, RowProblem> {
    let celsius = match row.get("celsius")? {
        "" => None,
        text => Some(Celsius::from_canonical(text).map_err(|_| row.wrong_cell("celsius", text, "a temperature"))?),
    };
    let usual = match row.get("usual")? {
        "yes" => true,
        "no" => false,
        other => return Err(row.wrong_cell("usual", other, "yes or no")),
    };
    let basis = Basis { source: row.get("sources")?, provenance: Provenance::read(row, "seen")? };
    Ok(ConditionRow { id: row.get("id")?, celsius, points: row.get("points")?, usual, basis })
}

fn figure(row: CsvRow<'static>) -> Result<Figure, RowProblem> {
    let text = row.get("value")?;
    let read = read_number(text).ok().filter(|number| number.places <= 3);
    let thousandths = read.and_then(|number| i64::try_from(number.digits * 10i128.pow(3 - number.places)).ok());
    match row.get("unit")? {
        "score" | "ph" | "percent" | "ratio" => {}
        other => return Err(row.wrong_cell("unit", other, "score, ph, percent or ratio")),
    }
    let basis = Basis { source: row.get("source")?, provenance: Provenance::read(row, "seen")? };
    Ok(Figure {
        key: row.get("key")?,
        thousandths: thousandths.ok_or_else(|| row.wrong_cell("value", text, "a number"))?,
        basis,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tables_of_stability_are_read_and_sorted() {
        assert_eq!((&CONDITIONS.1, &FIGURES.1), (&Vec::new(), &Vec::new()));
        assert!(CONDITIONS.0.is_sorted_by(|a, b| a.id < b.id) && FIGURES.0.is_sorted_by(|a, b| a.key < b.key));
        assert_eq!((CONDITIONS.0.len(), FIGURES.0.len()), (7, 8));
        assert!(FIGURES.0.iter().all(|row| row.basis.source.len() > 9 && !row.basis.provenance.may_stop()));
        let found = stability_figures().unwrap();
        assert_eq!((found.ph_care, found.ph_outside), (Ph::from_units(50), Ph::from_units(100)));
        assert_eq!((found.change_care, found.change_outside, found.q10_tenths), (2, 4, [15, 20, 30]));
        assert_eq!(found.weight_loss, Percent::from_units(3_000_000));
    }
}
