//! How far the making of a batch has come: a fold over its record. Whatever is shown of it follows from this alone, so that a
//! page that is closed, reloaded or crashed comes back to the very step.

use super::rescale::target_in;
use super::{
    BatchEntry, BatchRecord, Decision, EntryId, Event, FrozenLine, FrozenStep, LineState, MadeFrom, MassSource, Pot,
    WeighIn, WeighVerdict,
};
use crate::formula::StepKind;
use crate::quantity::{Celsius, Day, Mass, Minutes, Timestamp};

/// One thing to do.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Task {
    /// A line is weighed.
    Weigh {
        /// The step that it belongs to.
        step: usize,
        /// Its place.
        line: usize,
    },
    /// A step is done.
    Step(usize),
    /// It is decided what becomes of the batch.
    Decide,
}

impl Task {
    /// The line that it weighs, if it belongs to this step.
    pub fn line_of(self, step: usize) -> Option<usize> {
        match self {
            Self::Weigh { step: own, line } if own == step => Some(line),
            _ => None,
        }
    }
}

/// What went in of a line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WeighedLine {
    /// How much.
    pub mass: Mass,
    /// How it was found.
    pub source: MassSource,
    /// The lot; may be empty.
    pub lot: String,
    /// The day up to which that lot is good.
    pub expiry: Option<Day>,
    /// Off, and kept as it is.
    pub kept: bool,
    /// The entry that says so.
    pub entry: EntryId,
}

impl WeighedLine {
    /// What an entry says went in, if it does.
    fn of(entry: &BatchEntry) -> Option<Self> {
        let Event::Weighed { actual, source, lot, expiry, kept, .. } = &entry.event else { return None };
        let (lot, id) = (lot.clone(), entry.id.clone());
        Some(Self { mass: *actual, source: *source, lot, expiry: *expiry, kept: *kept, entry: id })
    }
}

/// A line of the batch.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MakingLine {
    /// What is to go in, of the batch as large as it is now to be.
    pub target: Mass,
    /// What went in.
    pub weighed: Option<WeighedLine>,
}

/// A time that runs, or has run.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Timer {
    /// The step that it is for.
    pub step: usize,
    /// When it began.
    pub began: Timestamp,
    /// How long it is.
    pub minutes: Minutes,
    /// The entry that says so.
    pub entry: EntryId,
}

impl Timer {
    /// When it ends.
    pub fn ends(&self) -> Timestamp {
        Timestamp::from_millis(self.began.millis().saturating_add(self.minutes.millis()))
    }

    /// What is left of it; nothing once it has ended. A clock that was set back gives no more than its length.
    pub fn left_millis(&self, now: Timestamp) -> i64 {
        (self.ends().millis() - now.millis()).clamp(0, self.minutes.millis())
    }
}

/// A temperature that was read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Reading {
    /// Of what.
    pub pot: Pot,
    /// When.
    pub at: Timestamp,
    /// How hot.
    pub celsius: Celsius,
}

/// How a batch stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BatchStage {
    /// It is being made.
    Making,
    /// It was decided what becomes of it.
    Decided(Decision),
    /// It was given up.
    Abandoned,
}

/// How far a batch has come.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Making {
    /// Its code; empty in records of releases without one.
    pub code: String,
    /// Who makes it; may be empty.
    pub maker: String,
    /// When it began.
    pub began: Timestamp,
    /// What it is to weigh now.
    pub batch: Mass,
    /// Its lines.
    pub lines: Vec<MakingLine>,
    /// What is to be done, in order.
    pub tasks: Vec<Task>,
    /// Whether each of that is done.
    pub done: Vec<bool>,
    /// Times, one for a step at most.
    pub timers: Vec<Timer>,
    /// Temperatures in order.
    pub readings: Vec<Reading>,
    /// When its steps were done, by their places.
    pub steps_done: Vec<(usize, Timestamp)>,
    /// What was filled, pack by pack.
    pub fills: Vec<Mass>,
    /// How it stands.
    pub stage: BatchStage,
}

impl Making {
    /// How far a batch has come; nothing where its record has none of what it was made from, or was not begun under a code.
    pub fn of(record: &BatchRecord) -> Option<Self> {
        let from = record.made_from.as_ref()?;
        let batch = from.batch?;
        let (began, code, maker) = begun(record)?;
        let line = |line: &FrozenLine| MakingLine { target: line.on_scale, weighed: None };
        let mut making = Self {
            code,
            maker,
            began,
            batch,
            lines: from.lines.iter().map(line).collect(),
            tasks: tasks(from),
            done: Vec::new(),
            timers: Vec::new(),
            readings: Vec::new(),
            steps_done: Vec::new(),
            fills: Vec::new(),
            stage: BatchStage::Making,
        };
        for entry in record.standing() {
            making.take(entry, from);
        }
        making.done = making.tasks.iter().map(|task| making.is_done(*task, from)).collect();
        Some(making)
    }

    fn take(&mut self, entry: &BatchEntry, from: &MadeFrom) {
        if let (Some(weighed), Event::Weighed { line, .. }) = (WeighedLine::of(entry), &entry.event)
            && let Some(line) = self.lines.get_mut(*line)
        {
            line.weighed = Some(weighed);
        }
        match &entry.event {
            Event::StepDone { step } => self.steps_done.push((*step, entry.at)),
            Event::Temperature { pot, reading } => {
                self.readings.push(Reading { pot: *pot, at: entry.at, celsius: *reading });
            }
            Event::TimerStarted { step, minutes } => {
                self.timers.retain(|timer| timer.step != *step);
                let timer = Timer { step: *step, began: entry.at, minutes: *minutes, entry: entry.id.clone() };
                self.timers.push(timer);
            }
            Event::Rescaled { batch, .. } => {
                self.batch = *batch;
                for (place, line) in self.lines.iter_mut().enumerate() {
                    if let Some(weighed) = &mut line.weighed {
                        weighed.kept = false;
                    }
                    line.target = from.target_in(*batch, place).unwrap_or(line.target);
                }
            }
            Event::Filled { mass } => self.fills.push(*mass),
            Event::Decided { decision, .. } => self.stage = BatchStage::Decided(*decision),
            Event::Abandoned { .. } => self.stage = BatchStage::Abandoned,
            _ => {}
        }
    }

    fn is_done(&self, task: Task, from: &MadeFrom) -> bool {
        match task {
            // What is over cannot be weighed again.
            Task::Weigh { line: place, .. } => self.lines.get(place).is_some_and(|line| {
                let Some(weighed) = &line.weighed else { return false };
                let found = from.judge(place, line.target, weighed.mass);
                let short = found.map_or(weighed.mass < line.target, |found| found.verdict == WeighVerdict::Under);
                weighed.kept || !short
            }),
            Task::Step(step) => self.steps_done.iter().any(|(done, _)| *done == step),
            Task::Decide => !matches!(self.stage, BatchStage::Making | BatchStage::Decided(Decision::Waiting)),
        }
    }

    /// The first thing that is not done, by its place among the tasks; nothing once the batch is decided or given up.
    pub fn next(&self) -> Option<usize> {
        if self.is_over() {
            return None;
        }
        self.done.iter().position(|done| !done)
    }

    /// True once nothing is to be done any more.
    pub fn is_over(&self) -> bool {
        !matches!(self.stage, BatchStage::Making | BatchStage::Decided(Decision::Waiting))
    }

    /// What stands on the scale of a vessel after a line, if it is not set to zero between the lines of one step.
    pub fn in_vessel(&self, task: Task) -> Mass {
        let Task::Weigh { step, line } = task else { return Mass::ZERO };
        let before = self.tasks.iter().map_while(|other| match other {
            Task::Weigh { line: other, .. } if *other == line => None,
            other => Some(*other),
        });
        let of_step = before.filter_map(|other| match other {
            Task::Weigh { step: other, line } if other == step => self.lines.get(line),
            _ => None,
        });
        let sum: Mass = of_step.map(|line| line.weighed.as_ref().map_or(line.target, |weighed| weighed.mass)).sum();
        sum.plus(self.lines.get(line).map_or(Mass::ZERO, |line| line.target))
    }

    /// The last temperature of a pot.
    pub fn temperature(&self, pot: Pot) -> Option<Reading> {
        self.readings.iter().rev().find(|reading| reading.pot == pot).copied()
    }

    /// The temperatures of the joined batch since it was last heated up: what its cooling is told from.
    pub fn cooling(&self) -> Vec<(Timestamp, Celsius)> {
        let of_batch: Vec<&Reading> = self.readings.iter().filter(|reading| reading.pot == Pot::Batch).collect();
        let mut falling: Vec<(Timestamp, Celsius)> = Vec::new();
        for reading in of_batch {
            if falling.last().is_some_and(|(_, last)| reading.celsius > *last) {
                falling.clear();
            }
            falling.push((reading.at, reading.celsius));
        }
        falling
    }

    /// What went in of all lines.
    pub fn charged(&self) -> Mass {
        self.lines.iter().filter_map(|line| line.weighed.as_ref()).map(|weighed| weighed.mass).sum()
    }

    /// The timer of a step.
    pub fn timer(&self, step: usize) -> Option<&Timer> {
        self.timers.iter().find(|timer| timer.step == step)
    }
}

impl MadeFrom {
    /// What a line is to weigh in a batch of another mass than was planned.
    pub fn target_in(&self, batch: Mass, line: usize) -> Option<Mass> {
        let (planned, line) = (self.batch?, self.lines.get(line)?);
        let step = self.scale.map_or(Mass::micrograms(1), |scale| scale.step);
        let line = LineState { target: line.on_scale, actual: None, capped: line.capped };
        Some(target_in(&line, planned, batch, step))
    }

    /// How so much of a line stands to its target, by its place; nothing where the scale was not kept.
    pub fn judge(&self, line: usize, target: Mass, actual: Mass) -> Option<WeighIn> {
        let capped = self.lines.get(line)?.capped;
        self.scale?.judge(&LineState { target, actual: Some(actual), capped })
    }
}

/// When a batch began, under which code, and who makes it.
fn begun(record: &BatchRecord) -> Option<(Timestamp, String, String)> {
    let said = record.standing().filter_map(|entry| match &entry.event {
        Event::Begun { code, maker } => Some((entry.at, code.clone(), maker.clone())),
        _ => None,
    });
    said.last()
}

fn tasks(from: &MadeFrom) -> Vec<Task> {
    let of_step = |(place, step): (usize, &FrozenStep)| -> Vec<Task> {
        if step.kind != StepKind::Weigh || step.lines.is_empty() {
            return vec![Task::Step(place)];
        }
        let known = step.lines.iter().filter(|line| **line < from.lines.len());
        known.map(|line| Task::Weigh { step: place, line: *line }).collect()
    };
    let mut tasks: Vec<Task> = from.steps.iter().enumerate().flat_map(of_step).collect();
    tasks.push(Task::Decide);
    tasks
}

#[cfg(test)]
mod tests;
