//! A text with one way of writing each sign: small plain letters, one hyphen, one slash, one bracket, Greek letters by name.
//!
//! Signs between words are kept: where a name ends is read from them later.

use crate::facts::{is_silent, plain_letters};

/// The plain form of what was typed or pasted.
pub(super) fn plain(text: &str) -> String {
    let untagged = without_tags(text);
    let text = untagged.as_deref().unwrap_or(text);
    let latin = text.chars().any(|c| c.is_ascii_alphabetic());
    let mut plain = String::with_capacity(text.len());
    let mut letters = text.chars().filter(|c| !is_silent(*c)).peekable();
    while let Some(c) = letters.next() {
        // A sharp s before a hyphen is typed for a beta.
        if c == '\u{df}' && letters.peek().is_some_and(|next| !next.is_alphanumeric()) {
            plain.push_str("beta");
            continue;
        }
        // German oils, which are no alcohols: `Sesamöl` and `sesamol`.
        if matches!(c, 'ö' | 'Ö') && ends_in_l(letters.clone()) {
            plain.push_str("oe");
            continue;
        }
        match sign(c) {
            Some(sign) => plain.push_str(sign),
            None => letter(c, latin, &mut plain),
        }
    }
    for written_out in ["colour index", "color index"] {
        if plain.contains(written_out) {
            plain = plain.replace(written_out, "ci");
        }
    }
    plain
}

/// A text that was copied from the source of a page, without its tags and the footnotes in them; none where there are none.
fn without_tags(text: &str) -> Option<String> {
    let tag = |text: &str, from: usize| {
        let start = from + text.get(from..)?.find('<')?;
        let name = text.get(start + 1..)?.split('>').next()?;
        let letters = name.trim_start_matches('/').trim_end_matches('/').trim();
        let is = (1..=6).contains(&letters.len()) && letters.chars().all(|c| c.is_ascii_alphanumeric());
        (is && text.get(start + 1 + name.len()..)?.starts_with('>')).then_some((start, start + name.len() + 2))
    };
    let mut plain = text.to_owned();
    let (mut start, mut end) = tag(&plain, 0)?;
    loop {
        // What is raised is a footnote.
        let raised = plain.get(start..end).is_some_and(|tag| tag.eq_ignore_ascii_case("<sup>"));
        let footnote = plain.get(end..).and_then(|rest| rest.to_ascii_lowercase().find("</sup>"));
        end += footnote.filter(|_| raised).map_or(0, |length| length + "</sup>".len());
        plain.replace_range(start..end, " ");
        match tag(&plain, start) {
            Some(next) => (start, end) = next,
            None => return Some(plain),
        }
    }
}

/// Whether an l is the last letter of a word.
fn ends_in_l(mut rest: impl Iterator<Item = char>) -> bool {
    matches!(rest.next(), Some('l' | 'L')) && !rest.next().is_some_and(char::is_alphabetic)
}

/// What stands for a sign or a Greek letter; nothing for any other letter.
#[rustfmt::skip]
fn sign(c: char) -> Option<&'static str> {
    Some(match c {
        '\u{2010}'..='\u{2015}' | '\u{2212}' | '\u{fe58}' | '\u{fe63}' | '\u{ff0d}' => "-",
        '\u{2044}' | '\u{2215}' | '\u{ff0f}' | '\\' => "/",
        '[' | '{' | '\u{ff08}' => "(",
        ']' | '}' | '\u{ff09}' => ")",
        '\n' | '\r' | '|' => ";",
        '\u{b1}' => "+/-",
        '\u{2018}' | '\u{2019}' | '\u{2032}' | '\u{b4}' | '`' => "'",
        '\u{2033}' | '\u{201c}'..='\u{201e}' | '"' | '\u{ab}' | '\u{bb}' => " ",
        '\u{2264}' => "<",
        '\u{2265}' => ">",
        '\u{2022}' | '\u{b7}' | '\u{25cf}' | '\u{25aa}' => "-",
        // Marks that point to a footnote.
        '*' | '\u{b0}' | '\u{ba}' | '\u{aa}' | '\u{2020}' | '\u{2021}' | '\u{a7}' | '\u{2122}' | '\u{ae}' | '\u{a9}'
        | '\u{b2}' | '\u{b3}' | '\u{b9}' => "",
        'α' | 'Α' => "alpha",
        'β' | 'Β' => "beta",
        'γ' | 'Γ' => "gamma",
        'δ' | 'Δ' => "delta",
        'ε' => "epsilon",
        'ω' | 'Ω' => "omega",
        '\u{fb00}' => "ff",
        '\u{fb01}' => "fi",
        '\u{fb02}' => "fl",
        '\u{fb03}' => "ffi",
        '\u{fb04}' => "ffl",
        '\u{2080}'..='\u{2089}' => return digit(c),
        _ => return None,
    })
}

/// Small figures below the line.
fn digit(c: char) -> Option<&'static str> {
    const DIGITS: [&str; 10] = ["0", "1", "2", "3", "4", "5", "6", "7", "8", "9"];
    usize::try_from(u32::from(c).checked_sub(0x2080)?).ok().and_then(|n| DIGITS.get(n)).copied()
}

fn letter(c: char, latin: bool, plain: &mut String) {
    // Wide forms of Asian keyboards.
    let c = match c {
        '\u{ff01}'..='\u{ff5e}' => char::from_u32(u32::from(c) - 0xfee0).unwrap_or(c),
        _ if c.is_whitespace() => ' ',
        _ if latin => twin(c),
        _ => c,
    };
    for c in c.to_lowercase().filter(|c| !is_silent(*c)) {
        match plain_letters(c) {
            Some(letters) => plain.push_str(letters),
            None => plain.push(c),
        }
    }
}

/// Cyrillic letters that look like Latin ones, in a text that has Latin ones.
fn twin(c: char) -> char {
    match c {
        'а' | 'А' => 'a',
        'е' | 'Е' => 'e',
        'о' | 'О' => 'o',
        'р' | 'Р' => 'p',
        'с' | 'С' => 'c',
        'у' | 'У' => 'y',
        'х' | 'Х' => 'x',
        'і' | 'І' => 'i',
        _ => c,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn plain_signs_and_letters_are_written_one_way() {
        for (text, expected) in [
            ("Caprylic \u{2215} Capric", "caprylic / capric"),
            ("Phenoxy\u{ad}ethanol\u{200b}", "phenoxyethanol"),
            ("\u{df}-Caryophyllene", "beta-caryophyllene"),
            ("\u{3b1}-Pinene*", "alpha-pinene"),
            ("Karit\u{e9} [Shea]", "karite (shea)"),
            ("1,2\u{2011}Hexanediol", "1,2-hexanediol"),
            ("S\u{fc}\u{df}holz", "sussholz"),
            ("Mandel\u{f6}l, \u{d6}lmohn", "mandeloel, olmohn"),
            ("Gl\u{443}cerin", "glycerin"),
            ("\u{ff37}\u{ff21}\u{ff34}\u{ff25}\u{ff32}", "water"),
            ("\u{fb01}sh oil", "fish oil"),
        ] {
            assert_eq!(plain(text), expected, "{text:?}");
        }
    }
}
