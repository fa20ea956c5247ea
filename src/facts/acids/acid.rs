//! The table of acids, bases and salts: dissociation constants, heats, charges and molar masses.
//!
//! `data/acids.csv` holds one row a substance, sorted by id, `data/acid-sources.csv` what its short keys stand for. A
//! row with constants is a *system*; a salt names the system that it brings (`parent`) and the charge of what else it
//! brings (`ion`: +1 for one Na⁺ or K⁺, -1 for one Cl⁻); a strong acid or base brings only that. The column `seen` names
//! what was seen in a stored copy of the source (`pka`, `heat`); everything else is from memory, but for molar masses,
//! which follow from atomic weights.

use std::sync::LazyLock;

use crate::facts::{CsvRow, CsvTable, IngredientId, Provenance, RowProblem, read_sources, sources_of};

/// The value of an ingredient's `acid_base` link that says: it moves or holds the pH, and no constants tell how much.
pub const UNCOUNTED: &str = "uncounted";

/// One step of dissociation, at 25 °C and no ionic strength.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DissociationStep {
    /// The constant, as pKa.
    pub pka: f64,
    /// Heat of dissociation in kJ/mol, if it is known.
    pub heat: Option<f64>,
    /// Change of heat capacity in J/(mol K); zero where it is not known.
    pub heat_capacity: f64,
}

/// Which way a pH is set with it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Adjusts {
    /// Down.
    Down,
    /// Up.
    Up,
}

/// One row.
#[derive(Debug)]
pub struct Acid {
    /// Its id.
    pub id: &'static str,
    /// Which way makers set a pH with it, if they do.
    pub adjusts: Option<Adjusts>,
    /// The system that a salt brings.
    parent: Option<&'static str>,
    /// Charge of the strong ions in one formula unit: +1 for a sodium salt or sodium hydroxide.
    pub ion: i32,
    /// Molar mass in g/mol.
    pub mass: f64,
    /// Charge of the fully protonated form.
    pub charge: i32,
    /// Steps of dissociation in falling acidity; empty for salts and strong acids and bases.
    pub steps: Vec<DissociationStep>,
    /// How far sources disagree about the first constant.
    pub span: Option<(f64, f64)>,
    /// Substance in what is sold, as shares of 1: least and greatest. Supplier's documents beat it.
    pub assay: (f64, f64),
    /// How well the constants are known.
    pub provenance: Provenance,
    /// Where the row was read.
    pub sources: Vec<&'static str>,
}

impl Acid {
    /// The row whose constants count: its own, or those of the acid that a salt brings. None for strong ones.
    pub fn system(&self) -> Option<&'static Acid> {
        match self.parent {
            Some(parent) => acid(parent),
            None if self.steps.is_empty() => None,
            None => acid(self.id),
        }
    }

    /// True if activities must not be corrected: its constants are conditional ones, or its ions carry charges of four
    /// and more, which no simple law describes.
    pub fn conditional(&self) -> bool {
        self.steps
            .iter()
            .scan(self.charge, |z, _| {
                *z -= 1;
                Some(*z)
            })
            .any(|z| z <= -4)
    }
}

/// The row of an ingredient's `acid_base` link.
pub fn acid(id: &str) -> Option<&'static Acid> {
    let all = acids();
    all.binary_search_by(|row| row.id.cmp(id)).ok().and_then(|n| all.get(n))
}

/// All rows, sorted by id. A row that cannot be read is left out; a test sees to it that there is none.
pub fn acids() -> &'static [Acid] {
    &ROWS.0
}

static TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("../data/acids.csv")));
static SOURCES: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("../data/acid-sources.csv")));

static ROWS: LazyLock<(Vec<Acid>, Vec<RowProblem>)> = LazyLock::new(|| {
    let sources = read_sources(&SOURCES);
    TABLE.parse(|row| read_row(row, &sources))
});

fn read_row(row: CsvRow<'static>, sources: &[(&str, &'static str)]) -> Result<Acid, RowProblem> {
    let id = row.get("id")?;
    IngredientId::parse(id).map_err(|_| row.wrong_cell("id", id, "a kebab-case id"))?;
    let parent = row.get("parent")?;
    let whole = |column: &str| match row.get(column)? {
        "" => Ok(0),
        text => text.parse().map_err(|_| row.wrong_cell(column, text, "a whole number")),
    };
    let (pka, heat, capacity) =
        (numbers(row, "pka", ';')?, numbers(row, "heat", ';')?, numbers(row, "heat_capacity", ';')?);
    let matches = |of: &[f64]| of.is_empty() || of.len() == pka.len();
    if !matches(&heat) || !matches(&capacity) {
        return Err(row.wrong_cell("heat", row.get("heat")?, "as many numbers as constants"));
    }
    let steps = pka.iter().enumerate().map(|(n, pka)| DissociationStep {
        pka: *pka,
        heat: heat.get(n).copied(),
        heat_capacity: capacity.get(n).copied().unwrap_or(0.0),
    });
    Ok(Acid {
        id,
        adjusts: match row.get("adjusts")? {
            "" => None,
            "acid" => Some(Adjusts::Down),
            "base" => Some(Adjusts::Up),
            other => return Err(row.wrong_cell("adjusts", other, "acid, base or nothing")),
        },
        parent: Some(parent).filter(|parent| !parent.is_empty()),
        ion: whole("ion")?,
        mass: numbers(row, "mass", ';')?.first().copied().ok_or_else(|| row.wrong_cell("mass", "", "a molar mass"))?,
        charge: whole("charge")?,
        steps: steps.collect(),
        span: pair(&numbers(row, "span", '-')?),
        assay: pair(&numbers(row, "assay", '-')?).map_or((1.0, 1.0), |(low, high)| (low / 100.0, high / 100.0)),
        provenance: Provenance::of_value(row, "pka", &["pka", "heat"])?,
        sources: sources_of(row, sources)?,
    })
}

fn numbers(row: CsvRow<'static>, column: &str, between: char) -> Result<Vec<f64>, RowProblem> {
    let cell = row.get(column)?;
    // A minus at the start belongs to the number.
    let cut = |text: &'static str| text.split(between).map(str::parse).collect::<Result<Vec<f64>, _>>();
    if cell.is_empty() {
        return Ok(Vec::new());
    }
    cut(cell)
        .ok()
        .filter(|all| all.iter().all(|number| number.is_finite()))
        .ok_or_else(|| row.wrong_cell(column, cell, "numbers"))
}

fn pair(numbers: &[f64]) -> Option<(f64, f64)> {
    Some((*numbers.first()?, *numbers.last()?))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::facts::materials;

    #[test]
    fn acids_every_row_is_read_and_sorted() {
        assert_eq!(ROWS.1.iter().map(ToString::to_string).collect::<Vec<_>>(), Vec::<String>::new());
        let ids: Vec<_> = TABLE.rows().map(|row| row.get("id").unwrap()).collect();
        assert!(ids.is_sorted_by(|a, b| a < b));
        for row in acids() {
            assert!(row.steps.is_sorted_by(|a, b| a.pka < b.pka), "{}", row.id);
            assert!(row.mass > 30.0 && row.mass < 400.0, "{}", row.id);
            assert!(row.assay.0 > 0.0 && row.assay.0 <= row.assay.1 && row.assay.1 <= 1.0, "{}", row.id);
            assert!(row.parent.is_none_or(|id| acid(id).is_some_and(|system| !system.steps.is_empty())), "{}", row.id);
            assert!(row.parent.is_some() || !row.steps.is_empty() || row.ion != 0, "{}: does nothing", row.id);
            if let (Some((low, high)), Some(step)) = (row.span, row.steps.first()) {
                assert!(low <= step.pka && step.pka <= high, "{}", row.id);
            }
        }
    }

    #[test]
    fn acids_links_of_ingredients_lead_here() {
        for material in materials() {
            let link = material.links.acid_base;
            assert!(link.is_none_or(|id| id == UNCOUNTED || acid(id).is_some()), "{}: {link:?}", material.id);
        }
    }

    // Source: atomic weights (IUPAC 2021, abridged): Na 22.990, K 39.098, H 1.008, O 15.999. A salt weighs what its acid
    // and its ions weigh, less one hydrogen for each; crystal water comes on top.
    #[test]
    fn acids_salts_weigh_what_their_parts_weigh() {
        let (na, k, h, water) = (22.990, 39.098, 1.008, 18.015);
        for (salt, of, ion, ions, waters) in [
            ("sodium-benzoate", "benzoic-acid", na, 1.0, 0.0),
            ("potassium-sorbate", "sorbic-acid", k, 1.0, 0.0),
            ("sodium-sorbate", "sorbic-acid", na, 1.0, 0.0),
            ("sodium-dehydroacetate", "dehydroacetic-acid", na, 1.0, 0.0),
            ("sodium-salicylate", "salicylic-acid", na, 1.0, 0.0),
            ("sodium-lactate-60", "lactic-acid", na, 1.0, 0.0),
            ("sodium-pca-50", "pca", na, 1.0, 0.0),
            ("sodium-citrate", "citric-acid", na, 3.0, 2.0),
            ("disodium-edta", "edta", na, 2.0, 2.0),
        ] {
            let expected = acid(of).unwrap().mass + ions * (ion - h) + waters * water;
            let mass = acid(salt).unwrap().mass;
            assert!((mass - expected).abs() < 0.02, "{salt}: {mass} against {expected}");
        }
    }

    #[test]
    fn acids_that_set_a_ph_are_ingredients_both_ways() {
        let ways = materials().filter_map(|material| acid(material.links.acid_base?)?.adjusts);
        let (down, up): (Vec<_>, Vec<_>) = ways.partition(|way| *way == Adjusts::Down);
        assert_eq!((down.len(), up.len()), (2, 5));
    }

    #[test]
    fn acids_conditional_are_those_of_high_charge() {
        let conditional: Vec<_> = acids().iter().filter(|row| row.conditional()).map(|row| row.id).collect();
        assert_eq!(conditional, ["edta"]);
    }
}
