//! What may harm the maker: classified raw materials, and the hazards of the workshop itself.
//!
//! `data/hazards.csv` holds one row a hazard, sorted by id; materials are named by the shelf's `hazard` link, the others
//! say when they are there (`when`). `data/statements.csv` holds the hazard and precautionary statements of CLP and GHS by
//! code; those joined by a plus sign are read one after another. A supplier's data sheet beats all of it.

use std::sync::LazyLock;

use super::basis::basis;
use crate::facts::{Basis, CsvRow, CsvTable, Provenance, RowProblem, Wrong};
use crate::quantity::{Celsius, Quantity};

/// When a hazard is there.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum When {
    /// When the material is in the formula.
    Material,
    /// Whenever something is made.
    Always,
    /// When a phase is heated.
    Heat,
    /// When a powder is weighed.
    Powder,
    /// When something volatile is opened.
    Volatile,
}

/// One hazard.
#[derive(Debug)]
pub struct Hazard {
    /// Its id: what an ingredient's `hazard` link names.
    pub id: &'static str,
    /// When it is there.
    pub when: When,
    /// What it is.
    pub material: &'static str,
    /// True for "Danger", false for "Warning"; none if it is not classified.
    pub danger: Option<bool>,
    /// Codes of its pictograms, `GHS05` without the letters.
    pub pictograms: Vec<&'static str>,
    /// Codes of its hazard statements.
    pub statements: Vec<&'static str>,
    /// Codes of its precautionary statements.
    pub precautions: Vec<&'static str>,
    /// The temperature at which its vapour can be lit, and how well that is known.
    pub flash: Option<(Celsius, Provenance)>,
    /// How to handle it.
    pub handling: &'static str,
    /// What to wear.
    pub protection: Vec<&'static str>,
    /// What to keep it away from.
    pub away_from: Vec<&'static str>,
    /// Where the row was read.
    pub basis: Basis,
}

/// The row of an ingredient's hazard link.
pub fn hazard(id: &str) -> Option<&'static Hazard> {
    hazards().iter().find(|row| row.id == id)
}

/// All rows, sorted by id.
pub fn hazards() -> &'static [Hazard] {
    &ROWS.0
}

/// The text of a statement's code, or of several joined by plus signs; `None` if one of them is not known.
pub fn statement(code: &str) -> Option<String> {
    let texts: Option<Vec<&str>> = code
        .split('+')
        .map(|code| STATEMENTS.iter().find(|(known, _)| *known == code).map(|(_, text)| *text))
        .collect();
    texts.map(|texts| texts.join(" "))
}

static TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("../data/hazards.csv")));
static ROWS: LazyLock<(Vec<Hazard>, Vec<RowProblem>)> = LazyLock::new(|| TABLE.parse(read_row));
static STATEMENT_TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("../data/statements.csv")));
static STATEMENTS: LazyLock<Vec<(&'static str, &'static str)>> =
    LazyLock::new(|| STATEMENT_TABLE.parse(|row| Ok((row.get("code")?, row.get("text")?))).0);

fn read_row(row: CsvRow<'static>) -> Result<Hazard, RowProblem> {
    let words = |column: &str| Ok(row.get(column)?.split(' ').filter(|word| !word.is_empty()).collect());
    let list = |column: &str| Ok(row.get(column)?.split("; ").filter(|word| !word.is_empty()).collect());
    Ok(Hazard {
        id: row.get("id")?,
        when: match row.get("when")? {
            "material" => When::Material,
            "always" => When::Always,
            "heat" => When::Heat,
            "powder" => When::Powder,
            "volatile" => When::Volatile,
            other => return Err(row.wrong_cell("when", other, "material, always, heat, powder or volatile")),
        },
        material: row.get("material")?,
        danger: match row.get("signal")? {
            "" => None,
            "danger" => Some(true),
            "warning" => Some(false),
            other => return Err(row.wrong_cell("signal", other, "danger, warning or nothing")),
        },
        pictograms: words("pictograms")?,
        statements: words("h")?,
        precautions: words("p")?,
        flash: match row.get("flash_c")? {
            "" => None,
            text => Some((
                Celsius::from_canonical(text).map_err(|problem| {
                    row.wrong(Wrong::Number { column: "flash_c".to_owned(), found: text.to_owned(), problem })
                })?,
                Provenance::read(row, "flash_seen")?,
            )),
        },
        handling: row.get("handling")?,
        protection: list("protection")?,
        away_from: list("away_from")?,
        basis: basis(row)?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::facts::materials;

    #[test]
    fn hazards_every_row_is_read_sorted_and_sourced() {
        assert_eq!(ROWS.1.iter().map(ToString::to_string).collect::<Vec<_>>(), Vec::<String>::new());
        assert_eq!(hazards().len(), 36);
        assert!(hazards().is_sorted_by(|a, b| a.id < b.id));
        for row in hazards() {
            assert!(!row.handling.is_empty() && !row.basis.source.is_empty(), "{}", row.id);
            assert_eq!(row.danger.is_some(), !row.statements.is_empty(), "{}", row.id);
            assert_eq!(row.danger.is_some(), !row.pictograms.is_empty(), "{}", row.id);
        }
        for material in materials() {
            assert!(material.links.hazard.is_none_or(|id| hazard(id).is_some()), "{}", material.id);
        }
    }

    #[test]
    fn hazards_every_code_has_its_text() {
        for row in hazards() {
            for code in row.statements.iter().chain(&row.precautions) {
                assert!(statement(code).is_some(), "{}: {code}", row.id);
            }
        }
        assert_eq!(statement("P301+P330+P331").as_deref(), Some("IF SWALLOWED: Rinse mouth. Do NOT induce vomiting."));
        assert_eq!(statement("H999"), None);
        assert!(STATEMENTS.is_sorted_by(|a, b| a.0 < b.0));
    }
}
