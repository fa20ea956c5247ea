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
use super::{endings, spellings};
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
    const BETWEEN: [&str; 10] = ["de", "di", "d", "du", "del", "dell", "della", "des", "der", "of"];
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
    radicals(&mut english);
    let orders = orders(&english);
    let exact = orders.iter().find_map(|order| find(&key(order)));
    let alike = || orders.iter().find_map(|order| spellings::find_loose(order).filter(NameHit::is_certain));
    exact.or_else(alike).map(|hit| hit.at_most(Sureness::Synonym))
}

/// Gives the adjective of an alcohol the ending of a radical, since it is no acid's: `alcool laurylique`.
fn radicals(english: &mut [String]) {
    if !english.iter().any(|word| word == "alcohol") {
        return;
    }
    for word in english {
        if let Some(stem) = word.strip_suffix("ylic").or(word.strip_suffix("ilic")) {
            *word = format!("{stem}yl");
        }
    }
}

/// The orders in which English may have the words: the adjective or the base behind the noun (`acid citric`, `citrate sodium`),
/// the base last of several (`lauroyl sarcosinate sodium`), all of it turned (`stearate citrate glyceryl`).
fn orders(english: &[String]) -> Vec<String> {
    let mut orders = vec![english.to_vec()];
    if english.len() > 1 {
        for turn in [1, english.len() - 1] {
            let mut turned = english.to_vec();
            turned.rotate_left(turn);
            orders.push(turned);
        }
        orders.push(english.iter().rev().cloned().collect());
    }
    if let [first, second, rest @ ..] = english {
        orders.push([second, first].into_iter().chain(rest).cloned().collect());
    }
    orders.into_iter().map(|order| order.join(" ")).collect()
}

/// Whether a word is a base of salts, alone or of several: `sodium`, `disodium`.
pub(super) fn is_base(word: &str) -> bool {
    const MANY: [&str; 6] = ["di", "tri", "tetra", "penta", "mono", ""];
    let named = |rest: &str| known(rest).is_some_and(|known| known.role == Role::Base && known.means == rest);
    MANY.iter().any(|many| word.strip_prefix(many).is_some_and(named))
}

/// Whether a word means an English one in any language.
pub(super) fn is(word: &str, english: &str) -> bool {
    known(word).is_some_and(|known| known.means == english)
}

/// Whether a word is a base of salts in any language.
pub(super) fn is_metal(word: &str) -> bool {
    known(word).is_some_and(|known| known.role == Role::Base)
}

fn known(word: &str) -> Option<Foreign> {
    let at = WORDS.binary_search_by(|known| known.word.cmp(word)).ok()?;
    WORDS.get(at).copied()
}

/// A word in English, as far as it can be told by the table or its ending.
fn translated(word: &str) -> String {
    match known(word) {
        Some(known) => known.means.to_owned(),
        None => endings::english(word).unwrap_or_else(|| word.to_owned()),
    }
}

/// The parts of a German or Dutch compound: a base with its salt, an acid, its ester, an alcohol.
fn compound(word: &str) -> Option<Vec<String>> {
    if let Some((acid, alkyl)) = word.strip_suffix("ester").and_then(|rest| rest.split_once("saure")) {
        let salt = format!("{}ate", acid_named(acid)?.strip_suffix("ic")?);
        return Some(vec![translated(alkyl), salt]);
    }
    if let Some(stem) = ["saure", "zuur"].iter().find_map(|end| word.strip_suffix(end)).filter(|stem| stem.len() > 1) {
        return Some(vec![acid_named(stem)?, "acid".to_owned()]);
    }
    for (end, english) in [("alkohol", "alcohol"), ("glykol", "glycol"), ("protein", "protein"), ("gummi", "gum")] {
        if let Some(stem) = word.strip_suffix(end).filter(|stem| stem.len() > 2) {
            return Some(vec![translated(stem), english.to_owned()]);
        }
    }
    based(word).or_else(|| joined_salts(word))
}

/// An acid by its German or Dutch stem: `benzoe`, `palmitin`, `ferula`.
fn acid_named(stem: &str) -> Option<String> {
    let acid = |known: &&Foreign| known.role == Role::Acid;
    if let Some(known) = known(stem).filter(|known| acid(&known)) {
        return Some(known.means.to_owned());
    }
    let forms = [stem, stem.trim_end_matches("ine"), stem.trim_end_matches("in"), stem.trim_end_matches(['a', 'i'])];
    let mut named = forms.iter().map(|stem| format!("{stem}ic"));
    let found = |acid: &String| find(&key(&format!("{acid} acid"))).is_some();
    // `hydroxybenzoe`: an acid that has something more.
    let longer = || {
        let mut ends = WORDS.iter().filter(acid).filter(|known| known.word.len() > 4);
        ends.find_map(|known| Some(format!("{}{}", stem.strip_suffix(known.word)?, known.means)))
    };
    let plain = format!("{stem}ic");
    named.find(found).or_else(longer).or(Some(plain))
}

/// A base, alone or of several, with its salt: `natriumbenzoat`, `tetranatriumglutamatdiacetat`.
fn based(word: &str) -> Option<Vec<String>> {
    const MANY: [&str; 5] = ["", "di", "tri", "tetra", "penta"];
    const GERMAN: [&str; 6] = ["zink", "zinc", "eisen", "titan", "kupfer", "silber"];
    let bases = WORDS.iter().filter(|known| known.role == Role::Base);
    let parted = bases.flat_map(|base| {
        MANY.iter().filter_map(move |many| Some((many, base, word.strip_prefix(many)?.strip_prefix(base.word)?)))
    });
    // Short bases (`fer`) begin other words, too.
    let whole = |base: &Foreign| base.word.len() > 3 && (base.word.ends_with("um") || GERMAN.contains(&base.word));
    let parted = parted.filter(|(_, base, _)| whole(base));
    let (many, base, rest) = parted.max_by_key(|(many, base, _)| many.len() + base.word.len())?;
    if rest.is_empty() && !many.is_empty() {
        return Some(vec![format!("{many}{}", base.means)]);
    }
    let salt =
        if rest.ends_with("salz") { "salt".to_owned() } else { with_salts(rest).unwrap_or_else(|| translated(rest)) };
    (rest.len() > 2).then(|| vec![format!("{many}{}", base.means), salt])
}

/// Salts that German writes as one word: `glycerylstearatcitrat`.
fn joined_salts(word: &str) -> Option<Vec<String>> {
    let salt = with_salts(word).filter(|_| word.len() > 9)?;
    let glyceryl = ["glycerin", "glycerol"].iter().find_map(|alcohol| salt.strip_prefix(alcohol));
    let salt = glyceryl.map_or_else(|| salt.clone(), |rest| format!("glyceryl{}", rest.trim_start_matches("mono")));
    Some(vec![salt])
}

/// A word with `ate` for each `at` that stands before a consonant or at the end.
fn with_salts(word: &str) -> Option<String> {
    let mut english = String::with_capacity(word.len() + 2);
    let mut rest = word;
    while let Some(at) = rest.find("at") {
        let (before, behind) = rest.split_at(at + 2);
        english.push_str(before);
        if !behind.starts_with(['a', 'e', 'i', 'o', 'u', 'y', 'h', 'r']) {
            english.push('e');
        }
        rest = behind;
    }
    english.push_str(rest);
    (word.ends_with("at") && !word.ends_with("aat") && english.len() > word.len()).then_some(english)
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
