//! Tables that the page fetches as a file of their own, since a maker can begin without them.
//!
//! A [`DataFile`] names its tables. On the host, and in a program that is one piece, they are part of the program. The release
//! of the page (`--cfg split`) has none of them: `cargo task build` writes each file beside the program, and the page fetches
//! it and hands it to [`DataFile::fill`]. Until then every table is empty and [`DataFile::is_here`] says no: whoever answers from
//! a table asks first, since silence of a table that is not there would read as an answer.
//!
//! The form: a first line with a mark, the name and the number of tables, then for each table a line with its name and its
//! length in bytes, and its text as it is.

use core::fmt;
use std::sync::OnceLock;

/// How a file begins.
const MARK: &str = "hundred-parts data 1";

/// Tables in one file.
#[derive(Debug)]
pub struct DataFile {
    name: &'static str,
    tables: &'static [&'static str],
    /// The texts of the tables, in their order; none where the page fetches them.
    embedded: &'static [&'static str],
    fetched: OnceLock<String>,
}

/// Why a text is not a data file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DataFileProblem {
    /// It does not begin as this file does.
    Mark,
    /// This table is not where it should be, or not whole.
    Table(&'static str),
    /// Something follows the last table.
    Rest,
}

impl fmt::Display for DataFileProblem {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Mark => write!(out, "it is not the data file that was expected"),
            Self::Table(table) => write!(out, "the table {table} is not whole"),
            Self::Rest => write!(out, "something follows the last table"),
        }
    }
}

impl core::error::Error for DataFileProblem {}

impl DataFile {
    /// A file with these tables; `embedded` holds their texts, or nothing where they are fetched. See [`data_file!`].
    pub(crate) const fn new(
        name: &'static str,
        tables: &'static [&'static str],
        embedded: &'static [&'static str],
    ) -> Self {
        Self { name, tables, embedded, fetched: OnceLock::new() }
    }

    /// What it is called, without an ending.
    pub const fn name(&self) -> &'static str {
        self.name
    }

    /// Whether its tables can be read.
    pub fn is_here(&self) -> bool {
        self.embedded.len() == self.tables.len() || self.fetched.get().is_some()
    }

    /// Takes the tables from a file. Those that are there already stay.
    ///
    /// # Errors
    /// If the text is not this file, or not the whole of it; nothing is taken then.
    pub fn fill(&self, file: String) -> Result<(), DataFileProblem> {
        self.read(&file)?;
        let _ = self.fetched.set(file);
        Ok(())
    }

    /// The text of a table; empty before the file is here.
    pub fn text(&'static self, table: &str) -> &'static str {
        let place = self.tables.iter().position(|known| *known == table);
        let found = place.and_then(|place| match self.embedded.get(place) {
            Some(text) => Some(*text),
            None => self.read(self.fetched.get()?).ok()?.get(place).copied(),
        });
        found.unwrap_or_default()
    }

    /// The file, as [`Self::fill`] takes it.
    pub fn written(&'static self) -> String {
        let mut file = self.first_line();
        for table in self.tables {
            let text = self.text(table);
            file.push_str(&format!("{table} {}\n{text}", text.len()));
        }
        file
    }

    /// The tables that it names.
    #[cfg(test)]
    pub(crate) const fn tables(&self) -> &'static [&'static str] {
        self.tables
    }

    /// The same file as the page has it before it was fetched.
    #[cfg(test)]
    pub(crate) const fn unfetched(&self) -> Self {
        Self::new(self.name, self.tables, &[])
    }

    fn first_line(&self) -> String {
        format!("{MARK} {} {}\n", self.name, self.tables.len())
    }

    /// The texts of the tables, in their order.
    fn read<'a>(&self, file: &'a str) -> Result<Vec<&'a str>, DataFileProblem> {
        let mut rest = file.strip_prefix(self.first_line().as_str()).ok_or(DataFileProblem::Mark)?;
        let mut texts = Vec::with_capacity(self.tables.len());
        for table in self.tables {
            let (text, after) = table_at(rest, table).ok_or(DataFileProblem::Table(table))?;
            texts.push(text);
            rest = after;
        }
        if rest.is_empty() { Ok(texts) } else { Err(DataFileProblem::Rest) }
    }
}

/// The table that a text begins with, if it is that one, and what follows it.
fn table_at<'a>(text: &'a str, table: &str) -> Option<(&'a str, &'a str)> {
    let (length, rest) = text.strip_prefix(table)?.strip_prefix(' ')?.split_once('\n')?;
    rest.split_at_checked(length.parse().ok()?)
}

/// A [`DataFile`] of files that stand beside the source: `data_file!("law": "data/acts.csv", …)`. A table is called by its path.
macro_rules! data_file {
    ($name:literal: $($table:literal),+ $(,)?) => {
        $crate::facts::DataFile::new($name, &[$($table),+], $crate::facts::embedded!($($table),+))
    };
}

#[cfg(not(split))]
macro_rules! embedded {
    ($($table:literal),+) => { &[$(include_str!($table)),+] };
}

#[cfg(split)]
macro_rules! embedded {
    ($($table:literal),+) => {
        &[]
    };
}

pub(crate) use {data_file, embedded};

#[cfg(test)]
mod tests {
    use super::*;

    const TABLES: [&str; 3] = ["a.csv", "b.txt", "c.csv"];
    static FULL: DataFile = DataFile::new("few", &TABLES, &["id,name\n1,Karité\n", "", "c.csv 3\nno end"]);
    static BROKEN: DataFile = DataFile::new("few", &TABLES, &[]);
    static FETCHED: DataFile = DataFile::new("few", &TABLES, &[]);

    #[test]
    fn data_file_comes_back_table_by_table() {
        assert!(FULL.is_here() && !FETCHED.is_here());
        assert_eq!(TABLES.map(|table| FETCHED.text(table)), ["", "", ""]);
        FETCHED.fill(FULL.written()).unwrap();
        assert!(FETCHED.is_here());
        assert_eq!(TABLES.map(|table| FETCHED.text(table)), TABLES.map(|table| FULL.text(table)));
        assert_eq!(FETCHED.text("d.csv"), "");
    }

    #[test]
    fn data_file_that_is_damaged_is_refused_whole() {
        let file = FULL.written();
        for end in (0..file.len()).filter(|end| file.is_char_boundary(*end)) {
            assert!(BROKEN.fill(file[..end].to_owned()).is_err(), "cut at {end}");
        }
        for (damaged, problem) in [
            (file.replacen("data 1", "data 2", 1), DataFileProblem::Mark),
            (file.replacen("few 3", "few 2", 1), DataFileProblem::Mark),
            (file.replacen("few", "law", 1), DataFileProblem::Mark),
            (file.replacen("a.csv 18", "a.csv 17", 1), DataFileProblem::Table("b.txt")),
            (file.replacen("a.csv 18", "a.csv 16", 1), DataFileProblem::Table("a.csv")),
            (file.replacen("a.csv 18", "a.csv -1", 1), DataFileProblem::Table("a.csv")),
            (file.replacen("a.csv", "z.csv", 1), DataFileProblem::Table("a.csv")),
            (format!("{file}\n"), DataFileProblem::Rest),
        ] {
            assert_eq!(BROKEN.fill(damaged.clone()), Err(problem), "{damaged}");
        }
        assert!(!BROKEN.is_here() && BROKEN.text("a.csv").is_empty());
    }
}
