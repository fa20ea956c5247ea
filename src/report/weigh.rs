//! `weigh`: what goes onto the scale, line by line, and the premixes.

use super::ingredient;
use crate::formula::Formula;
use crate::quantity::Quantity;
use crate::sheet::{PremixAdvice, WeighSheet};
use serde_json::{Value, json};

pub(super) fn weigh(formula: &Formula, sheet: &WeighSheet) -> Value {
    let lines: Vec<Value> = sheet
        .lines
        .iter()
        .map(|line| {
            let mut value = json!({
                "ingredient": ingredient(formula, line.line),
                "phase": formula.phase(line.phase).map(|phase| phase.name.as_str()),
                "percent": line.share.canonical(),
                "mass_g": line.on_scale.canonical(),
                "in_the_batch_g": line.mass.canonical(),
                "rounding_error_percent": line.error.canonical(),
                // The same as `mass_g`, for programs that know it by this name.
                "on_the_scale_g": line.on_scale.canonical(),
            });
            if let Some((_, steps)) = sheet.takes.iter().find(|(id, _)| *id == line.line) {
                value["takes_steps"] = (*steps).into();
            }
            if sheet.raised.contains(&line.line) {
                value["rounded_up_without_room"] = true.into();
            }
            if let Some(PremixAdvice::LargerBatch(batch)) = &line.premix {
                value["weighed_well_from_batch_g"] = batch.canonical().into();
            }
            value
        })
        .collect();
    let premixes: Vec<Value> = sheet
        .premixes()
        .map(|(line, premix)| {
            json!({
                "ingredient": ingredient(formula, line.line),
                "carrier": ingredient(formula, premix.carrier),
                "times": premix.times,
                "active_g": premix.active.canonical(),
                "carrier_g": premix.carrier_mass.canonical(),
                "portion_g": premix.portion.canonical(),
                "carrier_line_g": premix.carrier_line.canonical(),
            })
        })
        .collect();
    json!({
        "batch_g": sheet.batch.mass.canonical(),
        "asked_g": sheet.batch.asked.canonical(),
        "readability_g": sheet.step.canonical(),
        "least_weighable_g": sheet.least.canonical(),
        "weighed_furthest_from_its_share": sheet.worst.map(|id| ingredient(formula, id)),
        "largest_rounding_error_percent": sheet.worst.and_then(|id| sheet.line(id)).map_or("0".to_owned(), |line| line.error.canonical()),
        "lines": lines,
        "premixes": premixes,
    })
}
