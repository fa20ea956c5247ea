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

/// A plain text without descriptors of stereochemistry in brackets before its names: `(1s,5s)-`, `(+)-`, `(+/-)-`.
pub(super) fn without_descriptors(plain: &str) -> String {
    let mut text = plain.to_owned();
    while let Some((at, end)) = descriptor(&text) {
        text.replace_range(at..end, "");
    }
    text
}

/// Where a descriptor in brackets stands, with the hyphen behind it.
fn descriptor(text: &str) -> Option<(usize, usize)> {
    text.match_indices('(').find_map(|(at, _)| {
        let inside = text.get(at + 1..)?.split(')').next()?;
        let all =
            inside.split(',').all(|word| matches!(word.trim(), "+" | "-" | "+/-" | "+-") || is_stereo(word.trim()));
        let end = at + inside.len() + 2;
        let hyphen = text.get(end..).is_some_and(|rest| rest.starts_with('-'));
        (all && hyphen && !inside.is_empty()).then_some((at, end + 1))
    })
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

    #[test]
    fn isomers_descriptors_in_brackets_go() {
        for (text, bare) in [
            ("(4r)-limonene", "limonene"),
            ("(1s,5s)-alpha-pinene", "alpha-pinene"),
            ("(r)-(+)-limonene", "limonene"),
            ("(z)-3-hexenol", "3-hexenol"),
            ("citral (neral)", "citral (neral)"),
            ("(bha)-salicylic acid", "(bha)-salicylic acid"),
        ] {
            assert_eq!(without_descriptors(text), bare, "{text}");
        }
    }
}
