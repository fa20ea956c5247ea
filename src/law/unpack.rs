//! Reads the compact data of the annexes.
//!
//! After a line for each annex (its number, the two days of its file, its rows) come its columns, one cell a line, in the order
//! of [`AnnexCell::ALL`]. An empty line stands for the next number in the column of references, for the same as above in that of
//! regulations. EC numbers beside CAS numbers and the days on which rows were touched are left out: they take five kilobytes (Brotli), and nothing
//! rests on them.

use crate::quantity::Day;
use core::fmt;

use super::numbers::lengthened;
use super::pack::{CAPITALS, EMPTY, MARK, follows};
use super::{Annex, AnnexCell, AnnexEntry, Law};

/// Why data is not the compact data of the annexes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Damage {
    /// It is of another form, or none.
    Mark,
    /// The line that describes an annex cannot be read.
    Head(Annex),
    /// It ends within an annex.
    Short(Annex),
    /// It was not fetched yet.
    Absent,
}

impl fmt::Display for Damage {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Mark => write!(out, "the data of the law is of a form that this version does not know"),
            Self::Head(annex) => write!(out, "the data of the law does not describe {annex}"),
            Self::Short(annex) => write!(out, "the data of the law ends within {annex}"),
            Self::Absent => write!(out, "the data of the law was not fetched yet"),
        }
    }
}

impl core::error::Error for Damage {}

/// An annex and the days of its file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Edition {
    /// The annex.
    pub annex: Annex,
    /// When the file was made.
    pub created: Day,
    /// To which day the annex is kept in it.
    pub updated: Day,
}

/// The annexes, read a column at a time.
pub(super) struct Unpacking<'a> {
    lines: core::str::Split<'a, char>,
    /// The annexes with how many rows each has.
    heads: Vec<(Edition, usize)>,
    /// Which annex, and which of its columns, is read next.
    next: (usize, usize),
    /// Where the annex begins that is read.
    start: usize,
    law: Result<Law, Damage>,
}

impl<'a> Unpacking<'a> {
    /// Reads what describes the annexes.
    pub(super) fn new(text: &'a str) -> Self {
        let mut lines = text.split('\n');
        let mut law = Ok(Law { editions: Vec::new(), entries: Vec::new() });
        let mut heads = Vec::with_capacity(Annex::ALL.len());
        if lines.next() != Some(MARK) {
            law = Err(Damage::Mark);
        }
        for annex in Annex::ALL {
            match lines.next().and_then(|line| head(line, annex)) {
                Some(head) => heads.push(head),
                None if law.is_ok() => law = Err(Damage::Head(annex)),
                None => {}
            }
        }
        if let Ok(law) = &mut law {
            law.editions = heads.iter().map(|(edition, _)| *edition).collect();
        }
        Self { lines, heads, next: (0, 0), start: 0, law }
    }

    /// Reads the next column; false once there is none, or what is wrong was found.
    pub(super) fn column(&mut self) -> bool {
        let (Ok(law), Some((edition, rows))) = (&mut self.law, self.heads.get(self.next.0)) else { return false };
        let (annex, start) = (edition.annex, self.start);
        let mut columns = AnnexCell::ALL.into_iter().filter(|cell| cell.is_packed() && cell.stands_in(annex));
        let Some(cell) = columns.nth(self.next.1) else {
            self.next = (self.next.0 + 1, 0);
            self.start = law.entries.len();
            return true;
        };
        self.next.1 += 1;
        // The text says how many rows there are; only its lines can fill them.
        for row in start..start.saturating_add(*rows) {
            let Some(line) = self.lines.next() else {
                self.law = Err(Damage::Short(annex));
                return false;
            };
            if law.entries.len() <= row {
                law.entries.push(AnnexEntry::empty(annex));
            }
            let above = row.checked_sub(1).filter(|above| *above >= start);
            let before = above.and_then(|row| law.entries.get(row)).map_or("", |entry| entry.get(cell));
            let text = cell_text(line, cell, before);
            if let Some(entry) = law.entries.get_mut(row) {
                entry.set(cell, text);
            }
        }
        true
    }

    /// What was read.
    pub(super) const fn law(&self) -> Result<&Law, &Damage> {
        self.law.as_ref()
    }

    /// The same, taken out.
    pub(super) fn into_law(self) -> Result<Law, Damage> {
        self.law
    }
}

fn head(line: &str, annex: Annex) -> Option<(Edition, usize)> {
    let mut parts = line.split('\t');
    let named = Annex::from_numeral(parts.next()?) == Some(annex);
    let (created, updated) = (Day::read(parts.next()?)?, Day::read(parts.next()?)?);
    let rows = parts.next()?.parse().ok()?;
    named.then_some((Edition { annex, created, updated }, rows))
}

fn cell_text(line: &str, cell: AnnexCell, before: &str) -> String {
    let text = line.replace('\t', "\n");
    match cell {
        AnnexCell::Reference if text.is_empty() => follows(before).unwrap_or_default(),
        AnnexCell::Regulation if text.is_empty() => before.to_owned(),
        AnnexCell::Regulation if text == EMPTY => String::new(),
        AnnexCell::Glossary | AnnexCell::Identified => {
            text.strip_prefix(CAPITALS).map_or_else(|| text.clone(), str::to_uppercase)
        }
        AnnexCell::Cas | AnnexCell::Ec => lengthened(&text),
        _ => text,
    }
}
