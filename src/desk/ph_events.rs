//! What happened to the pH of a batch, in the open format; and the logs of releases without records (`batch.ph_log`).

use super::read_cursor::{JsonCursor, ReadResult};
use super::record_body::MOST_ENTRIES;
use super::texts::{MOST_NAME, kept};
use crate::batch::{BufferReading, Instrument, MeterCheck, PhEvent, Vessel};
use crate::facts::IngredientId;
use crate::quantity::{Mass, Percent, Ph, Quantity, Timestamp};
use serde_json::{Value, json};

/// How a log says that an earlier entry was a mistake, by its place from 0.
const LOG_STRIKE: &str = "strike";
/// The lot that a dose was made from.
pub(super) const DOSE_LOT: &str = "lot";
/// What stands under each buffer of a check.
const IN_BUFFER: &str = "a buffer and what the meter showed in it";
const EARLIER: &str = "the place of an earlier entry";
/// A sample of one part in more than this tells nothing of the product.
const MOST_DILUTION: u64 = 100;

/// One event, without its time and id.
pub(super) fn write(event: &PhEvent) -> Value {
    match event {
        PhEvent::Read { vessel, ph, instrument, dilution, taken, steady } => {
            let mut event = json!({
                "event": "read", "in": vessel.key(), "ph": ph.canonical(), "with": instrument.key(),
                "one_part_in": dilution, "taken_g": taken.canonical(),
            });
            if let Some(steady) = steady {
                event["steady"] = (*steady).into();
            }
            event
        }
        PhEvent::Dose { vessel, titrant, strength, mass, step, lot } => {
            let mut event = json!({
                "event": "dose", "in": vessel.key(), "ingredient": titrant.as_str(),
                "strength_percent": strength.canonical(), "mass_g": mass.canonical(), "readability_g": step.canonical(),
            });
            if !lot.is_empty() {
                event[DOSE_LOT] = kept(lot.clone(), MOST_NAME).into();
            }
            event
        }
        PhEvent::Sample { mass } => json!({"event": "sample", "mass_g": mass.canonical()}),
        PhEvent::Buffers(MeterCheck { first, second, done }) => {
            let one = |of: &BufferReading| json!({"ph": of.buffer.canonical(), "shown": of.shown.canonical()});
            let mut event = json!({"event": "buffers", "first": one(first), "second": one(second)});
            if let Some(done) = done {
                event["done"] = done.text().into();
            }
            event
        }
        PhEvent::Unchecked => json!({"event": "unchecked"}),
    }
}

/// Whether a log of a release without records can be read.
///
/// # Errors
/// The first thing that is wrong with it.
pub(super) fn check_log(at: &JsonCursor<'_>) -> ReadResult<()> {
    decimal::<Mass>(at, "batch_g", "1236")?;
    decimal::<Ph>(at, "target_ph", "5.2")?;
    for (n, entry) in at.need("events", "a list of events")?.list(MOST_ENTRIES - 1)?.iter().enumerate() {
        time(entry)?;
        let kind = entry.need("event", "read, dose, sample or strike")?;
        if kind.value.as_str() == Some(LOG_STRIKE) {
            let struck = entry.need("entry", EARLIER)?;
            if struck.index()? >= n {
                return struck.wrong(EARLIER);
            }
        } else if !matches!(read(entry)?, Some(PhEvent::Read { .. } | PhEvent::Dose { .. } | PhEvent::Sample { .. })) {
            return kind.wrong("read, dose, sample or strike");
        }
    }
    Ok(())
}

/// When an entry was made.
pub(super) fn time(entry: &JsonCursor<'_>) -> ReadResult<Timestamp> {
    instant(&entry.need("at", "a time")?)
}

fn instant(when: &JsonCursor<'_>) -> ReadResult<Timestamp> {
    let read = when.value.as_str().and_then(Timestamp::read);
    read.map_or_else(|| when.wrong("a time such as \"2026-11-25T14:02:00Z\""), Ok)
}

/// The event of an entry; nothing if it is none of these.
pub(super) fn read(at: &JsonCursor<'_>) -> ReadResult<Option<PhEvent>> {
    let kind = at.need("event", "what happened")?;
    Ok(Some(match kind.value.as_str() {
        Some("read") => PhEvent::Read {
            vessel: vessel(at)?,
            ph: decimal(at, "ph", "5.2")?,
            instrument: at.pick("with", Instrument::KEYS, Instrument::ALL)?,
            dilution: dilution(at)?,
            taken: decimal(at, "taken_g", "2")?,
            steady: match at.get("steady")? {
                Some(steady) => Some(steady.value.as_bool().map_or_else(|| steady.wrong("true or false"), Ok)?),
                None => None,
            },
        },
        Some("dose") => PhEvent::Dose {
            vessel: vessel(at)?,
            titrant: {
                let id = at.need("ingredient", "an id")?;
                match id.value.as_str().and_then(|text| IngredientId::parse(text).ok()) {
                    Some(id) => id,
                    None => return id.wrong("an id of small letters, digits and hyphens"),
                }
            },
            strength: decimal::<Percent>(at, "strength_percent", "50")?,
            mass: decimal(at, "mass_g", "0.5")?,
            step: decimal(at, "readability_g", "0.01")?,
            lot: at.text_or_empty(DOSE_LOT, MOST_NAME)?,
        },
        Some("sample") => PhEvent::Sample { mass: decimal(at, "mass_g", "50")? },
        Some("buffers") => PhEvent::Buffers(MeterCheck {
            first: in_buffer(&at.need("first", IN_BUFFER)?)?,
            second: in_buffer(&at.need("second", IN_BUFFER)?)?,
            done: match at.get("done")? {
                Some(done) => Some(instant(&done)?),
                None => None,
            },
        }),
        Some("unchecked") => PhEvent::Unchecked,
        _ => return Ok(None),
    }))
}

fn in_buffer(at: &JsonCursor<'_>) -> ReadResult<BufferReading> {
    Ok(BufferReading { buffer: decimal(at, "ph", "7")?, shown: decimal(at, "shown", "7.02")? })
}

fn vessel(at: &JsonCursor<'_>) -> ReadResult<Vessel> {
    let place = at.need("in", "batch or side")?;
    place.value.as_str().and_then(Vessel::from_key).map_or_else(|| place.wrong("batch or side"), Ok)
}

fn dilution(at: &JsonCursor<'_>) -> ReadResult<u8> {
    let parts = at.need("one_part_in", "a whole number from 1")?;
    let read = parts.value.as_u64().filter(|parts| (1..=MOST_DILUTION).contains(parts));
    read.and_then(|parts| u8::try_from(parts).ok()).map_or_else(|| parts.wrong("a whole number from 1 to 100"), Ok)
}

/// A decimal as text under `key`.
pub(super) fn decimal<T: Quantity>(at: &JsonCursor<'_>, key: &str, example: &str) -> ReadResult<T> {
    let expected = format!("a decimal as text, such as \"{example}\"");
    let found = at.need(key, &expected)?;
    found.value.as_str().and_then(|text| T::from_canonical(text).ok()).map_or_else(|| found.wrong(expected), Ok)
}
