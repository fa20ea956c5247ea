//! What in the spelling of a chemical name says nothing of what it is, or only which isomer: Greek letters, marks of footnotes,
//! remarks, prefixes of stereochemistry and position.

/// Greek letters by their names, and without the marks that point to a footnote.
pub(super) fn plain(name: &str) -> String {
    let mut text = String::with_capacity(name.len());
    let mut letters = name.chars().peekable();
    while let Some(c) = letters.next() {
        match c {
            '\u{3b1}' => text.push_str("alpha"),
            '\u{3b2}' => text.push_str("beta"),
            // A sharp s before a hyphen is typed for a beta.
            '\u{df}' if letters.peek().is_some_and(|next| !next.is_alphanumeric()) => text.push_str("beta"),
            '\u{3b3}' => text.push_str("gamma"),
            '\u{3b4}' => text.push_str("delta"),
            '\u{b0}' | '\u{ba}' | '\u{aa}' | '*' => {}
            _ => text.push(c),
        }
    }
    text
}

/// Without what stands in brackets.
pub(super) fn without_brackets(text: &str) -> String {
    let mut depth = 0usize;
    let outside = |c: &char| {
        match c {
            '(' | '[' => depth += 1,
            ')' | ']' => depth = depth.saturating_sub(1),
            _ => return depth == 0,
        }
        false
    };
    text.chars().filter(outside).collect()
}

/// Remarks that change nothing about what it is, as they stand in a folded text.
pub(super) const REMARKS: [&str; 10] = [
    " natural constituent of essential oils",
    " natural constituent of essential oil",
    " from essential oils",
    " from essential oil",
    " of natural origin",
    " and isomers",
    " sum of isomers",
    " all isomers",
    " isomers",
    " natural",
];

/// A prefix of position as the table has it.
pub(crate) fn position(word: &str) -> Option<&'static str> {
    const POSITIONS: [(&str, &str); 13] = [
        ("alpha", "alpha"),
        ("a", "alpha"),
        ("beta", "beta"),
        ("b", "beta"),
        ("gamma", "gamma"),
        ("g", "gamma"),
        ("delta", "delta"),
        ("p", "p"),
        ("para", "p"),
        ("o", "o"),
        ("ortho", "o"),
        ("m", "m"),
        ("meta", "m"),
    ];
    POSITIONS.iter().find(|(known, _)| *known == word).map(|(_, position)| *position)
}

/// A prefix of stereochemistry, alone or with the number of an atom: `d`, `trans`, `2E`, `1R`.
pub(crate) fn is_stereo(word: &str) -> bool {
    let words =
        ["d", "l", "dl", "ld", "cis", "trans", "rac", "racemic", "dextro", "levo", "laevo", "plus", "minus", "rs"];
    let centre = word.trim_start_matches(|c: char| c.is_ascii_digit());
    words.contains(&word) || matches!(centre, "r" | "s" | "e" | "z")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spelling_of_letters_marks_and_brackets_is_evened_out() {
        assert_eq!(plain("\u{3b1}-Pinene*"), "alpha-Pinene");
        assert_eq!(plain("\u{df}-Pinene"), "beta-Pinene");
        assert_eq!(plain("S\u{fc}\u{df}holz\u{b0}"), "S\u{fc}\u{df}holz", "a sharp s inside a word stays one");
        assert_eq!(without_brackets("Citral (neral [Z] + geranial) oil)"), "Citral  oil");
    }

    #[test]
    fn spelling_prefixes_are_told_apart_from_names() {
        for word in ["d", "dl", "trans", "1r", "2e", "e", "rac"] {
            assert!(is_stereo(word), "{word}");
        }
        for word in ["linalool", "12", "rose", "de", "1"] {
            assert!(!is_stereo(word) && position(word).is_none(), "{word}");
        }
        assert_eq!((position("a"), position("para"), position("ortho")), (Some("alpha"), Some("p"), Some("o")));
    }
}
