//! Reads the column of maximum concentrations.

use super::condition::{Condition, Letters, Maximum, Untold, What};
use super::dates::day_in_words;
use super::figure::{reckoned_as, share};
use super::scope::read_scope;
use super::sentence::{Context, classify, sentences};
use crate::quantity::Percent;

/// The conditions in the words of one sub-entry, or of all.
pub(super) fn read_maximum(text: &str, letters: Letters, narrower: bool, context: &Context<'_>) -> Vec<Condition> {
    let mut found: Vec<Condition> = Vec::new();
    let mut open = true;
    for sentence in sentences(text) {
        let words = sentence.trim_start_matches(['-', '—', ' ']);
        if words.is_empty() {
            continue;
        }
        let (from, words) = since(words);
        found.extend(from.map(|what| Condition { letters, what, words: sentence.to_owned() }));
        let what = match figures(words, narrower) {
            Some(read) if open => read,
            _ => {
                open = open && !words.contains("ombin");
                prefixed(words).unwrap_or_else(|| vec![classify(words, context)])
            }
        };
        found.extend(what.into_iter().map(|what| Condition { letters, what, words: sentence.to_owned() }));
    }
    merged(found)
}

/// `As from 3 June 2021: 0,5 %`.
fn since(words: &str) -> (Option<What>, &str) {
    let dated = words.strip_prefix("As from ").and_then(day_in_words);
    match dated {
        Some((day, rest)) => {
            let from = What::From { placed: Some(day), available: Some(day) };
            (Some(from), rest.trim_start_matches([':', ',', ' ']))
        }
        None => (None, words),
    }
}

/// Words that begin with a figure: the figure, and what the words behind it say.
fn figures(words: &str, narrower: bool) -> Option<Vec<What>> {
    let inner = words.strip_prefix('(').filter(|inner| share(inner).is_some()).map(|inner| inner.trim_end_matches(')'));
    let words = inner.unwrap_or(words);
    let words = words.strip_prefix("(i) ").unwrap_or(words);
    let (most, rest) = share(words)?;
    let (basis, rest) = reckoned_as(rest).map_or((None, rest), |(basis, rest)| (Some(basis), rest));
    let mut maximum = Maximum { least: most, most, reckoned_as: basis, only: None, after_mixing: false };
    let rest = rest.trim_start_matches(['*', ' ', '.', ';', ',', ')', '\u{2019}', '(']).trim_end();
    let lower = rest.to_lowercase();
    let repeats = ["when used alone", "corresponding to ", "40 volumes), present or released"];
    let again = share(rest).is_some_and(|_| maximum.reckoned_as.is_some() && rest.ends_with(')'));
    if rest.is_empty() || lower == "for single ester" || again || repeats.iter().any(|words| lower.starts_with(words)) {
        // Nothing more, or the same once more in other units.
    } else if lower.contains("after mixing") {
        maximum.after_mixing = true;
    } else if let Some((other, _)) =
        another(rest).filter(|_| narrower || lower.contains("professional") || lower.starts_with("(ii)"))
    {
        (maximum.least, maximum.most) = (most.min(other), most.max(other));
        return Some(vec![What::Maximum(maximum), What::Confirm(Untold::Users)]);
    } else if ["sum of", "mixture", "combin"].iter().any(|word| lower.contains(word)) {
        // What holds for the sum holds for each of its parts; what only holds for a mixture is no limit of one.
        let of_a_mixture = lower.starts_with("for mixture");
        let together = What::Confirm(Untold::Together);
        return Some(if of_a_mixture { vec![together] } else { vec![What::Maximum(maximum), together] });
    } else {
        let phrase = ["in ", "for ", "when used in "].iter().find_map(|word| rest.strip_prefix(word)).unwrap_or(rest);
        match read_scope(phrase, &|_| None) {
            Some(scope) => maximum.only = Some(scope),
            None => return Some(vec![What::Maximum(maximum), What::Unread]),
        }
    }
    Some(vec![What::Maximum(maximum)])
}

/// The next figure in a text.
fn another(text: &str) -> Option<(Percent, &str)> {
    let start = text.find(|c: char| c.is_ascii_digit())?;
    share(text.get(start..)?)
}

/// `leave-on products: 0.1%`, `Salicylic acid: 0,5 % (acid)`.
fn prefixed(words: &str) -> Option<Vec<What>> {
    let (before, figure) = words.split_once(':')?;
    let mut read = figures(figure.trim_start(), false)?;
    let before = before.trim();
    if let Some(scope) = read_scope(before, &|_| None) {
        for what in &mut read {
            if let What::Maximum(maximum) = what {
                maximum.only = Some(scope);
            }
        }
    } else if before.split(' ').count() > 4 || before.chars().any(|c| c.is_ascii_digit() || c == '(') {
        return None;
    }
    Some(read)
}

/// Several figures for the same sub-entries, reckoned alike and without products of their own, are one between the least and
/// the most of them: a formula does not say which of them is meant.
fn merged(found: Vec<Condition>) -> Vec<Condition> {
    let mut kept: Vec<Condition> = Vec::new();
    for condition in found {
        if let What::Maximum(next) = &condition.what
            && let Some((before, words)) = kept.iter_mut().find_map(|kept| match &mut kept.what {
                What::Maximum(before)
                    if before.only.is_none() && next.only.is_none() && before.reckoned_as == next.reckoned_as =>
                {
                    Some((before, &mut kept.words))
                }
                _ => None,
            })
        {
            before.least = before.least.min(next.least);
            before.most = before.most.max(next.most);
            if *words != condition.words {
                words.push('\n');
                words.push_str(&condition.words);
            }
            continue;
        }
        kept.push(condition);
    }
    kept
}
