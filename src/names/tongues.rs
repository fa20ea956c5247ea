//! Chemical names in German, French, Spanish and Italian: `Natriumbenzoat`, `acide citrique`, `hidróxido de sodio`, `alcool
//! benzylique`.
//!
//! `data/tongues.csv` holds the words that another language writes in its own way; endings (`-at`, `-ato` for `-ate`) and
//! the order of the words follow rules. What comes out is looked up as any English name.

use std::sync::LazyLock;

use super::FILE;
use super::key::key;
use super::lexicon::{NameHit, find};
use super::reading::Sureness;
use crate::facts::CsvTable;
use crate::quantity::sort_by;

/// What a word is in a chemical name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Role {
    /// A base of salts: `sodium`.
    Base,
    /// What it makes a salt with: `citrate`.
    Salt,
    /// The adjective of an acid, or its stem: `citric`.
    Acid,
    /// Any other word.
    Word,
}

#[derive(Clone, Copy)]
struct Foreign {
    word: &'static str,
    means: &'static str,
    role: Role,
}

static TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(FILE.text("data/tongues.csv")));
static WORDS: LazyLock<Vec<Foreign>> = LazyLock::new(|| {
    let mut all = Vec::new();
    for row in TABLE.rows() {
        let (Ok(kind), Ok(means), Ok(words)) = (row.get("kind"), row.get("means"), row.get("words")) else { continue };
        let role = match kind {
            "base" => Role::Base,
            "salt" => Role::Salt,
            "acid" => Role::Acid,
            _ => Role::Word,
        };
        all.extend(words.split(' ').chain([means]).map(|word| Foreign { word, means, role }));
    }
    sort_by(&mut all, |a, b| a.word.cmp(b.word));
    all
});

/// What the words stand for, where some of them are of another language.
pub(super) fn read(words: &[&str]) -> Option<NameHit> {
    const BETWEEN: [&str; 6] = ["de", "di", "d", "du", "del", "of"];
    let mut english: Vec<String> = Vec::new();
    for word in words.iter().filter(|word| !BETWEEN.contains(*word)) {
        match compound(word) {
            Some(parts) => english.extend(parts),
            None => english.push(translated(word)),
        }
    }
    if english.iter().map(String::as_str).eq(words.iter().copied()) || english.is_empty() {
        return None;
    }
    let found = |words: &[String]| find(&key(&words.join(" ")));
    // The adjective behind the noun: `acid citric`, `citrate sodium`, `glycol butylene`.
    let turned = || {
        let (first, rest) = english.split_first()?;
        found(&[rest, core::slice::from_ref(first)].concat())
    };
    found(&english).or_else(turned).map(|hit| hit.at_most(Sureness::Synonym))
}

fn known(word: &str) -> Option<Foreign> {
    let at = WORDS.binary_search_by(|known| known.word.cmp(word)).ok()?;
    WORDS.get(at).copied()
}

/// A word in English, as far as it can be told by the table or its ending.
fn translated(word: &str) -> String {
    if let Some(known) = known(word) {
        return known.means.to_owned();
    }
    for (end, english) in [("ique", "ic"), ("ico", "ic"), ("ato", "ate"), ("at", "ate"), ("ina", "in"), ("olo", "ol")] {
        if let Some(stem) = word.strip_suffix(end).filter(|stem| stem.len() > 3) {
            return format!("{stem}{english}");
        }
    }
    word.to_owned()
}

/// The parts of a German compound: a base with its salt, an acid, an alcohol.
fn compound(word: &str) -> Option<Vec<String>> {
    if let Some(stem) = word.strip_suffix("saure").filter(|stem| stem.len() > 1) {
        let stem = known(stem).filter(|known| known.role == Role::Acid).map(|known| known.means.to_owned());
        let plain = || word.strip_suffix("saure").map(|stem| format!("{stem}ic"));
        return Some(vec![stem.or_else(plain)?, "acid".to_owned()]);
    }
    for (end, english) in [("alkohol", "alcohol"), ("glykol", "glycol")] {
        if let Some(stem) = word.strip_suffix(end).filter(|stem| stem.len() > 2) {
            return Some(vec![translated(stem), english.to_owned()]);
        }
    }
    let bases = WORDS.iter().filter(|known| known.role == Role::Base);
    let parted = bases.filter_map(|base| Some((base, word.strip_prefix(base.word)?)));
    let (base, rest) = parted.filter(|(_, rest)| rest.len() > 3).max_by_key(|(base, _)| base.word.len())?;
    Some(vec![base.means.to_owned(), translated(rest)])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::names::key::words;
    use crate::names::plain::plain;
    use crate::names::reading::Meaning;

    // Names of substances in four languages: common practice, no source.
    #[test]
    fn tongues_are_read_by_their_words_and_endings() {
        for (text, id) in [
            ("Natriumbenzoat", "sodium-benzoate"),
            ("Hidróxido de sodio", "sodium-hydroxide"),
            ("Sorbato di potassio", "potassium-sorbate"),
            ("Acide citrique", "citric-acid"),
            ("Ácido esteárico", "stearic-acid"),
            ("Benzoesäure", "benzoic-acid"),
            ("Alcool cétylique", "cetyl-alcohol"),
            ("Cetylstearylalkohol", "cetearyl-alcohol"),
            ("Goma xantana", "xanthan-gum"),
        ] {
            let plain = plain(text);
            let hit = read(&words(&plain).collect::<Vec<_>>());
            assert_eq!(hit.map(|hit| hit.means), Some(vec![Meaning::Material(id)]), "{text}");
        }
        for text in ["Natriumstearat", "Citric acid", "Kaliumpermanganat", "saure", ""] {
            let hit = read(&words(&plain(text)).collect::<Vec<_>>());
            assert!(hit.is_none_or(|hit| hit.means.iter().all(|one| one.id().is_none())), "{text}");
        }
    }
}
