//! The names that an entry lists, one by one.
//!
//! The files print them in one cell, between slashes, semicolons, line breaks or commas, and commas are parts of names too.
//! A comma between two positions (`N,N-`, `1,2-`) never ends a name here.

use super::AnnexEntry;

/// The parts of a cell of names.
pub fn names_in(cell: &str) -> impl Iterator<Item = &str> {
    Names { rest: cell }.map(str::trim).filter(|name| name.chars().any(char::is_alphanumeric))
}

struct Names<'a> {
    rest: &'a str,
}

impl<'a> Iterator for Names<'a> {
    type Item = &'a str;

    fn next(&mut self) -> Option<&'a str> {
        if self.rest.is_empty() {
            return None;
        }
        let end =
            self.rest.char_indices().find(|(at, c)| ends(self.rest, *at, *c)).map_or(self.rest.len(), |(at, _)| at);
        let (name, rest) = self.rest.split_at(end);
        self.rest = rest.get(1..).unwrap_or_default();
        Some(name)
    }
}

/// Whether the character at that place stands between two names.
fn ends(text: &str, at: usize, c: char) -> bool {
    let (before, after) = (&text[..at], &text[at + c.len_utf8()..]);
    match c {
        ';' | '\n' => true,
        // Within a word a slash belongs to it: `Leaf/Twig Oil`, `C12-15/…`.
        '/' => before.ends_with(' ') || after.starts_with(' ') || before.len() + 1 == text.len(),
        ',' => !(ends_in_position(before) && starts_with_positions(after)) && opened(before) == 0,
        _ => false,
    }
}

/// Whether a position of a chemical name ends a text: `…-1`, `N`, `N'`.
fn ends_in_position(text: &str) -> bool {
    let text = text.trim_end_matches(['\'', '\u{2032}']);
    let word = text.rsplit(|c: char| !c.is_alphanumeric()).next().unwrap_or_default();
    position(word)
}

/// Whether a text begins with positions, the last with a hyphen behind it: `2-`, `N'-`, `3,4-`.
fn starts_with_positions(text: &str) -> bool {
    let Some((positions, _)) = text.trim_start().split_once('-') else { return false };
    positions.split(',').all(|one| position(one.trim_end_matches(['\'', '\u{2032}'])))
}

/// One or two digits, with a letter or without, or the sign of an element.
fn position(word: &str) -> bool {
    let digits = word.trim_end_matches(char::is_alphabetic);
    let numbered = (1..=2).contains(&digits.len()) && digits.bytes().all(|b| b.is_ascii_digit());
    (numbered && word.len() <= digits.len() + 1) || ["N", "O", "S", "n", "o"].contains(&word)
}

/// How many brackets are still open at the end of a text.
fn opened(text: &str) -> usize {
    text.chars().fold(0, |open, c| match c {
        '(' | '[' => open + 1,
        ')' | ']' => usize::saturating_sub(open, 1),
        _ => open,
    })
}

impl AnnexEntry {
    /// The names of the glossary of common ingredients, and then the ingredients that the Commission names as examples.
    pub fn ingredient_names(&self) -> impl Iterator<Item = &str> {
        names_in(&self.glossary).chain(names_in(&self.identified)).map(without_footnote)
    }
}

/// A name without the number of a footnote that stands behind it: `CETRIMONIUM CHLORIDE (1)`.
pub fn without_footnote(name: &str) -> &str {
    let split = name.strip_suffix(')').and_then(|rest| rest.rsplit_once('('));
    let is_number = |text: &str| (1..=2).contains(&text.len()) && text.bytes().all(|byte| byte.is_ascii_digit());
    match split {
        Some((before, number)) if is_number(number) && before.ends_with(' ') => before.trim_end(),
        _ => name,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // Cells of the files: Annex V/1a, III/220, III/355, IV/2, III/8b, III/217.
    #[test]
    fn names_of_a_cell_are_taken_apart_and_positions_are_not() {
        for (cell, names) in [
            ("AMMONIUM BENZOATE / BUTYL BENZOATE", vec!["AMMONIUM BENZOATE", "BUTYL BENZOATE"]),
            ("BENZOIC ACID; SODIUM BENZOATE", vec!["BENZOIC ACID", "SODIUM BENZOATE"]),
            (
                "N,N-bis(2-Hydroxyethyl)- p-Phenylenediamine Sulfate",
                vec!["N,N-bis(2-Hydroxyethyl)- p-Phenylenediamine Sulfate"],
            ),
            (
                "Eucalyptus Globulus Leaf Oil; Eucalyptus Globulus Leaf/Twig Oil",
                vec!["Eucalyptus Globulus Leaf Oil", "Eucalyptus Globulus Leaf/Twig Oil"],
            ),
            ("ACID GREEN 1,CI 10020,", vec!["ACID GREEN 1", "CI 10020"]),
            ("2,7-NAPHTHALENEDIOL", vec!["2,7-NAPHTHALENEDIOL"]),
            (
                "N,N'-BIS(2-HYDROXYETHYL)-2-NITRO-P-PHENYLENEDIAMINE",
                vec!["N,N'-BIS(2-HYDROXYETHYL)-2-NITRO-P-PHENYLENEDIAMINE"],
            ),
            (
                "2-AMINOBUTANOL,N-LAURYL DIETHANOLAMINE,1,3-BIS-(2,4-DIAMINOPHENOXY)PROPANE,2-NAPHTHOL",
                vec!["2-AMINOBUTANOL", "N-LAURYL DIETHANOLAMINE", "1,3-BIS-(2,4-DIAMINOPHENOXY)PROPANE", "2-NAPHTHOL"],
            ),
            ("", vec![]),
            ("-", vec![]),
            (",,,,", vec![]),
        ] {
            assert_eq!(names_in(cell).collect::<Vec<_>>(), names, "{cell}");
        }
    }

    #[test]
    fn names_lose_the_number_of_their_footnote() {
        for (name, bare) in [
            ("CETRIMONIUM CHLORIDE (1)", "CETRIMONIUM CHLORIDE"),
            ("Sodium Laureth(2)", "Sodium Laureth(2)"),
            ("CI 77947 (77947)", "CI 77947 (77947)"),
            ("(1)", "(1)"),
        ] {
            assert_eq!(without_footnote(name), bare);
        }
    }
}
