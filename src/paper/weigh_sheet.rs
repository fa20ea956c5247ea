//! The weigh sheet that is carried to the bench.

use crate::formula::{Choice, Formula, LineId, PhaseId, PhaseKind};
use crate::quantity::{Celsius, Quantity};
use crate::quantity::{Mass, Percent, Typed};
use crate::sheet::{PremixAdvice, WeighLine, WeighSheet};
use crate::shelf::Shelf;

/// One line to weigh.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WeighRow {
    /// Which line of the formula.
    pub line: LineId,
    /// Its name.
    pub name: String,
    /// Its INCI name, if known.
    pub inci: Option<String>,
    /// Its share.
    pub share: Percent,
    /// True for the line that fills up.
    pub fill_up: bool,
    /// What goes onto the scale.
    pub on_scale: Mass,
    /// What that is, where it is not simply the ingredient.
    pub as_premix: Option<AsPremix>,
    /// How far rounding moved it, in percent of itself.
    pub error: Percent,
    /// Whole steps that it takes more or less so that no other line does.
    pub takes: i64,
    /// True if it is rounded up although a rule may cap it, since no other line has room for it.
    pub raised: bool,
    /// The smallest batch at which it can be weighed, where no premix is made.
    pub larger_batch: Option<Mass>,
    /// The maker's remark.
    pub note: String,
}

/// What a mass on the scale has to do with a premix.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AsPremix {
    /// It is a portion of the line's premix, in which there is so much of the ingredient.
    Portion(Mass),
    /// It is what the premixes of other lines leave to weigh; with what they bring the batch gets so much of it.
    Rest(Mass),
}

/// A phase with its lines.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WeighPhase {
    /// Which phase.
    pub phase: PhaseId,
    /// Its kind.
    pub kind: PhaseKind,
    /// Its name.
    pub name: String,
    /// The temperature to heat it to, if stated.
    pub heat: Option<Celsius>,
    /// Sum of its shares.
    pub share: Percent,
    /// Sum of what goes onto the scale.
    pub mass: Mass,
    /// Its lines.
    pub rows: Vec<WeighRow>,
}

/// A premix to make first.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PremixRow {
    /// The line it is for.
    pub line: LineId,
    /// What is diluted.
    pub active_name: String,
    /// In what.
    pub carrier_name: String,
    /// How many times.
    pub times: i64,
    /// How much of the active to weigh.
    pub active: Mass,
    /// How much carrier to weigh to it.
    pub carrier: Mass,
    /// How much of the premix goes into the batch.
    pub portion: Mass,
    /// What is left to weigh on the carrier's own line.
    pub carrier_line: Mass,
}

/// The whole sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WeighFacts {
    /// The formula's title.
    pub title: String,
    /// The batch in all.
    pub batch: Mass,
    /// What the plan came to before it was put into whole steps.
    pub asked: Mass,
    /// The scale's step.
    pub step: Mass,
    /// The least mass that the scale weighs within the accepted error.
    pub least: Mass,
    /// Premixes to make first.
    pub premixes: Vec<PremixRow>,
    /// Phases with their lines; a phase without lines is left out.
    pub blocks: Vec<WeighPhase>,
    /// Name and rounding error of the line that rounding moved most.
    pub worst: Option<(String, Percent)>,
}

/// Lays out a weigh sheet.
pub fn weigh_facts(formula: &Formula, sheet: &WeighSheet, shelf: &Shelf) -> WeighFacts {
    let name = |id: LineId| formula.line(id).map(|line| choice_name(&line.choice, shelf)).unwrap_or_default();
    let blocks = formula.phases().iter().filter_map(|phase| {
        let rows: Vec<WeighRow> = sheet
            .lines
            .iter()
            .filter(|line| line.phase == phase.id)
            .filter_map(|line| row(formula, sheet, shelf, line))
            .collect();
        (!rows.is_empty()).then(|| WeighPhase {
            phase: phase.id,
            kind: phase.kind,
            name: phase.name.clone(),
            heat: Typed::value(&phase.heat),
            share: rows.iter().map(|row| row.share).sum(),
            mass: rows.iter().map(|row| row.on_scale).sum(),
            rows,
        })
    });
    let premixes = sheet.premixes().map(|(line, premix)| PremixRow {
        line: line.line,
        active_name: name(line.line),
        carrier_name: name(premix.carrier),
        times: premix.times,
        active: premix.active,
        carrier: premix.carrier_mass,
        portion: premix.portion,
        carrier_line: premix.carrier_line,
    });
    WeighFacts {
        title: formula.about.title.clone(),
        batch: sheet.batch.mass,
        asked: sheet.batch.asked,
        step: sheet.step,
        least: sheet.least,
        premixes: premixes.collect(),
        blocks: blocks.collect(),
        worst: sheet.worst.and_then(|id| Some((name(id), sheet.line(id)?.error))),
    }
}

/// The name of what a line is made of: the shelf's, or what was typed.
pub fn choice_name(choice: &Choice, shelf: &Shelf) -> String {
    match choice {
        Choice::Named(name) => name.clone(),
        Choice::Known(id) => shelf.entry(id).map_or_else(|| id.as_str().to_owned(), |entry| entry.label().to_owned()),
    }
}

fn row(formula: &Formula, sheet: &WeighSheet, shelf: &Shelf, weighed: &WeighLine) -> Option<WeighRow> {
    let line = formula.line(weighed.line)?;
    let as_premix = match &weighed.premix {
        Some(PremixAdvice::Make(_)) => Some(AsPremix::Portion(weighed.mass)),
        _ if weighed.on_scale != weighed.mass => Some(AsPremix::Rest(weighed.mass)),
        _ => None,
    };
    let takes = sheet.takes.iter().find(|(line, _)| *line == weighed.line);
    Some(WeighRow {
        line: weighed.line,
        name: choice_name(&line.choice, shelf),
        inci: line.choice.id().and_then(|id| shelf.entry(id)?.inci().map(|inci| inci.value.to_owned())),
        share: weighed.share,
        fill_up: line.share.is_fill_up(),
        on_scale: weighed.on_scale,
        as_premix,
        error: weighed.error,
        takes: takes.map_or(0, |(_, steps)| *steps),
        raised: sheet.raised.contains(&weighed.line),
        larger_batch: match weighed.premix {
            Some(PremixAdvice::LargerBatch(mass)) => Some(mass),
            _ => None,
        },
        note: line.note.clone(),
    })
}

impl WeighRow {
    /// The decimal places that `step` calls for, so that a column of masses lines up.
    pub fn places(step: Mass) -> usize {
        step.canonical().split_once('.').map_or(0, |(_, fraction)| fraction.len())
    }
}
