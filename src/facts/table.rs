//! Reading a table of facts: a CSV file with a header, row by row and by column name.
//!
//! A row that cannot be read becomes a [`RowProblem`] that names its line; the rest of the table stays usable. The
//! tables are part of the program, so a test finds every such row before a user could. This does not read files that
//! makers bring.

use core::fmt;

use csv_core::{ReadRecordResult, Reader};

use crate::quantity::{Day, ParseProblem, Percent, Quantity};

/// A table as read, with the rows that have as many cells as the header.
#[derive(Debug, Clone, Default)]
pub struct CsvTable {
    header: Vec<String>,
    rows: Vec<Record>,
    problems: Vec<RowProblem>,
}

/// One row of a [`CsvTable`].
#[derive(Debug, Clone, Copy)]
pub struct CsvRow<'a> {
    header: &'a [String],
    record: &'a Record,
}

/// A record of the file: its cells in one text, one behind the other. A text for each would be ten thousand at the start
/// of the page.
#[derive(Debug, Clone)]
struct Record {
    line: u64,
    text: String,
    /// Where each cell ends.
    ends: Vec<usize>,
}

impl Record {
    fn cell(&self, n: usize) -> Option<&str> {
        let start = if n == 0 { 0 } else { *self.ends.get(n - 1)? };
        self.text.get(start..*self.ends.get(n)?)
    }
}

/// What is wrong with a row, and where.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RowProblem {
    /// Line of the file, from 1.
    pub line: u64,
    /// What is wrong there.
    pub wrong: Wrong,
}

/// What can be wrong with a row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Wrong {
    /// Too many or too few cells.
    Cells {
        /// As many were found.
        found: usize,
        /// As many as the header has.
        expected: usize,
    },
    /// The table has no such column.
    Column(String),
    /// A cell that does not hold what its column asks for.
    Cell {
        /// Its column.
        column: String,
        /// Its text.
        found: String,
        /// What the column asks for.
        expected: &'static str,
    },
    /// A cell that is no number of its kind.
    Number {
        /// Its column.
        column: String,
        /// Its text.
        found: String,
        /// What is wrong with the number.
        problem: ParseProblem,
    },
}

impl fmt::Display for RowProblem {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "line {}: ", self.line)?;
        match &self.wrong {
            Wrong::Cells { found, expected } => write!(out, "found {found} cells, expected {expected}"),
            Wrong::Column(column) => write!(out, "found no column `{column}`"),
            Wrong::Cell { column, found, expected } => write!(out, "{column}: found `{found}`, expected {expected}"),
            Wrong::Number { column, found, .. } => write!(out, "{column}: found `{found}`, no number"),
        }
    }
}

impl core::error::Error for RowProblem {}

impl CsvTable {
    /// Reads a whole CSV text: comma, double quotes, the first record is the header, blank lines are skipped.
    pub fn read(text: &str) -> Self {
        let mut table = Self::default();
        let mut records = records(text).into_iter();
        if let Some(header) = records.next() {
            let names = (0..header.ends.len()).filter_map(|n| header.cell(n));
            table.header = names.map(str::to_owned).collect();
        }
        let expected = table.header.len();
        for record in records {
            let found = record.ends.len();
            if found == expected {
                table.rows.push(record);
            } else {
                table.problems.push(RowProblem { line: record.line, wrong: Wrong::Cells { found, expected } });
            }
        }
        table
    }

    /// The column names, in order.
    pub fn header(&self) -> &[String] {
        &self.header
    }

    /// The readable rows, in order.
    pub fn rows(&self) -> impl Iterator<Item = CsvRow<'_>> {
        self.rows.iter().map(|record| CsvRow { header: &self.header, record })
    }

    /// Makes a value of every row, and gathers what was wrong with the rows that gave none.
    pub fn parse<'a, T>(
        &'a self,
        mut make: impl FnMut(CsvRow<'a>) -> Result<T, RowProblem>,
    ) -> (Vec<T>, Vec<RowProblem>) {
        let mut problems = self.problems.clone();
        let made = self.rows().filter_map(|row| make(row).map_err(|problem| problems.push(problem)).ok()).collect();
        (made, problems)
    }
}

impl<'a> CsvRow<'a> {
    /// Line of the file, from 1.
    pub fn line(&self) -> u64 {
        self.record.line
    }

    /// The cell of a column; an empty cell is the empty text.
    ///
    /// # Errors
    /// If the table has no such column.
    pub fn get(&self, column: &str) -> Result<&'a str, RowProblem> {
        match self.header.iter().position(|name| name == column).and_then(|n| self.record.cell(n)) {
            Some(cell) => Ok(cell),
            None => Err(self.wrong(Wrong::Column(column.to_owned()))),
        }
    }

    /// The percent in the cell of a column, which must hold one.
    ///
    /// # Errors
    /// If the table has no such column, or the cell holds anything but a canonical percent.
    pub fn percent(&self, column: &str) -> Result<Percent, RowProblem> {
        let text = self.get(column)?;
        Percent::from_canonical(text)
            .map_err(|problem| self.wrong(Wrong::Number { column: column.to_owned(), found: text.to_owned(), problem }))
    }

    /// The day in the cell of a column; none if it is empty.
    ///
    /// # Errors
    /// If the table has no such column, or the cell holds anything but a day of the calendar in the form of ISO 8601.
    pub fn day(&self, column: &str) -> Result<Option<Day>, RowProblem> {
        match self.get(column)? {
            "" => Ok(None),
            text => match Day::read(text) {
                Some(day) => Ok(Some(day)),
                None => Err(self.wrong_cell(column, text, "a day such as 2027-01-01")),
            },
        }
    }

    /// A problem with this row.
    pub fn wrong(&self, wrong: Wrong) -> RowProblem {
        RowProblem { line: self.line(), wrong }
    }

    /// A problem with one cell of this row.
    pub fn wrong_cell(&self, column: &str, found: &str, expected: &'static str) -> RowProblem {
        self.wrong(Wrong::Cell { column: column.to_owned(), found: found.to_owned(), expected })
    }
}

/// All records with the line each starts on.
fn records(text: &str) -> Vec<Record> {
    let mut reader = Reader::new();
    let mut input = text.as_bytes();
    // No record is longer than the text, nor has it more cells than the text has bytes and one for a missing line end.
    let (mut bytes, mut ends) = (vec![0; text.len() + 1], vec![0; text.len() + 1]);
    let (mut filled, mut cells) = (0, 0);
    let mut line = reader.line();
    let mut all = Vec::new();
    loop {
        let (result, read, written, ended) = reader.read_record(input, &mut bytes[filled..], &mut ends[cells..]);
        input = &input[read..];
        filled += written;
        cells += ended;
        match result {
            // The next call gets no input, which tells the reader that the text is over.
            ReadRecordResult::InputEmpty => {}
            ReadRecordResult::Record => {
                let text = String::from_utf8_lossy(&bytes[..filled]).into_owned();
                all.push(Record { line, text, ends: ends[..cells].to_vec() });
                (filled, cells, line) = (0, 0, reader.line());
            }
            // The buffers hold the whole text, so "full" cannot happen before "end".
            ReadRecordResult::OutputFull | ReadRecordResult::OutputEndsFull | ReadRecordResult::End => return all,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn table_cells_are_found_by_column() {
        let table = CsvTable::read("id,name\nwater,\"Water, \"\"pure\"\"\"\nshea,Karité");
        let names: Vec<_> = table.rows().map(|row| (row.line(), row.get("name").unwrap())).collect();
        assert_eq!(names, [(2, "Water, \"pure\""), (3, "Karité")]);
    }

    #[test]
    fn table_bad_rows_name_their_line() {
        let table = CsvTable::read("id,n\na,1\nb\nc,x\n");
        let (made, problems) = table.parse(|row| match row.get("n")? {
            "1" => Ok(1),
            other => Err(row.wrong_cell("n", other, "1")),
        });
        assert_eq!(made, [1]);
        let messages: Vec<_> = problems.iter().map(ToString::to_string).collect();
        assert_eq!(messages, ["line 3: found 1 cells, expected 2", "line 4: n: found `x`, expected 1"]);
    }

    #[test]
    fn table_without_a_column_says_so() {
        let (made, problems) = CsvTable::read("id\na\n").parse(|row| row.get("name").map(str::to_owned));
        assert!(made.is_empty());
        assert_eq!(problems[0].to_string(), "line 2: found no column `name`");
    }

    #[test]
    fn table_day_that_is_none_of_the_calendar_is_a_problem() {
        let table = CsvTable::read("id,since\na,2027-01-01\nb,\nc,2027-02-29\nd,2027\ne,soon\n");
        let (made, problems) = table.parse(|row| row.day("since"));
        assert_eq!(made, [Day::from_calendar(2027, 1, 1), None]);
        let messages: Vec<_> = problems.iter().map(ToString::to_string).collect();
        assert_eq!(messages[0], "line 4: since: found `2027-02-29`, expected a day such as 2027-01-01");
        assert_eq!(messages.len(), 3);
    }

    #[test]
    fn table_of_nothing_is_empty() {
        for text in ["", "\n\n", "id,name", "\""] {
            assert_eq!(CsvTable::read(text).rows().count(), 0, "{text:?}");
        }
    }
}
