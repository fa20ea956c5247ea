//! Photographs of samples in the open format, beside those that are here, and which of them nothing names any more.
//!
//! A photograph is stored under its digest before the entry that names it, and goes after the last entry that did. Its bytes
//! are read only where they are shown or written into a file.

use super::export::Incoming;
use super::read_cursor::{JsonCursor, ReadResult};
use super::{DocumentKind, ReadProblem, RecordBody, RecordDocument, Reopen, StoredDocument};
use crate::batch::study::{MEDIA_TYPE, MOST_BYTES, MOST_KEPT, Photograph, PhotographId, Tally};
use crate::quantity::Day;
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// More than anybody keeps: [`MOST_KEPT`] is reached first.
const MOST_PHOTOGRAPHS: usize = 20_000;

/// A photograph in a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CarriedPhotograph {
    /// What the file calls it.
    pub id: PhotographId,
    /// Its bytes, where they are what it is called by and nothing but a picture; else it is damaged.
    pub bytes: Option<Arc<[u8]>>,
}

/// Reads the photographs of a file, each once.
///
/// # Errors
/// Where it is no list, names no digest, or is more than may be kept. What is damaged is told with the others.
pub(super) fn read(root: &JsonCursor<'_>) -> ReadResult<Vec<CarriedPhotograph>> {
    let Some(list) = root.get("photographs")? else { return Ok(Vec::new()) };
    let mut carried = BTreeMap::<PhotographId, Option<Arc<[u8]>>>::new();
    let mut all = 0_u64;
    for found in list.list(MOST_PHOTOGRAPHS)? {
        let named = found.need("sha256", "a digest")?;
        let Some(id) = named.value.as_str().and_then(PhotographId::parse) else {
            return named.wrong("64 digits of base 16 in small letters");
        };
        let data = found.need("data", "the bytes in base64")?.value.as_str().unwrap_or_default();
        all += base64::length(data) as u64;
        if all > MOST_KEPT {
            return Err(ReadProblem {
                path: list.path.clone(),
                found: format!("more than {} MB of photographs", MOST_KEPT / 1_000_000),
                expected: format!("at most {} MB", MOST_KEPT / 1_000_000),
            });
        }
        // One that comes twice is damaged only if it is both times.
        let known = carried.entry(id).or_default();
        if known.is_none() {
            *known = whole(id, data);
        }
    }
    Ok(carried.into_iter().map(|(id, bytes)| CarriedPhotograph { id, bytes }).collect())
}

fn whole(id: PhotographId, data: &str) -> Option<Arc<[u8]>> {
    let bytes = base64::decode(data, MOST_BYTES)?;
    let photograph = Photograph::of(&bytes, String::new()).ok()?;
    (photograph.id == id).then(|| bytes.into())
}

/// The photographs that a study names, with their sizes; those that were crossed out too. Read from its entries as they are,
/// so that one entry that cannot be read takes the photographs of no other.
pub fn photographs_of(study: &RecordBody) -> impl Iterator<Item = (PhotographId, usize)> {
    study.photographed().filter_map(|entry| {
        let id = PhotographId::parse(entry.get("sha256")?.as_str()?)?;
        let bytes = entry.get("bytes").and_then(Value::as_u64).and_then(|bytes| usize::try_from(bytes).ok());
        Some((id, bytes.unwrap_or(0)))
    })
}

/// All that several studies name, each once.
pub fn named_photographs<'a>(studies: impl IntoIterator<Item = &'a RecordBody>) -> BTreeMap<PhotographId, usize> {
    studies.into_iter().flat_map(photographs_of).collect()
}

/// All that studies in the stores name. Nothing where one of them cannot be read whole, or is of a kind or release that this
/// one does not know: then nobody knows all.
pub fn named_in_stores<'a>(
    stored: impl IntoIterator<Item = &'a StoredDocument>,
) -> Option<BTreeMap<PhotographId, usize>> {
    let mut named = BTreeMap::new();
    for stored in stored {
        let known = stored.meta.id.kind() == DocumentKind::Study && stored.is_ours();
        let study = RecordDocument::open(stored, Vec::new()).filter(|_| known)?;
        named.extend(photographs_of(study.body()));
    }
    Some(named)
}

/// What the studies of a file name, beside what the file carries and what is here. Each is in one of these only.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct PhotographMatches {
    /// In the file, whole, and not here.
    pub new: Tally,
    /// Here already.
    pub here: Tally,
    /// In the file, but not what its digest says, and not here.
    pub damaged: Tally,
    /// Neither in the file nor here.
    pub missing: Tally,
    /// Those that are new. What no study of the file names is none of them.
    pub take: Vec<CarriedPhotograph>,
}

impl PhotographMatches {
    /// Of what came in, beside what is here.
    pub fn new(incoming: &Incoming, here: &[PhotographId]) -> Self {
        let mut found = Self::default();
        for (id, bytes) in named_photographs(&incoming.studies) {
            let carried = incoming.photographs.iter().find(|carried| carried.id == id);
            match carried {
                _ if here.contains(&id) => found.here.add(bytes),
                None => found.missing.add(bytes),
                Some(CarriedPhotograph { bytes: None, .. }) => found.damaged.add(bytes),
                Some(carried @ CarriedPhotograph { bytes: Some(whole), .. }) => {
                    found.new.add(whole.len());
                    found.take.push(carried.clone());
                }
            }
        }
        found
    }
}

/// Writes the text of a file together with photographs, piece by piece: all at once they would be in memory three times.
#[derive(Debug, Default)]
pub struct PhotographFile {
    begun: bool,
}

impl PhotographFile {
    /// From the text of the file without them: what stands before the first photograph.
    pub fn head(text: &str) -> String {
        let text = text.trim_end();
        text.strip_suffix('}').unwrap_or(text).trim_end().to_owned()
    }

    /// One photograph.
    pub fn piece(&mut self, id: PhotographId, bytes: &[u8]) -> String {
        let before = if core::mem::replace(&mut self.begun, true) { "," } else { ",\n  \"photographs\": [" };
        let (id, data) = (id.text(), base64::encode(bytes));
        format!("{before}\n    {{ \"sha256\": \"{id}\", \"type\": \"{MEDIA_TYPE}\", \"data\": \"{data}\" }}")
    }

    /// What stands behind the last one.
    pub fn tail(self) -> &'static str {
        if self.begun { "\n  ]\n}\n" } else { "\n}\n" }
    }
}

/// Photographs that nothing names, each with the day on which that was first seen.
///
/// They are removed on a later day of use: another tab may have stored one and not yet the entry for it. That takes moments,
/// unless its journal has no room, and then it keeps a lock on all of them.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Orphans(BTreeMap<PhotographId, Day>);

impl Orphans {
    /// From a preference; what cannot be read was never seen.
    pub fn read(text: &str) -> Self {
        let one = |part: &str| {
            let (id, day) = part.split_once(':')?;
            Some((PhotographId::parse(id)?, Day::from_number(day.parse().ok()?)))
        };
        Self(text.split(' ').filter_map(one).collect())
    }

    /// For a preference.
    pub fn write(&self) -> String {
        self.0.iter().map(|(id, day)| format!("{}:{}", id.text(), day.number())).collect::<Vec<_>>().join(" ")
    }

    /// What is to be removed on this day, and what is to be known from now on. `named` is what all studies name, with those in
    /// the bin; where one of them could not be read, nothing may be removed. `left` are those of a study that has just left the
    /// bin for good: they wait for no other day.
    #[must_use]
    pub fn look(
        &self,
        kept: &[PhotographId],
        named: &BTreeMap<PhotographId, usize>,
        left: &BTreeSet<PhotographId>,
        today: Day,
    ) -> (Vec<PhotographId>, Self) {
        let orphans = kept.iter().filter(|id| !named.contains_key(id));
        let due = |id: &PhotographId| left.contains(id) || self.0.get(id).is_some_and(|seen| *seen != today);
        let (remove, wait): (Vec<PhotographId>, Vec<PhotographId>) = orphans.partition(|id| due(id));
        let wait = wait.into_iter().map(|id| (id, self.0.get(&id).copied().unwrap_or(today)));
        (remove, Self(wait.collect()))
    }
}

/// Base64 of RFC 4648, section 4, with padding, as other programs read it. By ranges: the alphabets of links are looked through
/// letter by letter, which for megabytes takes seconds.
mod base64 {
    const LETTERS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

    pub(super) fn encode(bytes: &[u8]) -> String {
        let mut text = String::with_capacity(bytes.len().div_ceil(3) * 4);
        for three in bytes.chunks(3) {
            let held = three.iter().enumerate().fold(0u32, |held, (n, byte)| held | u32::from(*byte) << (16 - 8 * n));
            for n in 0..4 {
                let letter = LETTERS.get((held >> (18 - 6 * n)) as usize & 63).copied().unwrap_or_default();
                text.push(if n <= three.len() { char::from(letter) } else { '=' });
            }
        }
        text
    }

    /// How many bytes a text stands for.
    pub(super) fn length(text: &str) -> usize {
        let letters = text.trim_end_matches('=').len();
        letters / 4 * 3 + letters % 4 * 3 / 4
    }

    /// `None` for a foreign letter, for an end that [`encode`] would not have made, or for more bytes than `most`.
    pub(super) fn decode(text: &str, most: usize) -> Option<Vec<u8>> {
        let inside = text.trim_end_matches('=');
        if !text.len().is_multiple_of(4) || text.len() - inside.len() > 2 || length(text) > most {
            return None;
        }
        let mut bytes = Vec::with_capacity(length(text));
        for four in inside.as_bytes().chunks(4) {
            let mut held = 0u32;
            for (n, letter) in four.iter().enumerate() {
                held |= u32::from(value(*letter)?) << (18 - 6 * n);
            }
            let [_, whole @ ..] = held.to_be_bytes();
            let (told, over) = whole.split_at_checked(four.len() - 1)?;
            if over.iter().any(|byte| *byte != 0) {
                return None;
            }
            bytes.extend(told);
        }
        Some(bytes)
    }

    fn value(letter: u8) -> Option<u8> {
        Some(match letter {
            b'A'..=b'Z' => letter - b'A',
            b'a'..=b'z' => letter - b'a' + 26,
            b'0'..=b'9' => letter - b'0' + 52,
            b'+' => 62,
            b'/' => 63,
            _ => return None,
        })
    }

    #[cfg(test)]
    mod tests {
        use super::*;
        use proptest::prelude::*;

        proptest! {
            /// A general library says the same, of what it writes and of what it refuses.
            #[test]
            fn base64_is_that_of_the_standard(bytes in prop::collection::vec(any::<u8>(), 0..40), text in "[A-Za-c0-9+/=]{0,9}") {
                let standard = data_encoding::BASE64.encode(&bytes);
                prop_assert_eq!(&encode(&bytes), &standard);
                prop_assert_eq!(decode(&standard, 40), Some(bytes));
                prop_assert_eq!(decode(&text, 40), data_encoding::BASE64.decode(text.as_bytes()).ok());
            }
        }

        #[test]
        fn more_than_may_be_is_refused_before_it_is_decoded() {
            assert_eq!(
                (decode("AAAA", 3), decode("AAAA", 2), decode("AAA=", 2)),
                (Some(vec![0; 3]), None, Some(vec![0; 2]))
            );
        }
    }
}
