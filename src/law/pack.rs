//! Makes the compact data of the annexes from their exports.
//!
//! The form is made to be small once it is compressed, and to show changes line by line: one cell a line, column by column,
//! since like stands best beside like. Within a cell a tab ends a line. What can be told from what stands before it is left
//! out; [`super::unpack`] is the other half, and says what is what.

use super::numbers::{Piece, pieces, shortened};
use super::{Annex, AnnexCell, AnnexEntry, Export, Law};

/// The first line of the compact data.
pub(super) const MARK: &str = "law 1";
/// A cell that is empty where an empty line means something else.
pub(super) const EMPTY: &str = "~";
/// Before a cell that is printed in capitals and written in small letters here: those resemble all the other words.
pub(super) const CAPITALS: char = '^';
/// In the place of an EC number that stands in the list at the end.
pub(super) const LISTED: char = '#';
/// Before a cell of EC numbers that are not in that list.
pub(super) const UNLISTED: char = '!';

/// The compact data of all five annexes, or the title of the entry that would not come back as it is.
///
/// # Errors
/// If an entry has words that the form cannot hold, or an annex is missing or stands there twice.
pub fn pack(exports: &[Export]) -> Result<String, String> {
    let mut text = String::from(MARK);
    for annex in Annex::ALL {
        let mut of = exports.iter().filter(|export| export.annex == annex);
        let (Some(export), None) = (of.next(), of.next()) else {
            return Err(format!("{annex}: one export was expected, no more and no less"));
        };
        let (created, updated, rows) = (export.created, export.updated, export.entries.len());
        text.push_str(&format!("\n{}\t{created}\t{updated}\t{rows}", annex.numeral()));
    }
    let all: Vec<&[AnnexEntry]> = Annex::ALL
        .iter()
        .filter_map(|annex| exports.iter().find(|export| export.annex == *annex))
        .map(|export| export.entries.as_slice())
        .collect();
    for entries in &all {
        for cell in
            AnnexCell::ALL.into_iter().filter(|cell| entries.first().is_some_and(|entry| cell.stands_in(entry.annex)))
        {
            let mut before = String::new();
            for entry in *entries {
                text.push('\n');
                text.push_str(&packed(entry, cell, &before).replace('\n', "\t"));
                before = entry.get(cell).to_owned();
            }
        }
    }
    text.push('\n');
    text.push_str(&listed(&all));
    text.push('\n');
    verified(text, &all)
}

/// One cell; `before` is the same cell of the entry before it.
fn packed(entry: &AnnexEntry, cell: AnnexCell, before: &str) -> String {
    let text = entry.get(cell);
    match cell {
        AnnexCell::Reference if follows(before).as_deref() == Some(text) => String::new(),
        AnnexCell::Regulation | AnnexCell::Updated if text == before => String::new(),
        AnnexCell::Regulation | AnnexCell::Updated if text.is_empty() => EMPTY.to_owned(),
        AnnexCell::Glossary | AnnexCell::Identified => small(text),
        AnnexCell::Cas => shortened(text),
        AnnexCell::Ec => packed_ec(entry),
        _ => text.to_owned(),
    }
}

/// The number after a number.
pub(super) fn follows(before: &str) -> Option<String> {
    Some(if before.is_empty() { "1".to_owned() } else { before.parse::<u32>().ok()?.checked_add(1)?.to_string() })
}

fn small(text: &str) -> String {
    if text.chars().any(char::is_lowercase) || !text.chars().any(char::is_uppercase) {
        return text.to_owned();
    }
    format!("{CAPITALS}{}", text.to_lowercase())
}

/// The numbers of an entry that stand for the same substances, one by one: as many of one kind as of the other, each kind in
/// its own column.
fn pairs(entry: &AnnexEntry) -> Option<Vec<(u32, u32)>> {
    let number = |text: &str| text.replace('-', "").parse::<u32>().ok();
    let (mut cas, mut ec) = (Vec::new(), Vec::new());
    for piece in pieces(&entry.cas) {
        match piece {
            Piece::Cas(text) => cas.push(number(text)?),
            Piece::Ec(_) => return None,
            Piece::Text(_) => {}
        }
    }
    for piece in pieces(&entry.ec) {
        match piece {
            Piece::Ec(text) => ec.push(number(text)?),
            Piece::Cas(_) => return None,
            Piece::Text(_) => {}
        }
    }
    (cas.len() == ec.len()).then(|| cas.into_iter().zip(ec).collect())
}

/// The words of a cell with a mark for each number.
pub(super) fn outline(cell: &str) -> String {
    pieces(cell)
        .into_iter()
        .map(|piece| match piece {
            Piece::Text(text) => text.to_owned(),
            Piece::Cas(_) | Piece::Ec(_) => LISTED.to_string(),
        })
        .collect()
}

fn packed_ec(entry: &AnnexEntry) -> String {
    if pairs(entry).is_none() {
        return format!("{UNLISTED}{}", shortened(&entry.ec));
    }
    match outline(&entry.ec) {
        same if same == outline(&entry.cas) => String::new(),
        none if none.is_empty() => EMPTY.to_owned(),
        other => other,
    }
}

/// The EC numbers of all entries in the order of the CAS numbers beside them, each as the step from the one before: the
/// European inventory was numbered in that order, so the steps are small.
fn listed(all: &[&[AnnexEntry]]) -> String {
    let mut pairs: Vec<(u32, u32)> =
        all.iter().flat_map(|entries| entries.iter()).filter_map(pairs).flatten().collect();
    pairs.sort_by_key(|(cas, _)| *cas);
    let (mut text, mut before) = (String::new(), 0i64);
    for (_, ec) in pairs {
        let ec = i64::from(ec);
        if !text.is_empty() {
            text.push(' ');
        }
        text.push_str(&(ec - before).to_string());
        before = ec;
    }
    text
}

/// Only what comes back as it was is given away.
fn verified(text: String, all: &[&[AnnexEntry]]) -> Result<String, String> {
    let law = Law::read(&text).map_err(|problem| problem.to_string())?;
    let entries = all.iter().flat_map(|entries| entries.iter());
    match entries.zip(law.entries()).find(|(entry, back)| entry != back) {
        Some((entry, back)) => {
            let cell = AnnexCell::ALL
                .into_iter()
                .find(|cell| entry.get(*cell) != back.get(*cell))
                .unwrap_or(AnnexCell::Reference);
            Err(format!("{}: `{}` would come back as `{}`", entry.title(), entry.get(cell), back.get(cell)))
        }
        None => Ok(text),
    }
}
