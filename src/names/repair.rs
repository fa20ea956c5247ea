//! Misspelt names: the one name that is near.
//!
//! Only a word that no name has is taken for misspelt. What it may be is a word of some name that reads alike
//! ([`loose`]) or is one letter away. The repair counts where it makes a whole name, and only one. Where the letter changes
//! the sense (`-ane` and `-ene`, `-ite` and `-ate`, `-ol` and `-al`), or the word is short, it stays a question.

use super::key::{loose, words};
use super::lexicon::NameHit;
use super::plants;
use super::reading::{Meaning, Sureness};
use super::recogniser::{Effort, text};
use super::spellings::{is_abbreviation, is_word, words_of};
use super::vocabulary::{self, WordKind};
use crate::quantity::sort_by;

/// The most other words that one word is tried as.
const MOST_TRIES: usize = 12;

/// How near a word is to the one that may be meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Near {
    /// It reads alike.
    Alike,
    /// One letter tells them apart.
    OneLetter,
    /// It reads alike but for one letter.
    OneSound,
    /// Too far to be certain: the letter changes the sense.
    Far,
}

/// A word that may be meant.
#[derive(Clone)]
struct Meant {
    word: String,
    near: Near,
}

/// What a text stands for when its unknown words are spelled as known ones.
pub(super) fn read(plain: &str, effort: &mut Effort) -> Vec<NameHit> {
    let unknown: Vec<&str> = words(plain).filter(|word| may_be_misspelt(word) && !is_word(word)).collect();
    let hits = match unknown.as_slice() {
        [one] => settle(tries(plain, &[one], effort)),
        [one, other] => settle(tries(plain, &[one, other], effort)),
        _ => Vec::new(),
    };
    if !hits.is_empty() || unknown.len() > 1 {
        return hits;
    }
    // A word of some other name, in the wrong place: a question at most.
    let mut all = Vec::new();
    for word in words(plain).filter(|word| may_be_misspelt(word)).take(MOST_WORDS) {
        all.extend(tries(plain, &[word], effort).into_iter().map(|tried| Tried { near: Near::Far, ..tried }));
    }
    settle(all)
}

/// The most words of a text that are tried each.
const MOST_WORDS: usize = 4;

fn may_be_misspelt(word: &str) -> bool {
    word.len() > 1
        && word.is_ascii()
        && !word.bytes().any(|b| b.is_ascii_digit())
        && vocabulary::kind(word) != Some(WordKind::Real)
        && !plants::is_plant(&[word])
}

/// What one way of spelling makes.
struct Tried {
    hits: Vec<NameHit>,
    near: Near,
}

/// What each way of spelling the unknown words makes.
fn tries(plain: &str, unknown: &[&str], effort: &mut Effort) -> Vec<Tried> {
    let Some((word, others)) = unknown.split_first() else { return Vec::new() };
    let mut all = Vec::new();
    for meant in near(word) {
        let spelled = with_word(plain, word, &meant.word);
        if others.is_empty() {
            if let Some(hits) = effort.spend().then(|| text(&spelled, effort)).flatten() {
                // A hyphen seldom parts two names, and not where one of them is misspelt.
                let parted = hits.len() > 1 && hangs(plain, word);
                all.push(Tried { hits, near: if parted { Near::Far } else { meant.near } });
            }
        } else {
            let more = tries(&spelled, others, effort);
            all.extend(more.into_iter().map(|tried| Tried { near: tried.near.max(meant.near), ..tried }));
        }
    }
    all
}

/// Whether a word hangs on another by a hyphen.
fn hangs(plain: &str, word: &str) -> bool {
    plain.contains(&format!("-{word}")) || plain.contains(&format!("{word}-"))
}

/// A text with another word in the place of one.
fn with_word(plain: &str, word: &str, other: &str) -> String {
    let whole = |at: &usize| {
        let before = plain.get(..*at).unwrap_or_default().ends_with(char::is_alphanumeric);
        let behind = plain.get(at + word.len()..).unwrap_or_default().starts_with(char::is_alphanumeric);
        !before && !behind
    };
    match plain.match_indices(word).map(|(at, _)| at).find(whole) {
        Some(at) => [plain.get(..at), Some(other), plain.get(at + word.len()..)].into_iter().flatten().collect(),
        None => plain.to_owned(),
    }
}

/// The nearest answer, if there is one of its kind; several are a question.
fn settle(mut tried: Vec<Tried>) -> Vec<NameHit> {
    let nearest = tried.iter().map(|one| one.near).min().unwrap_or(Near::Far);
    if nearest < Near::Far {
        tried.retain(|one| one.near == nearest);
    }
    let same = |one: &Tried| {
        one.hits.iter().map(|hit| &hit.means).eq(tried
            .iter()
            .take(1)
            .flat_map(|first| &first.hits)
            .map(|hit| &hit.means))
    };
    if nearest < Near::Far && tried.iter().all(same) {
        return tried.into_iter().take(1).flat_map(|one| one.hits).map(|hit| hit.at_most(Sureness::Spelling)).collect();
    }
    let mut means: Vec<Meaning> = tried.into_iter().flat_map(|one| one.hits).flat_map(|hit| hit.means).collect();
    means.sort_unstable();
    means.dedup();
    if means.is_empty() { Vec::new() } else { vec![NameHit { means, sureness: Sureness::Likely, ask: true }] }
}

/// The words that a word may be meant for.
fn near(word: &str) -> Vec<Meant> {
    let form = loose(word);
    let mut near: Vec<Meant> = Vec::new();
    for length in [form.len(), form.len().saturating_sub(1), form.len() + 1] {
        for (known, exact) in words_of(length) {
            let alike = *known == form;
            if (alike || one_apart(known, &form)) && exact != word {
                let near_by = match () {
                    // What is short for a name has no letter to spare.
                    () if is_abbreviation(exact) => Near::Far,
                    () if alike => Near::Alike,
                    () if exact == "oil" && word.starts_with('o') => Near::OneLetter,
                    () if word.len() < 4 || changes_sense(known, &form) => Near::Far,
                    () if one_apart(exact, word) => Near::OneLetter,
                    () => Near::OneSound,
                };
                near.push(Meant { word: exact.clone(), near: near_by });
            }
        }
    }
    sort_by(&mut near, |a, b| a.near.cmp(&b.near));
    near.truncate(MOST_TRIES);
    near
}

/// Whether one letter too many, too few or another, or two in each other's place, is all that tells two words apart.
fn one_apart(one: &str, other: &str) -> bool {
    let (one, other) = (one.as_bytes(), other.as_bytes());
    let start = one.iter().zip(other).take_while(|(a, b)| a == b).count();
    let (a, b) = (one.get(start..).unwrap_or_default(), other.get(start..).unwrap_or_default());
    match (a, b) {
        ([_, a @ ..], [_, b @ ..]) if a == b => true,
        ([_, rest @ ..], b) if rest == b => true,
        (a, [_, rest @ ..]) if rest == a => true,
        ([p, q, a @ ..], [r, s, b @ ..]) => p == s && q == r && a == b,
        _ => false,
    }
}

/// Whether the letters by which two words differ tell two kinds of substance apart.
fn changes_sense(one: &str, other: &str) -> bool {
    const ENDS: [&str; 16] =
        ["an", "en", "in", "on", "ol", "al", "il", "oil", "at", "it", "id", "ik", "os", "as", "ium", "ein"];
    let start = one.bytes().zip(other.bytes()).take_while(|(a, b)| a == b).count();
    let (a, b) = (one.get(start..).unwrap_or_default(), other.get(start..).unwrap_or_default());
    let ends = |word: &str| ENDS.contains(&word);
    let told = |mark: &str| one.contains(mark) != other.contains(mark);
    // The first letter, as in `ethyl` and `methyl`, wherever it stands, enzymes, and the endings.
    start == 0
        || told("met")
        || one.ends_with("as") != other.ends_with("as")
        || (ends(a) && ends(b))
        || matches!((a, b), ("oil", "il") | ("il", "oil"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_one_letter_apart_are_told() {
        for (one, other) in
            [("jojoba", "jojaba"), ("castor", "caster"), ("disodium", "disoduim"), ("shea", "sha"), ("ab", "abc")]
        {
            assert!(one_apart(one, other) && one_apart(other, one), "{one} {other}");
        }
        for (one, other) in [("methyl", "propyl"), ("ab", "ab"), ("abcd", "badc")] {
            assert!(!one_apart(one, other), "{one} {other}");
        }
    }

    #[test]
    fn letters_that_change_the_sense_are_told() {
        for (one, other) in [
            ("ethil", "methil"),
            ("squalan", "squalen"),
            ("sorbat", "sorbit"),
            ("retinol", "retinal"),
            ("fenoximetanol", "fenoxietanol"),
            ("ureas", "urea"),
        ] {
            assert!(changes_sense(one, other), "{one} {other}");
        }
        assert!(!changes_sense("kastor", "kaster") && !changes_sense("jojoba", "jojaba"));
    }
}
