//! The seal of a record: SHA-256 over what the batch was made from and every entry as the text that it was written as.
//!
//! It shows that a record was changed after it was closed, by a damaged store or by hand. It is no signature: who can write a
//! record anew can seal it anew, and only a printed seal tells that apart. What was noted beside it, such as a correction or an
//! entry of a tab that had not heard of it, takes nothing from it: it is about the entries that it names.

use super::RecordBody;
use super::read_cursor::JsonCursor;
use super::record::entry_value;
use super::record_events;
use crate::batch::{BatchEntry, EntryId, Event, Seal, SealState};
use crate::quantity::Timestamp;
use serde_json::Value;
use sha2::{Digest, Sha256};

/// What is hashed, line by line, none of which has a line break in it: this, what the batch was made from, the entries, and
/// then the seal's own id, its time, and the ids of the entries.
const FIRST_LINE: &str = "hundred-parts record 1";

/// Closes a record: the event that is noted under this id and at this time. `None` where nothing was noted, where an entry
/// has that id, or where a seal that holds is about every entry already.
pub fn seal(body: &RecordBody, id: &EntryId, at: Timestamp) -> Option<Event> {
    let entries: Vec<EntryId> =
        body.entries().iter().map(|entry| EntryId::parse(id_of(entry)?)).collect::<Option<_>>()?;
    let last = body.entries().last()?;
    let closed = check(body).iter().any(|known| {
        known.state == SealState::Intact
            && Some(known.entry.as_str()) == id_of(last)
            && known.covers.len() + 1 == entries.len()
    });
    if closed || entries.contains(id) {
        return None;
    }
    let digest = digest(body, body.entries().iter(), id.as_str(), &at.text(), &entries);
    let event = Event::Sealed { entries, digest };
    // As long as the list of entries is, it must be readable again.
    entry_value(&BatchEntry { id: id.clone(), at, event: event.clone() })?;
    Some(event)
}

/// Every seal of a record, in order, and whether it holds.
pub fn check(body: &RecordBody) -> Vec<Seal> {
    let sealing = |(place, entry): (usize, &Value)| {
        let Ok(Event::Sealed { entries, digest }) =
            record_events::read(&JsonCursor { value: entry, path: String::new() })
        else {
            return None;
        };
        let id = EntryId::parse(id_of(entry)?)?;
        let at = entry.get("at").and_then(Value::as_str).unwrap_or_default();
        let state = if holds(body, place, &id, at, &entries, &digest) { SealState::Intact } else { SealState::Changed };
        Some(Seal { entry: id, at: Timestamp::read(at).unwrap_or_default(), digest, covers: entries, state })
    };
    body.entries().iter().enumerate().filter_map(sealing).collect()
}

/// Whether the entries that a seal names stand before it, in its order, and give its digest. Others may stand among them.
fn holds(body: &RecordBody, place: usize, id: &EntryId, at: &str, entries: &[EntryId], stated: &str) -> bool {
    let mut before = body.entries().iter().take(place);
    let found: Option<Vec<&Value>> =
        entries.iter().map(|wanted| before.find(|entry| id_of(entry) == Some(wanted.as_str()))).collect();
    found.is_some_and(|found| digest(body, found.into_iter(), id.as_str(), at, entries) == stated)
}

fn id_of(entry: &Value) -> Option<&str> {
    entry.get("id").and_then(Value::as_str)
}

fn digest<'a>(
    body: &RecordBody,
    noted: impl Iterator<Item = &'a Value>,
    id: &str,
    at: &str,
    entries: &[EntryId],
) -> String {
    let mut hash = Sha256::new();
    let mut line = |text: &str| {
        hash.update(text.as_bytes());
        hash.update(b"\n");
    };
    line(FIRST_LINE);
    line(&body.made_from.as_ref().map_or_else(String::new, Value::to_string));
    noted.for_each(|entry| line(&entry.to_string()));
    line(id);
    line(at);
    entries.iter().for_each(|entry| line(entry.as_str()));
    hash.finalize().iter().map(|byte| format!("{byte:02x}")).collect()
}

#[cfg(test)]
mod tests;
