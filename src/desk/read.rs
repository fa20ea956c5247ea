//! Reading documents of the open format, and saying where one is wrong.

use super::format::{ADDITIONS, FORMAT, VERSION};
use super::read_cursor::{JsonCursor, ReadProblem, ReadResult, check_head, parse};
use super::read_plan::{lye, plan};
use super::read_shelf::read_shelf;
use super::texts::{MOST_NAME, MOST_NOTE};
use super::{
    BatchRef, CarriedPhotograph, DocId, Document, DocumentKind, RecordBody, State, Version, ph_events, photographs,
    record, study,
};
use crate::facts::IngredientId;
use crate::formula::{
    Answer, Area, Audience, Choice, Formula, Line, MOST_LINES, MOST_PHASES, MOST_STEPS, NewStep, Pack, PaperField,
    Papers, Phase, PhaseKind, Region, Share, StepField, StepKind, Use,
};
use crate::quantity::{Day, Timestamp};
use crate::sheet::{LyePlan, Plan};
use crate::shelf::Shelf;
use serde_json::Value;
use std::sync::Arc;

/// More than anybody keeps.
const MOST_VERSIONS: usize = 100_000;
/// More batches than anybody makes of one formula.
const MOST_BATCHES: usize = 20_000;
/// More answers than a formula has findings.
const MOST_ANSWERS: usize = 5000;

/// Reads a document and the shelf that it carries on top of `shelf`.
///
/// # Errors
/// The first thing that is wrong, with its path. A newer version than this program knows is refused, never guessed at.
pub fn read_document(text: &str, shelf: &mut Shelf) -> ReadResult<Document> {
    let value = parse(text)?;
    let root = JsonCursor { value: &value, path: "$".into() };
    check_head(&root)?;
    if let Some(at) = root.get("shelf")? {
        read_shelf(&at, shelf)?;
    }
    document(&root, AllowedIngredients::Only(shelf))
}

pub(super) fn read_state(text: &str) -> ReadResult<State> {
    let value = parse(text)?;
    // A kept step may name ingredients that have left the shelf since; it stays what it was.
    state(&JsonCursor { value: &value, path: "$".into() }, AllowedIngredients::Any)
}

/// What a file brings beside its shelf.
type Brought = (Vec<Document>, Vec<RecordBody>, Vec<CarriedPhotograph>, Vec<ReadProblem>);

/// Every document of a file: one, or a collection under `formulas` with the stability studies and their photographs beside
/// it. Of a collection those that cannot be read are left out, each with its reason; an ingredient that is not on the shelf is
/// only a name.
pub(super) fn read_all(text: &str, shelf: &mut Shelf) -> ReadResult<Brought> {
    let value = parse(text)?;
    let root = JsonCursor { value: &value, path: "$".into() };
    check_head(&root)?;
    if let Some(at) = root.get("shelf")? {
        read_shelf(&at, shelf)?;
    }
    let Some(list) = root.get("formulas")? else {
        return Ok((vec![document_from_outside(&root, shelf)?], Vec::new(), Vec::new(), Vec::new()));
    };
    let (mut documents, mut refused) = (Vec::new(), Vec::new());
    for at in list.list(20_000)? {
        match document_from_outside(&at, shelf) {
            Ok(document) => documents.push(document),
            Err(problem) => refused.push(problem),
        }
    }
    let mut studies = Vec::new();
    for at in root.get("studies")?.map_or_else(|| Ok(Vec::new()), |list| list.list(MOST_BATCHES))? {
        match study::read(&at) {
            Ok(_) => studies.extend(RecordBody::read(at.value)),
            Err(problem) => refused.push(problem),
        }
    }
    let photographs = photographs::read(&root)?;
    Ok((documents, studies, photographs, refused))
}

/// True if a stored text is a document of a newer version than this program knows, or has values that it does not know: it
/// would lose them with the next write.
pub(super) fn is_newer(text: &str) -> bool {
    let Ok(value) = serde_json::from_str::<Value>(text) else { return false };
    let number = |key: &str| value.get(key).and_then(Value::as_u64).unwrap_or(0);
    let ours = value.get("format").and_then(Value::as_str) == Some(FORMAT);
    ours && (number("version"), number("additions")) > (VERSION, ADDITIONS)
}

/// What may stand for an ingredient.
#[derive(Clone, Copy)]
enum AllowedIngredients<'a> {
    /// Any id: it may have left the shelf since.
    Any,
    /// One that is on the shelf.
    Only(&'a Shelf),
    /// The same; any other is only a name.
    OrNamed(&'a Shelf),
}

/// A document of the program's own data, which names ingredients of the tables only.
pub(super) fn document_of_tables(at: &JsonCursor<'_>) -> ReadResult<Document> {
    document(at, AllowedIngredients::Only(&Shelf::default()))
}

fn document(at: &JsonCursor<'_>, known: AllowedIngredients<'_>) -> ReadResult<Document> {
    let state = state(at, known)?;
    let versions = at.get("versions")?.map_or_else(|| Ok(Vec::new()), |list| list.list(MOST_VERSIONS))?;
    let mut versions = versions.iter().map(version).collect::<ReadResult<Vec<_>>>()?;
    // Versions are told apart by their numbers, and the next one needs a number of its own.
    let ordered = versions.windows(2).all(|pair| matches!(pair, [one, next] if one.number < next.number));
    if !ordered || versions.last().is_some_and(|last| last.number as usize > MOST_VERSIONS) {
        for (number, version) in (1..).zip(&mut versions) {
            version.number = number;
        }
    }
    let old_log = match at.get("batch")? {
        Some(batch) => batch.get("ph_log")?.map(|log| log.value.clone()),
        None => None,
    };
    let batches = at.get("records")?.map_or_else(|| Ok(Vec::new()), |list| list.list(MOST_BATCHES))?;
    let stored = matches!(known, AllowedIngredients::Any);
    let batches = batches.iter().map(|at| batch_ref(at, stored)).collect::<ReadResult<_>>()?;
    Ok(Document { state, versions: versions.into_iter().map(Arc::new).collect(), batches, old_log })
}

/// A batch of a formula. Only a `stored` formula may name the record of another stored document.
fn batch_ref(at: &JsonCursor<'_>, stored: bool) -> ReadResult<BatchRef> {
    let Some(named) = at.get("id")?.filter(|_| stored) else {
        let record = RecordBody::read(at.value);
        return record.map_or_else(|| at.wrong("a record"), |record| Ok(BatchRef::Carried(Arc::new(record))));
    };
    let id = named.value.as_str().map(|id| DocId::from(id.to_owned()));
    let Some(id) = id.filter(|id| id.kind() == DocumentKind::Batch) else {
        return named.wrong("the id of a batch");
    };
    let begun = at.get("begun")?.and_then(|begun| begun.value.as_str().and_then(Timestamp::read));
    Ok(BatchRef::Stored { id, begun: begun.unwrap_or_default() })
}

/// Whether all that a file says of a formula's batches can be read: it is kept as it is, and read when it is shown.
fn check_batches(at: &JsonCursor<'_>) -> ReadResult<()> {
    if let Some(log) = at.get("batch")?.map(|batch| batch.get("ph_log")).transpose()?.flatten() {
        ph_events::check_log(&log)?;
    }
    for batch in at.get("records")?.map_or_else(|| Ok(Vec::new()), |list| list.list(MOST_BATCHES))? {
        record::read(&batch)?;
    }
    Ok(())
}

/// A document of a file.
fn document_from_outside(at: &JsonCursor<'_>, shelf: &Shelf) -> ReadResult<Document> {
    check_batches(at)?;
    document(at, AllowedIngredients::OrNamed(shelf))
}

fn version(at: &JsonCursor<'_>) -> ReadResult<Version> {
    let number = at.need("number", "a whole number")?;
    let Some(n) = number.value.as_u64().and_then(|n| u32::try_from(n).ok()) else {
        return number.wrong("a whole number");
    };
    let saved = at.need("saved", "a time")?;
    let Some(moment) = saved.value.as_str().and_then(Timestamp::read) else {
        return saved.wrong("a time such as \"2026-11-25T14:02:00Z\"");
    };
    let name = at.text_or_empty("name", MOST_NAME)?;
    let formula = kept_formula(&at.need("formula", "a formula")?)?;
    Ok(Version { number: n, saved: moment, name, formula })
}

/// A formula as it was once: its ingredients may have left the shelf since.
pub(super) fn kept_formula(at: &JsonCursor<'_>) -> ReadResult<Formula> {
    formula(at, AllowedIngredients::Any)
}

fn state(at: &JsonCursor<'_>, known: AllowedIngredients<'_>) -> ReadResult<State> {
    let formula = formula(&at.need("formula", "a formula")?, known)?;
    let batch = at.get("batch")?;
    let plan = batch.map_or_else(|| Ok(Plan::default()), |batch| plan(&batch, &formula))?;
    let lye = at.get("lye")?.map_or_else(|| Ok(LyePlan::default()), |at| lye(&at, &formula))?;
    Ok(State { formula, plan, lye })
}

fn formula(at: &JsonCursor<'_>, known: AllowedIngredients<'_>) -> ReadResult<Formula> {
    let mut formula = Formula::default();
    let about = &mut formula.about;
    about.title = at.text_or_empty("title", MOST_NAME)?;
    about.purpose = at.pick("use", Use::KEYS, Use::ALL)?;
    about.area = at.pick("area", Area::KEYS, Area::ALL)?;
    about.audience = at.pick("audience", Audience::KEYS, Audience::ALL)?;
    about.pack = at.pick("pack", Pack::KEYS, Pack::ALL)?;
    about.region = at.pick("region", Region::KEYS, Region::ALL)?;
    about.target_ph = at.typed("target_ph", "5.2")?;
    about.notes = at.text_or_empty("notes", MOST_NOTE)?;
    formula.papers = papers(at)?;
    let mut lines = 0;
    for phase in at.need("phases", "a list of phases")?.list(MOST_PHASES)? {
        let kind = phase.pick("kind", PhaseKind::KEYS, PhaseKind::ALL)?;
        let id = formula.add_phase(kind, phase.text_or_empty("name", MOST_NAME)?, usize::MAX);
        let heat = phase.typed("heat_c", "72")?;
        if let Some(phase) = formula.phase_mut(id) {
            phase.heat = heat;
        }
        for entry in phase.need("lines", "a list of lines")?.list(MOST_LINES)? {
            lines += 1;
            if lines > MOST_LINES {
                return entry.wrong(format!("at most {MOST_LINES} lines in a formula"));
            }
            let filled = formula.fill_up().is_some();
            if let Some(line) = formula.add_line(id, usize::MAX).and_then(|id| formula.line_mut(id)) {
                read_line(&entry, known, filled, line)?;
            }
        }
    }
    if let Some(list) = at.get("method")? {
        for step in list.list(MOST_STEPS)? {
            let step = read_step(&step, &formula)?;
            formula.add_step(step, usize::MAX);
        }
    }
    Ok(formula)
}

/// A step of the method. A line or phase that is not there is left out: what it weighs is weighed all the same.
fn read_step(at: &JsonCursor<'_>, formula: &Formula) -> ReadResult<NewStep> {
    let phase = |at: &JsonCursor<'_>| -> ReadResult<Option<&Phase>> {
        let Some(place) = at.get("phase")? else { return Ok(None) };
        Ok(formula.phases().get(place.index()?))
    };
    let mut lines = Vec::new();
    for named in at.get("lines")?.map_or_else(|| Ok(Vec::new()), |list| list.list(MOST_LINES))? {
        let line = named.need("line", "a place from 0")?.index()?;
        lines.extend(phase(&named)?.and_then(|phase| phase.lines.get(line)).map(|line| line.id));
    }
    let kind = match at.get("kind")? {
        None => StepKind::default(),
        Some(kind) => match kind.value.as_str().and_then(StepKind::from_key) {
            Some(kind) => kind,
            None => return kind.wrong("what is done in a step"),
        },
    };
    let mut step = NewStep { kind, phase: phase(at)?.map(|phase| phase.id), lines, ..NewStep::default() };
    for field in StepField::ALL {
        step.set(*field, at.text_or_empty(field.key(), field.most())?);
    }
    Ok(step)
}

/// The texts of label and papers, and the answers to findings. A text that this program does not know is refused.
fn papers(at: &JsonCursor<'_>) -> ReadResult<Papers> {
    let mut papers = Papers::default();
    if let Some(texts) = at.get("papers")? {
        for key in texts.object()?.keys() {
            let Some(value) = texts.get(key)? else { continue };
            let Some(field) = PaperField::from_key(key) else {
                return value.wrong("a text that the papers know");
            };
            papers.set(field, value.text(MOST_NOTE)?);
        }
    }
    for entry in at.get("answers")?.map_or_else(|| Ok(Vec::new()), |list| list.list(MOST_ANSWERS))? {
        papers.set_answer(Answer {
            finding: entry.need("finding", "the key of a finding")?.text(MOST_NOTE)?,
            value: entry.text_or_empty("value", MOST_NAME)?,
            reason: entry.text_or_empty("reason", MOST_NOTE)?,
            person: entry.text_or_empty("person", MOST_NAME)?,
            // Written as a day by every release; whatever else a file has there says nothing.
            day: Day::read(&entry.text_or_empty("day", MOST_NAME)?),
        });
    }
    Ok(papers)
}

fn read_line(at: &JsonCursor<'_>, known: AllowedIngredients<'_>, filled: bool, line: &mut Line) -> ReadResult<()> {
    line.choice = match at.get("ingredient")? {
        None => Choice::Named(at.text_or_empty("name", MOST_NAME)?),
        Some(ingredient) => {
            let expected = "the id of an ingredient of the tables or of this document's shelf";
            let Some(id) = ingredient.value.as_str().and_then(|text| IngredientId::parse(text).ok()) else {
                return ingredient.wrong(expected);
            };
            match known {
                AllowedIngredients::Only(shelf) if !shelf.knows(&id) => return ingredient.wrong(expected),
                AllowedIngredients::OrNamed(shelf) if !shelf.knows(&id) => Choice::Named(id.spelled_out()),
                _ => Choice::Known(id),
            }
        }
    };
    let fill_up = at.get("percent")?.filter(|share| share.value.as_str() == Some("fill-up"));
    line.share = match fill_up {
        Some(share) if filled => return share.wrong("a percent: only one line can fill up to 100"),
        Some(_) => Share::FillUp,
        None => match at.typed("percent", "4.5") {
            Ok(typed) => Share::Typed(typed),
            Err(problem) => {
                return Err(ReadProblem {
                    expected: "a percent from 0 to 100 as text, such as \"4.5\", or \"fill-up\"".into(),
                    ..problem
                });
            }
        },
    };
    line.note = at.text_or_empty("note", MOST_NOTE)?;
    line.lot = at.text_or_empty("lot", MOST_NAME)?;
    Ok(())
}

/// Reads a stored document. An ingredient may have left the shelf since; the line stays what it was.
pub(super) fn read_stored(text: &str) -> ReadResult<Document> {
    let value = parse(text)?;
    let root = JsonCursor { value: &value, path: "$".into() };
    check_head(&root)?;
    document(&root, AllowedIngredients::Any)
}
