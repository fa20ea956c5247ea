//! What changed between two editions of the law, entry by entry and cell by cell.

use core::fmt;

use super::{AnnexCell, AnnexEntry};

/// What became of one entry.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Difference {
    /// Annex and reference number, with the name.
    pub title: String,
    /// What happened.
    pub change: EntryChange,
}

/// What can happen to an entry.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum EntryChange {
    /// It is new.
    Added,
    /// It is not there any more.
    Removed,
    /// Cells of it changed: which, the text before and the text now.
    Changed(Vec<(AnnexCell, String, String)>),
}

impl fmt::Display for Difference {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.change {
            EntryChange::Added => write!(out, "added    {}", self.title),
            EntryChange::Removed => write!(out, "removed  {}", self.title),
            EntryChange::Changed(cells) => {
                write!(out, "changed  {}", self.title)?;
                for (cell, before, now) in cells {
                    write!(
                        out,
                        "\n         {}\n           - {}\n           + {}",
                        cell.name(),
                        line(before),
                        line(now)
                    )?;
                }
                Ok(())
            }
        }
    }
}

fn line(text: &str) -> String {
    if text.is_empty() { "(nothing)".to_owned() } else { text.replace('\n', " / ") }
}

/// The differences from one edition to another, in the order of the new one, and what is gone at the end.
///
/// Entries belong together by annex and reference number. Where a number stands twice, those with most cells in common do.
pub fn differences(before: &[AnnexEntry], now: &[AnnexEntry]) -> Vec<Difference> {
    let mut left: Vec<Option<&AnnexEntry>> = before.iter().map(Some).collect();
    let mut found = Vec::new();
    for entry in now {
        let common =
            |old: &AnnexEntry| AnnexCell::ALL.into_iter().filter(|cell| old.get(*cell) == entry.get(*cell)).count();
        let same = |old: &AnnexEntry| old.annex == entry.annex && old.reference == entry.reference;
        let candidates =
            left.iter().enumerate().filter_map(|(at, old)| old.filter(|old| same(old)).map(|old| (at, common(old))));
        // The first of equals: entries of one number keep their order.
        let best = candidates.rev().max_by_key(|(_, common)| *common);
        let old = best.and_then(|(at, _)| left.get_mut(at)).and_then(Option::take);
        let change = match old {
            None => EntryChange::Added,
            Some(old) => EntryChange::Changed(
                AnnexCell::ALL
                    .into_iter()
                    .filter(|cell| old.get(*cell) != entry.get(*cell))
                    .map(|cell| (cell, old.get(cell).to_owned(), entry.get(cell).to_owned()))
                    .collect(),
            ),
        };
        if !matches!(&change, EntryChange::Changed(cells) if cells.is_empty()) {
            found.push(Difference { title: title(entry), change });
        }
    }
    found.extend(left.into_iter().flatten().map(|old| Difference { title: title(old), change: EntryChange::Removed }));
    found
}

fn title(entry: &AnnexEntry) -> String {
    let name = if entry.chemical.is_empty() { &entry.glossary } else { &entry.chemical };
    let mut short: String = name.chars().take(70).map(|c| if c == '\n' { ' ' } else { c }).collect();
    if short.len() < name.len() {
        short.push('…');
    }
    format!("{}: {short}", entry.title())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::law::Annex;

    fn entry(reference: &str, chemical: &str, maximum: &str) -> AnnexEntry {
        let mut entry = AnnexEntry::empty(Annex::V);
        for (cell, text) in
            [(AnnexCell::Reference, reference), (AnnexCell::Chemical, chemical), (AnnexCell::Maximum, maximum)]
        {
            entry.set(cell, text.to_owned());
        }
        entry
    }

    #[test]
    fn differences_name_what_came_went_and_changed() {
        let before = [
            entry("1", "Benzoic acid", "0.5%"),
            entry("2", "Propionic acid", "2%"),
            entry("3", "Salicylic acid", "0.5%"),
        ];
        let now = [
            entry("1", "Benzoic acid", "0.5%"),
            entry("3", "Salicylic acid", "0.4%"),
            entry("4", "Sorbic acid", "0.6%"),
        ];
        let said: Vec<String> = differences(&before, &now).iter().map(ToString::to_string).collect();
        assert_eq!(
            said,
            [
                "changed  Annex V, 3: Salicylic acid\n         maximum concentration\n           - 0.5%\n           + 0.4%",
                "added    Annex V, 4: Sorbic acid",
                "removed  Annex V, 2: Propionic acid",
            ]
        );
        assert_eq!(differences(&before, &before), []);
    }

    #[test]
    fn differences_pair_entries_of_one_number_by_what_they_share() {
        let before = [entry("9", "one", "1%"), entry("9", "two", "2%")];
        let now = [entry("9", "two", "2%"), entry("9", "one", "3%")];
        let found = differences(&before, &now);
        assert_eq!(found.len(), 1, "{found:?}");
        assert!(
            matches!(&found[0].change, EntryChange::Changed(cells) if cells == &[(AnnexCell::Maximum, "1%".into(), "3%".into())])
        );
    }
}
