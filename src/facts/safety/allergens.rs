//! The fragrance allergens that a label must name, and the shares from which it must.
//!
//! `data/allergens.csv` holds one row a label name, sorted by name: 24 names that Regulation (EC) 1223/2009 had before
//! 2023, and those of Regulation (EU) 2023/1545, which new products need since 31 July 2026 (column `since`). Natural oils
//! and extracts are named as a whole beside what is in them.

use std::sync::LazyLock;

use super::basis::basis;
use crate::facts::{Basis, CsvRow, CsvTable, RowProblem, fold};
use crate::quantity::{Day, Percent};

/// One name that a label must carry.
#[derive(Debug)]
pub struct Allergen {
    /// As the label has it.
    pub name: &'static str,
    /// Other names: synonyms, isomers, the oils and extracts that it stands for.
    pub also: Vec<&'static str>,
    /// CAS numbers.
    pub cas: Vec<&'static str>,
    /// Entry in Annex III.
    pub entry: &'static str,
    /// To be named above this share of a product left on the skin.
    pub leave_on: Percent,
    /// To be named above this share of a product washed off.
    pub rinse_off: Percent,
    /// The day since which new products must name it; none if they always had to.
    pub since: Option<Day>,
    /// True for a natural oil or extract.
    pub oil: bool,
    /// Where the row was read.
    pub basis: Basis,
}

impl Allergen {
    /// True if it came with Regulation (EU) 2023/1545.
    pub const fn is_new(&self) -> bool {
        self.since.is_some()
    }
}

/// All rows, sorted by name. A row that cannot be read is left out; a test sees to it that there is none.
pub fn allergens() -> &'static [Allergen] {
    &ROWS.0
}

/// The row of a name as a supplier or a label writes it, whatever the case, accents and signs.
pub fn allergen(name: &str) -> Option<&'static Allergen> {
    allergen_of_key(&fold(name))
}

/// The same, by the folded name.
pub fn allergen_of_key(key: &str) -> Option<&'static Allergen> {
    let at = NAMES.binary_search_by(|(known, _)| known.as_str().cmp(key)).ok()?;
    allergens().get(NAMES.get(at)?.1)
}

/// The row of a CAS number, if only one row has it.
pub fn allergen_of_cas(cas: &str) -> Option<&'static Allergen> {
    let mut rows = allergens().iter().filter(|row| row.cas.contains(&cas));
    let row = rows.next()?;
    rows.next().is_none().then_some(row)
}

static TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("../data/allergens.csv")));
static ROWS: LazyLock<(Vec<Allergen>, Vec<RowProblem>)> = LazyLock::new(|| TABLE.parse(read_row));
static NAMES: LazyLock<Vec<(String, usize)>> = LazyLock::new(|| {
    let rows = allergens().iter().enumerate();
    let mut names: Vec<_> = rows
        .flat_map(|(n, row)| core::iter::once(&row.name).chain(&row.also).map(move |name| (fold(name), n)))
        .collect();
    names.sort();
    names.dedup_by(|later, earlier| later.0 == earlier.0);
    names
});

fn read_row(row: CsvRow<'static>) -> Result<Allergen, RowProblem> {
    Ok(Allergen {
        name: row.get("name")?,
        also: row.get("also")?.split("; ").filter(|name| !name.is_empty()).collect(),
        cas: row.get("cas")?.split(' ').filter(|number| !number.is_empty()).collect(),
        entry: row.get("entry")?,
        leave_on: row.percent("leave_on")?,
        rinse_off: row.percent("rinse_off")?,
        since: row.day("since")?,
        oil: row.get("kind")? == "oil",
        basis: basis(row)?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Quantity;

    #[test]
    fn allergens_every_row_is_read_and_named_once() {
        assert_eq!(ROWS.1.iter().map(ToString::to_string).collect::<Vec<_>>(), Vec::<String>::new());
        assert_eq!(allergens().len(), 81);
        for (n, row) in allergens().iter().enumerate() {
            assert!(allergens()[..n].iter().all(|other| fold(other.name) != fold(row.name)), "{} twice", row.name);
            assert!(allergens()[..n].iter().all(|other| other.entry != row.entry), "entry {} twice", row.entry);
            assert!(!row.basis.source.is_empty() && !row.entry.is_empty(), "{}", row.name);
            assert!(row.since.is_none_or(|since| Some(since) == Day::from_calendar(2026, 7, 31)), "{}", row.name);
            for cas in &row.cas {
                assert!(is_cas(cas), "{}: {cas}", row.name);
            }
        }
    }

    // Source: Regulation (EC) 1223/2009 Annex III, the same condition in every row: 0.001 % left on, 0.01 % washed off.
    #[test]
    fn allergens_thresholds_are_those_of_the_annex() {
        for row in allergens() {
            assert_eq!((row.leave_on.units(), row.rinse_off.units()), (1_000, 10_000), "{}", row.name);
        }
        assert_eq!(allergens().iter().filter(|row| !row.is_new()).count(), 24);
    }

    #[test]
    fn allergens_are_found_by_any_of_their_names() {
        for (name, expected) in [
            ("LINALOOL", Some("Linalool")),
            ("beta-caryophyllene", Some("Beta-Caryophyllene")),
            ("Lavandula Angustifolia Oil", Some("Lavandula Oil/Extract")),
            ("Citrus Sinensis Peel Oil", Some("Citrus Aurantium Peel Oil")),
            ("Neral", Some("Citral")),
            ("trans-beta-Damascone", Some("Rose Ketones")),
            ("Glycerin", None),
            ("", None),
        ] {
            assert_eq!(allergen(name).map(|row| row.name), expected, "{name}");
        }
        assert_eq!(allergen_of_cas("78-70-6").map(|row| row.name), Some("Linalool"));
        assert_eq!(allergen_of_cas("8028-48-6").map(|row| row.name), None, "two oils share it");
    }

    /// Source: the check digit of CAS registry numbers: digits from the right weighted 1, 2, 3 …, modulo ten.
    fn is_cas(text: &str) -> bool {
        let digits: Vec<u32> = text.chars().filter_map(|c| c.to_digit(10)).collect();
        let Some((check, body)) = digits.split_last() else { return false };
        let sum: u32 = body.iter().rev().zip(1..).map(|(digit, weight)| digit * weight).sum();
        sum % 10 == *check
    }
}
