//! What a text may hold: the same for what is typed, stored and read, so that whatever is written can be read.

use std::borrow::Cow;

/// Longest name, title or figure, in UTF-16 code units, as the fields of the page count: twice what these let in.
pub(super) const MOST_NAME: usize = 400;
/// Longest note or pasted text, counted like [`MOST_NAME`].
pub(super) const MOST_NOTE: usize = 40_000;

/// True for control characters and those that turn the direction of writing: a name must not rearrange the page around it.
fn is_hidden(c: char) -> bool {
    (c.is_control() && c != '\n' && c != '\t')
        || matches!(c, '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// A text without the characters that no text may hold.
pub fn clean(text: &str) -> Cow<'_, str> {
    // Bytes are looked at first: files hold megabytes of plain text.
    let plain = text.bytes().all(|byte| matches!(byte, b' '..=b'~' | b'\n' | b'\t'));
    if !plain && text.chars().any(is_hidden) {
        text.chars().filter(|c| !is_hidden(*c)).collect::<String>().into()
    } else {
        text.into()
    }
}

/// True if a text is no longer than `most` UTF-16 code units.
pub(super) fn fits(text: &str, most: usize) -> bool {
    // No text has more code units than bytes.
    text.len() <= most || text.encode_utf16().count() <= most
}

/// What is kept of a text that was typed: clean, and no longer than can be read again.
pub(super) fn kept(text: String, most: usize) -> String {
    let text = match clean(&text) {
        Cow::Borrowed(_) => text,
        Cow::Owned(clean) => clean,
    };
    if fits(&text, most) {
        return text;
    }
    let mut units = 0;
    let end = text.char_indices().find(|(_, c)| {
        units += c.len_utf16();
        units > most
    });
    match end {
        Some((end, _)) => text[..end].to_owned(),
        None => text,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_is_kept_clean_and_as_long_as_can_be_read() {
        assert_eq!(kept("a\u{202e}b\u{7}c\td".into(), 10), "abc\td");
        assert_eq!(kept("lotion".into(), 3), "lot");
        assert_eq!(kept("\u{1f9f4}\u{1f9f4}".into(), 3), "\u{1f9f4}");
        assert_eq!(kept("\u{30ed}".repeat(400), 400), "\u{30ed}".repeat(400));
    }
}
