//! A stability study in the open format: what a [`RecordBody`] of one says, and how an entry is written.

use super::ph_events::{decimal, time};
use super::read_cursor::{JsonCursor, ReadProblem, ReadResult};
use super::record_body::{MOST_ENTRIES, PHOTOGRAPHED, RecordBody, STUDY_BEGUN};
use super::record_events::{self, day};
use super::texts::{MOST_NAME, MOST_NOTE, kept};
use crate::batch::study::{
    ConditionKind, MEDIA_TYPE, MOST_BYTES, MOST_POINTS, MOST_SIDE, Observation, Photograph, PhotographId, PullPoint,
    SCORES, Separation, StudyBasis, StudyCondition, StudyEntry, StudyEvent, StudyIncident, StudyLimits, StudyLot,
    StudyPlan,
};
use crate::facts::Months;
use crate::quantity::{Day, Quantity};
use serde_json::{Map, Value, json};
use std::collections::BTreeSet;

/// More lots than a batch is made from.
const MOST_LOTS: usize = 2_000;
const DAY: &str = "a day such as \"2027-05-31\"";
const EARLIER: &str = "the id of an earlier entry";
const EVENTS: &str = "study-begun, planned, observed, photographed, happened, lot, ruled, remark or struck";

impl RecordBody {
    /// What it says, where it is a stability study.
    ///
    /// # Errors
    /// The first thing that is wrong, with its path.
    pub fn study(&self) -> Result<Vec<StudyEntry>, ReadProblem> {
        read(&JsonCursor { value: &self.value(), path: "study".into() })
    }
}

/// Reads a study.
pub(super) fn read(at: &JsonCursor<'_>) -> ReadResult<Vec<StudyEntry>> {
    let (mut ids, mut entries) = (BTreeSet::new(), Vec::new());
    for found in at.need("entries", "a list of entries")?.list(MOST_ENTRIES)? {
        let entry = entry(&found)?;
        if !ids.insert(entry.id.clone()) {
            return found.need("id", "an id")?.wrong("an id that no other entry has");
        }
        if let StudyEvent::Struck { entry: struck, .. } = &entry.event
            && !ids.contains(struck)
        {
            return found.need("entry", EARLIER)?.wrong(EARLIER);
        }
        entries.push(entry);
    }
    if !matches!(entries.first(), Some(StudyEntry { event: StudyEvent::Begun { .. }, .. })) {
        return at.need("entries", "a list of entries")?.wrong("a first entry of the event study-begun");
    }
    Ok(entries)
}

fn entry(at: &JsonCursor<'_>) -> ReadResult<StudyEntry> {
    let id = record_events::entry_id(&at.need("id", "the id of an entry")?)?;
    Ok(StudyEntry { id, at: time(at)?, event: event(at)? })
}

/// One entry as it is kept; `None` if it could not be read again.
pub(super) fn entry_value(made: &StudyEntry) -> Option<Value> {
    let mut value = event_value(&made.event);
    value["id"] = made.id.as_str().into();
    value["at"] = made.at.text().into();
    entry(&JsonCursor { value: &value, path: String::new() }).is_ok().then_some(value)
}

fn event(at: &JsonCursor<'_>) -> ReadResult<StudyEvent> {
    let kind = at.need("event", "what happened")?;
    Ok(match kind.value.as_str().unwrap_or_default() {
        STUDY_BEGUN => StudyEvent::Begun { basis: basis(at)?, plan: plan(&at.need("plan", "a plan")?)? },
        "planned" => StudyEvent::Planned(plan(&at.need("plan", "a plan")?)?),
        "observed" => StudyEvent::Observed {
            condition: keyed(at, "condition", ConditionKind::KEYS, ConditionKind::ALL)?,
            point: point(&at.need("point", "a point such as \"7d\"")?)?,
            on: need_day(at, "on")?,
            seen: observation(at)?,
        },
        PHOTOGRAPHED => StudyEvent::Photographed {
            condition: keyed(at, "condition", ConditionKind::KEYS, ConditionKind::ALL)?,
            point: point(&at.need("point", "a point such as \"7d\"")?)?,
            on: need_day(at, "on")?,
            photograph: photograph(at)?,
        },
        "happened" => StudyEvent::Happened {
            what: keyed(at, "what", StudyIncident::KEYS, StudyIncident::ALL)?,
            text: at.text_or_empty("text", MOST_NOTE)?,
        },
        "lot" => StudyEvent::Lot(lot(at)?),
        "ruled" => StudyEvent::Ruled(at.get("months")?.map(|found| months(&found)).transpose()?),
        "remark" => StudyEvent::Remark { text: at.text_or_empty("text", MOST_NOTE)? },
        "struck" => StudyEvent::Struck {
            entry: record_events::entry_id(&at.need("entry", EARLIER)?)?,
            reason: at.text_or_empty("reason", MOST_NOTE)?,
        },
        _ => return kind.wrong(EVENTS),
    })
}

fn basis(at: &JsonCursor<'_>) -> ReadResult<StudyBasis> {
    let lots = at.get("lots")?.map_or_else(|| Ok(Vec::new()), |list| list.list(MOST_LOTS))?;
    Ok(StudyBasis {
        batch: at.text_or_empty("batch", MOST_NAME)?,
        code: at.text_or_empty("code", MOST_NAME)?,
        title: at.text_or_empty("title", MOST_NOTE)?,
        made: need_day(at, "made")?,
        began: need_day(at, "began")?,
        content: optional(at, "content_g", "50")?,
        lots: lots.iter().map(lot).collect::<ReadResult<_>>()?,
    })
}

fn lot(at: &JsonCursor<'_>) -> ReadResult<StudyLot> {
    Ok(StudyLot {
        name: at.text_or_empty("name", MOST_NOTE)?,
        lot: at.text_or_empty("lot", MOST_NAME)?,
        expiry: day(at, "expiry")?,
    })
}

fn plan(at: &JsonCursor<'_>) -> ReadResult<StudyPlan> {
    let list = at.need("conditions", "a list of conditions")?;
    let mut conditions: Vec<StudyCondition> = Vec::new();
    for found in list.list(ConditionKind::ALL.len())? {
        let kind = keyed(&found, "kind", ConditionKind::KEYS, ConditionKind::ALL)?;
        if conditions.iter().any(|known| known.kind == kind) {
            return found.need("kind", "a condition")?.wrong("a condition that the plan does not have yet");
        }
        let points = found.need("points", "a list of points")?.list(MOST_POINTS)?;
        let points = points.iter().map(point).collect::<ReadResult<_>>()?;
        conditions.push(StudyCondition { kind, celsius: optional(&found, "celsius", "40")?, points });
    }
    let limits = at.get("limits")?.map(|found| limits(&found)).transpose()?.unwrap_or_default();
    Ok(StudyPlan { months: months(&at.need("months", "a number of months")?)?, conditions, limits })
}

fn limits(at: &JsonCursor<'_>) -> ReadResult<StudyLimits> {
    Ok(StudyLimits {
        ph: pair(at, "ph_low", "ph_high", "5.2")?,
        viscosity: pair(at, "viscosity_low", "viscosity_high", "9500")?,
        viscosity_method: at.text_or_empty("viscosity_method", MOST_NAME)?,
        weight_loss: optional(at, "weight_loss_percent", "3")?,
    })
}

/// Both ends of a range, or neither.
fn pair<Q: Quantity + PartialOrd>(
    at: &JsonCursor<'_>,
    low: &str,
    high: &str,
    like: &str,
) -> ReadResult<Option<(Q, Q)>> {
    if at.get(low)?.is_none() && at.get(high)?.is_none() {
        return Ok(None);
    }
    let (least, most) = (decimal::<Q>(at, low, like)?, decimal::<Q>(at, high, like)?);
    if least > most {
        return at.need(high, like)?.wrong("no less than the lower end");
    }
    Ok(Some((least, most)))
}

fn observation(at: &JsonCursor<'_>) -> ReadResult<Observation> {
    let score = |key: &str| -> ReadResult<Option<u8>> {
        let Some(found) = at.get(key)? else { return Ok(None) };
        let score = found.value.as_u64().and_then(|score| u8::try_from(score).ok()).filter(|score| *score <= SCORES);
        score.map_or_else(|| found.wrong("a whole number from 0 to 5"), |score| Ok(Some(score)))
    };
    let separation = match at.get("separation")? {
        Some(_) => Some(keyed(at, "separation", Separation::KEYS, Separation::ALL)?),
        None => None,
    };
    Ok(Observation {
        appearance: score("appearance")?,
        colour: score("colour")?,
        odour: score("odour")?,
        ph: optional(at, "ph", "5.2")?,
        viscosity: optional(at, "viscosity", "9500")?,
        weight: optional(at, "weight_g", "61.2")?,
        separation,
        note: at.text_or_empty("note", MOST_NOTE)?,
    })
}

fn photograph(at: &JsonCursor<'_>) -> ReadResult<Photograph> {
    let named = at.need("sha256", "a digest")?;
    let Some(id) = named.value.as_str().and_then(PhotographId::parse) else {
        return named.wrong("64 digits of base 16 in small letters");
    };
    let kind = at.need("type", MEDIA_TYPE)?;
    if kind.value.as_str() != Some(MEDIA_TYPE) {
        return kind.wrong(format!("the media type \"{MEDIA_TYPE}\""));
    }
    let whole = |key: &str, most: usize| -> ReadResult<usize> {
        let found = at.need(key, "a whole number")?;
        let number = found.value.as_u64().and_then(|number| usize::try_from(number).ok());
        number
            .filter(|number| (1..=most).contains(number))
            .map_or_else(|| found.wrong(format!("a whole number from 1 to {most}")), Ok)
    };
    let side = |key: &str| Ok(u32::try_from(whole(key, MOST_SIDE as usize)?).unwrap_or(MOST_SIDE));
    Ok(Photograph {
        id,
        bytes: whole("bytes", MOST_BYTES)?,
        width: side("width")?,
        height: side("height")?,
        caption: at.text_or_empty("caption", MOST_NOTE)?,
    })
}

fn point(at: &JsonCursor<'_>) -> ReadResult<PullPoint> {
    let read = at.value.as_str().and_then(PullPoint::parse);
    read.map_or_else(|| at.wrong("a point such as \"7d\", \"2w\" or \"3m\""), Ok)
}

fn months(at: &JsonCursor<'_>) -> ReadResult<Months> {
    let months = at.value.as_i64().filter(|months| (Months::MIN..=Months::MAX).contains(months));
    months.map_or_else(|| at.wrong("a number of months from 1 to 600"), |months| Ok(Months::from_units(months)))
}

fn need_day(at: &JsonCursor<'_>, key: &str) -> ReadResult<Day> {
    match day(at, key)? {
        Some(day) => Ok(day),
        None => at.need(key, DAY)?.wrong(DAY),
    }
}

fn optional<Q: Quantity>(at: &JsonCursor<'_>, key: &str, like: &str) -> ReadResult<Option<Q>> {
    at.get(key)?.map(|_| decimal(at, key, like)).transpose()
}

fn keyed<T: Copy>(at: &JsonCursor<'_>, key: &str, names: &[&str], all: &[T]) -> ReadResult<T> {
    let found = at.need(key, "a key")?;
    let place = found.place_among(names)?;
    all.get(place).copied().map_or_else(|| found.wrong("a key"), Ok)
}

/// An object that leaves out what is missing.
#[derive(Default)]
struct Filled(Map<String, Value>);

impl Filled {
    fn with(mut self, key: &str, value: Option<impl Into<Value>>) -> Self {
        if let Some(value) = value {
            self.0.insert(key.to_owned(), value.into());
        }
        self
    }

    fn text(self, key: &str, text: &str, most: usize) -> Self {
        self.with(key, Some(text).filter(|text| !text.is_empty()).map(|text| kept(text.to_owned(), most)))
    }

    fn decimal<Q: Quantity>(self, key: &str, value: Option<Q>) -> Self {
        self.with(key, value.map(Quantity::canonical))
    }
}

/// An event as it is kept.
fn event_value(event: &StudyEvent) -> Value {
    let of = |event: &str| Filled::default().with("event", Some(event));
    let object = match event {
        StudyEvent::Begun { basis, plan } => of(STUDY_BEGUN)
            .text("batch", &basis.batch, MOST_NAME)
            .text("code", &basis.code, MOST_NAME)
            .text("title", &basis.title, MOST_NOTE)
            .with("made", Some(basis.made.text()))
            .with("began", Some(basis.began.text()))
            .decimal("content_g", basis.content)
            .with("lots", Some(basis.lots.iter().map(|lot| lot_into(Filled::default(), lot)).collect::<Vec<_>>()))
            .with("plan", Some(plan_value(plan))),
        StudyEvent::Planned(plan) => of("planned").with("plan", Some(plan_value(plan))),
        StudyEvent::Observed { condition, point, on, seen } => seen_into(
            of("observed")
                .with("condition", Some(condition.key()))
                .with("point", Some(point.text()))
                .with("on", Some(on.text())),
            seen,
        ),
        StudyEvent::Photographed { condition, point, on, photograph } => of(PHOTOGRAPHED)
            .with("condition", Some(condition.key()))
            .with("point", Some(point.text()))
            .with("on", Some(on.text()))
            .with("sha256", Some(photograph.id.text()))
            .with("type", Some(MEDIA_TYPE))
            .with("bytes", Some(photograph.bytes))
            .with("width", Some(photograph.width))
            .with("height", Some(photograph.height))
            .text("caption", &photograph.caption, MOST_NOTE),
        StudyEvent::Happened { what, text } => {
            of("happened").with("what", Some(what.key())).text("text", text, MOST_NOTE)
        }
        StudyEvent::Lot(lot) => return lot_into(of("lot"), lot),
        StudyEvent::Ruled(months) => of("ruled").with("months", months.map(Quantity::units)),
        StudyEvent::Remark { text } => of("remark").text("text", text, MOST_NOTE),
        StudyEvent::Struck { entry, reason } => {
            of("struck").with("entry", Some(entry.as_str())).text("reason", reason, MOST_NOTE)
        }
    };
    object.0.into()
}

fn lot_into(object: Filled, lot: &StudyLot) -> Value {
    let object = object.text("name", &lot.name, MOST_NOTE).text("lot", &lot.lot, MOST_NAME);
    object.with("expiry", lot.expiry.map(Day::text)).0.into()
}

fn seen_into(object: Filled, seen: &Observation) -> Filled {
    object
        .with("appearance", seen.appearance)
        .with("colour", seen.colour)
        .with("odour", seen.odour)
        .decimal("ph", seen.ph)
        .decimal("viscosity", seen.viscosity)
        .decimal("weight_g", seen.weight)
        .with("separation", seen.separation.map(Separation::key))
        .text("note", &seen.note, MOST_NOTE)
}

fn plan_value(plan: &StudyPlan) -> Value {
    let condition = |condition: &StudyCondition| -> Value {
        let points: Vec<String> = condition.points.iter().map(|point| point.text()).collect();
        let object = Filled::default().with("kind", Some(condition.kind.key())).with("points", Some(points));
        object.decimal("celsius", condition.celsius).0.into()
    };
    let StudyLimits { ph, viscosity, viscosity_method, weight_loss } = &plan.limits;
    let limits = Filled::default()
        .decimal("ph_low", ph.map(|ph| ph.0))
        .decimal("ph_high", ph.map(|ph| ph.1))
        .decimal("viscosity_low", viscosity.map(|range| range.0))
        .decimal("viscosity_high", viscosity.map(|range| range.1))
        .text("viscosity_method", viscosity_method, MOST_NAME)
        .decimal("weight_loss_percent", *weight_loss);
    json!({
        "months": plan.months.units(), "limits": limits.0,
        "conditions": plan.conditions.iter().map(condition).collect::<Vec<_>>(),
    })
}
