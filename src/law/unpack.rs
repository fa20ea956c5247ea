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
use super::{Annex, AnnexCell, AnnexEntry};

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

/// The annexes as read: their editions and all entries, annex by annex, in the order of the files.
pub(super) fn unpack(text: &str) -> Result<(Vec<Edition>, Vec<AnnexEntry>), Damage> {
    let mut lines = text.split('\n');
    if lines.next() != Some(MARK) {
        return Err(Damage::Mark);
    }
    let mut heads = Vec::with_capacity(Annex::ALL.len());
    for annex in Annex::ALL {
        heads.push(lines.next().and_then(|line| head(line, annex)).ok_or(Damage::Head(annex))?);
    }
    let mut all = Vec::new();
    for (edition, rows) in &heads {
        let annex = edition.annex;
        // The text says how many rows there are; only its lines can fill them.
        let mut entries: Vec<AnnexEntry> = Vec::new();
        for cell in AnnexCell::ALL.into_iter().filter(|cell| cell.is_packed() && cell.stands_in(annex)) {
            for row in 0..*rows {
                let line = lines.next().ok_or(Damage::Short(annex))?;
                if entries.len() <= row {
                    entries.push(AnnexEntry::empty(annex));
                }
                let before = row.checked_sub(1).and_then(|row| entries.get(row)).map_or("", |entry| entry.get(cell));
                let text = cell_text(line, cell, before);
                if let Some(entry) = entries.get_mut(row) {
                    entry.set(cell, text);
                }
            }
        }
        all.append(&mut entries);
    }
    Ok((heads.into_iter().map(|(edition, _)| edition).collect(), all))
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
