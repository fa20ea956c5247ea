//! Makes the compact data of the annexes from their exports.
//!
//! The form is made to be small once it is compressed, and to show changes line by line: one cell a line, column by column,
//! since like stands best beside like. Within a cell a tab ends a line. What can be told from what stands before it is left
//! out; [`super::unpack`] is the other half, and says what is what.

use super::numbers::{cas_numbers, shortened};
use super::{Annex, AnnexCell, AnnexEntry, Export, Law};

/// The first line of the compact data.
pub(super) const MARK: &str = "law 2";
/// A cell that is empty where an empty line means something else.
pub(super) const EMPTY: &str = "~";
/// Before a cell that is printed in capitals and written in small letters here: those resemble all the other words.
pub(super) const CAPITALS: char = '^';

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
        let Some(annex) = entries.first().map(|entry| entry.annex) else { continue };
        for cell in AnnexCell::ALL.into_iter().filter(|cell| cell.is_packed() && cell.stands_in(annex)) {
            let mut before = String::new();
            for entry in *entries {
                text.push('\n');
                text.push_str(&packed(entry, cell, &before).replace('\n', "\t"));
                before = entry.get(cell).to_owned();
            }
        }
    }
    text.push('\n');
    verified(text, &all)
}

/// One cell; `before` is the same cell of the entry before it.
fn packed(entry: &AnnexEntry, cell: AnnexCell, before: &str) -> String {
    let text = entry.get(cell);
    match cell {
        AnnexCell::Reference if follows(before).as_deref() == Some(text) => String::new(),
        AnnexCell::Regulation if text == before => String::new(),
        AnnexCell::Regulation if text.is_empty() => EMPTY.to_owned(),
        AnnexCell::Glossary | AnnexCell::Identified => small(text),
        AnnexCell::Cas => shortened(text),
        AnnexCell::Ec => shortened(kept_ec(text)),
        _ => text.to_owned(),
    }
}

/// A cell of EC numbers, if CAS numbers stand in it.
fn kept_ec(cell: &str) -> &str {
    if cas_numbers(cell).next().is_some() { cell } else { "" }
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

/// Only what comes back as it was is given away.
fn verified(text: String, all: &[&[AnnexEntry]]) -> Result<String, String> {
    let law = Law::read(&text).map_err(|problem| problem.to_string())?;
    let entries = all.iter().flat_map(|entries| entries.iter());
    let kept = |entry: &AnnexEntry, cell: AnnexCell| match cell {
        AnnexCell::Ec => kept_ec(&entry.ec).to_owned(),
        _ => entry.get(cell).to_owned(),
    };
    let differs = |entry: &AnnexEntry, back: &AnnexEntry| {
        AnnexCell::ALL.into_iter().filter(|cell| cell.is_packed()).find(|cell| kept(entry, *cell) != back.get(*cell))
    };
    let lost = entries.zip(law.entries()).find_map(|(entry, back)| Some((entry, back, differs(entry, back)?)));
    match lost {
        Some((entry, back, cell)) => {
            Err(format!("{}: `{}` would come back as `{}`", entry.title(), entry.get(cell), back.get(cell)))
        }
        None => Ok(text),
    }
}
