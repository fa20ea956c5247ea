//! Names and words by how they sound, for such as are misspelt.

use std::sync::LazyLock;

use super::key::{key, loose, words};
use super::lexicon::{self, NameHit, find, range};
use super::plain::plain;
use super::reading::Sureness;
use super::{plants, vocabulary};
use crate::quantity::sort_by;

/// What misspelt names are looked up in: made when the first name is not found as it stands.
struct Spellings {
    /// The words of all names, in their loose form, each with its exact one.
    words: Vec<(String, String)>,
    /// Words of up to five letters that stand in names as capitals only.
    short: Vec<String>,
    /// Names in their loose form, with their place in the lexicon.
    loose: Vec<(String, usize)>,
}

static SPELLINGS: LazyLock<Spellings> = LazyLock::new(Spellings::build);

/// What a text stands for that only reads like a name, if it reads like no other.
pub(super) fn find_loose(plain: &str) -> Option<NameHit> {
    let form = loose(&key(plain));
    if form.len() < 5 {
        return None;
    }
    let same = range(&SPELLINGS.loose, |(known, _)| known.as_str().cmp(&form));
    let mut hits = same.iter().filter_map(|(_, at)| find(lexicon::key_at(*at)?));
    let mut hit = hits.next()?.at_most(Sureness::Spelling);
    for other in hits {
        hit.ask |= other.ask;
        hit.means.extend(other.means);
    }
    lexicon::settle(&mut hit);
    Some(hit)
}

/// All words with a loose form of this length, as loose and exact form.
pub(super) fn words_of(length: usize) -> &'static [(String, String)] {
    range(&SPELLINGS.words, |(loose, _)| loose.len().cmp(&length))
}

/// Whether any name has this word.
pub(super) fn is_word(word: &str) -> bool {
    let form = loose(word);
    let same = range(&SPELLINGS.words, |(known, _)| (known.len(), known.as_str()).cmp(&(form.len(), form.as_str())));
    same.iter().any(|(_, exact)| exact == word)
}

/// Whether a word is short for a name: `SLS`, `BHT`.
pub(super) fn is_abbreviation(word: &str) -> bool {
    SPELLINGS.short.binary_search_by(|known| known.as_str().cmp(word)).is_ok()
}

/// The words of names that are written in capitals, and in capitals only.
fn abbreviations() -> Vec<String> {
    let mut written: Vec<(String, bool)> = Vec::new();
    for name in lexicon::written() {
        for word in name.split(|c: char| !c.is_ascii_alphabetic()).filter(|word| (2..=5).contains(&word.len())) {
            written.push((word.to_lowercase(), word.chars().filter(char::is_ascii_uppercase).count() > 1));
        }
    }
    sort_by(&mut written, |a, b| a.cmp(b));
    let same =
        written.chunk_by(|one, other| one.0 == other.0).filter(|same| same.iter().all(|(_, capitals)| *capitals));
    same.filter_map(|same| same.first().map(|(word, _)| word.clone())).collect()
}

impl Spellings {
    fn build() -> Self {
        let names = lexicon::written().chain(vocabulary::all().iter().map(|(word, _)| *word)).chain(plants::names());
        let mut all: Vec<(String, String)> = Vec::new();
        for name in names {
            let plain = plain(name);
            all.extend(words(&plain).filter(|word| word.len() > 2).map(|word| (loose(word), word.to_owned())));
        }
        sort_by(&mut all, |a, b| (a.0.len(), &a.0, &a.1).cmp(&(b.0.len(), &b.0, &b.1)));
        all.dedup();
        let mut loose: Vec<(String, usize)> = lexicon::plain_keys().map(|(at, key)| (loose(key), at)).collect();
        sort_by(&mut loose, |a, b| a.0.cmp(&b.0));
        Self { words: all, short: abbreviations(), loose }
    }
}
