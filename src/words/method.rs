//! The first method of a formula in words: what to do in each step, and why, in one line.
#![allow(missing_docs, reason = "each constant is its own text")]

mod texts;

use super::{DecimalSign, choice_name, page, with_unit};
use crate::facts::mid_sentence;
use crate::formula::{Formula, LineId, NewStep, Phase, StepKind};
use crate::quantity::Quantity;
use crate::sheet::{PlannedStep, Reason, first_method};
use crate::shelf::Shelf;
use texts::TEXTS;

/// The steps of a formula: the maker's own, or those that its lines call for. For a `soap` its lye is weighed, too.
pub fn steps(formula: &Formula, shelf: &Shelf, soap: bool) -> Vec<NewStep> {
    if formula.method().is_empty() {
        return first_method(formula, shelf, soap).iter().map(|step| in_words(step, formula, shelf)).collect();
    }
    let own = formula.method().iter().zip(formula.lines_of_steps());
    let own = own.map(|(step, lines)| NewStep { lines, ..step.step.clone() });
    own.collect()
}

/// The first method as it is taken over, to be changed. The step that fills a vessel stands for its phase, so that a line
/// that comes later is weighed with it.
pub fn to_take_over(formula: &Formula, shelf: &Shelf, soap: bool) -> Vec<NewStep> {
    let taken = |step: &PlannedStep| {
        let words = in_words(step, formula, shelf);
        NewStep { lines: if step.rest { Vec::new() } else { words.lines }, ..words }
    };
    first_method(formula, shelf, soap).iter().map(taken).collect()
}

/// How hot, how long and how it is stirred, as one line; empty where nothing is said.
pub fn figures(step: &NewStep, style: DecimalSign) -> String {
    let heat = Some(step.temperature.trim()).filter(|text| !text.is_empty());
    let heat = heat.map(|text| match step.celsius() {
        Some(heat) => at(step.kind, &with_unit(heat, page::CELSIUS, style)),
        None => text.to_owned(),
    });
    let minutes = Some(step.minutes.trim()).filter(|text| !text.is_empty());
    let minutes = minutes.map(|text| match step.lasts() {
        Some(minutes) => with_unit(minutes, MINUTES_UNIT, style),
        None => text.to_owned(),
    });
    let stirring = Some(step.stirring.trim().to_owned()).filter(|text| !text.is_empty());
    [heat, minutes, stirring].into_iter().flatten().collect::<Vec<_>>().join(" \u{b7} ")
}

/// A step as one line of a paper: what to do, then its figures.
pub fn line(step: &NewStep, style: DecimalSign) -> String {
    let text = if step.text.trim().is_empty() { kind(step.kind) } else { step.text.trim() };
    match figures(step, style).as_str() {
        "" => text.to_owned(),
        figures => format!("{text} ({figures})"),
    }
}

/// What is added or cooled is below its temperature; all else is at it.
fn at(kind: StepKind, heat: &str) -> String {
    match kind {
        StepKind::Add | StepKind::Cool => format!("below {heat}"),
        _ => heat.to_owned(),
    }
}

/// The names of lines that a step takes, as one line.
pub fn names_of(lines: &[LineId], formula: &Formula, shelf: &Shelf) -> String {
    let named = lines.iter().filter_map(|line| formula.line(*line)).filter(|line| !line.is_blank());
    named.map(|line| choice_name(&line.choice, shelf)).collect::<Vec<_>>().join(", ")
}

fn in_words(step: &PlannedStep, formula: &Formula, shelf: &Shelf) -> NewStep {
    let name = |line| formula.line(line).map(|line| choice_name(&line.choice, shelf)).unwrap_or_default();
    let names: Vec<String> = step.lines.iter().map(|line| mid_sentence(&name(*line))).collect();
    let phases = step.phases.iter().filter_map(|phase| formula.phase(*phase));
    // One that the maker has not named goes by what it mostly is.
    let called = |phase: &Phase| match phase.name.trim() {
        "" => mid_sentence(page::phase_kind(phase.kind)),
        name => mid_sentence(name),
    };
    let phases: Vec<String> = phases.map(called).collect();
    let (text, why, stirring) = said(step.reason, &and(&names), &and(&phases));
    NewStep {
        kind: step.kind,
        text,
        why: why.to_owned(),
        stirring: stirring.to_owned(),
        phase: step.phases.first().copied().filter(|_| step.kind == StepKind::Weigh),
        lines: if matches!(step.kind, StepKind::Weigh | StepKind::Add | StepKind::SetPh) {
            step.lines.clone()
        } else {
            Vec::new()
        },
        temperature: step.temperature.map(|celsius| celsius.canonical()).unwrap_or_default(),
        minutes: step.minutes.map(|minutes| minutes.canonical()).unwrap_or_default(),
    }
}

/// `a, b and c`.
fn and(names: &[String]) -> String {
    match names {
        [] => String::new(),
        [one] => one.clone(),
        [others @ .., last] => format!("{} and {last}", others.join(", ")),
    }
}

/// What to do, why, and how it is stirred. A test sees to it that every reason has its texts.
fn said(reason: Reason, names: &str, phases: &str) -> (String, &'static str, &'static str) {
    let found = TEXTS.iter().find(|row| row.0 == reason);
    let (text, why, stirring) = found.map_or(("", "", ""), |(_, text, why, stirring)| (*text, *why, *stirring));
    (text.replace("{names}", names).replace("{phases}", phases), why, stirring)
}

pub const TITLE: &str = "Method";
pub const FIRST: &str = "This method follows from the lines of the formula, and changes with them.";
pub const OWN: &str = "This method is yours. It no longer changes with the lines of the formula.";
pub const NONE: &str = "Write some lines first. The method follows from them.";
pub const CHANGE: &str = "Change the method";
pub const BACK: &str = "Back to the first method";
pub const BACK_DONE: &str = "The first method is back.";
pub const REMOVED: &str = "Step removed.";
pub const ADD_STEP: &str = "Add step";
pub const KIND: &str = "Kind of step";
pub const OF_PHASE: &str = "Takes";
pub const NO_PHASE: &str = "no lines";
pub const DO: &str = "What to do";
pub const WHY: &str = "Why";
pub const STIRRING: &str = "Stirring";
pub const TEMPERATURE: &str = "Temperature";
pub const MINUTES: &str = "Time";
pub const MINUTES_UNIT: &str = "min";
pub const STEP_ACTIONS: &str = "What can be done with this step";
pub const NOT_WEIGHED: &str = "No step weighs these lines; they are weighed before the jars are filled: ";
pub const WEIGH_THEM: &str = "Add a step that weighs them";
pub const CHANGED: &str = "The method has changed too.";

/// What a step takes.
pub fn takes(names: &str) -> String {
    format!("Takes {names}")
}

/// What a field of a step is called where its label is not seen.
pub fn field_of(label: &str, number: usize) -> String {
    format!("{label}, step {number}")
}

/// All lines of a phase that no other step names.
pub fn rest_of(phase: &str) -> String {
    format!("the rest of {}", mid_sentence(phase))
}

/// What the phase of a lye is called.
pub const LYE: &str = "Lye";
/// The water that a lye is dissolved in.
pub const WATER_FOR_LYE: &str = "Water for the lye";

/// A step for lines that the maker's own method does not weigh.
pub fn not_planned(lines: Vec<LineId>) -> NewStep {
    NewStep {
        kind: StepKind::Weigh,
        text: "Weigh what the method leaves out, and stir it in.".to_owned(),
        why: "The formula has these lines, and no step of its method weighs them.".to_owned(),
        lines,
        ..NewStep::default()
    }
}

/// What a step is called.
pub const fn kind(kind: StepKind) -> &'static str {
    match kind {
        StepKind::Other => "Step",
        StepKind::Clean => "Clean",
        StepKind::LayOut => "Lay out",
        StepKind::Weigh => "Weigh",
        StepKind::Heat => "Heat",
        StepKind::Hold => "Hold",
        StepKind::Join => "Join",
        StepKind::Blend => "Blend",
        StepKind::Cool => "Cool",
        StepKind::Add => "Add",
        StepKind::SetPh => "Set the pH",
        StepKind::Pack => "Pack",
    }
}

#[cfg(test)]
mod tests;
