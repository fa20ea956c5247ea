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
        Self { words: all, loose }
    }
}
