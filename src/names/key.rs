//! What two spellings of one name have in common.
//!
//! [`key`] forgets spaces, signs and the two ways of English. [`loose`] also forgets what writers of English mix up (double
//! letters, `y` and `i`, `ph` and `f`, an `e` at the end): what is alike only there was misspelt.

/// The words of a plain text: runs of letters and digits.
pub(super) fn words(plain: &str) -> impl Iterator<Item = &str> {
    plain.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty())
}

/// A name without what does not tell it from others.
pub(super) fn key(plain: &str) -> String {
    let mut key = String::with_capacity(plain.len());
    for word in words(plain) {
        american(word, &mut key);
    }
    key
}

/// Appends a word as the nomenclature spells it.
pub(super) fn american(word: &str, into: &mut String) {
    const SPELLINGS: [(&str, &str); 8] = [
        ("sulph", "sulf"),
        ("aluminium", "aluminum"),
        ("hydrolys", "hydrolyz"),
        ("colour", "color"),
        ("flavour", "flavor"),
        ("caesium", "cesium"),
        ("sterilis", "steriliz"),
        ("glycerine", "glycerin"),
    ];
    let start = into.len();
    into.push_str(word);
    for (british, american) in SPELLINGS {
        // Words are short: a search made for long texts would cost a quarter of the index.
        let windows = into.as_bytes().get(start..).unwrap_or_default().windows(british.len());
        if let Some(at) = windows.enumerate().find(|(_, window)| *window == british.as_bytes()).map(|(at, _)| at) {
            into.replace_range(start + at..start + at + british.len(), american);
        }
    }
    for (british, american) in [("ised", "ized"), ("ise", "ize"), ("ising", "izing")] {
        if word.len() > british.len() + 2 && into.ends_with(british) {
            into.truncate(into.len() - british.len());
            into.push_str(american);
        }
    }
}

/// A word as one who writes by ear might write it.
pub(super) fn loose(word: &str) -> String {
    let mut loose = String::with_capacity(word.len());
    let mut letters = word.chars().peekable();
    while let Some(c) = letters.next() {
        let next = letters.peek().copied();
        let plain = match (c, next) {
            ('p', Some('h')) => {
                letters.next();
                'f'
            }
            ('t' | 'c' | 'r', Some('h')) => {
                letters.next();
                if c == 'c' { 'k' } else { c }
            }
            ('a' | 'o', Some('e')) if word.len() > 4 => {
                letters.next();
                'e'
            }
            ('c', Some('k')) => {
                letters.next();
                'k'
            }
            ('c', Some('e' | 'i' | 'y')) | ('z', _) => 's',
            ('c' | 'q', _) => 'k',
            ('y', _) => 'i',
            _ => c,
        };
        if plain.is_ascii_digit() || !loose.ends_with(plain) {
            loose.push(plain);
        }
    }
    if loose.len() > 4 && loose.ends_with('e') {
        loose.pop();
    }
    loose
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn key_forgets_spaces_signs_and_which_english() {
        for (one, other) in [
            ("flax seed oil", "flaxseed oil"),
            ("sulphated castor oil", "sulfated castor-oil"),
            ("hydrolysed wheat protein", "hydrolyzed wheat protein"),
            ("deodorised", "deodorized"),
            ("aluminium starch", "aluminum starch"),
        ] {
            assert_eq!(key(one), key(other));
        }
        assert_ne!(key("polysorbate 20"), key("polysorbate 2"));
    }

    #[test]
    fn loose_forgets_what_is_mixed_up_and_no_more() {
        for (typed, meant) in [
            ("alantoin", "allantoin"),
            ("tocoferol", "tocopherol"),
            ("caprilyl", "caprylyl"),
            ("coumarine", "coumarin"),
            ("alchohol", "alcohol"),
            ("glyserin", "glycerin"),
        ] {
            assert_eq!(loose(typed), loose(meant));
        }
        for (one, other) in [("retinol", "retinal"), ("squalane", "squalene"), ("sulfite", "sulfate"), ("11", "1")] {
            assert_ne!(loose(one), loose(other));
        }
    }
}
