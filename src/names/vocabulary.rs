//! Words that mean the same in every name: parts and products of plants, authors of botanical names, grades and remarks.
//!
//! `data/words.csv`, sorted by word. What a word is: `remark` (says nothing of the substance: grade, origin, how it was pressed),
//! `function` (what it does in a product), `form` (how it is milled), `colour` (how it looks, which tells some plants apart), `part` and `product` of a plant with the word of the
//! nomenclature, `author` (stands behind a botanical name), `real` (never a misspelling of anything).

use std::sync::LazyLock;

use super::FILE;
use crate::facts::CsvTable;
use crate::quantity::sort_by;

/// What a word is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum WordKind {
    Remark,
    Function,
    Form,
    Part(&'static str),
    Product(&'static str),
    Author,
    Colour,
    Real,
}

static TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(FILE.text("data/words.csv")));

static WORDS: LazyLock<Vec<(&'static str, WordKind)>> = LazyLock::new(|| {
    let mut words = Vec::new();
    for row in TABLE.rows() {
        let (Ok(kind), Ok(means), Ok(list)) = (row.get("kind"), row.get("means"), row.get("words")) else { continue };
        let kind = match kind {
            "function" => WordKind::Function,
            "form" => WordKind::Form,
            "part" => WordKind::Part(means),
            "product" => WordKind::Product(means),
            "author" => WordKind::Author,
            "colour" => WordKind::Colour,
            "real" => WordKind::Real,
            _ => WordKind::Remark,
        };
        words.extend(list.split(' ').map(|word| (word, kind)));
    }
    sort_by(&mut words, |a, b| a.0.cmp(b.0));
    words
});

/// All words.
pub(super) fn all() -> &'static [(&'static str, WordKind)] {
    &WORDS
}

/// What a word is, where it is one of these.
pub(super) fn kind(word: &str) -> Option<WordKind> {
    listed(word).or_else(|| {
        let stem = PREFIXES.iter().find_map(|prefix| word.strip_prefix(prefix)).filter(|stem| stem.len() > 3)?;
        listed(stem).filter(|kind| matches!(kind, WordKind::Remark | WordKind::Form)).map(|_| WordKind::Remark)
    })
}

/// What stands before a remark and leaves it one: `unbleached`, `ultrafine`.
const PREFIXES: [&str; 8] = ["un", "ultra", "super", "extra", "non", "pre", "semi", "double"];

fn listed(word: &str) -> Option<WordKind> {
    let at = WORDS.binary_search_by(|(known, _)| (*known).cmp(word)).ok()?;
    WORDS.get(at).map(|(_, kind)| *kind)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_of_one_kind_each_and_sourced() {
        for pair in WORDS.windows(2) {
            assert!(pair[0].0 < pair[1].0, "{} twice", pair[0].0);
        }
        let kinds = ["author", "colour", "form", "function", "part", "product", "real", "remark"];
        for row in TABLE.rows() {
            assert!(!row.get("source").unwrap().is_empty() && kinds.contains(&row.get("kind").unwrap()));
        }
    }
}
