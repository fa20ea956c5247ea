//! Cells of the files without what only their making left in them.

/// The words of a cell: soft hyphens gone, each run of spaces one space, lines without words gone.
pub(super) fn tidy(cell: &str) -> String {
    let cell: String = cell.chars().filter(|c| !matches!(c, '\u{ad}' | '\u{200b}' | '\u{feff}')).collect();
    let mut text = String::with_capacity(cell.len());
    for line in cell.split(['\n', '\r']) {
        let mut words = line.split(|c: char| c.is_whitespace() || c.is_control()).filter(|word| !word.is_empty());
        let Some(first) = words.next() else { continue };
        if !text.is_empty() {
            text.push('\n');
        }
        text.push_str(first);
        for word in words {
            text.push(' ');
            text.push_str(word);
        }
    }
    text
}

/// A cell that lists something; a dash alone says that there is none.
pub(super) fn list(cell: &str) -> String {
    let text = tidy(cell);
    if text.chars().all(|c| matches!(c, '-' | '\u{2013}' | '\u{2014}' | ' ')) { String::new() } else { text }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn tidy_keeps_the_words_and_their_lines() {
        assert_eq!(tidy(" a)  Rinse-off\u{a0}products \r\n\r\n b) x\u{ad}y \n"), "a) Rinse-off products\nb) xy");
        assert_eq!(tidy("\u{ad}"), "");
        assert_eq!((list(" - "), list("-/ 200-001-8")), (String::new(), "-/ 200-001-8".to_owned()));
    }

    proptest! {
        #[test]
        fn tidy_twice_is_tidy_once(text in "(.|\n|\u{ad}){0,60}") {
            let once = tidy(&text);
            prop_assert_eq!(tidy(&once), once.clone());
            prop_assert!(!once.contains('\t') && !once.contains("\n\n"));
        }
    }
}
