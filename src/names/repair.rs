//! Misspelt names: the one name that is near.
//!
//! Only a word that no name has is taken for misspelt. What it may be is a word of some name that reads alike
//! ([`loose`]) or is one letter away. The repair counts where it makes a whole name, and only one. Where the letter changes
//! the sense (`-ane` and `-ene`, `-ite` and `-ate`, `-ol` and `-al`), or the word is short, it stays a question.

use super::key::{loose, words};
use super::lexicon::{Hit, is_word, words_of};
use super::plants;
use super::reading::{Meaning, Sureness};
use super::recogniser::{Effort, text};
use super::vocabulary::{self, Kind};

/// The most other words that one word is tried as.
const MOST_TRIES: usize = 12;

/// A word that may be meant, and whether it is safe to say so.
struct Meant {
    word: String,
    safe: bool,
}

/// What a text stands for when its unknown words are spelled as known ones.
pub(super) fn read(plain: &str, effort: &mut Effort) -> Vec<Hit> {
    let unknown: Vec<&str> = words(plain).filter(|word| may_be_misspelt(word)).collect();
    match unknown.as_slice() {
        [one] => settle(tries(plain, &[one], effort)),
        [one, other] => settle(tries(plain, &[one, other], effort)),
        _ => Vec::new(),
    }
}

fn may_be_misspelt(word: &str) -> bool {
    word.len() > 3
        && word.is_ascii()
        && !word.bytes().any(|b| b.is_ascii_digit())
        && !is_word(word)
        && vocabulary::kind(word) != Some(Kind::Real)
        && !plants::is_plant(&[word])
}

/// What each way of spelling the unknown words makes, with whether it is safe.
fn tries(plain: &str, unknown: &[&str], effort: &mut Effort) -> Vec<(Vec<Hit>, bool)> {
    let Some((word, others)) = unknown.split_first() else { return Vec::new() };
    let mut all = Vec::new();
    for meant in near(word) {
        let spelled = plain.replacen(word, &meant.word, 1);
        if others.is_empty() {
            if let Some(hits) = effort.spend().then(|| text(&spelled, effort)).flatten() {
                all.push((hits, meant.safe));
            }
        } else {
            let more = tries(&spelled, others, effort);
            all.extend(more.into_iter().map(|(hits, safe)| (hits, safe && meant.safe)));
        }
    }
    all
}

/// One answer is one; several are a question.
fn settle(mut tried: Vec<(Vec<Hit>, bool)>) -> Vec<Hit> {
    tried.dedup_by(|later, earlier| {
        let same = later.0.iter().map(|hit| &hit.means).eq(earlier.0.iter().map(|hit| &hit.means));
        earlier.1 |= same && later.1;
        same
    });
    let safe: Vec<_> = tried.iter().filter(|(_, safe)| *safe).collect();
    match (safe.as_slice(), tried.as_slice()) {
        ([(hits, _)], [_]) => hits.iter().map(|hit| hit.clone().at_most(Sureness::Spelling)).collect(),
        (_, []) => Vec::new(),
        _ => {
            let mut means: Vec<Meaning> = Vec::new();
            for hit in tried.into_iter().flat_map(|(hits, _)| hits) {
                means.extend(hit.means);
            }
            means.sort_unstable();
            means.dedup();
            vec![Hit { means, sureness: Sureness::Likely, ask: true }]
        }
    }
}

/// The words that a word may be meant for, those that read alike first.
fn near(word: &str) -> Vec<Meant> {
    let form = loose(word);
    let mut near: Vec<Meant> = Vec::new();
    for length in [form.len(), form.len().saturating_sub(1), form.len() + 1] {
        for (known, exact) in words_of(length) {
            let alike = *known == form;
            if (alike || one_apart(known, &form)) && exact != word {
                let safe = alike || (word.len() > 4 && !changes_sense(known, &form));
                let meant = Meant { word: exact.clone(), safe };
                if alike { near.insert(0, meant) } else { near.push(meant) }
            }
        }
    }
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
    // The first letter, as in `ethyl` and `methyl`, and the endings.
    start == 0 || (ends(a) && ends(b)) || matches!((a, b), ("oil", "il") | ("il", "oil"))
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
        for (one, other) in [("ethil", "methil"), ("squalan", "squalen"), ("sorbat", "sorbit"), ("retinol", "retinal")]
        {
            assert!(changes_sense(one, other), "{one} {other}");
        }
        assert!(!changes_sense("kastor", "kaster") && !changes_sense("jojoba", "jojaba"));
    }
}
