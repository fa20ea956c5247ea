//! Changes to a text, from a flipped bit to a piece of another text. They know what the parsers of this project look at:
//! numbers, quotes, brackets, separators.

use crate::dice::Dice;

/// Longest text that is tried; longer ones are what the limits of each format are for.
const MOST: usize = 6000;

/// What confuses readers of any format.
const ODD: [&str; 44] = [
    "",
    " ",
    "\n",
    "\r\n",
    "\t",
    "\0",
    "\u{7f}",
    "\u{a0}",
    "\u{202f}",
    "\u{202e}",
    "\u{2066}",
    "\u{200f}",
    "\u{feff}",
    "\u{fffd}",
    "\u{1f600}",
    "e\u{301}",
    "\u{130}",
    "\u{df}",
    "\u{2212}",
    "\u{ffff}",
    "\"",
    "'",
    "\\",
    "\\u0000",
    "\\ud800",
    "{",
    "}",
    "[",
    "]",
    ",",
    ".",
    ";",
    ":",
    "-",
    "%",
    "0",
    "1e999",
    "-0",
    "00",
    "9223372036854775808",
    "170141183460469231731687303715884105728",
    "null",
    "<script>",
    "=1+1",
];

/// A changed text: of one of `seeds`, now and then joined with another, with words of the format in `words`.
pub(crate) fn changed(dice: &mut Dice, seeds: &[Vec<u8>], words: &[&str]) -> Vec<u8> {
    let mut text = dice.pick(seeds).cloned().unwrap_or_default();
    for _ in 0..=dice.below(6) {
        change(dice, &mut text, seeds, words);
    }
    text.truncate(MOST);
    text
}

fn change(dice: &mut Dice, text: &mut Vec<u8>, seeds: &[Vec<u8>], words: &[&str]) {
    let length = text.len();
    match dice.below(14) {
        0 => {
            if let Some(byte) = text.get_mut(dice.below(length)) {
                *byte ^= 1 << dice.below(8);
            }
        }
        1 => {
            let byte = dice.next() as u8;
            text.insert(dice.below(length + 1), byte);
        }
        2 => {
            let gone = dice.stretch(length, 24);
            text.drain(gone);
        }
        3 => {
            let twice = dice.stretch(length, 40);
            let copy = text[twice.clone()].to_vec();
            put(text, twice.end, &copy);
        }
        4 => {
            // The same piece many times over: depth, and long runs.
            let piece = dice.stretch(length, 6);
            let many = text[piece.clone()].repeat(1 + dice.below(200));
            put(text, piece.end, &many);
        }
        5 | 6 => {
            if let Some(odd) = dice.pick(&ODD) {
                let at = dice.stretch(length, 3);
                text.splice(at, odd.bytes());
            }
        }
        7 | 8 => {
            if let Some(word) = dice.pick(words) {
                let at = dice.stretch(length, 12);
                text.splice(at, word.bytes());
            }
        }
        9 => {
            if let Some(other) = dice.pick(seeds) {
                let piece = other[dice.stretch(other.len(), 200)].to_vec();
                let at = dice.stretch(length, 200);
                text.splice(at, piece);
            }
        }
        10 | 11 => number(dice, text),
        12 => text.truncate(dice.below(length + 1)),
        _ => {
            // Two pieces change places.
            let (a, b) = (dice.below(length), dice.below(length));
            if let (Some(x), Some(y)) = (text.get(a).copied(), text.get(b).copied()) {
                (text[a], text[b]) = (y, x);
            }
        }
    }
}

fn put(text: &mut Vec<u8>, at: usize, piece: &[u8]) {
    text.splice(at..at, piece.iter().copied());
}

/// Writes another number where one stands.
fn number(dice: &mut Dice, text: &mut Vec<u8>) {
    let start = dice.below(text.len());
    let Some(from) = text[start..].iter().position(u8::is_ascii_digit).map(|n| start + n) else { return };
    let digit = |byte: &u8| byte.is_ascii_digit() || matches!(byte, b'.' | b',');
    let to = text[from..].iter().position(|byte| !digit(byte)).map_or(text.len(), |n| from + n);
    let new = match dice.below(7) {
        0 => "0".to_owned(),
        1 => (dice.next() >> dice.below(64)).to_string(),
        2 => format!("{}.{}", dice.below(1000), dice.next() >> dice.below(64)),
        3 => format!("{},{:03}", dice.below(1000), dice.below(1000)),
        4 => format!("-{}", dice.below(100)),
        5 => "9".repeat(1 + dice.below(45)),
        _ => format!("0.{}1", "0".repeat(dice.below(30))),
    };
    text.splice(from..to, new.bytes());
}
