//! A whole formula in the fragment of a link: version, then base64url of a checksum and the deflated document.
//!
//! The checksum finds links that were cut on the way. It says nothing about who made a link: whatever comes out of one
//! is untrusted until the maker has seen it.

use super::base_n::{Alphabet, BASE32, BASE64URL};
use super::{Document, Incoming, State, crc32, export, link_dictionary, write};
use crate::facts::Field;
use crate::formula::Papers;
use crate::sheet::CostTexts;
use crate::shelf::Shelf;

/// Longest fragment that is looked at.
pub const MOST_LINK_CHARS: usize = 65_536;
/// Most bytes that one may inflate to.
const MOST_BYTES: usize = 262_144;

/// How a fragment begins, the letters it is written in, and whether frequent words are short in it.
const KINDS: [(&str, Alphabet, bool); 4] =
    [("2.", BASE64URL, true), ("2Q.", BASE32, true), ("1.", BASE64URL, false), ("1Q.", BASE32, false)];
/// The newest version: the one that is written.
const VERSION: u32 = 2;

/// Why a link gives no formula.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum LinkProblem {
    /// It is no link of this kind at all, such as the address of a place.
    NotALink,
    /// Longer than any link made here.
    TooLong,
    /// Cut or changed on the way.
    Damaged,
    /// Made by a newer version.
    Newer,
    /// Whole, but what it holds cannot be read.
    Unreadable(super::ReadProblem),
}

/// Of the maker's shelf only what makes a line readable elsewhere: name and INCI of own ingredients that the formula uses.
fn for_others(shelf: &Shelf, state: &State) -> Shelf {
    let used = |id| state.formula.lines().any(|(_, line)| line.choice.id() == Some(id));
    let own = shelf.entries().filter(|(id, own, _)| *own && used(id));
    Shelf::restore(own.map(|(id, own, texts)| {
        let public = texts.iter().filter(|(field, _)| matches!(field, Field::Name | Field::Inci));
        (id.clone(), own, public.cloned().collect())
    }))
}

/// The document of a link; `None` if it is larger than one that is inflated again.
fn packed(state: &State, shelf: &Shelf, with_notes: bool) -> Option<Vec<u8>> {
    let mut state = state.clone();
    // What happened to one batch is nobody else's, nor is what it costs.
    state.plan.costs = CostTexts::default();
    if !with_notes {
        state.formula.about.notes.clear();
        // Names, addresses and reasons are as private as notes.
        state.formula.papers = Papers::default();
        let ids: Vec<_> = state.formula.lines().map(|(_, line)| line.id).collect();
        for id in ids {
            if let Some(line) = state.formula.line_mut(id) {
                line.note.clear();
                line.lot.clear();
            }
        }
    }
    let own = for_others(shelf, &state);
    let carried = (own != Shelf::default()).then_some(&own);
    let text = write::document_value(&Document { state, ..Document::default() }.for_others(shelf), carried).to_string();
    if text.len() > MOST_BYTES {
        return None;
    }
    let text = link_dictionary::shorten(&text);
    let mut bytes = crc32(&text).to_le_bytes().to_vec();
    bytes.extend(miniz_oxide::deflate::compress_to_vec(&text, 9));
    Some(bytes)
}

/// The fragment without its `#`. Notes are left out unless asked for; of own ingredients name and INCI come along. `None` if
/// the formula is too large for a link that can be read again.
pub fn encode(state: &State, shelf: &Shelf, with_notes: bool) -> Option<String> {
    fragment(0, state, shelf, with_notes)
}

/// The same for a QR code.
pub fn encode_for_qr(state: &State, shelf: &Shelf, with_notes: bool) -> Option<String> {
    fragment(1, state, shelf, with_notes)
}

fn fragment(kind: usize, state: &State, shelf: &Shelf, with_notes: bool) -> Option<String> {
    let (start, letters, _) = KINDS.get(kind)?;
    let fragment = format!("{start}{}", letters.encode(&packed(state, shelf, with_notes)?));
    (fragment.len() <= MOST_LINK_CHARS).then_some(fragment)
}

/// Reads a fragment, with or without its `#`.
///
/// # Errors
/// Why it gives no formula. Nothing is inflated before its length and alphabet are checked, and never beyond a limit.
pub fn decode(fragment: &str) -> Result<Incoming, LinkProblem> {
    let fragment = fragment.strip_prefix('#').unwrap_or(fragment);
    if fragment.len() > MOST_LINK_CHARS {
        return Err(LinkProblem::TooLong);
    }
    let kind = KINDS.iter().find_map(|(start, letters, short)| Some((fragment.strip_prefix(start)?, letters, *short)));
    let Some((text, letters, short)) = kind else {
        let version =
            fragment.split_once('.').and_then(|(version, _)| version.trim_end_matches('Q').parse::<u32>().ok());
        return Err(if version.is_some_and(|version| version > VERSION) {
            LinkProblem::Newer
        } else {
            LinkProblem::NotALink
        });
    };
    let bytes = letters.decode(text).ok_or(LinkProblem::Damaged)?;
    let (sum, body) = bytes.split_first_chunk::<4>().ok_or(LinkProblem::Damaged)?;
    let mut text =
        miniz_oxide::inflate::decompress_to_vec_with_limit(body, MOST_BYTES).map_err(|_| LinkProblem::Damaged)?;
    if crc32(&text) != u32::from_le_bytes(*sum) {
        return Err(LinkProblem::Damaged);
    }
    if short {
        text = link_dictionary::lengthen(&text, MOST_BYTES).ok_or(LinkProblem::Damaged)?;
    }
    let text = String::from_utf8(text).map_err(|_| LinkProblem::Damaged)?;
    export::read_export(&text).map_err(LinkProblem::Unreadable)
}
