//! The two alkalis that make soap, and how dangerous they are.
//!
//! `data/alkalis.csv` says of each group how well it is known: purities as sold, strongest solution, pH of the soap and days
//! of cure are from memory; the classification was seen.

use std::sync::LazyLock;

use crate::facts::{CsvRow, CsvTable, Provenance, RowProblem};
use crate::quantity::{Percent, Ph, Quantity};

/// An alkali.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Alkali {
    /// Sodium hydroxide, for solid soap.
    Sodium,
    /// Potassium hydroxide, for soft and liquid soap.
    Potassium,
}

/// What is known about an alkali.
#[derive(Debug, Clone)]
pub struct AlkaliRow {
    /// The id of its ingredient.
    pub id: &'static str,
    /// Its name.
    pub name: &'static str,
    /// Its formula.
    pub formula: &'static str,
    /// Purity as it is mostly sold, from and to.
    pub purity: (Percent, Percent),
    /// Signal word of its label.
    pub signal: &'static str,
    /// Its pictograms.
    pub pictograms: &'static str,
    /// Its hazard statements.
    pub h_codes: &'static str,
    /// Its precautionary statements.
    pub p_codes: &'static str,
    /// Where the classification was read.
    pub source: &'static str,
    /// Whether it was seen there.
    pub provenance: Provenance,
    /// The strongest solution that stays one near 20 °C.
    pub most_concentration: Percent,
    /// The pH that a solution of its soap mostly has.
    pub ph: (Ph, Ph),
    /// Days that the soap rests before use.
    pub cure_days: (u16, u16),
}

impl Alkali {
    /// Both, in the order of work.
    pub const ALL: [Self; 2] = [Self::Sodium, Self::Potassium];

    /// The id of its ingredient.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Sodium => "sodium-hydroxide",
            Self::Potassium => "potassium-hydroxide",
        }
    }

    /// Molar mass in units of 0.0001 g/mol: 39.9971 and 56.1056. Source: IUPAC standard atomic weights (2021), abridged.
    pub const fn molar_mass(self) -> i64 {
        match self {
            Self::Sodium => 399_971,
            Self::Potassium => 561_056,
        }
    }

    /// What the table has on it; a test sees to it that it has.
    pub fn row(self) -> Option<&'static AlkaliRow> {
        ALKALIS.0.iter().find(|row| row.id == self.id())
    }
}

/// The strongest solution that any of these alkalis may have; nothing without a row.
pub fn strongest_lye(alkalis: impl IntoIterator<Item = Alkali>) -> Option<Percent> {
    alkalis.into_iter().filter_map(|alkali| Some(alkali.row()?.most_concentration)).min()
}

static TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("../data/alkalis.csv")));

static ALKALIS: LazyLock<(Vec<AlkaliRow>, Vec<RowProblem>)> = LazyLock::new(|| TABLE.parse(read_row));

fn read_row(row: CsvRow<'static>) -> Result<AlkaliRow, RowProblem> {
    let percent = |column| number::<Percent>(row, column);
    let days = |column| row.get(column)?.parse().map_err(|_| row.wrong_cell(column, "", "a number of days"));
    Ok(AlkaliRow {
        id: row.get("id")?,
        name: row.get("name")?,
        formula: row.get("formula")?,
        purity: (percent("purity_low")?, percent("purity_high")?),
        signal: row.get("signal")?,
        pictograms: row.get("pictograms")?,
        h_codes: row.get("h_codes")?,
        p_codes: row.get("p_codes")?,
        source: row.get("clp_source")?,
        provenance: Provenance::read(row, "clp_seen")?,
        most_concentration: percent("most_concentration")?,
        ph: (number(row, "ph_low")?, number(row, "ph_high")?),
        cure_days: (days("cure_low_days")?, days("cure_high_days")?),
    })
}

fn number<Q: Quantity>(row: CsvRow<'static>, column: &'static str) -> Result<Q, RowProblem> {
    let text = row.get(column)?;
    Q::from_canonical(text).map_err(|_| row.wrong_cell(column, text, "a decimal"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn alkalis_are_read_and_are_ingredients() {
        assert!(ALKALIS.1.is_empty(), "{:?}", ALKALIS.1);
        for alkali in Alkali::ALL {
            let row = alkali.row().unwrap();
            assert!(row.provenance.is_verified() && row.h_codes.contains("H314"), "{}", row.id);
            assert!(crate::facts::material(row.id).is_some(), "{}", row.id);
        }
    }
}
