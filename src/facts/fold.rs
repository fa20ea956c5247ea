//! Text made comparable for searching: letters without case and accents, words apart by single spaces.
//!
//! It knows the Latin letters of Latin-1 and Latin Extended-A and drops combining marks; other scripts only lose their
//! case. It is for finding, never for showing.

/// The comparable form of a text. Every word has one space before it, so that a word's start can be looked for as `"
/// start"`; a text without a letter or digit becomes empty.
///
/// # Example
/// ```
/// assert_eq!(hundred_parts::facts::fold("Crème d'Œillet (5 %)"), " creme d oeillet 5");
/// ```
pub fn fold(text: &str) -> String {
    let mut folded = String::with_capacity(text.len() + 1);
    let mut between = true;
    for c in text.chars().filter(|c| c.is_ascii() || !is_silent(*c)) {
        if !c.is_alphanumeric() {
            between = true;
            continue;
        }
        if between {
            folded.push(' ');
            between = false;
        }
        // Most letters by far, and a maker's file may hold megabytes of them.
        if c.is_ascii() {
            folded.push(c.to_ascii_lowercase());
            continue;
        }
        for c in c.to_lowercase().filter(|c| !is_silent(*c)) {
            match plain_letters(c) {
                Some(letters) => folded.push_str(letters),
                None => folded.push(c),
            }
        }
    }
    folded
}

/// A text of a table or of the maker's as it stands in the middle of a sentence: without the capital that begins a sentence,
/// unless that belongs to the word (`BHT`, `US`), and without the full stop that ends one.
///
/// # Example
/// ```
/// assert_eq!(hundred_parts::facts::mid_sentence("May come from soy."), "may come from soy");
/// assert_eq!(hundred_parts::facts::mid_sentence("BHT"), "BHT");
/// ```
pub fn mid_sentence(text: &str) -> String {
    let text = text.trim().trim_end_matches(['.', ';', ',', ':']).trim_end();
    let mut letters = text.chars();
    match (letters.next(), letters.clone().next()) {
        (Some(first), Some(second)) if first.is_uppercase() && second.is_lowercase() => {
            first.to_lowercase().chain(letters).collect()
        }
        _ => text.to_owned(),
    }
}

/// Combining marks, and characters that show nothing (soft hyphen, direction marks, joiners).
pub(crate) fn is_silent(c: char) -> bool {
    matches!(c,
        '\u{300}'..='\u{36f}' | '\u{1ab0}'..='\u{1aff}' | '\u{1dc0}'..='\u{1dff}' | '\u{20d0}'..='\u{20ff}'
        | '\u{fe20}'..='\u{fe2f}'
        | '\u{ad}' | '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{2069}' | '\u{feff}')
}

/// The plain letters of an accented small Latin letter.
#[rustfmt::skip]
pub(crate) fn plain_letters(c: char) -> Option<&'static str> {
    Some(match c {
        'à'..='å' | 'ā' | 'ă' | 'ą' | 'ª' => "a",
        'æ' => "ae",
        'ç' | 'ć' | 'ĉ' | 'ċ' | 'č' => "c",
        'ð' | 'ď' | 'đ' => "d",
        'è'..='ë' | 'ē' | 'ĕ' | 'ė' | 'ę' | 'ě' => "e",
        'ĝ' | 'ğ' | 'ġ' | 'ģ' => "g",
        'ĥ' | 'ħ' => "h",
        'ì'..='ï' | 'ĩ' | 'ī' | 'ĭ' | 'į' | 'ı' => "i",
        'ĳ' => "ij",
        'ĵ' => "j",
        'ķ' | 'ĸ' => "k",
        'ĺ' | 'ļ' | 'ľ' | 'ŀ' | 'ł' => "l",
        'ñ' | 'ń' | 'ņ' | 'ň' | 'ŉ' | 'ŋ' => "n",
        'ò'..='ö' | 'ø' | 'ō' | 'ŏ' | 'ő' | 'º' => "o",
        'œ' => "oe",
        'ŕ' | 'ŗ' | 'ř' => "r",
        'ś' | 'ŝ' | 'ş' | 'š' | 'ſ' => "s",
        'ß' => "ss",
        'ţ' | 'ť' | 'ŧ' => "t",
        'þ' => "th",
        'ù'..='ü' | 'ũ' | 'ū' | 'ŭ' | 'ů' | 'ű' | 'ų' => "u",
        'ŵ' => "w",
        'ý' | 'ÿ' | 'ŷ' => "y",
        'ź' | 'ż' | 'ž' => "z",
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn fold_accented_letters_become_plain() {
        for (text, folded) in [
            ("Karité", " karite"),
            ("Karite\u{301}", " karite"),
            ("GRÜSSE ẞ İ", " grusse ss i"),
            ("Weißöl", " weissol"),
            ("Smørœuvre Æble Łój", " smoroeuvre aeble loj"),
            ("C12-15 Alkyl Benzoate", " c12 15 alkyl benzoate"),
            ("Caprylic/Capric  Triglyceride", " caprylic capric triglyceride"),
            ("Вода", " вода"),
            ("\u{202e}shea\u{200f}", " shea"),
            ("<b>", " b"),
            ("— %", ""),
        ] {
            assert_eq!(fold(text), folded, "{text:?}");
        }
    }

    #[test]
    fn fold_every_letter_of_latin_1_and_extended_a_becomes_ascii() {
        for c in ('\u{c0}'..='\u{17f}').filter(|c| c.is_alphabetic()) {
            assert!(fold(&c.to_string()).is_ascii(), "{c:?}");
        }
    }

    proptest! {
        #[test]
        fn fold_twice_is_fold_once(text in ".{0,100}") {
            let once = fold(&text);
            prop_assert_eq!(fold(&once), once);
        }
    }
}
