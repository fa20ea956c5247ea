//! The record of a batch in the open format: what a [`RecordBody`] says, and how an entry is written.

use super::ph_events::{self, decimal, time};
use super::read::kept_formula;
use super::read_cursor::{JsonCursor, ReadProblem, ReadResult};
use super::record_body::{MOST_ENTRIES, RecordBody};
use super::texts::{MOST_NAME, MOST_NOTE, kept};
use super::write;
use crate::batch::{BatchEntry, BatchRecord, EntryId, Event, FrozenFinding, FrozenLine, MadeFrom};
use crate::formula::MOST_LINES;
use crate::quantity::{Day, Percent, Quantity};
use crate::rules::Grade;
use serde_json::{Value, json};
use std::collections::BTreeSet;

/// More findings than a formula has.
const MOST_FINDINGS: usize = 5000;

impl RecordBody {
    /// What it says.
    ///
    /// # Errors
    /// The first thing that is wrong, with its path.
    pub fn record(&self) -> Result<BatchRecord, ReadProblem> {
        read(&JsonCursor { value: &self.value(), path: "record".into() })
    }
}

/// Reads a record.
pub(super) fn read(at: &JsonCursor<'_>) -> ReadResult<BatchRecord> {
    let entries = at.need("entries", "a list of entries")?.list(MOST_ENTRIES)?;
    let mut ids = BTreeSet::new();
    let made_from = at.get("made_from")?.map(|from| made_from(&from)).transpose()?;
    let mut record = BatchRecord { made_from, entries: Vec::with_capacity(entries.len()) };
    for found in entries {
        let entry = entry(&found)?;
        if !ids.insert(entry.id.clone()) {
            return found.need("id", "an id")?.wrong("an id that no other entry has");
        }
        if let Event::Struck { entry: struck, .. } = &entry.event
            && !ids.contains(struck)
        {
            return found.need("entry", EARLIER)?.wrong(EARLIER);
        }
        record.entries.push(entry);
    }
    Ok(record)
}

const EARLIER: &str = "the id of an earlier entry";

fn entry(at: &JsonCursor<'_>) -> ReadResult<BatchEntry> {
    Ok(BatchEntry { id: entry_id(at, "id")?, at: time(at)?, event: event(at)? })
}

fn entry_id(at: &JsonCursor<'_>, key: &str) -> ReadResult<EntryId> {
    let id = at.need(key, "the id of an entry")?;
    id.value.as_str().and_then(EntryId::parse).map_or_else(|| id.wrong("small letters, digits and hyphens"), Ok)
}

fn event(at: &JsonCursor<'_>) -> ReadResult<Event> {
    let kind = at.need("event", "what happened")?;
    Ok(match kind.value.as_str() {
        Some("ph-begun") => {
            Event::PhBegun { batch: decimal(at, "batch_g", "1236")?, target: decimal(at, "target_ph", "5.2")? }
        }
        Some("struck") => {
            Event::Struck { entry: entry_id(at, "entry")?, reason: at.text_or_empty("reason", MOST_NOTE)? }
        }
        _ => match ph_events::read(at)? {
            Some(event) => Event::Ph(event),
            None => return kind.wrong("ph-begun, read, dose, sample or struck"),
        },
    })
}

/// One entry as it is kept; `None` if it could not be read again, such as a mass beyond what a mass may be.
pub(super) fn entry_value(made: &BatchEntry) -> Option<Value> {
    let mut value = match &made.event {
        Event::PhBegun { batch, target } => {
            json!({"event": "ph-begun", "batch_g": batch.canonical(), "target_ph": target.canonical()})
        }
        Event::Ph(event) => ph_events::write(event),
        Event::Struck { entry, reason } => {
            json!({"event": "struck", "entry": entry.as_str(), "reason": kept(reason.clone(), MOST_NOTE)})
        }
    };
    value["id"] = made.id.as_str().into();
    value["at"] = made.at.text().into();
    entry(&JsonCursor { value: &value, path: String::new() }).is_ok().then_some(value)
}

fn made_from(at: &JsonCursor<'_>) -> ReadResult<MadeFrom> {
    let whole = |key: &str| -> ReadResult<Option<u32>> {
        let Some(found) = at.get(key)? else { return Ok(None) };
        let number = found.value.as_u64().and_then(|number| u32::try_from(number).ok());
        number.map_or_else(|| found.wrong("a whole number"), |number| Ok(Some(number)))
    };
    let day = at.need("rules_known_to", "a day")?;
    let Some(rules_known_to) = day.value.as_str().and_then(Day::read) else {
        return day.wrong("a day such as \"2026-11-25\"");
    };
    let list = |key: &str, most: usize| at.get(key)?.map_or_else(|| Ok(Vec::new()), |list| list.list(most));
    Ok(MadeFrom {
        formula: kept_formula(&at.need("formula", "a formula")?)?,
        version: whole("version")?,
        mark: whole("mark")?.unwrap_or_default(),
        batch: at.get("batch_g")?.map(|_| decimal(at, "batch_g", "1236")).transpose()?,
        lines: list("lines", MOST_LINES)?.iter().map(line).collect::<ReadResult<_>>()?,
        findings: list("findings", MOST_FINDINGS)?.iter().map(finding).collect::<ReadResult<_>>()?,
        rules_known_to,
    })
}

fn line(at: &JsonCursor<'_>) -> ReadResult<FrozenLine> {
    Ok(FrozenLine {
        name: at.text_or_empty("name", MOST_NOTE)?,
        share: decimal::<Percent>(at, "percent", "4.5")?,
        on_scale: decimal(at, "on_scale_g", "55.62")?,
        lot: at.text_or_empty("lot", MOST_NAME)?,
    })
}

fn finding(at: &JsonCursor<'_>) -> ReadResult<FrozenFinding> {
    let grade = at.need("grade", "stop, care, unknown or fine")?;
    let Some(known) = grade.value.as_str().and_then(Grade::from_key) else {
        return grade.wrong("stop, care, unknown or fine");
    };
    Ok(FrozenFinding {
        rule: at.text_or_empty("rule", MOST_NAME)?,
        grade: known,
        text: at.text_or_empty("text", MOST_NOTE)?,
        answer: at.text_or_empty("answer", MOST_NOTE)?,
    })
}

/// What a batch was made from as it is kept.
pub(super) fn made_from_value(from: &MadeFrom) -> Value {
    let lines = from.lines.iter().map(|line| {
        json!({
            "name": kept(line.name.clone(), MOST_NOTE), "percent": line.share.canonical(),
            "on_scale_g": line.on_scale.canonical(), "lot": kept(line.lot.clone(), MOST_NAME),
        })
    });
    let findings = from.findings.iter().map(|found| {
        json!({
            "rule": kept(found.rule.clone(), MOST_NAME), "grade": found.grade.key(),
            "text": kept(found.text.clone(), MOST_NOTE), "answer": kept(found.answer.clone(), MOST_NOTE),
        })
    });
    let mut value = json!({
        "formula": write::formula(&from.formula), "mark": from.mark, "rules_known_to": from.rules_known_to.text(),
        "lines": lines.collect::<Vec<_>>(), "findings": findings.take(MOST_FINDINGS).collect::<Vec<_>>(),
    });
    if let Some(version) = from.version {
        value["version"] = version.into();
    }
    if let Some(batch) = from.batch {
        value["batch_g"] = batch.canonical().into();
    }
    value
}
