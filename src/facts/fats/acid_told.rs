//! A name of a fatty acid taken apart: shorthand, places and shapes of double bonds, and the words that are left.

use super::acid_words::Form;

/// The pieces of a name.
#[derive(Debug, Default)]
pub(super) struct Told {
    /// Carbons and double bonds.
    pub(super) shape: Option<(u8, u8)>,
    /// Carbons from the last double bond to the end.
    pub(super) family: Option<u8>,
    /// Places of double bonds from the acid end.
    pub(super) places: Vec<u8>,
    /// `cis`, `trans`, `9c12t` and the like, as letters c and t.
    pub(super) bends: String,
    /// One of them was a whole word.
    pub(super) bent: bool,
    pub(super) form: Option<Form>,
    pub(super) greek: Option<char>,
    pub(super) branched: bool,
    pub(super) total: bool,
    pub(super) ester: bool,
    /// What is left.
    pub(super) words: Vec<String>,
}

enum ToldPart {
    Number(u8),
    Letters(String),
    Colon,
    Gap,
}

/// Letters and numbers apart, in small plain letters.
fn pieces(text: &str) -> Option<Vec<ToldPart>> {
    let mut plain = String::with_capacity(text.len());
    let mut raised = false;
    for sign in text.chars().flat_map(char::to_lowercase) {
        let power = "\u{2070}\u{b9}\u{b2}\u{b3}\u{2074}\u{2075}\u{2076}\u{2077}\u{2078}\u{2079}"
            .chars()
            .position(|c| c == sign);
        if let Some(digit) = power {
            plain.push_str(if raised { "" } else { " " });
            plain.push(char::from(b'0' + digit as u8));
            raised = true;
            continue;
        }
        raised = false;
        match sign {
            '\u{3c9}' => plain.push_str(" omega "),
            '\u{3b4}' | '\u{2206}' => plain.push_str(" delta "),
            '\u{3b1}' => plain.push_str(" alpha "),
            '\u{3b2}' => plain.push_str(" beta "),
            '\u{3b3}' => plain.push_str(" gamma "),
            '\u{3c3}' | '\u{2211}' => plain.push_str(" sum "),
            '\u{441}' => plain.push('c'),
            '\u{2236}' | '\u{ff1a}' => plain.push(':'),
            '\u{2080}'..='\u{2089}' => plain.push(char::from(b'0' + (sign as u32 - 0x2080) as u8)),
            _ => plain.push(sign),
        }
    }
    let mut found = Vec::new();
    let mut rest = plain.as_str();
    while let Some(first) = rest.chars().next() {
        let same: fn(&char) -> bool = if first.is_ascii_digit() { char::is_ascii_digit } else { |c| c.is_alphabetic() };
        let end = rest.find(|c: char| !same(&c)).unwrap_or(rest.len());
        let (run, after) = if end == 0 { rest.split_at(first.len_utf8()) } else { rest.split_at(end) };
        rest = after;
        found.push(match first {
            _ if first.is_ascii_digit() => ToldPart::Number(run.parse().ok()?),
            _ if first.is_alphabetic() => ToldPart::Letters(run.to_owned()),
            ':' => ToldPart::Colon,
            _ => ToldPart::Gap,
        });
    }
    Some(found)
}

impl Told {
    pub(super) fn of(text: &str) -> Option<Self> {
        let mut pieces = pieces(text)?;
        let mut told = Self::default();
        told.take_shape(&mut pieces)?;
        let mut at = 0;
        while let Some(piece) = pieces.get(at) {
            at += 1;
            match piece {
                ToldPart::Number(place) => told.places.push(*place),
                ToldPart::Letters(letters) => {
                    if matches!(letters.as_str(), "n" | "w" | "omega")
                        && let Some((skip, family)) = next_number(&pieces, at)
                    {
                        at = skip;
                        if told.family.is_some_and(|known| known != family) {
                            return None;
                        }
                        told.family = Some(family);
                    } else {
                        told.take_word(letters);
                    }
                }
                // A colon that is left belongs to no shorthand that is known.
                ToldPart::Colon if told.shape.is_none() => return None,
                ToldPart::Colon | ToldPart::Gap => {}
            }
        }
        Some(told)
    }

    /// `18:1` with what belongs to it (`C 18:1`), out of the pieces; two of them cannot be told.
    fn take_shape(&mut self, pieces: &mut Vec<ToldPart>) -> Option<()> {
        while let Some(colon) = pieces.iter().position(|piece| matches!(piece, ToldPart::Colon)) {
            // `C18 : 1` has gaps around.
            let gap = |n: usize| matches!(pieces.get(n), Some(ToldPart::Gap));
            let (left, right) = (colon.checked_sub(1), colon + 1);
            let left = left.map(|n| if gap(n) { n.saturating_sub(1) } else { n });
            let right = if gap(right) { right + 1 } else { right };
            let around = (left.and_then(|n| pieces.get(n)), pieces.get(right));
            let (Some(left), (Some(ToldPart::Number(carbons)), Some(ToldPart::Number(bonds)))) = (left, around) else {
                // `Oleic acid: 18:1`, `C18:1:`
                pieces[colon] = ToldPart::Gap;
                continue;
            };
            let shape = (*carbons, *bonds);
            if self.shape.is_some_and(|known| known != shape) || !possible(shape) {
                return None;
            }
            self.shape = Some(shape);
            let mut from = left;
            let before = |n: usize| n.checked_sub(1).and_then(|n| pieces.get(n));
            let skip = usize::from(matches!(before(from), Some(ToldPart::Gap)));
            if matches!(before(from - skip), Some(ToldPart::Letters(letters)) if matches!(letters.as_str(), "c" | "fa"))
            {
                from -= skip + 1;
            }
            pieces.splice(from..=right, [ToldPart::Gap]);
        }
        Some(())
    }

    fn take_word(&mut self, word: &str) {
        let with_shape = self.shape.is_some();
        match word {
            "acid" | "acids" | "fatty" | "as" | "fame" | "content" | "fat" | "fats" | "of" | "all" | "delta"
            | "and" | "or" => {}
            "d" if with_shape => {}
            "methyl" | "ethyl" | "ester" | "esters" => self.ester = true,
            "total" | "sum" | "isomer" | "isomers" => self.total = true,
            "cis" | "trans" => {
                self.bends.extend(word.chars().next());
                self.bent = true;
            }
            // Which group a method counts it in.
            "tfa" if with_shape => self.bends.push('t'),
            "sfa" | "mufa" | "pufa" if with_shape => {}
            "oh" | "hydroxy" | "hydroxyl" => self.form = Some(Form::Hydroxy),
            "epoxy" => self.form = Some(Form::Epoxy),
            "conj" | "conjugated" | "cla" | "clna" if with_shape => self.form = Some(Form::Conjugated),
            "a" if with_shape => self.greek = Some('a'),
            "g" if with_shape => self.greek = Some('g'),
            "i" | "iso" | "ai" | "anteiso" | "br" | "branched" if with_shape => self.branched = true,
            _ if word.len() <= 6 && word.chars().all(|c| matches!(c, 'c' | 't' | 'z' | 'e')) => {
                self.bends.extend(word.chars().map(|c| if matches!(c, 'c' | 'z') { 'c' } else { 't' }));
            }
            _ => self.words.push(word.to_owned()),
        }
    }
}

/// The number that follows with nothing but signs between, and where it ends.
fn next_number(pieces: &[ToldPart], at: usize) -> Option<(usize, u8)> {
    let gaps = pieces.iter().skip(at).take_while(|piece| matches!(piece, ToldPart::Gap)).count();
    match pieces.get(at + gaps) {
        Some(ToldPart::Number(number)) => Some((at + gaps + 1, *number)),
        _ => None,
    }
}

/// Acids of fats have 2 to 40 carbons, and a double bond needs at least two of them.
fn possible((carbons, bonds): (u8, u8)) -> bool {
    (2..=40).contains(&carbons) && bonds <= 8 && bonds * 2 < carbons
}
