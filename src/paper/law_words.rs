//! What the annexes of Regulation (EC) No 1223/2009 have printed on a label, in their own words (Article 19(1)(d)).

use crate::compliance::{EntryCheck, LawOutcome};
use crate::facts::limits;
use crate::formula::Region;
use crate::quantity::Day;
use crate::sheet::{Sheet, SubstanceShare};

/// Words for a label, with the entries that ask for them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LawWords {
    /// The words.
    pub text: String,
    /// The entries, such as `Annex III/98`.
    pub entries: Vec<String>,
    /// The day from which they are asked for, where one is given.
    pub from: Option<Day>,
}

/// The words that the annexes ask for, each once; none where another law holds, nor where the label has a caution of its
/// own for all that falls under an entry.
pub fn law_words(region: Region, sheet: &Sheet) -> Vec<LawWords> {
    let mut all: Vec<LawWords> = Vec::new();
    let Some(annexes) = sheet.annexes.as_ref().filter(|_| region != Region::Us) else { return all };
    for check in annexes.entries() {
        if annexes.substances(check).all(has_caution) {
            continue;
        }
        for (text, from) in printed(check) {
            let entry = format!("Annex {}", check.entry.short_title());
            match all.iter_mut().find(|known| known.text == text) {
                Some(known) if known.entries.contains(&entry) => {}
                Some(known) => known.entries.push(entry),
                None => all.push(LawWords { text, entries: vec![entry], from }),
            }
        }
    }
    all
}

/// Whether the label has a caution of its own for a substance.
fn has_caution(one: &SubstanceShare) -> bool {
    let capped = || limits().iter().filter(|row| row.label.is_some()).flat_map(|row| &row.names);
    one.preservative().is_some_and(|row| row.label.is_some()) || capped().any(|(name, _)| *name == one.key)
}

fn printed(check: &EntryCheck) -> impl Iterator<Item = (String, Option<Day>)> {
    let print = check.says.iter().filter(|said| said.outcome == LawOutcome::Print);
    print.map(|said| (in_one_line(without_condition(said.words)), said.placed_from))
}

/// The words without what only says when they are printed, such as `Above 2%:`, which holds where they are.
fn without_condition(words: &str) -> &str {
    let split = words.split_once(':').filter(|(before, after)| {
        let condition = before.starts_with("Above ") || before.starts_with("For ");
        condition && !before.contains(['.', '\n']) && !after.trim().is_empty()
    });
    split.map_or(words, |(_, after)| after)
}

/// The lines of some words behind one another, each as a sentence.
fn in_one_line(words: &str) -> String {
    let mut text = String::new();
    for line in words.lines().map(str::trim).filter(|line| !line.is_empty()) {
        if !text.is_empty() {
            text.push_str(if text.ends_with(['.', ':', ';', ',']) { " " } else { ". " });
        }
        text.push_str(line);
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_words_stand_in_one_line() {
        assert_eq!(
            in_one_line("Keep out of reach of children\nFor use as directed."),
            "Keep out of reach of children. For use as directed."
        );
        assert_eq!(in_one_line(without_condition("Above 2%: Contains ammonia")), "Contains ammonia");
        assert_eq!(without_condition("For professional use only."), "For professional use only.");
        assert_eq!(in_one_line(" Contains ammonia.\n\n Avoid eyes "), "Contains ammonia. Avoid eyes");
    }
}
