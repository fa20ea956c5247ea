//! The weigh sheet that is carried to the bench.

use crate::facts::Shelf;
use crate::formula::{Choice, Formula, LineId, PhaseId, PhaseKind};
use crate::quantity::{Celsius, Quantity};
use crate::quantity::{Mass, Percent, Typed};
use crate::sheet::{PremixAdvice, WeighLine, WeighSheet};

/// One line to weigh.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
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
    /// The mass in the formula.
    pub mass: Mass,
    /// What goes on the scale where premixes change it: the portion of a premix, or a carrier less what it gave.
    pub on_the_scale: Option<Mass>,
    /// How far rounding moved it, in percent of itself.
    pub error: Percent,
    /// The smallest batch at which it can be weighed, where no premix can be made.
    pub larger_batch: Option<Mass>,
    /// The maker's remark.
    pub note: String,
}

/// A phase with its lines.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Block {
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
    /// Sum of its masses.
    pub mass: Mass,
    /// Its lines.
    pub rows: Vec<Row>,
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
pub struct WeighPaper {
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
    pub blocks: Vec<Block>,
    /// Name and rounding error of the line that rounding moved most.
    pub worst: Option<(String, Percent)>,
}

/// Lays out a weigh sheet.
pub fn weigh_paper(formula: &Formula, sheet: &WeighSheet, shelf: &Shelf) -> WeighPaper {
    let name = |id: LineId| formula.line(id).map(|line| choice_name(&line.choice, shelf)).unwrap_or_default();
    let blocks = formula.phases().iter().filter_map(|phase| {
        let rows: Vec<Row> = sheet
            .lines
            .iter()
            .filter(|line| line.phase == phase.id)
            .filter_map(|line| row(formula, sheet, shelf, line))
            .collect();
        (!rows.is_empty()).then(|| Block {
            phase: phase.id,
            kind: phase.kind,
            name: phase.name.clone(),
            heat: Typed::value(&phase.heat),
            share: rows.iter().map(|row| row.share).sum(),
            mass: rows.iter().map(|row| row.mass).sum(),
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
    WeighPaper {
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

fn row(formula: &Formula, sheet: &WeighSheet, shelf: &Shelf, weighed: &WeighLine) -> Option<Row> {
    let line = formula.line(weighed.line)?;
    let on_the_scale = Some(sheet.line_on_the_scale(weighed.line)).filter(|mass| *mass != weighed.mass);
    Some(Row {
        line: weighed.line,
        name: choice_name(&line.choice, shelf),
        inci: line.choice.id().and_then(|id| shelf.entry(id)?.inci().map(|inci| inci.value.to_owned())),
        share: weighed.share,
        fill_up: line.share.is_fill_up(),
        mass: weighed.mass,
        on_the_scale,
        error: weighed.error,
        larger_batch: match weighed.premix {
            Some(PremixAdvice::LargerBatch(mass)) => Some(mass),
            _ => None,
        },
        note: line.note.clone(),
    })
}

impl Row {
    /// The decimal places that `step` calls for, so that a column of masses lines up.
    pub fn places(step: Mass) -> usize {
        step.canonical().split_once('.').map_or(0, |(_, fraction)| fraction.len())
    }
}
