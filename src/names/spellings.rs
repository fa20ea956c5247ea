//! Names and words by how they sound, for such as are misspelt.

use super::key::{key, loose, words};
use super::lexicon::{self, NameHit, find, range};
use super::plain::plain;
use super::reading::Sureness;
use super::{plants, vocabulary};
use crate::facts::{Gradual, InPieces};
use crate::quantity::sort_by;

/// What misspelt names are looked up in: made when the first name is not found as it stands.
struct Spellings {
    /// The words of all names, in their loose form, each with its exact one.
    words: Vec<(String, String)>,
    /// Words of up to five letters that stand in names as capitals only.
    short: Vec<String>,
    /// Names in their loose form, with their place in the lexicon.
    loose: Vec<(String, usize)>,
    /// What is left to be done.
    left: Left,
}

/// How far the table is built.
struct Left {
    /// Names of which the words are not taken yet.
    names: Vec<&'static str>,
    /// Keys whose loose form is not taken yet.
    keys: Vec<(usize, &'static str)>,
    /// Sorting: the words, then the keys.
    sorts: u8,
}

/// Names, and keys, in one piece.
const PIECE: usize = 300;

static SPELLINGS: Gradual<Spellings> = Gradual::new();

/// Builds a piece of the table; false once it is whole.
pub(super) fn build() -> bool {
    SPELLINGS.build()
}

/// What a text stands for that only reads like a name, if it reads like no other.
pub(super) fn find_loose(plain: &str) -> Option<NameHit> {
    let form = loose(&key(plain));
    if form.len() < 5 {
        return None;
    }
    let same = range(&SPELLINGS.whole().loose, |(known, _)| known.as_str().cmp(&form));
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
    range(&SPELLINGS.whole().words, |(loose, _)| loose.len().cmp(&length))
}

/// Whether any name has this word.
pub(super) fn is_word(word: &str) -> bool {
    let form = loose(word);
    let same =
        range(&SPELLINGS.whole().words, |(known, _)| (known.len(), known.as_str()).cmp(&(form.len(), form.as_str())));
    same.iter().any(|(_, exact)| exact == word)
}

/// Whether a word is short for a name: `SLS`, `BHT`.
pub(super) fn is_abbreviation(word: &str) -> bool {
    SPELLINGS.whole().short.binary_search_by(|known| known.as_str().cmp(word)).is_ok()
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

impl InPieces for Spellings {
    fn begin() -> Self {
        let names = lexicon::written().chain(vocabulary::all().iter().map(|(word, _)| *word)).chain(plants::names());
        let left = Left { names: names.collect(), keys: lexicon::plain_keys().collect(), sorts: 3 };
        Self { words: Vec::new(), short: Vec::new(), loose: Vec::new(), left }
    }

    fn build(&mut self) -> bool {
        if !self.left.names.is_empty() {
            let mut some: Vec<(String, String)> = Vec::new();
            for name in self.left.names.split_off(self.left.names.len().saturating_sub(PIECE)) {
                let plain = plain(name);
                some.extend(words(&plain).filter(|word| word.len() > 2).map(|word| (loose(word), word.to_owned())));
            }
            // Many names share words: sorted in small they are few, and quickly merged.
            sort_words(&mut some);
            self.words.append(&mut some);
            return true;
        }
        if !self.left.keys.is_empty() {
            let some = self.left.keys.split_off(self.left.keys.len().saturating_sub(PIECE));
            self.loose.extend(some.into_iter().map(|(at, key)| (loose(key), at)));
            return true;
        }
        match self.left.sorts {
            3 => sort_words(&mut self.words),
            2 => sort_by(&mut self.loose, |a, b| a.cmp(b)),
            1 => self.short = abbreviations(),
            _ => return false,
        }
        self.left.sorts -= 1;
        true
    }
}

fn sort_words(words: &mut Vec<(String, String)>) {
    sort_by(words, |a, b| (a.0.len(), &a.0, &a.1).cmp(&(b.0.len(), &b.0, &b.1)));
    words.dedup();
}
