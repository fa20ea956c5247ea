//! A pasted composition taken apart: which texts name an acid, and which share stands beside each.
//!
//! Reading never guesses: a comma parts two acids only where it cannot be a decimal sign or stand between the places of
//! double bonds, and a number that belongs to a name (`n-6`, `Δ9`, `18:1`) is never a share.

use crate::quantity::{Parsed, Percent, Quantity};

/// The least and the greatest that a paper states.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct ShareRange {
    pub(super) low: Percent,
    pub(super) high: Percent,
}

impl ShareRange {
    pub(super) fn middle(self) -> i64 {
        (self.low.units() + self.high.units()) / 2
    }
}

/// A name, and the text of the share beside it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct NamedShare<'a> {
    pub(super) name: &'a str,
    share: &'a str,
}

/// Words that say that nothing was found.
const NONE: [&str; 10] = ["nd", "n.d.", "n.d", "n/d", "none", "nil", "absent", "not detected", "not present", "traces"];
/// What may stand behind a number and is no part of it.
const UNITS: [&str; 14] = [
    "of total fatty acids",
    "of fatty acids",
    "of total",
    "g/100 g",
    "g/100g",
    "area",
    "w/w",
    "m/m",
    "wt.",
    "wt",
    "rel.",
    "abs.",
    "%",
    "()",
];
/// Signs and words before a number that say that it is the most.
const MOST: [&str; 9] = ["<", "\u{2264}", "<=", "max.", "max", "maximum", "up to", "not more than", "at most"];

/// Parts of a composition: at line ends and semicolons, and at commas and slashes behind a share.
pub(super) fn split(text: &str) -> Vec<&str> {
    let lines = text.split([';', '\n']);
    lines.flat_map(at_commas).map(str::trim).filter(|part| !part.is_empty()).collect()
}

fn at_commas(line: &str) -> Vec<&str> {
    let (mut parts, mut start, mut depth) = (Vec::new(), 0, 0i32);
    for (at, sign) in line.char_indices() {
        match sign {
            '(' | '[' => depth += 1,
            ')' | ']' => depth -= 1,
            ',' | '/' | '|' if depth <= 0 => {
                let (before, after) = (last(&line[start..at]), first(&line[at + 1..]));
                if part(before).is_some() && begins_a_part(after) {
                    parts.push(&line[start..at]);
                    start = at + 1;
                }
            }
            _ => {}
        }
    }
    parts.push(&line[start..]);
    parts
}

/// As far as one part reaches: a pasted text of thousands of commas is not read anew at each.
const REACH: usize = 120;

fn first(text: &str) -> &str {
    text.char_indices().nth(REACH).map_or(text, |(end, _)| &text[..end])
}

fn last(text: &str) -> &str {
    text.char_indices().rev().nth(REACH).map_or(text, |(start, _)| &text[start..])
}

/// What stands behind a comma is another acid: a word, or shorthand such as `18:1`; no decimals.
fn begins_a_part(after: &str) -> bool {
    let digits = after.trim_start().trim_start_matches(|c: char| c.is_ascii_digit());
    let number = digits.len() < after.trim_start().len();
    let named = after.trim_start().chars().any(char::is_alphabetic);
    if number { digits.starts_with(':') || (after.starts_with(' ') && named && part(after).is_some()) } else { named }
}

/// The name and the share of one part: `oleic acid (C18:1) 70 %`, `C18:2 n-6: 20-30`, `70 % oleic`. Nothing if no share
/// stands at either end.
pub(super) fn part(text: &str) -> Option<NamedShare<'_>> {
    behind(text).or_else(|| before(text)).filter(|part| part.name.chars().any(char::is_alphanumeric))
}

fn behind(text: &str) -> Option<NamedShare<'_>> {
    let text = text.trim();
    if let Some(part) = nothing_found(text) {
        return Some(part);
    }
    let end = without_unit(text).len();
    let start = number_at_end(&text[..end])?;
    let mut from = start;
    let left = without_unit(&text[..start]);
    // The other end of a range, or what was found and by how much it may be off.
    let joined =
        [" to", " bis", "\u{2013}", "\u{2014}", "-", "\u{b1}", "..."].iter().find_map(|word| left.strip_suffix(word));
    match joined.map(without_unit).map(|low| (low, number_at_end(low))) {
        Some((_, Some(low))) => from = low,
        // `oleic - 70`: a dash between name and share. `n-6` is no share.
        Some((name, None)) if name.len() == left.len() - 1 && !left.ends_with(" -") && left.ends_with('-') => {
            return None;
        }
        _ => {}
    }
    let mut name = text[..from].trim_end();
    if let Some(word) = MOST.iter().filter(|word| ends_in_word(name, word)).max_by_key(|word| word.len()) {
        from = name.len() - word.len();
        name = name[..from].trim_end();
    }
    let share = &text[from..end];
    let name = without_unit(name).trim_end_matches([':', '=', '-', '\u{2013}', '\u{2014}', ',', '|', '.', ' ', '\t']);
    (!belongs_to_a_name(name)).then_some(NamedShare { name, share })
}

fn before(text: &str) -> Option<NamedShare<'_>> {
    let text = text.trim();
    let end = text.find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ',')))?;
    let (number, rest) = text.split_at(end);
    let named = rest.strip_prefix('%').or_else(|| rest.trim_start().strip_prefix('%')).or_else(|| {
        let word = rest.strip_prefix([' ', '\t'])?.trim_start();
        word.starts_with(char::is_alphabetic).then_some(word)
    })?;
    (!number.is_empty()).then_some(NamedShare { name: named.trim(), share: number })
}

fn nothing_found(text: &str) -> Option<NamedShare<'_>> {
    let lower = text.to_ascii_lowercase();
    let word = NONE.iter().chain(&["tr", "trace"]).find(|word| ends_in_word(&lower, word))?;
    let name = text.get(..text.len() - word.len())?.trim_end_matches([':', '=', ' ', '\t', '-', '(']);
    Some(NamedShare { name, share: "0" })
}

fn ends_in_word(text: &str, word: &str) -> bool {
    let lower = text.to_lowercase();
    lower
        .strip_suffix(word)
        .is_some_and(|rest| !word.starts_with(char::is_alphabetic) || rest.ends_with([' ', '\t', ':', '=', '(']))
}

/// A text without a unit at its end.
fn without_unit(text: &str) -> &str {
    let mut text = text.trim_end();
    loop {
        let open = text.strip_suffix(')').map(str::trim_end);
        let inner = open.unwrap_or(text);
        let lower = inner.to_ascii_lowercase();
        let Some(unit) = UNITS.iter().find(|unit| lower.ends_with(**unit)) else { return text };
        let Some(left) = inner.get(..inner.len() - unit.len()) else { return text };
        // `rel. area %` and `(%)`, but no word that merely ends alike.
        if unit.starts_with(char::is_alphabetic) && left.ends_with(char::is_alphabetic) {
            return text;
        }
        text = left.trim_end();
        if open.is_some() {
            text = text.strip_suffix('(').unwrap_or(text).trim_end();
        }
    }
}

/// Where a number begins that ends a text and belongs to nothing before it.
fn number_at_end(text: &str) -> Option<usize> {
    let mut start = text.trim_end_matches(|c: char| c.is_ascii_digit() || matches!(c, '.' | ',')).len();
    // `oleic,70.2` and `18:1,70.2`: a comma that parts two cells is no part of the number.
    let run = &text[start..];
    let cell = match text[..start].chars().next_back() {
        Some(':') => run.find(',').map(|at| at + 1),
        Some(c) if c.is_alphabetic() || c == ')' => run.starts_with(',').then_some(1),
        _ => None,
    };
    start += cell.unwrap_or(0);
    let digits = text[start..].chars().any(|c| c.is_ascii_digit());
    let free = cell.is_some() || text[..start].chars().next_back().is_none_or(is_free);
    (digits && free).then_some(start)
}

/// A sign before which a name ends.
fn is_free(c: char) -> bool {
    c.is_whitespace() || "=<>(|-~\u{2264}\u{2013}\u{2014}\u{b1}".contains(c)
}

/// `18:2 omega 6`: the number says where the double bonds are.
fn belongs_to_a_name(name: &str) -> bool {
    let lower = name.to_lowercase();
    let last = lower.rsplit(|c: char| !c.is_alphabetic()).next().unwrap_or_default();
    matches!(last, "n" | "w" | "omega" | "\u{3c9}" | "delta" | "\u{3b4}") || lower.ends_with(['>', '\u{2265}'])
}

/// What a part's share says; nothing if it is no number that a share can be.
///
/// # Errors
/// `true` if the ends of a range stand the wrong way round.
pub(super) fn share(part: &NamedShare<'_>) -> Result<ShareRange, bool> {
    let text = part.share.trim();
    let read = |text: &str| match Percent::read(without_unit(text.trim())) {
        Parsed::Value(value) => Ok(value),
        _ => Err(false),
    };
    for word in MOST {
        if let Some(rest) = text.to_lowercase().strip_prefix(word) {
            return Ok(ShareRange { low: Percent::ZERO, high: read(rest)? });
        }
    }
    if let Some((middle, off)) = text.split_once('\u{b1}') {
        let (middle, off) = (read(middle)?, read(off)?);
        return Ok(ShareRange { low: middle.minus(off).max(Percent::ZERO), high: middle.plus(off) });
    }
    let ends =
        ["-", "\u{2013}", "\u{2014}", " to ", " bis ", "..."].iter().find_map(|between| text.split_once(between));
    let (low, high) = ends.unwrap_or((text, text));
    let share = ShareRange { low: read(low)?, high: read(high)? };
    if share.low > share.high { Err(true) } else { Ok(share) }
}
