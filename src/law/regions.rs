//! Where the law of another region differs from the annexes of the European Union, as far as it is known here.

use std::sync::LazyLock;

use super::{Annex, AnnexEntry, FILE};
use crate::facts::{CsvRow, CsvTable, Provenance, RowProblem};

static TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(FILE.text("data/regions.csv")));
static ROWS: LazyLock<(Vec<Regional>, Vec<RowProblem>)> = LazyLock::new(|| TABLE.parse(regional));

/// How a region's law stands to an entry.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RegionStanding {
    /// How its law stands to all of the annexes.
    Base,
    /// It differs.
    Differs,
    /// It may differ; not known here.
    Unknown,
}

/// A difference, with its source.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Regional {
    /// The region's key: `gb`, `us`.
    pub region: &'static str,
    /// The annex it is about; none for all of them.
    pub annex: Option<Annex>,
    /// The entry it is about; none for the whole annex.
    pub reference: Option<&'static str>,
    /// How it stands.
    pub standing: RegionStanding,
    /// What differs, in our words.
    pub difference: &'static str,
    /// Where it was read.
    pub source: &'static str,
    /// How well it is known.
    pub provenance: Provenance,
}

/// What is known of a region's law beside an entry: on all annexes, on its annex, on itself.
///
/// For a region that has no row at all nothing is known, and that has to be said.
pub fn regional_law<'a>(region: &'a str, entry: &'a AnnexEntry) -> impl Iterator<Item = &'static Regional> + 'a {
    ROWS.0.iter().filter(move |row| {
        row.region == region
            && row.annex.is_none_or(|annex| annex == entry.annex)
            && row.reference.is_none_or(|reference| reference == entry.reference)
    })
}

/// How a region's law stands to all of the annexes, where that is known.
pub fn base_law(region: &str) -> Option<&'static Regional> {
    ROWS.0.iter().find(|row| row.region == region && row.standing == RegionStanding::Base)
}

fn regional(row: CsvRow<'static>) -> Result<Regional, RowProblem> {
    let annex = match row.get("annex")? {
        "" => None,
        text => Some(Annex::from_numeral(text).ok_or_else(|| row.wrong_cell("annex", text, "II to VI or nothing"))?),
    };
    Ok(Regional {
        region: row.get("region")?,
        annex,
        reference: Some(row.get("reference")?).filter(|reference| !reference.is_empty()),
        standing: match row.get("kind")? {
            "base" => RegionStanding::Base,
            "differs" => RegionStanding::Differs,
            "unknown" => RegionStanding::Unknown,
            other => return Err(row.wrong_cell("kind", other, "base, differs or unknown")),
        },
        difference: row.get("difference")?,
        source: row.get("source")?,
        provenance: Provenance::read(row, "seen")?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::law::{COMPACT, Law};

    #[test]
    fn regions_are_read_whole_and_name_entries_that_exist() {
        assert_eq!(ROWS.1, []);
        let law = Law::read(COMPACT).unwrap();
        for row in &ROWS.0 {
            assert!(["gb", "us"].contains(&row.region) && !row.difference.is_empty() && !row.source.is_empty());
            if let (Some(annex), Some(reference)) = (row.annex, row.reference) {
                assert_eq!(law.find(annex, reference).count(), 1, "{annex}, {reference}");
            }
        }
        for region in ["gb", "us"] {
            let base = |row: &&Regional| row.region == region && row.standing == RegionStanding::Base;
            assert_eq!(ROWS.0.iter().filter(base).count(), 1, "{region}");
        }
    }

    #[test]
    fn regions_say_of_an_entry_what_is_known_beside_it() {
        let law = Law::read(COMPACT).unwrap();
        let salicylate = law.find(Annex::III, "324").next().unwrap();
        let of: Vec<_> = regional_law("gb", salicylate).map(|row| row.standing).collect();
        assert_eq!(of, [RegionStanding::Base, RegionStanding::Differs, RegionStanding::Unknown]);
        assert_eq!(regional_law("elsewhere", salicylate).count(), 0);
    }
}
