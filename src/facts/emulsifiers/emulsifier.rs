//! What kind of emulsifier something is, and how much of it an oil phase takes.
//!
//! `data/emulsifiers.csv` has those of the table of ingredients, by id, `data/emulsifier-names.csv` those that a maker
//! describes, by INCI name. Kinds and shares are from memory, so they warn and never stop.

use std::sync::LazyLock;

use crate::facts::{CsvRow, CsvTable, RowProblem, Wrong, fold};
use crate::quantity::{Percent, Quantity};

/// What an emulsifier is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum EmulsifierKind {
    /// A nonionic for which the HLB was made.
    Griffin,
    /// A wax that brings its own balance.
    SelfEmulsifying,
    /// It builds layers with fatty alcohols or of itself.
    Lamellar,
    /// It carries a negative charge.
    Anionic,
    /// It carries a positive charge.
    Cationic,
    /// A soap, which is anionic and falls apart in acid.
    Soap,
    /// It holds water in oil, whatever its HLB.
    WaterInOil,
    /// A polymer that sits around the drops.
    Polymeric,
    /// Lecithin, whose HLB depends on the grade.
    Lecithin,
    /// A fatty alcohol: it thickens and helps, and counts as part of the oil.
    FattyAlcohol,
}

/// What a share is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RatioOf {
    /// The oil phase without emulsifiers and fatty alcohols.
    Oil,
    /// The whole formula.
    Formula,
}

/// How much it takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct EmulsifierShare {
    /// Below this an emulsion is not to be expected.
    pub least: Percent,
    /// From here on it is usual.
    pub good: Percent,
    /// What both are shares of.
    pub of: RatioOf,
    /// Where they come from.
    pub source: &'static str,
}

/// One row.
#[derive(Debug, Clone, Copy)]
pub struct Emulsifier {
    /// The ingredient's id, or the INCI name of what a maker describes.
    pub id: &'static str,
    /// What it is.
    pub kind: EmulsifierKind,
    /// How much it takes.
    pub share: Option<EmulsifierShare>,
}

/// The row of an ingredient.
pub fn emulsifier(id: &str) -> Option<&'static Emulsifier> {
    ROWS.0.iter().find(|row| row.id == id)
}

/// The row of a substance by its INCI name, for what is on no table of ingredients.
pub fn emulsifier_named(name: &str) -> Option<&'static Emulsifier> {
    let folded = fold(name);
    NAMED.0.iter().find(|(key, _)| *key == folded).map(|(_, row)| row)
}

static TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("../data/emulsifiers.csv")));
static ROWS: LazyLock<(Vec<Emulsifier>, Vec<RowProblem>)> = LazyLock::new(|| TABLE.parse(|row| read_row(row, "id")));
static NAMES: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("../data/emulsifier-names.csv")));
/// Rows with their folded names.
type NamedRows = Vec<(String, Emulsifier)>;
static NAMED: LazyLock<(NamedRows, Vec<RowProblem>)> = LazyLock::new(|| {
    let named = |row| read_row(row, "name").map(|read| (fold(read.id), read));
    NAMES.parse(named)
});

impl EmulsifierKind {
    /// All.
    pub const ALL: [Self; 10] = [
        Self::Griffin,
        Self::SelfEmulsifying,
        Self::Lamellar,
        Self::Anionic,
        Self::Cationic,
        Self::Soap,
        Self::WaterInOil,
        Self::Polymeric,
        Self::Lecithin,
        Self::FattyAlcohol,
    ];

    /// Its key in the tables and in reports.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Griffin => "griffin",
            Self::SelfEmulsifying => "self-emulsifying",
            Self::Lamellar => "lamellar",
            Self::Anionic => "anionic",
            Self::Cationic => "cationic",
            Self::Soap => "soap",
            Self::WaterInOil => "water-in-oil",
            Self::Polymeric => "polymeric",
            Self::Lecithin => "lecithin",
            Self::FattyAlcohol => "fatty-alcohol",
        }
    }
}

fn read_row(row: CsvRow<'static>, id: &str) -> Result<Emulsifier, RowProblem> {
    let key = row.get("kind")?;
    let kind = EmulsifierKind::ALL.into_iter().find(|kind| kind.key() == key);
    let percent = |column: &str| {
        let text = row.get(column)?;
        Percent::from_canonical(text)
            .map_err(|problem| row.wrong(Wrong::Number { column: column.to_owned(), found: text.to_owned(), problem }))
    };
    let share = match row.get("of")? {
        "" => None,
        of => Some(EmulsifierShare {
            least: percent("least")?,
            good: percent("good")?,
            of: match of {
                "oil" => RatioOf::Oil,
                "formula" => RatioOf::Formula,
                other => return Err(row.wrong_cell("of", other, "oil, formula or nothing")),
            },
            source: row.get("source")?,
        }),
    };
    let kind = kind.ok_or_else(|| row.wrong_cell("kind", key, "a kind of emulsifier"))?;
    Ok(Emulsifier { id: row.get(id)?, kind, share })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::facts::{Field, material, materials, named_functions};

    #[test]
    fn emulsifiers_every_row_is_read_and_is_an_ingredient() {
        assert_eq!(ROWS.1.iter().map(ToString::to_string).collect::<Vec<_>>(), Vec::<String>::new());
        assert!(ROWS.0.is_sorted_by(|a, b| a.id < b.id));
        for row in &ROWS.0 {
            assert!(material(row.id).is_some(), "{}", row.id);
            assert!(row.share.is_none_or(|share| share.least < share.good && !share.source.is_empty()), "{}", row.id);
        }
    }

    #[test]
    fn emulsifiers_by_name_are_read_and_found() {
        assert_eq!(NAMED.1.iter().map(ToString::to_string).collect::<Vec<_>>(), Vec::<String>::new());
        assert!(NAMED.0.is_sorted_by(|(_, a), (_, b)| a.id < b.id));
        for (_, row) in &NAMED.0 {
            assert_eq!(emulsifier_named(row.id).unwrap().kind, row.kind, "{}", row.id);
            assert!(row.share.is_none_or(|share| share.least < share.good && !share.source.is_empty()), "{}", row.id);
        }
        assert!(emulsifier_named("Aqua").is_none());
    }

    #[test]
    fn emulsifiers_of_the_table_all_have_a_row() {
        for material in materials() {
            let functions = material.fact(Field::Functions).map_or("", |fact| fact.text);
            if !named_functions(functions).any(|name| name == "Surfactant - emulsifying") {
                continue;
            }
            let id = material.id.as_str();
            // Triethanolamine makes soap with stearic acid and is no emulsifier by itself; lanolin counts as an oil.
            let others = ["triethanolamine", "lanolin"];
            assert!(others.contains(&id) || emulsifier(id).is_some(), "{id}");
        }
    }
}
