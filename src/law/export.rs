//! Reads an export of the Commission's database of ingredients: one annex as a CSV file.
//!
//! The file begins with the day it was made, the annex with the day to which it is kept, a title and heads of groups; then
//! come the names of the columns and the rows. Columns are found by name, so that one more or in another place does no harm.

use super::dates::day_with_slashes;
use crate::quantity::Day;
use core::fmt;

use super::tidy::{list, tidy};
use super::{Annex, AnnexCell, AnnexEntry, names::names_in};
use crate::facts::{CsvRow, CsvTable};

/// An export as read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Export {
    /// Which annex it holds.
    pub annex: Annex,
    /// When the file was made.
    pub created: Day,
    /// To which day the annex is kept.
    pub updated: Day,
    /// Its rows, all of them, in their order.
    pub entries: Vec<AnnexEntry>,
}

/// Why a file is no export that can be used. Nothing of such a file is taken over.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Unusable {
    /// It is not UTF-8 text.
    NotText,
    /// A line that must be there is missing.
    Missing(&'static str),
    /// A day that is none.
    NoDay(String),
    /// It names an annex that is not one of II to VI.
    NoAnnex(String),
    /// The annex has no column of that name.
    NoColumn(Annex, &'static str),
    /// Rows that cannot be read: the first of them.
    Row(Annex, String),
    /// A row without a reference number or without a name.
    Bare(Annex, u64),
    /// It holds no row.
    NoRow(Annex),
}

impl fmt::Display for Unusable {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotText => write!(out, "the file is not UTF-8 text; save the export as CSV in UTF-8"),
            Self::Missing(what) => {
                write!(out, "found no {what}; is this an export of an annex as CSV, from its first line on?")
            }
            Self::NoDay(found) => write!(out, "found `{found}` where a day was expected, such as 28/08/2026"),
            Self::NoAnnex(found) => write!(out, "found `{found}` where an annex was expected, ANNEX II to ANNEX VI"),
            Self::NoColumn(annex, name) => {
                write!(out, "{annex} has no column `{name}`; have the columns been renamed?")
            }
            Self::Row(annex, problem) => write!(out, "{annex}, below its column names: {problem}"),
            Self::Bare(annex, line) => {
                write!(out, "{annex}, line {line} below its column names: a row without a reference number or a name")
            }
            Self::NoRow(annex) => write!(
                out,
                "{annex} has no row: below the column names one row an entry was expected; take the whole export"
            ),
        }
    }
}

impl core::error::Error for Unusable {}

/// What the row of column names begins with, in quotes or without.
const COLUMNS: [&str; 2] = ["\"Reference Number\"", "Reference Number"];
const CREATED: &str = "File creation date:";
const UPDATED: &str = "Last update:";

impl Export {
    /// Reads a file.
    ///
    /// # Errors
    /// If it is no such export, or any row of it cannot be read: no entry is dropped without a word.
    pub fn read(bytes: &[u8]) -> Result<Self, Unusable> {
        let text = core::str::from_utf8(bytes).map_err(|_| Unusable::NotText)?;
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        let start = COLUMNS
            .iter()
            .find_map(|name| line_start(text, name))
            .ok_or(Unusable::Missing("row of column names, `\"Reference Number\",…`"))?;
        let (head, body) = text.split_at(start);
        let created = day_after(head, CREATED, "line `File creation date: …`")?;
        let updated = day_after(head, UPDATED, "`Last update: …`")?;
        let annex = annex_of(head)?;
        let table = CsvTable::read(body);
        let columns = columns(&table, annex)?;
        let (entries, problems) = table.parse(|row| entry(row, annex, &columns));
        if let Some(problem) = problems.first() {
            return Err(Unusable::Row(annex, problem.to_string()));
        }
        let bare =
            |entry: &&AnnexEntry| entry.reference.is_empty() || entry.chemical.is_empty() && entry.glossary.is_empty();
        if let Some(line) = table.rows().zip(&entries).find(|(_, entry)| bare(entry)).map(|(row, _)| row.line()) {
            return Err(Unusable::Bare(annex, line));
        }
        if entries.is_empty() {
            return Err(Unusable::NoRow(annex));
        }
        Ok(Self { annex, created, updated, entries })
    }
}

/// Where a line begins that starts with a text.
fn line_start(text: &str, with: &str) -> Option<usize> {
    text.match_indices(with).map(|(at, _)| at).find(|at| *at == 0 || text[..*at].ends_with('\n'))
}

fn day_after(head: &str, mark: &str, missing: &'static str) -> Result<Day, Unusable> {
    let (_, rest) = head.split_once(mark).ok_or(Unusable::Missing(missing))?;
    let found = rest.split(['"', '\n', '\r', ',']).next().unwrap_or_default().trim();
    day_with_slashes(found).ok_or_else(|| Unusable::NoDay(found.chars().take(40).collect()))
}

fn annex_of(head: &str) -> Result<Annex, Unusable> {
    let (_, rest) = head.split_once("ANNEX ").ok_or(Unusable::Missing("line `ANNEX …`"))?;
    let found = rest.split(['"', '\n', '\r', ',']).next().unwrap_or_default().trim();
    Annex::from_numeral(found).ok_or_else(|| Unusable::NoAnnex(found.chars().take(40).collect()))
}

/// The name of each cell's column in the file.
fn columns(table: &CsvTable, annex: Annex) -> Result<Vec<(AnnexCell, &'static str)>, Unusable> {
    let cells = AnnexCell::ALL.into_iter().filter(|cell| cell.stands_in(annex));
    cells
        .map(|cell| {
            let names = file_names(cell);
            let found = names.iter().find(|name| table.header().iter().any(|column| column == *name));
            let missing = Unusable::NoColumn(annex, names.first().copied().unwrap_or_default());
            found.map(|name| (cell, *name)).ok_or(missing)
        })
        .collect()
}

/// How the files call the column of a cell; some annexes differ.
const fn file_names(cell: AnnexCell) -> &'static [&'static str] {
    match cell {
        AnnexCell::Reference => &["Reference Number"],
        AnnexCell::Chemical => &["Chemical name / INN", "Chemical name"],
        AnnexCell::Glossary => {
            &["Name of Common Ingredients Glossary", "Colour index Number / Name of Common Ingredients Glossary"]
        }
        AnnexCell::Cas => &["CAS Number"],
        AnnexCell::Ec => &["EC Number"],
        AnnexCell::Colour => &["Color", "Colour"],
        AnnexCell::Product => &["Product Type, body parts"],
        AnnexCell::Maximum => &["Maximum concentration in ready for use preparation"],
        AnnexCell::Other => &["Other"],
        AnnexCell::Wording => &["Wording of conditions of use and warnings"],
        AnnexCell::Regulation => &["Regulation"],
        AnnexCell::Identified => &["Identified INGREDIENTS or substances e.g."],
        AnnexCell::Updated => &["Update Date"],
    }
}

fn entry(row: CsvRow<'_>, annex: Annex, columns: &[(AnnexCell, &str)]) -> Result<AnnexEntry, crate::facts::RowProblem> {
    let mut entry = AnnexEntry::empty(annex);
    for (cell, column) in columns {
        let text = row.get(column)?;
        let text = match cell {
            AnnexCell::Cas | AnnexCell::Ec | AnnexCell::Glossary => list(text),
            _ => tidy(text),
        };
        entry.set(*cell, text);
    }
    entry.identified = beyond(&entry);
    Ok(entry)
}

/// The identified ingredients without those that the entry names itself.
fn beyond(entry: &AnnexEntry) -> String {
    let known = |name: &str| {
        name.eq_ignore_ascii_case(&entry.chemical)
            || names_in(&entry.glossary).any(|known| known.eq_ignore_ascii_case(name))
    };
    let mut kept: Vec<&str> = Vec::new();
    for name in names_in(&entry.identified).filter(|name| !known(name)) {
        if !kept.iter().any(|before| before.eq_ignore_ascii_case(name)) {
            kept.push(name);
        }
    }
    kept.join(",")
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const SMALL: &str = "\"File creation date: 09/09/2026\"\n\"ANNEX VI\",\"Last update: 28/08/2026\"\n\"TITLE\"\n\
        \"Substance identification\",Conditions\n\"Reference Number\",\"Chemical name / INN\",\
        \"Name of Common Ingredients Glossary\",\"CAS Number\",\"EC Number\",\"Product Type, body parts\",\
        \"Maximum concentration in ready for use preparation\",Other,\"Wording of conditions of use and warnings\",\
        Regulation,\"Other Directives/Regulations\",\"SCCS opinions\",\"Chemical/IUPAC Name\",\
        \"Identified INGREDIENTS or substances e.g.\",CMR,\"Update Date\"\n\
        30,\"Zinc oxide\",\"ZINC OXIDE\",1314-13-2,-,,\"- 25%\n\n- \u{ad}In case\",,,\"(EU) 2016/621\",,,,\"ZINC OXIDE,NANO ZINC,\",,01/02/2016\n";

    #[test]
    fn export_of_one_row_is_read_whole() {
        let export = Export::read(SMALL.as_bytes()).unwrap();
        assert_eq!((export.annex, export.created, export.updated), (Annex::VI, day(9, 9), day(28, 8)));
        let [entry] = export.entries.as_slice() else { panic!("{export:?}") };
        assert_eq!((entry.title().as_str(), entry.ec.as_str()), ("Annex VI, 30", ""));
        assert_eq!((entry.maximum.as_str(), entry.identified.as_str()), ("- 25%\n- In case", "NANO ZINC"));
        // A byte order mark, and line ends of another system, change nothing.
        let other = format!("\u{feff}{}", SMALL.replace('\n', "\r\n"));
        assert_eq!(Export::read(other.as_bytes()), Ok(export));
    }

    fn day(day: u8, month: u8) -> Day {
        Day::from_calendar(2026, month, day).unwrap()
    }

    #[test]
    fn export_that_cannot_be_used_says_why() {
        let said = |text: &str| Export::read(text.as_bytes()).unwrap_err().to_string();
        for (from, to, words) in [
            ("Reference Number", "Number", "found no row of column names"),
            ("File creation date", "Made", "found no line `File creation date"),
            ("09/09/2026", "9 Sept", "found `9 Sept` where a day was expected"),
            ("ANNEX VI", "ANNEX VII", "found `VII` where an annex was expected"),
            ("\"EC Number\"", "EC", "Annex VI has no column `EC Number`"),
            (",,01/02/2016", ",01/02/2016", "found 15 cells, expected 16"),
            ("30,\"Zinc", ",\"Zinc", "without a reference number"),
        ] {
            assert!(SMALL.contains(from), "{from}");
            let said = said(&SMALL.replace(from, to));
            assert!(said.contains(words), "{from}: {said}");
        }
        assert!(said(&SMALL[..SMALL.find("30,").unwrap()]).contains("has no row"));
        assert_eq!(Export::read(&[0xff, 0xfe]), Err(Unusable::NotText));
    }

    proptest! {
        #[test]
        fn export_of_any_bytes_gives_a_sentence(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
            let unusable = Export::read(&bytes).unwrap_err().to_string();
            prop_assert!(unusable.len() > 20);
        }

        #[test]
        fn export_with_any_bytes_in_it_is_read_or_refused(at in 0usize..1000, cut in 0usize..40, bytes in prop::collection::vec(any::<u8>(), 0..20)) {
            let mut file = SMALL.as_bytes().to_vec();
            let at = at.min(file.len());
            file.splice(at..(at + cut).min(file.len()), bytes);
            match Export::read(&file) {
                Ok(export) => prop_assert!(!export.entries.is_empty()),
                Err(unusable) => prop_assert!(unusable.to_string().len() > 20),
            }
        }
    }
}
