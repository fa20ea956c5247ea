//! The record of a batch as a paper has it, in the groups that good manufacturing practice asks for (ISO 22716, clause numbers
//! from memory): a fold over its entries.

use crate::batch::{
    AtStove, BatchEntry, BatchFlows, BatchRecord, Check, Decision, EntryId, Event, Fills, FrozenLine, FrozenStep,
    MadeFrom, Making, MassSource, PhEvent, Reconciliation, Seal, Vessel, WeighVerdict, is_after_seals, is_past,
    judge_fills, reconcile,
};
use crate::quantity::{Day, Mass, Ph, Quantity, Timestamp};
use crate::sheet::{NominalBounds, bounds};

/// A line of the batch: what was to go in and what did.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RecordMaterial {
    /// What it was called.
    pub name: String,
    /// Its INCI name; may be empty.
    pub inci: String,
    /// What was to go in, of the batch as large as it became.
    pub target: Mass,
    /// What went in; nothing where it was not weighed.
    pub weighed: Option<Mass>,
    /// How that was found.
    pub source: Option<MassSource>,
    /// The lot that went in, else the one that was planned; may be empty.
    pub lot: String,
    /// The day up to which it is good.
    pub expiry: Option<Day>,
    /// True if that day had passed, by the calendar in UTC.
    pub expired: bool,
    /// True if it is further off than the scale's tolerance allows.
    pub off: bool,
}

impl RecordMaterial {
    /// How much more went in than was to; negative for less.
    pub fn difference(&self) -> Option<Mass> {
        self.weighed.map(|weighed| weighed.minus(self.target))
    }
}

/// What was filled, against what each pack was to hold.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RecordFills {
    /// What each pack was to hold; nothing where the batch was not planned by packs.
    pub nominal: Option<Mass>,
    /// What each holds, in the order of filling.
    pub fills: Vec<Mass>,
    /// Their judgement against the nominal content.
    pub judged: Option<Fills>,
    /// The bounds of that content.
    pub bounds: Option<NominalBounds>,
}

/// How an entry of the course looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tone {
    /// It is told.
    Plain,
    /// It is as it should be.
    Fine,
    /// It is not, or departs from the plan.
    Care,
}

/// One thing that happened.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CourseEntry {
    /// The entry; the first of several packs that were filled one after the other.
    pub id: EntryId,
    /// When.
    pub at: Timestamp,
    /// What.
    pub event: Event,
    /// What the packs hold that were filled one after the other; empty for anything else.
    pub fills: Vec<Mass>,
    /// Why it was struck, if it was.
    pub struck: Option<String>,
    /// How it looks.
    pub tone: Tone,
    /// True if it was noted after the record was closed.
    pub after_seal: bool,
}

/// What became of the batch.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RecordDecision {
    /// When it was decided.
    pub at: Timestamp,
    /// What.
    pub decision: Decision,
    /// Who decided; may be empty.
    pub by: String,
    /// Anything that was said of it.
    pub remark: String,
}

/// The record of a batch, folded.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RecordFacts {
    /// The title of the formula as it was then.
    pub title: String,
    /// The code; empty in records of releases without one.
    pub code: String,
    /// Who made it; may be empty.
    pub maker: String,
    /// When it began.
    pub began: Timestamp,
    /// The version of the formula that it was made by, where it was a kept one.
    pub version: Option<u32>,
    /// The mark that stands on its papers; nothing where what it was made from was not kept.
    pub mark: Option<u32>,
    /// The mass that it was planned for.
    pub planned: Option<Mass>,
    /// The mass that it was to have in the end.
    pub batch: Option<Mass>,
    /// The step of the scale that it was planned for.
    pub step: Option<Mass>,
    /// The day of the rules that it was checked against.
    pub rules_known_to: Option<Day>,
    /// The lines.
    pub materials: Vec<RecordMaterial>,
    /// The steps of the method as they were then.
    pub steps: Vec<FrozenStep>,
    /// What happened, in order: struck entries too, but not those that strike.
    pub course: Vec<CourseEntry>,
    /// The same, each pack by itself.
    pub entries: Vec<CourseEntry>,
    /// What was looked at: before it began, while it was made, and at the end.
    pub checks: Vec<(Timestamp, Check, String)>,
    /// Readings of the pH of the batch, as they were read, with what each counts as by the check of its meter; one that
    /// decides nothing counts as nothing.
    pub ph: Vec<(Timestamp, Ph, Option<Ph>)>,
    /// The pH that was to be reached.
    pub target_ph: Option<Ph>,
    /// What departed from the plan: deviations, another mass for the batch, parts that were split off.
    pub deviations: Vec<(Timestamp, Event)>,
    /// What went in and what came out; nothing where nothing was weighed.
    pub flows: Option<(BatchFlows, Reconciliation)>,
    /// What was filled; nothing where nothing was.
    pub fills: Option<RecordFills>,
    /// What was put aside to be kept.
    pub retained: Vec<(String, Mass)>,
    /// Remarks.
    pub remarks: Vec<(Timestamp, String)>,
    /// What became of it; nothing while that is open.
    pub decision: Option<RecordDecision>,
    /// Why it was given up, if it was.
    pub abandoned: Option<String>,
    /// Its seals, in order.
    pub seals: Vec<Seal>,
    /// How many entries came after them, those that strike another one too.
    pub after_seals: usize,
}

impl RecordFacts {
    /// Lots that went in, each with the names of its materials.
    pub fn lots(&self) -> Vec<(String, String)> {
        let lots = self.materials.iter().filter(|one| !one.lot.trim().is_empty());
        lots.map(|one| (one.lot.clone(), one.name.clone())).collect()
    }

    /// Entries that were struck, with the reason.
    pub fn struck(&self) -> impl Iterator<Item = (&CourseEntry, &str)> {
        self.course.iter().filter_map(|entry| Some((entry, entry.struck.as_deref()?)))
    }

    /// The name of a line by its place.
    pub fn material(&self, place: usize) -> &str {
        self.materials.get(place).map_or("", |one| one.name.as_str())
    }
}

/// Folds a record. `title` is what the formula is called where the record has none of it.
pub fn record_facts(record: &BatchRecord, seals: &[Seal], title: &str) -> RecordFacts {
    let making = Making::of(record);
    let from = record.made_from.as_deref();
    let materials = from.map(|from| materials(record, from, making.as_ref())).unwrap_or_default();
    let mut facts = RecordFacts {
        title: from.map_or(title, |from| from.formula.about.title.as_str()).to_owned(),
        code: making.as_ref().map(|making| making.code.clone()).unwrap_or_default(),
        maker: making.as_ref().map(|making| making.maker.clone()).unwrap_or_default(),
        began: making
            .as_ref()
            .map(|making| making.began)
            .or_else(|| Some(record.entries.first()?.at))
            .unwrap_or_default(),
        version: from.and_then(|from| from.version),
        mark: from.map(|from| from.mark),
        planned: from.and_then(|from| from.batch),
        batch: making.as_ref().map(|making| making.batch).or_else(|| from?.batch),
        step: from.and_then(|from| from.scale).map(|scale| scale.step),
        rules_known_to: from.map(|from| from.rules_known_to),
        materials,
        steps: from.map(|from| from.steps.clone()).unwrap_or_default(),
        course: Vec::new(),
        entries: Vec::new(),
        checks: Vec::new(),
        ph: readings(record),
        target_ph: record.ph().map(|setting| setting.log.target),
        deviations: Vec::new(),
        flows: None,
        fills: None,
        retained: Vec::new(),
        remarks: Vec::new(),
        decision: None,
        abandoned: None,
        seals: seals.to_vec(),
        after_seals: record.entries.iter().filter(|entry| is_after(seals, &entry.id)).count(),
    };
    for entry in record.standing() {
        facts.take(entry);
    }
    facts.fills = fills(record, from);
    facts.flows =
        AtStove::of(record).map(|at| at.flows(record)).filter(|flows| flows.weighed > Mass::ZERO).map(|flows| {
            let reconciled = reconcile(&flows);
            (flows, reconciled)
        });
    facts.entries = course(record, &facts, from, false);
    facts.course = course(record, &facts, from, true);
    facts
}

fn readings(record: &BatchRecord) -> Vec<(Timestamp, Ph, Option<Ph>)> {
    let setting = record.ph();
    let counted = |entry: &BatchEntry, ph: Ph| {
        let place = setting.as_ref().and_then(|setting| setting.entries.iter().position(|id| *id == entry.id));
        let Some((setting, place)) = setting.as_ref().zip(place) else { return Some(ph) };
        setting.log.counted(place).map(|ph| Ph::from_units((ph * 100.0).round() as i64))
    };
    let of = |entry: &BatchEntry| match &entry.event {
        Event::Ph(PhEvent::Read { vessel: Vessel::Batch, ph, .. }) => Some((entry.at, *ph, counted(entry, *ph))),
        _ => None,
    };
    record.standing().filter_map(of).collect()
}

impl RecordFacts {
    fn take(&mut self, entry: &BatchEntry) {
        let at = entry.at;
        match &entry.event {
            Event::Checked { check, found } => self.checks.push((at, *check, found.clone())),
            event @ (Event::Deviation { .. } | Event::Rescaled { .. } | Event::SplitOff { .. }) => {
                self.deviations.push((at, event.clone()));
            }
            Event::Retained { what, mass } => self.retained.push((what.clone(), *mass)),
            Event::Remark { text } => self.remarks.push((at, text.clone())),
            Event::Decided { decision, by, remark } => {
                let (by, remark) = (by.clone(), remark.clone());
                self.decision = Some(RecordDecision { at, decision: *decision, by, remark });
            }
            Event::Abandoned { reason } => self.abandoned = Some(reason.clone()),
            _ => {}
        }
    }
}

fn materials(record: &BatchRecord, from: &MadeFrom, making: Option<&Making>) -> Vec<RecordMaterial> {
    let one = |(place, line): (usize, &FrozenLine)| {
        let made = making.and_then(|making| making.lines.get(place));
        let target = made.map_or(line.on_scale, |made| made.target);
        let weighed = made.and_then(|made| made.weighed.as_ref());
        let at = weighed.and_then(|weighed| record.entries.iter().find(|entry| entry.id == weighed.entry));
        let lot = weighed.map(|weighed| weighed.lot.clone()).filter(|lot| !lot.trim().is_empty());
        let expiry = weighed.and_then(|weighed| weighed.expiry);
        RecordMaterial {
            name: line.name.clone(),
            inci: line.inci.clone(),
            target,
            weighed: weighed.map(|weighed| weighed.mass),
            source: weighed.map(|weighed| weighed.source),
            lot: lot.unwrap_or_else(|| line.lot.clone()),
            expiry,
            expired: expiry.zip(at).is_some_and(|(expiry, entry)| is_past(expiry, entry.at.day())),
            off: weighed.is_some_and(|weighed| is_off(from, place, target, weighed.mass)),
        }
    };
    from.lines.iter().enumerate().map(one).collect()
}

/// Whether so much of a line is further off than is allowed; where the scale was not kept, off at all.
fn is_off(from: &MadeFrom, line: usize, target: Mass, weighed: Mass) -> bool {
    let found = from.judge(line, target, weighed);
    found.map_or(weighed != target, |found| found.verdict != WeighVerdict::Within)
}

impl RecordFills {
    /// What was filled, judged where it is known what each pack was to hold; nothing where none was.
    pub fn of(nominal: Option<Mass>, fills: Vec<Mass>) -> Option<Self> {
        let judged = nominal.and_then(|nominal| judge_fills(nominal, &fills));
        (!fills.is_empty()).then(|| Self { nominal, judged, bounds: nominal.and_then(bounds), fills })
    }
}

fn fills(record: &BatchRecord, from: Option<&MadeFrom>) -> Option<RecordFills> {
    let filled = record.standing().filter_map(|entry| match &entry.event {
        Event::Filled { mass } => Some(*mass),
        _ => None,
    });
    RecordFills::of(from.and_then(|from| from.packs).map(|packs| packs.fill), filled.collect())
}

/// Everything that was noted; where asked, packs that were filled one after the other as one.
fn course(record: &BatchRecord, facts: &RecordFacts, from: Option<&MadeFrom>, packs_as_one: bool) -> Vec<CourseEntry> {
    let mut course: Vec<CourseEntry> = Vec::new();
    let mut batch = from.and_then(|from| from.batch);
    for entry in &record.entries {
        if let Event::Struck { .. } = entry.event {
            continue;
        }
        let struck = record.struck(&entry.id).map(str::to_owned);
        if let (Event::Rescaled { batch: now, .. }, None) = (&entry.event, &struck) {
            batch = Some(*now);
        }
        let after_seal = is_after(&facts.seals, &entry.id);
        let filled = match &entry.event {
            Event::Filled { mass } if struck.is_none() => Some(*mass),
            _ => None,
        };
        if let (Some(mass), Some(last)) = (filled, course.last_mut())
            && packs_as_one
            && !last.fills.is_empty()
            && last.after_seal == after_seal
        {
            last.fills.push(mass);
            continue;
        }
        course.push(CourseEntry {
            id: entry.id.clone(),
            at: entry.at,
            event: entry.event.clone(),
            fills: filled.into_iter().collect(),
            struck,
            tone: tone(&entry.event, from, batch),
            after_seal,
        });
    }
    let nominal = facts.fills.as_ref().and_then(|fills| fills.nominal);
    for entry in course.iter_mut().filter(|entry| !entry.fills.is_empty()) {
        entry.tone = fills_tone(nominal, &entry.fills);
    }
    course
}

/// True if a record was closed and an entry came after.
fn is_after(seals: &[Seal], entry: &EntryId) -> bool {
    !seals.is_empty() && is_after_seals(seals, entry)
}

/// The average is that of several: one pack by itself may be a little short.
fn fills_tone(nominal: Option<Mass>, fills: &[Mass]) -> Tone {
    match nominal.and_then(|nominal| judge_fills(nominal, fills)) {
        Some(judged) if judged.below.is_empty() && (fills.len() == 1 || !judged.average_below) => Tone::Fine,
        Some(_) => Tone::Care,
        None => Tone::Plain,
    }
}

/// How an entry looks, in a batch of the mass that it had by then.
fn tone(event: &Event, from: Option<&MadeFrom>, batch: Option<Mass>) -> Tone {
    match event {
        Event::Weighed { line: place, actual, .. } => {
            let Some((from, line)) = from.and_then(|from| Some((from, from.lines.get(*place)?))) else {
                return Tone::Plain;
            };
            let target = match batch {
                Some(now) if Some(now) != from.batch => from.target_in(now, *place).unwrap_or(line.on_scale),
                _ => line.on_scale,
            };
            if is_off(from, *place, target, *actual) { Tone::Care } else { Tone::Fine }
        }
        Event::Deviation { .. } | Event::Rescaled { .. } | Event::Abandoned { .. } => Tone::Care,
        Event::Decided { decision: Decision::Released, .. } => Tone::Fine,
        Event::Decided { decision: Decision::Rejected, .. } => Tone::Care,
        _ => Tone::Plain,
    }
}
