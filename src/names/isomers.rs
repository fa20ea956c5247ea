//! Prefixes that say which isomer a substance is: of stereochemistry, which never matter here, and of position, which may.

/// A prefix of position as the table has it.
pub(super) fn position(word: &str) -> Option<&'static str> {
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
pub(super) fn is_stereo(word: &str) -> bool {
    let words =
        ["d", "l", "dl", "ld", "cis", "trans", "rac", "racemic", "dextro", "levo", "laevo", "plus", "minus", "rs"];
    let centre = word.trim_start_matches(|c: char| c.is_ascii_digit());
    words.contains(&word) || matches!(centre, "r" | "s" | "e" | "z")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn isomers_prefixes_are_told_apart_from_names() {
        for word in ["d", "dl", "trans", "1r", "2e", "e", "rac"] {
            assert!(is_stereo(word), "{word}");
        }
        for word in ["linalool", "12", "rose", "de", "1"] {
            assert!(!is_stereo(word) && position(word).is_none(), "{word}");
        }
        assert_eq!((position("a"), position("para"), position("ortho")), (Some("alpha"), Some("p"), Some("o")));
    }
}
