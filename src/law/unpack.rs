//! Reads the compact data of the annexes.
//!
//! After a line for each annex (its number, the two days of its file, its rows) come its columns, one cell a line, in the order
//! of [`AnnexCell::ALL`]. An empty line stands for the next number in the column of references, for the same as above in those of
//! regulations and dates, for the outline of the CAS cell in that of EC numbers. The last line is the list of those EC
//! numbers that stand beside a CAS number, in the order of these.

use crate::quantity::Day;
use core::fmt;

use super::numbers::{Piece, lengthened, pieces};
use super::pack::{CAPITALS, EMPTY, LISTED, MARK, UNLISTED, follows, outline};
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
    /// The list of EC numbers does not fit the entries.
    Numbers,
}

impl fmt::Display for Damage {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Mark => write!(out, "the data of the law is of a form that this version does not know"),
            Self::Head(annex) => write!(out, "the data of the law does not describe {annex}"),
            Self::Short(annex) => write!(out, "the data of the law ends within {annex}"),
            Self::Numbers => write!(out, "the data of the law has a wrong list of EC numbers"),
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
        for cell in AnnexCell::ALL.into_iter().filter(|cell| cell.stands_in(annex)) {
            for row in 0..*rows {
                let line = lines.next().ok_or(Damage::Short(annex))?;
                if entries.len() <= row {
                    entries.push(AnnexEntry::empty(annex));
                }
                let before =
                    row.checked_sub(1).and_then(|row| entries.get(row)).map_or("", |entry| entry.get(cell)).to_owned();
                if let Some(entry) = entries.get_mut(row) {
                    let text = cell_text(line, cell, &before, entry);
                    entry.set(cell, text);
                }
            }
        }
        all.append(&mut entries);
    }
    number(&mut all, lines.next().unwrap_or_default())?;
    Ok((heads.into_iter().map(|(edition, _)| edition).collect(), all))
}

fn head(line: &str, annex: Annex) -> Option<(Edition, usize)> {
    let mut parts = line.split('\t');
    let named = Annex::from_numeral(parts.next()?) == Some(annex);
    let (created, updated) = (Day::read(parts.next()?)?, Day::read(parts.next()?)?);
    let rows = parts.next()?.parse().ok()?;
    named.then_some((Edition { annex, created, updated }, rows))
}

fn cell_text(line: &str, cell: AnnexCell, before: &str, entry: &AnnexEntry) -> String {
    let text = line.replace('\t', "\n");
    match cell {
        AnnexCell::Reference if text.is_empty() => follows(before).unwrap_or_default(),
        AnnexCell::Regulation | AnnexCell::Updated if text.is_empty() => before.to_owned(),
        AnnexCell::Regulation | AnnexCell::Updated if text == EMPTY => String::new(),
        AnnexCell::Glossary | AnnexCell::Identified => {
            text.strip_prefix(CAPITALS).map_or_else(|| text.clone(), str::to_uppercase)
        }
        AnnexCell::Cas => lengthened(&text),
        // The numbers follow when all are read.
        AnnexCell::Ec if text.is_empty() => outline(&entry.cas),
        AnnexCell::Ec if text == EMPTY => String::new(),
        _ => text,
    }
}

/// Puts the listed EC numbers into their places.
fn number(entries: &mut [AnnexEntry], list: &str) -> Result<(), Damage> {
    let mut steps = list.split(' ').filter(|step| !step.is_empty());
    let mut before = 0i64;
    // Number, entry and place of each CAS number that has an EC number beside it.
    let mut places: Vec<(u32, usize, usize)> = Vec::new();
    for (at, entry) in entries.iter().enumerate().filter(|(_, entry)| !entry.ec.starts_with(UNLISTED)) {
        let cas = pieces(&entry.cas)
            .into_iter()
            .filter_map(|piece| if let Piece::Cas(text) = piece { Some(text) } else { None });
        let marks = entry.ec.chars().filter(|c| *c == LISTED).count();
        let numbers = cas.filter_map(|text| text.replace('-', "").parse().ok()).take(marks);
        places.extend(numbers.enumerate().map(|(place, number)| (number, at, place)));
    }
    places.sort_by_key(|(cas, _, _)| *cas);
    let mut found: Vec<(usize, usize, i64)> = Vec::with_capacity(places.len());
    for (_, at, place) in places {
        let step: i64 = steps.next().and_then(|step| step.parse().ok()).ok_or(Damage::Numbers)?;
        before = before.checked_add(step).filter(|ec| (0..1_000_000).contains(ec)).ok_or(Damage::Numbers)?;
        found.push((at, place, before));
    }
    if steps.next().is_some() {
        return Err(Damage::Numbers);
    }
    found.sort_by_key(|(at, place, _)| (*at, *place));
    let mut numbers = found.into_iter().peekable();
    for (at, entry) in entries.iter_mut().enumerate() {
        if let Some(rest) = entry.ec.strip_prefix(UNLISTED) {
            entry.ec = lengthened(rest);
            continue;
        }
        let mut text = String::with_capacity(entry.ec.len());
        for c in entry.ec.chars() {
            match (c == LISTED).then(|| numbers.next_if(|(of, _, _)| *of == at)).flatten() {
                Some((_, _, ec)) => text.push_str(&lengthened(&format!("{:03}-{:03}", ec / 1000, ec % 1000))),
                None => text.push(c),
            }
        }
        entry.ec = text;
    }
    Ok(())
}
