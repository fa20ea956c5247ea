//! Shares of salts and esters as what an entry reckons them: `as acid`, `as phenol`, `as free SO2`.
//!
//! `data/reckoned.csv` holds the share of the one in the other by molar mass (atomic weights of IUPAC, abridged).

use std::borrow::Cow;
use std::sync::LazyLock;

use crate::facts::CsvTable;
use crate::law;
use crate::names::{Meaning, recognise};
use crate::quantity::{Percent, Quantity, sort_by};

/// How much of what it is reckoned as is in a substance.
#[derive(Clone)]
struct PartOfSubstance {
    means: Meaning,
    basis: &'static str,
    share: Percent,
}

static TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(law::FILE.text("../compliance/data/reckoned.csv")));
static RECKONED: LazyLock<Vec<PartOfSubstance>> = LazyLock::new(|| {
    let read = |row: crate::facts::CsvRow<'static>| {
        let name = row.get("substance").ok()?;
        let means = recognise(name, None).means.into_iter().next();
        Some(PartOfSubstance {
            means: means.unwrap_or(Meaning::Inci(Cow::Borrowed(name))),
            basis: row.get("reckoned_as").ok()?,
            share: Percent::from_canonical(row.get("percent").ok()?).ok()?,
        })
    };
    let mut all: Vec<PartOfSubstance> = TABLE.rows().filter_map(read).collect();
    sort_by(&mut all, |a, b| a.means.cmp(&b.means));
    all
});

/// A share of a substance, reckoned as what an entry says; none where that is not known.
pub(super) fn reckoned(means: &Meaning, basis: &str, share: Percent) -> Option<Percent> {
    let start = RECKONED.partition_point(|known| known.means < *means);
    let mut same = RECKONED.iter().skip(start).take_while(|known| known.means == *means);
    same.find(|known| known.basis == basis).map(|known| known.share.of(share))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reckoned_substances_are_recognised_and_never_more_than_the_whole() {
        let count = TABLE.rows().count();
        assert!(count > 50 && RECKONED.len() == count, "{count}");
        for row in TABLE.rows() {
            let (name, source) = (row.get("substance").unwrap(), row.get("source").unwrap());
            let means = recognise(name, None).means;
            assert_eq!(means.len(), 1, "{name}: {means:?}");
            let share = reckoned(&means[0], row.get("reckoned_as").unwrap(), Percent::WHOLE).unwrap();
            assert!(share <= Percent::WHOLE && !source.is_empty(), "{name}");
        }
    }

    // 122.123 of 144.105 g/mol: 0.59 % of sodium benzoate are 0.5 % of benzoic acid, not more.
    #[test]
    fn reckoned_benzoate_is_acid_by_molar_mass() {
        let means = Meaning::Material("sodium-benzoate");
        let percent = |text| Percent::from_canonical(text).unwrap();
        assert_eq!(reckoned(&means, "acid", percent("0.59")), Some(percent("0.5")));
        assert_eq!(reckoned(&means, "zinc", percent("0.59")), None);
    }
}
