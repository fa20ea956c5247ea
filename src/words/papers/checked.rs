//! What the papers say of every ingredient: against what it was checked.

use super::table;
use crate::law::{self, Law};
use crate::names::{Meaning, Sureness};
use crate::paper::{Block, Checked, CheckedLine, CheckedSubstance};
use crate::sheet::Recognition;
use crate::shelf::Shelf;
use crate::words::bench;

const NONE: &str = "none found";
/// What a name that is in no entry leaves open.
const NONE_FOUND: &str = "\u{201c}None found\u{201d} only says that no entry lists the name. It says nothing about harm, and nothing about any other law. What suppliers\u{2019} statements name, impurities and packaging are not in this table.";
/// Where the annexes are not here.
const NOT_LOOKED_UP: &str = "No ingredient was looked up in the annexes of Regulation (EC) No 1223/2009: they were not here when this paper was made. Nothing can be concluded from that.";

/// As one row an ingredient, for the safety sheet.
pub(super) fn checked_short(checked: &Checked) -> Vec<Block> {
    let row = |line: &CheckedLine| {
        let known = line.substances.iter().map(|one| match &one.recognition {
            Recognition::Listed => one.name.clone(),
            other => format!("{} ({})", one.name, how(other)),
        });
        let entry = |one: &CheckedSubstance| entries(one, checked.looked_up);
        let mut each: Vec<String> = line.substances.iter().map(entry).collect();
        // What is the same of all parts is said once.
        if each.windows(2).all(|pair| pair.first() == pair.last()) {
            each.truncate(1);
        }
        vec![line.written.clone(), or_none(known.collect()), or_none(each)]
    };
    let rows = checked.lines.iter().map(row).collect();
    framed(checked, table(&["In the formula", "Known as", "Entries of the annexes"], &[], rows))
}

/// As one row a substance, for the assessor.
pub(super) fn checked_whole(checked: &Checked) -> Vec<Block> {
    let row = |line: &CheckedLine, one: &CheckedSubstance| {
        vec![line.written.clone(), one.name.clone(), how(&one.recognition), entries(one, checked.looked_up)]
    };
    let mut rows = Vec::new();
    for line in &checked.lines {
        rows.extend(line.substances.iter().map(|one| row(line, one)));
        if line.substances.is_empty() {
            rows.push(vec![line.written.clone(), NOT_KNOWN.to_owned(), NOTHING.to_owned(), NOTHING.to_owned()]);
        }
    }
    framed(checked, table(&["In the formula", "Known as", "How", "Entries of the annexes"], &[], rows))
}

const NOT_KNOWN: &str = "\u{2013}";
const NOTHING: &str = "nothing was looked up: no percentage, or not on the shelf";

fn or_none(texts: Vec<String>) -> String {
    if texts.is_empty() { NOTHING.to_owned() } else { texts.join("; ") }
}

fn framed(checked: &Checked, table: Block) -> Vec<Block> {
    vec![Block::Text(sentence(checked)), table, Block::Text(NONE_FOUND.to_owned())]
}

/// How many were looked up, and in what.
fn sentence(checked: &Checked) -> String {
    if !checked.looked_up {
        return NOT_LOOKED_UP.to_owned();
    }
    let all = checked.lines.len();
    let count = checked.count();
    let day = law::shipped().ok().and_then(Law::known_to).map(|day| format!(" as kept to {day}")).unwrap_or_default();
    let (noun, verb) = (if all == 1 { "ingredient" } else { "ingredients" }, if count == 1 { "was" } else { "were" });
    let rest = match all.saturating_sub(count) {
        0 => String::new(),
        1 => " The other one, or part of it, was not checked: it is not recognised.".to_owned(),
        some => format!(" The other {some}, or part of each, were not checked: they are not recognised."),
    };
    format!(
        "{count} of {all} {noun} {verb} recognised and looked up in Annexes II to VI of Regulation (EC) No 1223/2009{day}.{rest}"
    )
}

/// How it is known what a name stands for.
fn how(recognition: &Recognition) -> String {
    match recognition {
        Recognition::Listed => "a name in the tables".to_owned(),
        Recognition::Recognised(sureness) => match sureness {
            Sureness::Exact => "recognised".to_owned(),
            Sureness::Number => "recognised by its number".to_owned(),
            Sureness::Synonym => "recognised by another name".to_owned(),
            Sureness::Spelling => "recognised although misspelt".to_owned(),
            Sureness::Likely => "likely".to_owned(),
        },
        Recognition::Asked(candidates) => {
            let few: Vec<String> = candidates.iter().take(3).map(called).collect();
            format!("not certain: is it {}? Nothing was checked", few.join(", or "))
        }
        Recognition::Unknown => "not recognised: nothing was checked".to_owned(),
        Recognition::NotLookedUp => "not looked up".to_owned(),
    }
}

fn called(means: &Meaning) -> String {
    means.id().map_or_else(|| means.text().to_owned(), |id| bench::substance(id, &Shelf::default()))
}

/// The entries that a substance falls under, or why none is named.
fn entries(one: &CheckedSubstance, looked_up: bool) -> String {
    if !looked_up {
        return "not looked up".to_owned();
    }
    let titles: Vec<String> = one
        .entries
        .iter()
        .map(|entry| if entry.by_name { entry.title.clone() } else { format!("{} (by a number only)", entry.title) })
        .collect();
    match (titles.is_empty(), one.recognition.is_certain()) {
        (false, _) => titles.join(", "),
        (true, true) => NONE.to_owned(),
        (true, false) => "not known".to_owned(),
    }
}
