//! The record of a batch in the open format: what a [`RecordBody`] says, and how an entry is written.

use super::ph_events::{decimal, time};
use super::read::kept_formula;
use super::read_cursor::{JsonCursor, ReadProblem, ReadResult};
use super::record_body::{MOST_ENTRIES, RecordBody};
use super::record_events::{self, day};
use super::texts::{MOST_NAME, MOST_NOTE, kept};
use super::write;
use crate::batch::{
    BatchEntry, BatchRecord, Event, FrozenFinding, FrozenLine, FrozenPacks, FrozenScale, FrozenStep, MadeFrom,
};
use crate::formula::{MOST_LINES, MOST_STEPS, StepKind};
use crate::quantity::{Percent, Quantity};
use crate::rules::Grade;
use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::sync::Arc;

/// More findings than a formula has.
const MOST_FINDINGS: usize = 5000;
/// Lines of a formula, and what a lye adds to them.
pub(super) const MOST_FROZEN: usize = MOST_LINES + 4;
/// Steps of a method, and one for what it leaves out.
pub(super) const MOST_FROZEN_STEPS: usize = MOST_STEPS + 1;

impl RecordBody {
    /// What it says; read once, and shared with whoever asks.
    ///
    /// # Errors
    /// The first thing that is wrong, with its path.
    pub fn record(&self) -> Result<Arc<BatchRecord>, ReadProblem> {
        if let Some(known) = self.as_read().get() {
            return Ok(known.clone());
        }
        let read = Arc::new(read(&JsonCursor { value: &self.value(), path: "record".into() })?);
        Ok(self.as_read().get_or_init(|| read).clone())
    }
}

/// Reads a record.
pub(super) fn read(at: &JsonCursor<'_>) -> ReadResult<BatchRecord> {
    let entries = at.need("entries", "a list of entries")?.list(MOST_ENTRIES)?;
    let mut ids = BTreeSet::new();
    let made_from = at.get("made_from")?.map(|from| made_from(&from)).transpose()?.map(Arc::new);
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
    let id = record_events::entry_id(&at.need("id", "the id of an entry")?)?;
    Ok(BatchEntry { id, at: time(at)?, event: record_events::read(at)? })
}

/// One entry as it is kept, and as it is read from there: a text may lose what no text keeps. `None` if it could not be read
/// again, such as a mass beyond what a mass may be.
pub(super) fn entry_value(made: &BatchEntry) -> Option<(Value, BatchEntry)> {
    let mut value = record_events::write(&made.event);
    value["id"] = made.id.as_str().into();
    value["at"] = made.at.text().into();
    let read = entry(&JsonCursor { value: &value, path: String::new() }).ok()?;
    Some((value, read))
}

fn made_from(at: &JsonCursor<'_>) -> ReadResult<MadeFrom> {
    let whole = |key: &str| -> ReadResult<Option<u32>> {
        let Some(found) = at.get(key)? else { return Ok(None) };
        let number = found.value.as_u64().and_then(|number| u32::try_from(number).ok());
        number.map_or_else(|| found.wrong("a whole number"), |number| Ok(Some(number)))
    };
    let Some(rules_known_to) = day(at, "rules_known_to")? else {
        return at.need("rules_known_to", "a day")?.wrong("a day");
    };
    let list = |key: &str, most: usize| at.get(key)?.map_or_else(|| Ok(Vec::new()), |list| list.list(most));
    Ok(MadeFrom {
        formula: kept_formula(&at.need("formula", "a formula")?)?,
        version: whole("version")?,
        mark: whole("mark")?.unwrap_or_default(),
        batch: at.get("batch_g")?.map(|_| decimal(at, "batch_g", "1236")).transpose()?,
        lines: list("lines", MOST_FROZEN)?.iter().map(line).collect::<ReadResult<_>>()?,
        steps: list("steps", MOST_FROZEN_STEPS)?.iter().map(step).collect::<ReadResult<_>>()?,
        scale: at.get("scale")?.map(|scale| read_scale(&scale)).transpose()?,
        packs: at.get("packs")?.map(|packs| read_packs(&packs)).transpose()?,
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
        inci: at.text_or_empty("inci", MOST_NOTE)?,
        phase: at.text_or_empty("phase", MOST_NAME)?,
        capped: at.get("capped")?.is_some_and(|capped| capped.value.as_bool() == Some(true)),
    })
}

fn step(at: &JsonCursor<'_>) -> ReadResult<FrozenStep> {
    let lines = at.get("lines")?.map_or_else(|| Ok(Vec::new()), |list| list.list(MOST_FROZEN))?;
    Ok(FrozenStep {
        kind: at.pick("kind", StepKind::KEYS, StepKind::ALL)?,
        text: at.text_or_empty("text", MOST_NOTE)?,
        why: at.text_or_empty("why", MOST_NOTE)?,
        stirring: at.text_or_empty("stirring", MOST_NOTE)?,
        lines: lines.iter().map(JsonCursor::index).collect::<ReadResult<_>>()?,
        temperature: at.get("heat_c")?.map(|_| decimal(at, "heat_c", "72")).transpose()?,
        minutes: at.get("minutes")?.map(|_| decimal(at, "minutes", "20")).transpose()?,
    })
}

fn read_scale(at: &JsonCursor<'_>) -> ReadResult<FrozenScale> {
    Ok(FrozenScale { step: decimal(at, "readability_g", "0.01")?, tolerance: decimal(at, "tolerance_percent", "2")? })
}

fn read_packs(at: &JsonCursor<'_>) -> ReadResult<FrozenPacks> {
    Ok(FrozenPacks { count: decimal(at, "count", "12")?, fill: decimal(at, "fill_g", "100")? })
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
    let findings = from.findings.iter().map(|found| {
        json!({
            "rule": kept(found.rule.clone(), MOST_NAME), "grade": found.grade.key(),
            "text": kept(found.text.clone(), MOST_NOTE), "answer": kept(found.answer.clone(), MOST_NOTE),
        })
    });
    let mut value = json!({
        "formula": write::formula(&from.formula), "mark": from.mark, "rules_known_to": from.rules_known_to.text(),
        "lines": from.lines.iter().map(line_value).collect::<Vec<_>>(), "findings": findings.take(MOST_FINDINGS).collect::<Vec<_>>(),
    });
    if !from.steps.is_empty() {
        value["steps"] = from.steps.iter().map(step_value).collect();
    }
    if let Some(FrozenScale { step, tolerance }) = from.scale {
        value["scale"] = json!({"readability_g": step.canonical(), "tolerance_percent": tolerance.canonical()});
    }
    if let Some(FrozenPacks { count, fill }) = from.packs {
        value["packs"] = json!({"count": count.canonical(), "fill_g": fill.canonical()});
    }
    if let Some(version) = from.version {
        value["version"] = version.into();
    }
    if let Some(batch) = from.batch {
        value["batch_g"] = batch.canonical().into();
    }
    value
}

fn line_value(line: &FrozenLine) -> Value {
    let mut value = json!({
        "name": kept(line.name.clone(), MOST_NOTE), "percent": line.share.canonical(),
        "on_scale_g": line.on_scale.canonical(), "lot": kept(line.lot.clone(), MOST_NAME),
        "inci": kept(line.inci.clone(), MOST_NOTE), "phase": kept(line.phase.clone(), MOST_NAME),
    });
    if line.capped {
        value["capped"] = true.into();
    }
    value
}

fn step_value(step: &FrozenStep) -> Value {
    let text = |text: &str| kept(text.to_owned(), MOST_NOTE);
    let mut value = json!({
        "kind": step.kind.key(), "text": text(&step.text), "why": text(&step.why), "stirring": text(&step.stirring),
        "lines": step.lines,
    });
    if let Some(temperature) = step.temperature {
        value["heat_c"] = temperature.canonical().into();
    }
    if let Some(minutes) = step.minutes {
        value["minutes"] = minutes.canonical().into();
    }
    value
}
