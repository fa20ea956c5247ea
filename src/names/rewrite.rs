//! Other ways of writing one chemical name: without prefixes of stereochemistry and position, without water of crystals, a salt
//! or an ester by its acid, a plural, the word behind the comma first.

use super::isomers::{is_stereo, position};
use super::key::{american, key};
use super::lexicon::{NameHit, find, find_placed};
use super::reading::Sureness;

/// What the words stand for in another way of writing.
pub(super) fn read(words: &[&str], comma: Option<usize>) -> Option<NameHit> {
    let hit = positions(words)
        .or_else(|| hydrate(words))
        .or_else(|| salt(words))
        .or_else(|| turned(words, comma))
        .or_else(|| plural(words));
    hit.map(|hit| hit.at_most(Sureness::Synonym))
}

fn joined(words: &[&str]) -> String {
    let mut key = String::new();
    for word in words {
        american(word, &mut key);
    }
    key
}

/// `ortho` for `o`; and without all that stands before or behind a name and says which isomer it is.
fn positions(words: &[&str]) -> Option<NameHit> {
    let short: Vec<&str> =
        words.iter().map(|word| if word.len() > 1 { position(word).unwrap_or(word) } else { word }).collect();
    let full: Vec<&str> = words.iter().map(|word| position(word).unwrap_or(word)).collect();
    if let Some(hit) = [short, full].iter().filter(|one| one.as_slice() != words).find_map(|one| find(&joined(one))) {
        return Some(hit);
    }
    let mut rest = words;
    let mut positions = Vec::new();
    let mut take = |word: &str| {
        let position = position(word);
        positions.extend(position);
        position.is_some() || is_stereo(word)
    };
    while let [first, more @ ..] = rest
        && !more.is_empty()
        && take(first)
    {
        rest = more;
    }
    while let [more @ .., last] = rest
        && !more.is_empty()
        && take(last)
    {
        rest = more;
    }
    if rest.len() == words.len() {
        return None;
    }
    find_placed(&joined(rest), &positions).or_else(|| {
        let single = rest.split_last().and_then(|(last, more)| Some([more, &[last.strip_suffix('s')?]].concat()));
        find_placed(&joined(&single?), &positions)
    })
}

/// Crystals of a salt or an acid hold water or none; the substance is the same.
fn hydrate(words: &[&str]) -> Option<NameHit> {
    let water = |word: &&&str| word.ends_with("hydrate") || ["anhydrous", "hydrous", "anhydrate"].contains(*word);
    let dry: Vec<&str> = words.iter().filter(|word| !water(word)).copied().collect();
    if dry.len() == words.len() || dry.is_empty() {
        return None;
    }
    find(&joined(&dry)).or_else(|| salt(&dry))
}

/// `lactic acid sodium salt`, `sodium salt of lactic acid`, `salicylic acid methyl ester`: sodium lactate, methyl salicylate.
fn salt(words: &[&str]) -> Option<NameHit> {
    let without: Vec<&str> =
        words.iter().filter(|word| !["of", "salt", "ester", "salts"].contains(*word)).copied().collect();
    if without.len() == words.len() {
        return None;
    }
    let acid = without.iter().position(|word| *word == "acid").filter(|at| *at > 0)?;
    let stem = without.get(acid - 1)?.strip_suffix("ic")?;
    let others = |from: usize, to: usize| without.get(from..to).unwrap_or_default().concat();
    // The other one stands behind the acid, or before it with `of` between.
    let behind = others(acid + 1, without.len());
    let before = others(0, acid - 1);
    let (base, first) = if behind.is_empty() { (before, String::new()) } else { (behind, before) };
    find(&key(&format!("{base} {first}{stem}ate")))
}

/// `wheat protein, hydrolysed`.
fn turned(words: &[&str], comma: Option<usize>) -> Option<NameHit> {
    let (before, behind) = words.split_at_checked(comma?)?;
    find(&joined(&[behind, before].concat()))
}

fn plural(words: &[&str]) -> Option<NameHit> {
    let single: Vec<&str> = words
        .iter()
        .map(|word| if word.len() > 4 && !word.ends_with("ss") { word.strip_suffix('s').unwrap_or(word) } else { word })
        .collect();
    let last: Option<Vec<&str>> = words.split_last().map(|(last, more)| {
        let mut all = more.to_vec();
        all.push(if last.len() > 3 { last.strip_suffix('s').unwrap_or(last) } else { last });
        all
    });
    let plural = || words.split_last().map(|(last, more)| [more, &[format!("{last}s").as_str()]].concat().concat());
    [Some(single), last]
        .into_iter()
        .flatten()
        .filter(|one| one.as_slice() != words)
        .find_map(|one| find(&joined(&one)))
        .or_else(|| find(&plural()?))
}
