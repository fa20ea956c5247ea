//! Endings of chemical words in Latin, French, Spanish, Italian, German and Dutch, as English has them.
//!
//! What comes out need not be spelled as in English: names are also compared as they sound (`salicilate`, `salicylate`).

/// Endings, the longer ones first.
const ENDINGS: [(&str, &str); 33] = [
    ("iques", "ic"),
    ("ique", "ic"),
    ("icum", "ic"),
    ("icus", "ic"),
    ("ylis", "yl"),
    ("itum", "ite"),
    ("olum", "ol"),
    ("inum", "in"),
    ("osum", "ose"),
    ("anum", "an"),
    ("osio", "ose"),
    ("ylum", "yl"),
    ("yle", "yl"),
    ("ilo", "yl"),
    ("ile", "yl"),
    ("ico", "ic"),
    ("ica", "ic"),
    ("ato", "ate"),
    ("aat", "ate"),
    ("ito", "ite"),
    ("ita", "ite"),
    ("olo", "ol"),
    ("ina", "in"),
    ("osa", "ose"),
    ("ano", "an"),
    ("eno", "en"),
    ("ona", "on"),
    ("onio", "onium"),
    ("ida", "id"),
    ("at", "ate"),
    ("as", "ate"),
    ("um", ""),
    ("i", ""),
];

/// A word with an English ending, where its own is none.
pub(super) fn english(word: &str) -> Option<String> {
    let root = root(word);
    let ended = ENDINGS.iter().find_map(|(end, english)| {
        let least = match *english {
            "yl" => 2,
            "ate" => 3,
            _ => 4,
        };
        let stem = root.strip_suffix(end).filter(|stem| stem.len() >= least)?;
        // Bases of salts end so in English, too.
        (!(*end == "um" && stem.ends_with('i'))).then(|| format!("{stem}{english}"))
    });
    ended.or_else(|| (root != word).then_some(root))
}

/// What the Romance languages write otherwise within a word: `idrossi`, `estear`, `etilesil`.
fn root(word: &str) -> String {
    let mut root = word.to_owned();
    for (own, english) in
        [("idro", "hydro"), ("estear", "stear"), ("escual", "squal"), ("esil", "hexyl"), ("ott", "oct")]
    {
        if let Some(rest) = word.strip_prefix(own) {
            root = format!("{english}{rest}");
        }
    }
    for (own, english) in [("ossi", "oxy"), ("tilesil", "thylhexyl"), ("tilhexil", "thylhexyl"), ("iidro", "ihydro")] {
        if root.contains(own) {
            root = root.replace(own, english);
        }
    }
    root
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn endings_become_english_and_english_words_stay() {
        for (word, expected) in [
            ("salicilato", "salicilate"),
            ("stearas", "stearate"),
            ("allantoinum", "allantoin"),
            ("citricum", "citric"),
            ("idrossiacetofenone", "hydroxyacetofenone"),
            ("glyceryle", "glyceryl"),
            ("ascorbilo", "ascorbyl"),
        ] {
            assert_eq!(english(word).as_deref(), Some(expected), "{word}");
        }
        for word in ["sodium", "benzoate", "oil", "acid", "titanium"] {
            assert_eq!(english(word), None, "{word}");
        }
    }
}
