//! What happened to a batch, entry by entry: a headline, and what more there is to say.
#![allow(missing_docs, reason = "each constant is its own text")]

use super::{DecimalSign, dose, grams, method, number_text, rounded, with_unit};
use crate::batch::{Check, Decision, Event, MassSource, Pot};
use crate::facts::{IngredientId, mid_sentence};
use crate::paper::{CourseEntry, RecordFacts};
use crate::quantity::{Celsius, Mass, Percent};

/// What is put aside.
const KEPT: &str = "Kept as a sample";

pub const AFTER_SEAL: &str = "Recorded after the seal";
const DOT: &str = " \u{b7} ";

/// What one entry says: a headline, and the rest, which may be empty. `name` is that of an acid or base.
pub fn entry(
    entry: &CourseEntry,
    facts: &RecordFacts,
    name: &dyn Fn(&IngredientId) -> String,
    sign: DecimalSign,
) -> (String, String) {
    if entry.fills.len() > 1 {
        return filled(&entry.fills, facts, sign);
    }
    match &entry.event {
        Event::Ph(event) => (dose::entry(event, name, sign), String::new()),
        Event::PhBegun { target, .. } => {
            (format!("Setting of the pH started: target {}", number_text(*target)), String::new())
        }
        event => told(event, facts, sign),
    }
}

/// What an event says that is none of the pH.
pub fn told(event: &Event, facts: &RecordFacts, sign: DecimalSign) -> (String, String) {
    match event {
        Event::Begun { code, maker } => (format!("Batch {code} started"), made_by(maker)),
        Event::StepDone { step } => step_done(*step, facts, sign),
        Event::TimerStarted { step, minutes } => {
            let kind = facts.steps.get(*step).map(|step| method::kind(step.kind)).unwrap_or_default();
            (format!("Timer set: {}\u{202f}min", number_text(*minutes)), kind.to_owned())
        }
        Event::Temperature { pot, reading } => {
            (format!("{}: {}", self::pot(*pot), degrees(*reading, sign)), String::new())
        }
        Event::Checked { check, found } => (self::check(*check).to_owned(), found.clone()),
        Event::Deviation { what, decision } => (format!("Deviation: {}", mid_sentence(what)), decision.clone()),
        Event::Rescaled { batch, reason } => (format!("Batch size changed to {}", grams(*batch, sign)), why(reason)),
        Event::SplitOff { mass, code, what } => {
            let code = if code.is_empty() { String::new() } else { format!("Batch {code}") };
            (format!("{} taken out", grams(*mass, sign)), joined([code, what.clone()]))
        }
        Event::Decided { decision, by, remark } => {
            (self::decision(*decision).to_owned(), joined([decided_by(by), remark.clone()]))
        }
        Event::Abandoned { reason } => ("Given up".to_owned(), reason.clone()),
        Event::Remark { text } => ("Remark".to_owned(), text.clone()),
        Event::Sealed { digest, .. } => ("Record closed and sealed".to_owned(), digest.chars().take(16).collect()),
        Event::PhBegun { .. } | Event::Ph(_) | Event::Struck { .. } => (String::new(), String::new()),
        mass => of_mass(mass, facts, sign),
    }
}

fn of_mass(event: &Event, facts: &RecordFacts, sign: DecimalSign) -> (String, String) {
    match event {
        Event::Weighed { line, actual, source, lot, expiry, .. } => {
            let lot = if lot.is_empty() { String::new() } else { format!("lot {lot}") };
            let good = expiry.map_or_else(String::new, |day| format!("good until {day}"));
            let source = source_of(*source).to_owned();
            (
                format!("Weighed: {}", mid_sentence(facts.material(*line))),
                joined([grams(*actual, sign), lot, good, source]),
            )
        }
        Event::PotWeighed { mass, after } => {
            let when = if *after { "after heating" } else { "before heating" };
            (format!("Pot with its content weighed {when}"), grams(*mass, sign))
        }
        Event::Added { what, mass } => (format!("Added: {}", mid_sentence(what)), grams(*mass, sign)),
        Event::Filled { mass } => (format!("Filled: {}", grams(*mass, sign)), String::new()),
        Event::Lost { what, mass } => (format!("Lost: {}", mid_sentence(what)), grams(*mass, sign)),
        Event::Retained { what, mass } => {
            let mass = if *mass > Mass::ZERO { grams(*mass, sign) } else { String::new() };
            // The field at the stove asks for the mass alone, and calls it just that.
            let what = if what.trim().eq_ignore_ascii_case(KEPT) { "" } else { what.trim() };
            let said = if what.is_empty() { KEPT.to_owned() } else { format!("{KEPT}: {}", mid_sentence(what)) };
            (said, mass)
        }
        _ => (String::new(), String::new()),
    }
}

fn filled(fills: &[Mass], facts: &RecordFacts, sign: DecimalSign) -> (String, String) {
    let least = fills.iter().min().copied().unwrap_or_default();
    let greatest = fills.iter().max().copied().unwrap_or_default();
    let range = format!("{} to {}", grams(least, sign), grams(greatest, sign));
    let few = facts.fills.as_ref().and_then(|fills| fills.bounds).map(|bounds| bounds.few);
    let below = few.map_or_else(String::new, |few| match fills.iter().filter(|fill| **fill < few).count() {
        0 => format!("none below {}", grams(few, sign)),
        some => format!("{some} below {}", grams(few, sign)),
    });
    (format!("Filled {} packs", fills.len()), joined([range, below]))
}

fn step_done(place: usize, facts: &RecordFacts, sign: DecimalSign) -> (String, String) {
    let Some(step) = facts.steps.get(place) else { return ("Step done".to_owned(), String::new()) };
    let heat = step.temperature.map_or_else(String::new, |heat| degrees(heat, sign));
    let minutes = step.minutes.map_or_else(String::new, |minutes| format!("{}\u{202f}min", number_text(minutes)));
    (format!("{}: done", method::kind(step.kind)), joined([step.text.clone(), heat, minutes]))
}

/// What is said one after the other, without what is empty.
pub fn joined<const N: usize>(texts: [String; N]) -> String {
    let said: Vec<String> = texts.into_iter().filter(|text| !text.trim().is_empty()).collect();
    said.join(DOT)
}

fn why(reason: &str) -> String {
    if reason.trim().is_empty() { String::new() } else { format!("Why: {reason}") }
}

fn made_by(maker: &str) -> String {
    if maker.trim().is_empty() { String::new() } else { format!("made by {maker}") }
}

fn decided_by(by: &str) -> String {
    if by.trim().is_empty() { String::new() } else { format!("decided by {by}") }
}

fn degrees(heat: Celsius, sign: DecimalSign) -> String {
    with_unit(heat, "\u{b0}C", sign)
}

/// A share to a tenth of a percent, as a yield is told.
pub fn tenth(share: Percent, sign: DecimalSign) -> String {
    format!("{}\u{202f}%", rounded(share, 1, sign))
}

/// How a mass was found.
pub const fn source_of(source: MassSource) -> &'static str {
    match source {
        MassSource::Typed => "typed",
        MassSource::Scale => "from the scale",
        MassSource::Ticked => "ticked",
    }
}

/// Whose temperature it is.
pub const fn pot(pot: Pot) -> &'static str {
    match pot {
        Pot::Water => "Water phase",
        Pot::Oil => "Oil phase",
        Pot::Batch => "Batch",
    }
}

/// What was looked at.
pub const fn check(check: Check) -> &'static str {
    match check {
        Check::Clearance => "Line clearance",
        Check::Scale => "Scale checked",
        Check::Appearance => "Appearance",
        Check::Odour => "Odour",
        Check::Viscosity => "Viscosity",
        Check::CodeOnPack => "Batch code on the packs",
        Check::Other => "Other check",
    }
}

/// What became of it.
pub const fn decision(decision: Decision) -> &'static str {
    match decision {
        Decision::Released => "Released",
        Decision::Waiting => "Waiting for a result",
        Decision::Rejected => "Rejected",
    }
}
