//! The pH log of a batch in the open format: `batch.ph_log`.

use super::read_cursor::{JsonCursor, ReadResult};
use crate::batch::{Instrument, PhEvent, PhLog, Vessel};
use crate::facts::IngredientId;
use crate::quantity::{Mass, Percent, Ph, Quantity, Timestamp};
use serde_json::{Value, json};

/// More than any batch sees.
const MOST_EVENTS: usize = 100_000;
/// A sample of one part in more than this tells nothing of the product.
const MOST_DILUTION: u64 = 100;

pub(super) fn write(log: &PhLog) -> Value {
    let events: Vec<Value> = log
        .events
        .iter()
        .map(|(at, event)| {
            let mut value = one(event);
            value["at"] = at.text().into();
            value
        })
        .collect();
    json!({"batch_g": log.batch.canonical(), "target_ph": log.target.canonical(), "events": events})
}

fn one(event: &PhEvent) -> Value {
    match event {
        PhEvent::Read { vessel, ph, instrument, dilution, taken } => json!({
            "event": "read", "in": vessel.key(), "ph": ph.canonical(), "with": instrument.key(),
            "one_part_in": dilution, "taken_g": taken.canonical(),
        }),
        PhEvent::Dose { vessel, titrant, strength, mass, step } => json!({
            "event": "dose", "in": vessel.key(), "ingredient": titrant.as_str(),
            "strength_percent": strength.canonical(), "mass_g": mass.canonical(), "readability_g": step.canonical(),
        }),
        PhEvent::Sample { mass } => json!({"event": "sample", "mass_g": mass.canonical()}),
        PhEvent::Strike(place) => json!({"event": "strike", "entry": place}),
    }
}

pub(super) fn read(at: &JsonCursor<'_>) -> ReadResult<PhLog> {
    let mut log = PhLog::new(decimal::<Mass>(at, "batch_g", "1236")?, decimal::<Ph>(at, "target_ph", "5.2")?);
    for entry in at.need("events", "a list of events")?.list(MOST_EVENTS)? {
        let when = entry.need("at", "a time")?;
        let Some(moment) = when.value.as_str().and_then(Timestamp::read) else {
            return when.wrong("a time such as \"2026-11-25T14:02:00Z\"");
        };
        let event = event(&entry, log.events.len())?;
        log.events.push((moment, event));
    }
    Ok(log)
}

/// The event of an entry; `before` entries stand before it.
fn event(at: &JsonCursor<'_>, before: usize) -> ReadResult<PhEvent> {
    let kind = at.need("event", "read, dose, sample or strike")?;
    Ok(match kind.value.as_str() {
        Some("read") => PhEvent::Read {
            vessel: vessel(at)?,
            ph: decimal(at, "ph", "5.2")?,
            instrument: at.pick("with", &["meter", "strip"], Instrument::from_key)?,
            dilution: dilution(at)?,
            taken: decimal(at, "taken_g", "2")?,
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
        },
        Some("sample") => PhEvent::Sample { mass: decimal(at, "mass_g", "50")? },
        Some("strike") => {
            let entry = at.need("entry", "the place of an earlier entry")?;
            match entry.index()? {
                place if place < before => PhEvent::Strike(place),
                _ => return entry.wrong("the place of an earlier entry"),
            }
        }
        _ => return kind.wrong("read, dose, sample or strike"),
    })
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

fn decimal<T: Quantity>(at: &JsonCursor<'_>, key: &str, example: &str) -> ReadResult<T> {
    let expected = format!("a decimal as text, such as \"{example}\"");
    let found = at.need(key, &expected)?;
    found.value.as_str().and_then(|text| T::from_canonical(text).ok()).map_or_else(|| found.wrong(expected), Ok)
}

#[cfg(test)]
mod tests {
    use crate::batch::{Instrument, PhEvent, Vessel};
    use crate::desk::{
        Action, DocId, OpenDocument, ShelfDocument, Snapshot, decode, demo, document_text, encode, read_export,
    };
    use crate::facts::IngredientId;
    use crate::quantity::{Mass, Percent, Ph, Quantity, Timestamp};

    fn worked() -> OpenDocument {
        let now = Timestamp::from_millis(1_000);
        let mut open = OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), now);
        let grams = Mass::from_units;
        open.act(Action::BeginPh(grams(1_236_000_000), Ph::from_units(520)), now);
        let read = |ph| PhEvent::Read {
            vessel: Vessel::Batch,
            ph: Ph::from_units(ph),
            instrument: Instrument::Strip,
            dilution: 5,
            taken: grams(2_000_000),
        };
        for event in [
            read(640),
            PhEvent::Sample { mass: grams(50_000_000) },
            PhEvent::Dose {
                vessel: Vessel::Side,
                titrant: IngredientId::parse("citric-acid").unwrap(),
                strength: Percent::from_units(10_000_000),
                mass: grams(250_000),
                step: grams(10_000),
            },
            read(600),
            PhEvent::Strike(3),
        ] {
            open.act(Action::NotePh(now, event), now);
        }
        open
    }

    #[test]
    fn log_written_and_read_is_the_same() {
        let open = worked();
        let text = document_text(open.document(), open.shelf());
        let read = read_export(&text).unwrap();
        assert_eq!(read.documents[0].state.ph_log, open.state().ph_log);
        assert!(read.documents[0].state.ph_log.as_ref().is_some_and(|log| log.events.len() == 5));
    }

    #[test]
    fn log_entry_is_one_step_of_undo() {
        let now = Timestamp::from_millis(2_000);
        let mut open = worked();
        let before = open.state().write();
        assert!(open.undo(now));
        assert_eq!(open.state().ph_log.as_ref().map(|log| log.events.len()), Some(4));
        assert!(open.redo(now));
        assert_eq!(open.state().write(), before);
    }

    #[test]
    fn log_does_not_travel_in_a_link() {
        let incoming = decode(&encode(worked().state(), worked().shelf(), true).unwrap()).unwrap();
        assert_eq!(incoming.documents[0].state.ph_log, None);
        assert_eq!(demo().state.ph_log, None, "a document without the field has no log");
    }

    #[test]
    fn log_from_outside_is_checked() {
        let document = |log: &str| {
            format!(r#"{{"format":"hundred-parts","version":1,"formula":{{"phases":[]}},"batch":{{"ph_log":{log}}}}}"#)
        };
        for (log, path) in [
            (r#"{"batch_g":"1","target_ph":"99","events":[]}"#, "batch.ph_log.target_ph"),
            (
                r#"{"batch_g":"1","target_ph":"5","events":[{"at":"now","event":"sample","mass_g":"1"}]}"#,
                "batch.ph_log.events[0].at",
            ),
            (
                r#"{"batch_g":"1","target_ph":"5","events":[{"at":"2026-11-25T14:02:00Z","event":"strike","entry":0}]}"#,
                "batch.ph_log.events[0].entry",
            ),
            (
                r#"{"batch_g":"1","target_ph":"5","events":[{"at":"2026-11-25T14:02:00Z","event":"read","in":"batch","ph":"5","one_part_in":0,"taken_g":"2"}]}"#,
                "batch.ph_log.events[0].one_part_in",
            ),
        ] {
            assert_eq!(read_export(&document(log)).unwrap_err().path, path);
        }
    }
}
