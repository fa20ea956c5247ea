//! What happened to a batch, in the open format: one event of its record, without its time and id.

use super::ph_events::{self, decimal};
use super::read_cursor::{JsonCursor, ReadResult};
use super::record::{MOST_FROZEN, MOST_FROZEN_STEPS};
use super::record_body::MOST_ENTRIES;
use super::texts::{MOST_NAME, MOST_NOTE, kept};
use crate::batch::{Check, Decision, EntryId, Event, MassSource, Pot};
use crate::quantity::{Day, Mass, Quantity};
use serde_json::{Value, json};

/// A digest in hexadecimal digits.
const DIGEST: usize = 64;
const DIGITS: &str = "64 hexadecimal digits";

/// Every event by its key, for the message that says what is expected.
const EVENTS: &str = "ph-begun, read, dose, sample, buffers, unchecked, struck, begun, step-done, weighed, temperature, timer, \
                      pot-weighed, added, deviation, rescaled, split-off, checked, filled, lost, retained, decided, abandoned, remark or sealed";

/// The event of an entry.
///
/// # Errors
/// What is wrong with it; an event that this program does not know is wrong.
pub(super) fn read(at: &JsonCursor<'_>) -> ReadResult<Event> {
    let kind = at.need("event", "what happened")?;
    let name = kind.value.as_str().unwrap_or_default();
    for reader in [of_record, of_weighing, of_stove, of_end] {
        if let Some(event) = reader(name, at)? {
            return Ok(event);
        }
    }
    match ph_events::read(at)? {
        Some(event) => Ok(Event::Ph(event)),
        None => kind.wrong(EVENTS),
    }
}

/// Events of every record.
fn of_record(kind: &str, at: &JsonCursor<'_>) -> ReadResult<Option<Event>> {
    Ok(Some(match kind {
        "ph-begun" => Event::PhBegun { batch: grams(at, "batch_g")?, target: decimal(at, "target_ph", "5.2")? },
        "struck" => {
            Event::Struck { entry: entry_id(&at.need("entry", "the id of an entry")?)?, reason: note(at, "reason")? }
        }
        "begun" => Event::Begun { code: name(at, "code")?, maker: name(at, "maker")? },
        "step-done" => Event::StepDone { step: place(at, "step", MOST_FROZEN_STEPS)? },
        "remark" => Event::Remark { text: note(at, "text")? },
        "deviation" => Event::Deviation { what: note(at, "what")?, decision: note(at, "decision")? },
        _ => return Ok(None),
    }))
}

/// What was weighed.
fn of_weighing(kind: &str, at: &JsonCursor<'_>) -> ReadResult<Option<Event>> {
    Ok(Some(match kind {
        "weighed" => Event::Weighed {
            line: place(at, "line", MOST_FROZEN)?,
            actual: grams(at, "actual_g")?,
            source: one_of(at, "by", MassSource::KEYS, MassSource::ALL)?,
            lot: name(at, "lot")?,
            expiry: day(at, "expiry")?,
            kept: at.get("kept")?.map(|_| flag(at, "kept")).transpose()?.unwrap_or_default(),
        },
        "pot-weighed" => Event::PotWeighed { mass: grams(at, "mass_g")?, after: flag(at, "after")? },
        "added" => Event::Added { what: name(at, "what")?, mass: grams(at, "mass_g")? },
        "rescaled" => Event::Rescaled { batch: grams(at, "batch_g")?, reason: note(at, "reason")? },
        "split-off" => Event::SplitOff { mass: grams(at, "mass_g")?, code: name(at, "code")?, what: note(at, "what")? },
        _ => return Ok(None),
    }))
}

/// What was read and looked at.
fn of_stove(kind: &str, at: &JsonCursor<'_>) -> ReadResult<Option<Event>> {
    Ok(Some(match kind {
        "temperature" => {
            Event::Temperature { pot: one_of(at, "of", Pot::KEYS, Pot::ALL)?, reading: decimal(at, "celsius", "72")? }
        }
        "timer" => {
            Event::TimerStarted { step: place(at, "step", MOST_FROZEN_STEPS)?, minutes: decimal(at, "minutes", "20")? }
        }
        "checked" => Event::Checked { check: one_of(at, "what", Check::KEYS, Check::ALL)?, found: note(at, "found")? },
        _ => return Ok(None),
    }))
}

/// How it ended.
fn of_end(kind: &str, at: &JsonCursor<'_>) -> ReadResult<Option<Event>> {
    Ok(Some(match kind {
        "filled" => Event::Filled { mass: grams(at, "mass_g")? },
        "lost" => Event::Lost { what: name(at, "what")?, mass: grams(at, "mass_g")? },
        "retained" => Event::Retained { what: name(at, "what")?, mass: grams(at, "mass_g")? },
        "decided" => Event::Decided {
            decision: one_of(at, "decision", Decision::KEYS, Decision::ALL)?,
            by: name(at, "by")?,
            remark: note(at, "remark")?,
        },
        "abandoned" => Event::Abandoned { reason: note(at, "reason")? },
        "sealed" => sealed(at)?,
        _ => return Ok(None),
    }))
}

fn sealed(at: &JsonCursor<'_>) -> ReadResult<Event> {
    let digest = at.need("sha256", DIGITS)?;
    let text = digest.text(DIGEST)?;
    if text.len() != DIGEST || !text.bytes().all(|byte| matches!(byte, b'0'..=b'9' | b'a'..=b'f')) {
        return digest.wrong(DIGITS);
    }
    let entries = at.need("entries", "the ids of entries")?.list(MOST_ENTRIES)?;
    Ok(Event::Sealed { entries: entries.iter().map(entry_id).collect::<ReadResult<_>>()?, digest: text })
}

fn name(at: &JsonCursor<'_>, key: &str) -> ReadResult<String> {
    at.text_or_empty(key, MOST_NAME)
}

fn note(at: &JsonCursor<'_>, key: &str) -> ReadResult<String> {
    at.text_or_empty(key, MOST_NOTE)
}

fn grams(at: &JsonCursor<'_>, key: &str) -> ReadResult<Mass> {
    decimal(at, key, "12.5")
}

/// As it is kept.
pub(super) fn write(event: &Event) -> Value {
    match event {
        Event::PhBegun { batch, target } => {
            json!({"event": "ph-begun", "batch_g": batch.canonical(), "target_ph": target.canonical()})
        }
        Event::Ph(event) => ph_events::write(event),
        Event::Struck { entry, reason } => {
            json!({"event": "struck", "entry": entry.as_str(), "reason": kept_note(reason)})
        }
        Event::Begun { code, maker } => json!({"event": "begun", "code": kept_name(code), "maker": kept_name(maker)}),
        Event::StepDone { step } => json!({"event": "step-done", "step": step}),
        Event::Remark { text } => json!({"event": "remark", "text": kept_note(text)}),
        Event::Deviation { what, decision } => {
            json!({"event": "deviation", "what": kept_note(what), "decision": kept_note(decision)})
        }
        Event::Temperature { pot, reading } => {
            json!({"event": "temperature", "of": pot.key(), "celsius": reading.canonical()})
        }
        Event::TimerStarted { step, minutes } => {
            json!({"event": "timer", "step": step, "minutes": minutes.canonical()})
        }
        Event::Checked { check, found } => json!({"event": "checked", "what": check.key(), "found": kept_note(found)}),
        weighed_or_ended => write_weighed(weighed_or_ended),
    }
}

fn write_weighed(event: &Event) -> Value {
    match event {
        Event::Weighed { line, actual, source, lot, expiry, kept } => {
            let mut value = json!({
                "event": "weighed", "line": line, "actual_g": actual.canonical(), "by": source.key(),
                "lot": kept_name(lot),
            });
            if let Some(expiry) = expiry {
                value["expiry"] = expiry.text().into();
            }
            if *kept {
                value["kept"] = true.into();
            }
            value
        }
        Event::PotWeighed { mass, after } => {
            json!({"event": "pot-weighed", "mass_g": mass.canonical(), "after": after})
        }
        Event::Added { what, mass } => of_mass("added", what, *mass),
        Event::Rescaled { batch, reason } => {
            json!({"event": "rescaled", "batch_g": batch.canonical(), "reason": kept_note(reason)})
        }
        Event::SplitOff { mass, code, what } => json!({
            "event": "split-off", "mass_g": mass.canonical(), "code": kept_name(code), "what": kept_note(what),
        }),
        ended => write_end(ended),
    }
}

fn write_end(event: &Event) -> Value {
    match event {
        Event::Filled { mass } => json!({"event": "filled", "mass_g": mass.canonical()}),
        Event::Lost { what, mass } => of_mass("lost", what, *mass),
        Event::Retained { what, mass } => of_mass("retained", what, *mass),
        Event::Decided { decision, by, remark } => json!({
            "event": "decided", "decision": decision.key(), "by": kept_name(by), "remark": kept_note(remark),
        }),
        Event::Abandoned { reason } => json!({"event": "abandoned", "reason": kept_note(reason)}),
        Event::Sealed { entries, digest } => {
            let entries: Vec<&str> = entries.iter().map(EntryId::as_str).collect();
            json!({"event": "sealed", "entries": entries, "sha256": digest})
        }
        // All others are written above; what could not be read again is not kept.
        _ => Value::Null,
    }
}

fn of_mass(event: &str, what: &str, mass: Mass) -> Value {
    json!({"event": event, "what": kept_name(what), "mass_g": mass.canonical()})
}

fn kept_name(text: &str) -> String {
    kept(text.to_owned(), MOST_NAME)
}

fn kept_note(text: &str) -> String {
    kept(text.to_owned(), MOST_NOTE)
}

/// The id of an entry.
pub(super) fn entry_id(at: &JsonCursor<'_>) -> ReadResult<EntryId> {
    at.value.as_str().and_then(EntryId::parse).map_or_else(|| at.wrong("small letters, digits and hyphens"), Ok)
}

fn place(at: &JsonCursor<'_>, key: &str, most: usize) -> ReadResult<usize> {
    let found = at.need(key, "a place from 0")?;
    let place = found.index()?;
    if place < most { Ok(place) } else { found.wrong(format!("a place below {most}")) }
}

fn flag(at: &JsonCursor<'_>, key: &str) -> ReadResult<bool> {
    let found = at.need(key, "true or false")?;
    found.value.as_bool().map_or_else(|| found.wrong("true or false"), Ok)
}

/// A day under `key`, where there is one.
pub(super) fn day(at: &JsonCursor<'_>, key: &str) -> ReadResult<Option<Day>> {
    let Some(found) = at.get(key)? else { return Ok(None) };
    let day = found.value.as_str().and_then(Day::read);
    day.map_or_else(|| found.wrong("a day such as \"2026-11-25\""), |day| Ok(Some(day)))
}

/// One of a fixed set of names, which must be there.
fn one_of<T: Copy>(at: &JsonCursor<'_>, key: &str, names: &[&str], all: &[T]) -> ReadResult<T> {
    let found = at.need(key, &format!("one of {}", names.join(", ")))?;
    let place = found.place_among(names)?;
    all.get(place).map_or_else(|| found.wrong(names.join(", ")), |value| Ok(*value))
}
