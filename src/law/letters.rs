//! Sub-entries: which words of a cell belong to `(a)`, which to `(b)`.
//!
//! A mark counts where a line starts with it; in the columns of product types and maximums also within a line, if it is the
//! next letter. Roman numerals below a letter stay in the text.

use super::Letters;

/// Words of a cell and the sub-entries that they are about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Segment<'a> {
    /// Their sub-entries; all where the cell names none.
    pub(super) letters: Letters,
    /// The words.
    pub(super) text: &'a str,
    /// The mark named more than its letters, such as `(a)(i)`: the words are for a part of the sub-entry.
    pub(super) narrower: bool,
}

/// Takes a cell apart. `known` are the letters that the entry has; `within` lets marks stand within a line.
pub(super) fn segments(cell: &str, known: Letters, within: bool) -> Vec<Segment<'_>> {
    let mut found: Vec<Segment<'_>> = Vec::new();
    let mut open = Mark { letters: Letters::ALL, narrower: false, len: 0 };
    let (mut from, mut at) = (0, 0);
    while let (Some(before), Some(rest)) = (cell.get(..at), cell.get(at..)) {
        let Some(c) = rest.chars().next() else { break };
        let outer = before.trim_end_matches([' ', '(']);
        let starts_line = outer.is_empty() || outer.ends_with('\n');
        let after_space = within && before.ends_with([' ', ';']);
        let mark = (starts_line || after_space).then(|| mark(rest, known)).flatten();
        match mark.filter(|mark| starts_line || next_of(&found, open.letters, *mark)) {
            Some(mark) => {
                found.extend(segment(cell, open, from, at));
                at += mark.len;
                from = at;
                open = mark;
            }
            None => at += c.len_utf8(),
        }
    }
    found.extend(segment(cell, open, from, cell.len()));
    found
}

/// What stands between two marks, if there is a word in it.
fn segment(cell: &str, mark: Mark, from: usize, to: usize) -> Option<Segment<'_>> {
    let text = cell.get(from..to)?.trim();
    let words = text.chars().any(char::is_alphanumeric);
    words.then_some(Segment { letters: mark.letters, text, narrower: mark.narrower })
}

/// Whether a mark within a line is the one that follows.
fn next_of(found: &[Segment<'_>], open: Letters, mark: Mark) -> bool {
    let last = found
        .iter()
        .map(|segment| segment.letters)
        .chain([open])
        .filter(|letters| *letters != Letters::ALL)
        .flat_map(Letters::iter)
        .max();
    let mut letters = mark.letters.iter();
    let wanted = last.and_then(|last| char::from_u32(last as u32 + 1)).unwrap_or('a');
    !mark.narrower && letters.next() == Some(wanted) && letters.next().is_none()
}

#[derive(Debug, Clone, Copy)]
struct Mark {
    letters: Letters,
    narrower: bool,
    len: usize,
}

/// The mark at the start of a text: `(a)`, `a)`, `(a) (b) and (c):`, `For (a) and (b):`, `(a) to (e):`.
fn mark(text: &str, known: Letters) -> Option<Mark> {
    let mut rest = text.strip_prefix("For ").or_else(|| text.strip_prefix("for ")).unwrap_or(text);
    let (mut letters, mut narrower, mut through) = (Letters::NONE, false, false);
    let mut last: Option<char> = None;
    loop {
        let inner = rest.strip_prefix('(').unwrap_or(rest);
        let Some((name, after)) = inner.split_once(')') else { break };
        let mut chars = name.chars();
        match (chars.next(), chars.next()) {
            (Some(letter), None) if known.has(letter) => {
                let from = if through { last.unwrap_or(letter) } else { letter };
                letters = (from..=letter).fold(letters, Letters::with);
                last = Some(letter);
            }
            _ if last.is_some() && rest.starts_with('(') && is_roman(name) => narrower = true,
            _ => break,
        }
        rest = after.trim_start_matches([' ', ',']);
        let goes_on = |text: &&str| text.starts_with('(') || with_a_letter(text, known);
        let joined = [("and ", false), ("to ", true), ("– ", true), ("", false)]
            .iter()
            .find_map(|(word, to)| Some((rest.strip_prefix(word).filter(goes_on)?, *to)));
        let Some((next, to)) = joined else { break };
        (rest, through) = (next, to);
    }
    last?;
    let rest = rest.trim_start_matches([':', ' ', '\n']);
    Some(Mark { letters, narrower, len: text.len() - rest.len() })
}

/// Whether a text goes on with `b)`.
fn with_a_letter(text: &str, known: Letters) -> bool {
    let mut chars = text.chars();
    chars.next().is_some_and(|letter| known.has(letter)) && chars.next() == Some(')')
}

fn is_roman(text: &str) -> bool {
    !text.is_empty() && text.chars().all(|c| matches!(c, 'i' | 'v' | 'x'))
}

/// The letters that a cell marks, if they run from `a` on without a gap.
pub(super) fn letters_of(cell: &str) -> Letters {
    let all = ('a'..='z').fold(Letters::NONE, Letters::with);
    let found = segments(cell, all, true);
    let marked = found.iter().filter(|segment| segment.letters != Letters::ALL);
    let letters = marked.flat_map(|segment| segment.letters.iter()).fold(Letters::NONE, Letters::with);
    let count = letters.iter().count();
    if letters.iter().zip('a'..).all(|(found, wanted)| found == wanted) && count > 0 { letters } else { Letters::NONE }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn said(cell: &str, known: &str, within: bool) -> Vec<(String, String, bool)> {
        let known = known.chars().fold(Letters::NONE, Letters::with);
        segments(cell, known, within)
            .into_iter()
            .map(|segment| {
                let letters =
                    if segment.letters == Letters::ALL { "*".to_owned() } else { segment.letters.iter().collect() };
                (letters, segment.text.to_owned(), segment.narrower)
            })
            .collect()
    }

    fn of(letters: &str, text: &str) -> (String, String, bool) {
        (letters.to_owned(), text.to_owned(), false)
    }

    // Cells of Annex V/1, III/197, III/2a, III/297, V/56, III/380 and VI/4.
    #[test]
    fn letters_take_the_cells_of_the_law_apart() {
        assert_eq!(
            said("a) 2.5% (acid)\nb) 1.7% (acid)", "ab", true),
            [of("a", "2.5% (acid)"), of("b", "1.7% (acid)")]
        );
        let soap = "(a) soap (b) anti- dandruff shampoos (c) deodorants, not in form of spray";
        assert_eq!(said(soap, "abc", true).len(), 3);
        assert_eq!(letters_of(soap).iter().collect::<String>(), "abc");
        assert_eq!(
            said("(a) (i) 8% (ii) 11%\n(b) 5%", "abcd", true),
            [("a".into(), "8% (ii) 11%".into(), true), of("b", "5%")]
        );
        assert_eq!(said("(a) to (e):\nNot to be used", "abcde", false), [of("abcde", "Not to be used")]);
        assert_eq!(
            said("Not to be used in oral and lip products\na) Not for x\nb) and c) Not for y", "abc", false),
            [of("*", "Not to be used in oral and lip products"), of("a", "Not for x"), of("bc", "Not for y")]
        );
        let kept = "Not to be used, with the exception of (d) “Toothpaste” and (f).";
        assert_eq!(said(kept, "abcdef", false), [of("*", kept)]);
        assert_eq!(said("For a) and b): Contains Benzophenone-3", "abc", false), [of("ab", "Contains Benzophenone-3")]);
        assert_eq!(said("(For (a) and (b): After mixing", "ab", false), [of("ab", "After mixing")]);
        assert_eq!(letters_of("Rinse-off products"), Letters::NONE);
    }

    proptest! {
        #[test]
        fn letters_of_any_text_keep_its_words(text in "[a-d() \n:,]{0,40}|.{0,40}") {
            let known = letters_of(&text);
            for within in [false, true] {
                for segment in segments(&text, known, within) {
                    prop_assert!(text.contains(segment.text));
                }
            }
        }
    }
}
