//! How preservatives divide between water and oil, and how much of them water holds: `data/partition.csv`.
//!
//! A partition coefficient is the concentration of the undissociated form in the oil over that in the water. Where nobody is
//! known to have measured one, it is estimated from octanol and water, and its doubt is wider.

use std::sync::LazyLock;

use crate::facts::{CsvRow, CsvTable, Provenance, RowProblem};
use crate::quantity::read_number;

/// What of a substance acts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ActingForm {
    /// Its undissociated molecules in the water.
    Molecule,
    /// Its ion: what counts is that nothing binds it.
    Ion,
    /// It gathers at the drops and in micelles: no coefficient tells how much of it is free.
    Surface,
}

/// How much of a substance water holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum WaterSolubility {
    /// Any amount that a formula has.
    Miscible,
    /// Its undissociated form, in g/L.
    Limited {
        /// How much.
        grams_per_litre: f64,
        /// At which temperature, in °C.
        celsius: f64,
        /// Heat of solution in kJ/mol, by which it changes with temperature.
        heat: f64,
        /// How well it is known.
        provenance: Provenance,
    },
    /// Nobody says.
    Unknown,
}

/// J/(mol K), and 0 °C in K.
const GAS: f64 = 8.314;
const FREEZING: f64 = 273.15;

impl WaterSolubility {
    /// How much water holds at a temperature in °C, in g/L, by van 't Hoff from the one at which it was measured; nothing where
    /// any amount or nobody knows. Good within a tenth over 20 K; a slope over more than that is no straight line.
    pub fn at(self, celsius: f64) -> Option<f64> {
        let Self::Limited { grams_per_litre, celsius: measured, heat, .. } = self else { return None };
        let inverse = |celsius: f64| 1.0 / (celsius + FREEZING);
        Some(grams_per_litre * (heat * 1000.0 / GAS * (inverse(measured) - inverse(celsius))).exp())
    }
}

/// A coefficient and how far it may be wrong.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PartitionCoefficient {
    /// The coefficient.
    pub value: f64,
    /// It lies between a `doubt`-th of it and `doubt` times it.
    pub doubt: f64,
    /// How well it is known; nothing where it is estimated.
    pub provenance: Option<Provenance>,
}

/// A row.
#[derive(Debug, Clone, PartialEq)]
pub struct Partition {
    /// Its row in the table of preservatives.
    pub id: &'static str,
    /// What of it acts.
    pub acts: ActingForm,
    /// How much water holds.
    pub solubility: WaterSolubility,
    /// Between vegetable oil and water.
    pub vegetable: Option<PartitionCoefficient>,
    /// Between liquid paraffin and water, where that was measured.
    pub paraffin: Option<PartitionCoefficient>,
    /// Where it all comes from.
    pub sources: &'static str,
    /// Something to know of it; may be empty.
    pub note: &'static str,
}

/// The row of a preservative.
pub fn partition(id: &str) -> Option<&'static Partition> {
    ROWS.0.iter().find(|row| row.id == id)
}

/// The coefficient between a vegetable oil and water that follows from that between octanol and water, for what gives a hydrogen
/// bond: acids, phenols, alcohols. log K = 1.10 log Kow − 1.31.
///
/// Source: Leo, Hansch and Elkins, Chem. Rev. 71 (1971) 525; the two numbers from memory.
pub fn estimated_in_vegetable_oil(log_kow: f64) -> f64 {
    10f64.powf(1.10 * log_kow - 1.31)
}

static TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("data/partition.csv")));
static ROWS: LazyLock<(Vec<Partition>, Vec<RowProblem>)> = LazyLock::new(|| TABLE.parse(read));

fn read(row: CsvRow<'static>) -> Result<Partition, RowProblem> {
    let number = |column: &str| -> Result<Option<f64>, RowProblem> {
        let text = row.get(column)?;
        if text.is_empty() {
            return Ok(None);
        }
        let read = read_number(text).ok().filter(|number| number.unit.is_empty());
        let number = read.ok_or_else(|| row.wrong_cell(column, text, "a number"))?;
        Ok(Some(number.digits as f64 / 10f64.powi(number.places as i32)))
    };
    let acts = match row.get("acts")? {
        "molecule" => ActingForm::Molecule,
        "ion" => ActingForm::Ion,
        "surface" => ActingForm::Surface,
        other => return Err(row.wrong_cell("acts", other, "molecule, ion or surface")),
    };
    let solubility = match row.get("solubility")? {
        "" => WaterSolubility::Unknown,
        "miscible" => WaterSolubility::Miscible,
        text => WaterSolubility::Limited {
            grams_per_litre: number("solubility")?.ok_or_else(|| row.wrong_cell("solubility", text, "a number"))?,
            celsius: number("solubility_at")?.ok_or_else(|| row.wrong_cell("solubility_at", "", "a temperature"))?,
            heat: number("solution_heat")?.ok_or_else(|| row.wrong_cell("solution_heat", "", "a heat of solution"))?,
            provenance: Provenance::read(row, "solubility_seen")?,
        },
    };
    let doubt = number("oil_doubt")?.ok_or_else(|| row.wrong_cell("oil_doubt", "", "a factor"))?;
    let measured = |column: &str| -> Result<Option<PartitionCoefficient>, RowProblem> {
        let Some(value) = number(column)? else { return Ok(None) };
        let provenance = Some(Provenance::read(row, "in_oil_seen")?);
        Ok(Some(PartitionCoefficient { value, doubt, provenance }))
    };
    let estimated = number("log_kow")?.map(|log_kow| PartitionCoefficient {
        value: estimated_in_vegetable_oil(log_kow),
        doubt,
        provenance: None,
    });
    Ok(Partition {
        id: row.get("id")?,
        acts,
        solubility,
        vegetable: measured("in_vegetable")?.or(estimated),
        paraffin: measured("in_paraffin")?,
        sources: row.get("sources")?,
        note: row.get("note")?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::facts::preservative;

    #[test]
    fn partition_every_row_is_read_and_is_a_preservative() {
        assert_eq!(ROWS.1.iter().map(ToString::to_string).collect::<Vec<_>>(), Vec::<String>::new());
        assert!(ROWS.0.is_sorted_by(|a, b| a.id < b.id));
        for row in &ROWS.0 {
            assert!(preservative(row.id).is_some_and(|known| known.id == row.id), "{}", row.id);
            for coefficient in row.vegetable.iter().chain(&row.paraffin) {
                let wide = coefficient.provenance.is_none_or(|seen| seen == Provenance::Custom);
                assert!(coefficient.doubt >= if wide { 4.0 } else { 2.0 }, "{}", row.id);
            }
        }
    }

    #[test]
    fn partition_is_estimated_where_nothing_was_measured() {
        let salicylic = partition("salicylic-acid").unwrap().vegetable.unwrap();
        assert_eq!((salicylic.provenance, salicylic.doubt), (None, 4.0));
        // 10^(1.10 × 2.26 − 1.31) = 10^1.176.
        assert!((salicylic.value - 14.99).abs() < 0.02);
    }
}
