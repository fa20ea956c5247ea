//! What may harm the maker: classified raw materials, and the hazards of the workshop itself.
//!
//! `data/hazards.csv` holds one row a hazard, sorted by id; materials are named by the shelf's `hazard` link, the others
//! say when they are there (`when`). A row holds for every substance of its `names`, too, and for that which the linked
//! material is, however it came into a formula. `added` are statements that suppliers add to the harmonised ones; `since`
//! and `until` are the days between which a classification has to be used. `data/statements.csv` holds the hazard and precautionary statements of CLP and GHS by
//! code; those joined by a plus sign are read one after another. A supplier's data sheet beats all of it.

use std::sync::LazyLock;

use super::basis::basis;
use crate::facts::{Basis, CsvRow, CsvTable, Field, Provenance, RowProblem, Wrong, fold, materials};
use crate::quantity::{Celsius, Day, Quantity};

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
    /// Names on labels of further substances that it holds for, folded.
    pub names: Vec<String>,
    /// The first day on which this classification has to be used, where that is to come or an older one is beside it.
    pub since: Option<Day>,
    /// The last day of this classification, where a newer one follows.
    pub until: Option<Day>,
    /// True for "Danger", false for "Warning"; none if it is not classified.
    pub danger: Option<bool>,
    /// Codes of its pictograms, `GHS05` without the letters.
    pub pictograms: Vec<&'static str>,
    /// Codes of its hazard statements.
    pub statements: Vec<&'static str>,
    /// Those of them that suppliers add to the harmonised classification.
    pub added: Vec<&'static str>,
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

/// The rows of a substance by its folded name on labels: one of a row's own names, or that of a material with one name that
/// links to it.
pub fn hazards_named(key: &str) -> Vec<&'static Hazard> {
    let start = NAMES.partition_point(|(name, _)| name.as_str() < key);
    NAMES.iter().skip(start).take_while(|(name, _)| name == key).map(|(_, row)| *row).collect()
}

static NAMES: LazyLock<Vec<(String, &'static Hazard)>> = LazyLock::new(|| {
    let own = hazards().iter().flat_map(|row| row.names.iter().map(move |name| (name.clone(), row)));
    let mut names: Vec<(String, &'static Hazard)> = own.collect();
    for material in materials() {
        let inci = material.fact(Field::Inci).map_or("", |fact| fact.text);
        let row = material.links.hazard.and_then(hazard).filter(|_| !inci.contains(';'));
        for name in inci.split(" or ").map(fold).filter(|name| !name.is_empty()) {
            names.extend(row.map(|row| (name, row)));
        }
    }
    names.sort_by(|a, b| (&a.0, a.1.id).cmp(&(&b.0, b.1.id)));
    names.dedup_by(|later, earlier| later.0 == earlier.0 && later.1.id == earlier.1.id);
    names
});

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
        names: row.get("names")?.split("; ").filter(|name| !name.is_empty()).map(fold).collect(),
        since: row.day("since")?,
        until: row.day("until")?,
        danger: match row.get("signal")? {
            "" => None,
            "danger" => Some(true),
            "warning" => Some(false),
            other => return Err(row.wrong_cell("signal", other, "danger, warning or nothing")),
        },
        pictograms: words("pictograms")?,
        statements: words("h")?,
        added: words("added")?,
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

    #[test]
    fn hazards_every_row_is_read_sorted_and_sourced() {
        assert_eq!(ROWS.1.iter().map(ToString::to_string).collect::<Vec<_>>(), Vec::<String>::new());
        assert_eq!(hazards().len(), 72);
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

    // Annex VI, Table 3 of Regulation (EC) No 1272/2008 up to the 23rd adaptation, and suppliers' data sheets for H290.
    #[test]
    fn hazards_hold_for_every_form_of_a_substance_and_their_days() {
        let ids = |name: &str| hazards_named(&fold(name)).iter().map(|row| row.id).collect::<Vec<_>>();
        assert_eq!(ids("Sodium Dehydroacetate"), ["dehydroacetic-acid"]);
        assert_eq!(ids("Phenoxyethanol"), ["phenoxyethanol"]);
        assert_eq!(ids("Iodopropynyl Butylcarbamate"), ["ipbc", "ipbc-2027"]);
        assert_eq!(ids("Glycerin"), Vec::<&str>::new());
        let (old, new) = (hazard("ipbc").unwrap(), hazard("ipbc-2027").unwrap());
        assert!(old.statements.contains(&"H331") && new.statements.contains(&"H330"));
        assert_eq!((old.until, new.since), (Day::read("2027-01-31"), Day::read("2027-02-01")));
        for id in ["sodium-hydroxide", "potassium-hydroxide"] {
            assert_eq!(hazard(id).unwrap().added, ["H290"]);
        }
        for row in hazards() {
            assert!(row.added.iter().all(|code| row.statements.contains(code)), "{}", row.id);
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
