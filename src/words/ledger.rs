//! Words of the ledger of a formula, of its title line, and of the bar of the total.
#![allow(missing_docs, reason = "each constant is its own text")]

use super::{DecimalSign, SheetStyle, number, page, unit, with_unit};
use crate::desk::State;
use crate::formula::{About, Formula, LineId, PhaseId};
use crate::quantity::{Celsius, Mass, Quantity, Typed};
use crate::sheet::{BatchBasis, Fill, Masses, Plan, PlanField};

pub const PERCENT_HEAD: &str = "%";
pub const QS: &str = "q.s.";
pub const FILL_UP: &str = "Fill up (q.s.)";
pub const ADD_PHASE: &str = "Phase";
pub const MORE: &str = "More";
pub const WEIGH: &str = "Weigh";
pub const WHOLE: &str = "whole";
pub const HINT: &str = "Try it: touch a percentage.";
pub const EACH_CELL: &str = "Each cell is one part of a hundred.";

/// What a product is, in one line: where, how long, for whom, at which pH, in what.
pub fn about_line(about: &About) -> String {
    let mut area = page::area(about.area).to_owned();
    if let Some(first) = area.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    let ph = Some(about.target_ph.text().trim()).filter(|text| !text.is_empty()).map(|text| format!("pH {text}"));
    let (purpose, audience) = (page::purpose(about.purpose).to_owned(), page::audience(about.audience).to_owned());
    let parts = [Some(area), Some(purpose), Some(audience), ph, Some(page::pack(about.pack).to_owned())];
    parts.into_iter().flatten().collect::<Vec<_>>().join(" \u{b7} ")
}

/// The temperature that a phase is heated to; nothing where none could be read.
pub fn heat(heat: &Typed<Celsius>, sign: DecimalSign) -> String {
    heat.value().map(|heat| with_unit(heat, page::CELSIUS, sign)).unwrap_or_default()
}

/// How many digits stand behind the decimal sign; nothing for a text that is no plain figure.
fn places(text: &str) -> Option<usize> {
    let (whole, rest) = text.split_once(['.', ',']).map_or((text, None), |(whole, rest)| (whole, Some(rest)));
    let plain = |part: &str| part.bytes().all(|byte| byte.is_ascii_digit());
    (!text.is_empty() && plain(whole) && rest.is_none_or(plain)).then(|| rest.map_or(0, str::len))
}

/// More digits than this are not padded for: one line of 0.000001 % would push all others aside.
const MOST_PLACES: usize = 3;

/// The digits behind the decimal sign that a column of percents has room for.
pub fn column_places(masses: &Masses, formula: &Formula, sign: DecimalSign) -> usize {
    let of = |line: &crate::formula::Line| match line.share.typed() {
        Some(typed) => places(typed.text().trim()),
        None => places(&number(&masses.totals.share_of(line.id)?.canonical(), sign)),
    };
    formula.lines().filter_map(|(_, line)| of(line)).max().unwrap_or(0).min(MOST_PLACES)
}

/// What is put behind a figure, unseen, so that the decimal signs of a column stand below each other.
pub fn padding(text: &str, column: usize, sign: DecimalSign) -> String {
    let Some(own) = places(text.trim()).filter(|own| *own < column) else { return String::new() };
    let zeros = "0".repeat(column - own);
    match (own, sign) {
        (0, DecimalSign::Comma) => format!(",{zeros}"),
        (0, DecimalSign::Point) => format!(".{zeros}"),
        _ => zeros,
    }
}

/// What is made, for the bar of the total: so many jars of so much, where the plan says so.
pub fn jars(plan: &Plan, sign: DecimalSign) -> String {
    let fill = match &plan.fill {
        Fill::Mass(mass) => mass.value().map(|mass| with_unit(mass, "g", sign)),
        Fill::Volume(volume) => volume.value().map(|volume| with_unit(volume, "mL", sign)),
    };
    match (plan.basis, plan.jars.value(), fill) {
        (BatchBasis::Jars, Some(jars), Some(fill)) => format!("{} jars of {fill}", jars.canonical()),
        _ => String::new(),
    }
}

fn figure(mass: Mass, masses: &Masses, state: &State, sign: DecimalSign) -> String {
    let step = masses.weigh.as_ref().map_or(Mass::ZERO, |sheet| sheet.step);
    SheetStyle { unit: state.plan.unit, sign, step }.figure(mass)
}

/// What is weighed of a line, in the column's unit; nothing while there is no weigh sheet.
pub fn line_mass(masses: &Masses, id: LineId, state: &State, sign: DecimalSign) -> String {
    let row = masses.weigh.as_ref().ok().and_then(|sheet| sheet.line(id));
    row.map(|row| figure(row.mass, masses, state, sign)).unwrap_or_default()
}

/// What is weighed of a phase.
pub fn phase_mass(masses: &Masses, id: PhaseId, state: &State, sign: DecimalSign) -> String {
    let Ok(sheet) = &masses.weigh else { return String::new() };
    let mass = sheet.lines.iter().filter(|line| line.phase == id).map(|line| line.mass).sum();
    figure(mass, masses, state, sign)
}

/// The mass of the batch; nothing while there is none.
pub fn batch(masses: &Masses, state: &State, sign: DecimalSign) -> String {
    let Ok(sheet) = &masses.weigh else { return String::new() };
    format!("{}\u{202f}{}", figure(sheet.batch.mass, masses, state, sign), unit(state.plan.unit))
}

/// The field of the plan that says how much is made.
pub const fn size_field(basis: BatchBasis) -> PlanField {
    match basis {
        BatchBasis::Mass => PlanField::Mass,
        BatchBasis::Vessel => PlanField::Vessel,
        BatchBasis::Jars | BatchBasis::InHand => PlanField::Jars,
    }
}
