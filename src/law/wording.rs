//! Reads the column of wordings: what has to be on the label or in the directions, and when.
//!
//! Some rows, most of all of Annexes IV and VI, have conditions of other columns here; those are told apart.

use super::condition::{Condition, Letters, What, WordingWhen};
use super::figure::share;
use super::letters::Segment;
use super::scope::read_scope;
use super::sentence::{Context, List, classify, sentences};

/// Lines that only say what follows.
const HEADS: [&str; 8] = [
    "conditions of use:",
    "warnings:",
    "warnings to be printed on the label:",
    "to be printed on the label:",
    "to be printed on the label: the mixing ratio.",
    "wording of conditions of use and warnings:",
    "the mixing ratio.",
    "purity criteria:",
];

/// The conditions in a segment of the column.
pub(super) fn read_wording(segment: Segment<'_>, context: &Context<'_>) -> Vec<Condition> {
    let letters = segment.letters;
    let condition = |what, words: &str| Condition { letters, what, words: words.to_owned() };
    if let Some(what) = misplaced(segment.text, letters, context) {
        return what;
    }
    let mut lines: Vec<&str> = segment.text.split('\n').collect();
    let head = |line: &&str| HEADS.contains(&line.trim().to_lowercase().as_str());
    while lines.first().is_some_and(head) {
        lines.remove(0);
    }
    while lines.last().is_some_and(head) {
        lines.pop();
    }
    let words = lines.join("\n");
    if !words.chars().any(char::is_alphanumeric) {
        return Vec::new();
    }
    let when = if segment.narrower { WordingWhen::AsSaid } else { when(&words, context) };
    vec![condition(What::Label { when }, &words)]
}

/// When words have to be printed, by what they say themselves.
fn when(words: &str, context: &Context<'_>) -> WordingWhen {
    if let Some((share, rest)) = words.strip_prefix("Above ").and_then(share)
        && rest.trim_start().starts_with(':')
    {
        return WordingWhen::Above(share);
    }
    if let Some((phrase, _)) = words.strip_prefix("For ").and_then(|rest| rest.split_once(':'))
        && let Some(scope) = read_scope(phrase, context.of_letter)
    {
        return WordingWhen::In(Box::new(scope));
    }
    let lower = words.to_lowercase();
    let mut digits = lower.split('(').skip(1).filter_map(|rest| rest.split(')').next());
    let note = digits.any(|inner| !inner.is_empty() && inner.chars().all(|c| c.is_ascii_digit() || c == '*'));
    let conditional = [
        "solely for",
        "not required if",
        "only if",
        "for any toothpaste",
        "for toothpaste",
        "for face products",
        "as from ",
        "for cosmetic",
    ];
    if note || conditional.iter().any(|mark| lower.contains(mark)) { WordingWhen::AsSaid } else { WordingWhen::Always }
}

/// Conditions that belong into another column.
fn misplaced(text: &str, letters: Letters, context: &Context<'_>) -> Option<Vec<Condition>> {
    let lower = text.to_lowercase();
    let opens = [
        "not to be used in applications",
        "only nanomaterials",
        "purity",
        "free from",
        "maximum 3,3",
        "not more than",
        "only in free acid",
        "— purity",
    ];
    let notes = ["(15", "this limit applies"];
    if notes.iter().any(|note| lower.starts_with(note)) {
        return Some(vec![Condition { letters, what: What::Note, words: text.to_owned() }]);
    }
    if !opens.iter().any(|open| lower.trim_start().starts_with(open)) {
        return None;
    }
    let mut list = List::default();
    let read = sentences(text).into_iter().map(|sentence| {
        let what = list.sort(sentence, classify(sentence, context));
        Condition { letters, what, words: sentence.to_owned() }
    });
    Some(read.collect())
}
