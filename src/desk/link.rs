//! A whole formula in the fragment of a link: version, then base64url of a checksum and the deflated document.
//!
//! The checksum finds links that were cut on the way. It says nothing about who made a link: whatever comes out of one
//! is untrusted until the maker has seen it.

use super::radix::{BASE32, BASE64URL};
use super::{Document, Incoming, State, crc32, export, write};
use crate::formula::Papers;

/// Longest fragment that is looked at.
pub const MOST_LINK_CHARS: usize = 65_536;
/// Most bytes that one may inflate to.
const MOST_BYTES: usize = 262_144;
const PLAIN: &str = "1.";
/// For QR codes.
const FOR_QR: &str = "1Q.";

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

fn packed(state: &State, with_notes: bool) -> Vec<u8> {
    let mut state = state.clone();
    // What happened to one batch is nobody else's.
    state.ph_log = None;
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
    let text = write::document_value(&Document { state, versions: Vec::new() }, None).to_string();
    let mut bytes = crc32(text.as_bytes()).to_le_bytes().to_vec();
    bytes.extend(miniz_oxide::deflate::compress_to_vec(text.as_bytes(), 9));
    bytes
}

/// The fragment without its `#`. Notes are left out unless asked for.
pub fn encode(state: &State, with_notes: bool) -> String {
    format!("{PLAIN}{}", BASE64URL.encode(&packed(state, with_notes)))
}

/// The same for a QR code.
pub fn encode_for_qr(state: &State, with_notes: bool) -> String {
    format!("{FOR_QR}{}", BASE32.encode(&packed(state, with_notes)))
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
    let bytes = if let Some(text) = fragment.strip_prefix(PLAIN) {
        BASE64URL.decode(text)
    } else if let Some(text) = fragment.strip_prefix(FOR_QR) {
        BASE32.decode(text)
    } else {
        let version =
            fragment.split_once('.').and_then(|(version, _)| version.trim_end_matches('Q').parse::<u32>().ok());
        return Err(if version.is_some_and(|version| version > 1) {
            LinkProblem::Newer
        } else {
            LinkProblem::NotALink
        });
    }
    .ok_or(LinkProblem::Damaged)?;
    let (sum, body) = bytes.split_first_chunk::<4>().ok_or(LinkProblem::Damaged)?;
    let text =
        miniz_oxide::inflate::decompress_to_vec_with_limit(body, MOST_BYTES).map_err(|_| LinkProblem::Damaged)?;
    if crc32(&text) != u32::from_le_bytes(*sum) {
        return Err(LinkProblem::Damaged);
    }
    let text = String::from_utf8(text).map_err(|_| LinkProblem::Damaged)?;
    export::read_export(&text).map_err(LinkProblem::Unreadable)
}
