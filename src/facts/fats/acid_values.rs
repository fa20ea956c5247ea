//! Free fatty acids as an ingredient, and how much alkali they take up.
//!
//! `data/acid-values.csv` has the acid value, in mg KOH per g, of those that a pharmacopoeia has a monograph on; of any
//! other it follows from the molar mass of the acid of that name.

use std::sync::LazyLock;

use super::acid_words::{Word, read_word};
use super::profile::{OtherAcids, POTASSIUM_HYDROXIDE_MG};
use crate::facts::{CsvRow, CsvTable, Provenance, RowProblem, Span, Sv, around, fold, read_sources, sources_of};
use crate::quantity::Quantity;

/// What a free fatty acid takes up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct AcidValue {
    /// Both ends of its acid value.
    pub span: Span<Sv>,
    /// One between them.
    pub typical: Sv,
    /// How well it is known.
    pub provenance: Provenance,
}

static TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("../data/acid-values.csv")));
static SOURCES: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("../data/acid-value-sources.csv")));
type NameIndex = (Vec<(String, AcidValue)>, Vec<RowProblem>);

static ROWS: LazyLock<NameIndex> = LazyLock::new(|| {
    let sources = read_sources(&SOURCES);
    TABLE.parse(|row| read_row(row, &sources))
});

fn read_row(row: CsvRow<'static>, sources: &[(&str, &'static str)]) -> Result<(String, AcidValue), RowProblem> {
    sources_of(row, sources)?;
    let end = |column: &str| {
        let text = row.get(column)?;
        Sv::from_canonical(text).map_err(|_| row.wrong_cell(column, text, "an acid value"))
    };
    let span = Span { low: end("low")?, high: end("high")? };
    Ok((fold(row.get("name")?), AcidValue { span, typical: span.middle(), provenance: Provenance::read(row, "seen")? }))
}

/// The acid value of a fatty acid by its INCI name; nothing for any other name.
pub fn acid_value(name: &str) -> Option<AcidValue> {
    let folded = fold(name);
    if let Some((_, value)) = ROWS.0.iter().find(|(known, _)| *known == folded) {
        return Some(*value);
    }
    // An oil or ester is named by its acid too, but for that word.
    if !folded.ends_with(" acid") {
        return None;
    }
    let Some(Word::Acid(acid)) = read_word(name) else { return None };
    let typical = Sv::nearest(POTASSIUM_HYDROXIDE_MG / OtherAcids::of(&acid).molar_mass);
    Some(AcidValue { span: around(typical), typical, provenance: Provenance::Memory })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn acid_values_are_read_and_sorted() {
        assert_eq!(ROWS.1.iter().map(ToString::to_string).collect::<Vec<_>>(), Vec::<String>::new());
        assert!(
            ROWS.0.is_sorted_by(|a, b| a.0 < b.0) && ROWS.0.iter().all(|(_, value)| value.provenance.is_verified())
        );
    }

    // Source: 56105.6 mg KOH by the molar mass, IUPAC standard atomic weights (2021): lauric acid 200.322, 280.1.
    #[test]
    fn acid_value_follows_from_the_name_where_no_monograph_has_one() {
        assert_eq!(acid_value("Lauric Acid").unwrap().typical, Sv::nearest(280.08));
        assert_eq!(acid_value("Stearic Acid").unwrap().span, Span { low: Sv::whole(194), high: Sv::whole(212) });
        for other in ["Citric Acid", "Oleic Palm Oil", "Glyceryl Oleate", "Linoleic", ""] {
            assert_eq!(acid_value(other), None, "{other}");
        }
    }
}
