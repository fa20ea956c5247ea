//! Frequent pieces of a document, each as one byte in a link: JSON leaves the bytes below 32 free.
//!
//! Deflate finds what repeats within a text, but a link is short: most of what every document has comes once. Of twenty
//! lines this saves a quarter.

/// Byte 1 stands for the first one, and so on. Links live for ever: none of these may change, and none may be added
/// without a new version of links.
const WORDS: [&str; 30] = [
    "{\"batch\":{\"basis\":\"jars\",",
    "\"fill_g\":\"",
    "\"fill_by\":\"volume\",\"fill_ml\":\"",
    "\",\"jars\":",
    ",\"loss_percent\":\"",
    "\",\"readability_g\":\"0.01\",\"tolerance_percent\":\"2\"",
    ",\"unit\":\"g\"}",
    ",\"format\":\"hundred-parts\",\"formula\":{\"area\":\"",
    "\",\"audience\":\"adult\"",
    ",\"pack\":\"jar\"",
    ",\"phases\":[{\"heat_c\":\"",
    ",\"phases\":[{\"kind\":\"",
    "\"},{\"heat_c\":\"",
    "\"},{\"kind\":\"",
    "\",\"kind\":\"",
    "water\",\"lines\":[{\"ingredient\":\"",
    "oil\",\"lines\":[{\"ingredient\":\"",
    "cool-down\",\"lines\":[{\"ingredient\":\"",
    "\"},{\"ingredient\":\"",
    "\",\"percent\":\"",
    "\",\"percent\":\"fill-up",
    "\"}],\"name\":\"",
    " phase",
    "\"}],\"target_ph\":\"",
    "\",\"title\":\"",
    "\",\"use\":\"leave-on\"}",
    ",\"version\":1}",
    "\",\"note\":\"",
    ",\"shelf\":[{\"id\":\"",
    "\",\"own\":true,\"values\":{",
];

/// With a byte for the longest word that stands at each place. A text with one of these bytes in it stays as it is.
pub(super) fn shorten(text: &str) -> Vec<u8> {
    let mut short = Vec::with_capacity(text.len());
    let mut rest = text.as_bytes();
    while let [first, after @ ..] = rest {
        let words = WORDS.iter().enumerate().filter(|(_, word)| rest.starts_with(word.as_bytes()));
        match words.max_by_key(|(_, word)| word.len()) {
            Some((n, word)) => {
                short.push(n as u8 + 1);
                rest = &rest[word.len()..];
            }
            None => {
                short.push(*first);
                rest = after;
            }
        }
    }
    short
}

/// The text again; `None` if it would be longer than `most`.
pub(super) fn lengthen(short: &[u8], most: usize) -> Option<Vec<u8>> {
    let mut text = Vec::with_capacity(short.len() * 3);
    for byte in short {
        match usize::from(*byte).checked_sub(1).and_then(|n| WORDS.get(n)) {
            Some(word) => text.extend(word.as_bytes()),
            None => text.push(*byte),
        }
        if text.len() > most {
            return None;
        }
    }
    Some(text)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::{demo, write};
    use proptest::prelude::*;

    #[test]
    fn no_word_holds_a_byte_that_stands_for_one() {
        assert!(WORDS.iter().all(|word| word.bytes().all(|byte| byte >= 32)));
        let json = write::document_value(&demo(), None).to_string();
        assert!(shorten(&json).len() * 2 < json.len());
    }

    proptest! {
        #[test]
        fn short_and_long_again_is_the_same(text in "(\\PC|\"\\},\\{\"ingredient\":\"| phase|\",\"percent\":\"fill-up){0,40}") {
            prop_assert_eq!(lengthen(&shorten(&text), usize::MAX), Some(text.clone().into_bytes()));
            prop_assert_eq!(lengthen(&shorten(&text), text.len()).is_some(), true);
            prop_assert_eq!(text.is_empty() || lengthen(&shorten(&text), text.len() - 1).is_none(), true);
        }
    }
}
