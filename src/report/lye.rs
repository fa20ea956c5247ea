//! `lye`: what saponifies the fats, with notes and cautions.

use super::ingredient;
use crate::formula::Formula;
use crate::paper::lye_facts;
use crate::quantity::Quantity;
use crate::sheet::Lye;
use crate::shelf::Shelf;
use crate::words::{self, DecimalSign};
use serde_json::{Value, json};

pub(super) fn lye(formula: &Formula, shelf: &Shelf, lye: &Lye) -> Value {
    let fats: Vec<Value> = lye
        .fats
        .iter()
        .map(|fat| {
            json!({
                "ingredient": ingredient(formula, fat.line),
                "mass_g": fat.mass.canonical(),
                "saponification_value": fat.typical.canonical(),
                "saponification_value_range": [fat.sv.low.canonical(), fat.sv.high.canonical()],
                "verified": fat.verified,
            })
        })
        .collect();
    let alkalis: Vec<Value> = lye
        .alkalis
        .iter()
        .map(|dose| {
            let mut value = json!({
                "ingredient": dose.alkali.id(),
                "purity_percent": dose.purity.canonical(),
                "pure_g": dose.pure.canonical(),
                "weigh_g": dose.weigh.canonical(),
            });
            if let Some(row) = dose.alkali.row() {
                value["label"] = words::lye::label(row).into();
                value["expected_ph"] = json!([row.ph.0.canonical(), row.ph.1.canonical()]);
                value["cure_days"] = json!([row.cure_days.0, row.cure_days.1]);
            }
            value
        })
        .collect();
    let paper = lye_facts(formula, lye, shelf);
    let acids: Vec<Value> = lye
        .acids
        .iter()
        .zip(&paper.acids)
        .map(|(acid, row)| {
            let takes = row.takes.iter().map(|(alkali, mass)| (alkali.id().to_owned(), mass.canonical().into()));
            json!({
                "ingredient": ingredient(formula, acid.line),
                "mass_g": acid.mass.canonical(),
                "takes_g": takes.collect::<serde_json::Map<String, Value>>(),
                "takes_koh_g": [acid.takes.low.canonical(), acid.takes.high.canonical()],
                "fatty": acid.fatty,
                "verified": acid.verified,
                "message": words::lye::acid_row(row, DecimalSign::Point),
            })
        })
        .collect();
    json!({
        "fats": fats,
        "acids": acids,
        "fat_mass_g": lye.fat_mass.canonical(),
        "discount_percent": lye.discount.canonical(),
        "basis": lye.basis.key(),
        "alkalis": alkalis,
        "water_g": lye.water.canonical(),
        "solution_g": paper.solution.canonical(),
        "concentration_percent": lye.concentration.canonical(),
        "true_discount_percent": {
            "low": lye.margins.low.canonical(),
            "typical": lye.margins.typical.canonical(),
            "high": lye.margins.high.canonical(),
        },
        "glycerol_g": lye.glycerol.canonical(),
        "notes": paper.notes.iter().map(|(note, name)| words::lye::note(note, name, DecimalSign::Point)).collect::<Vec<_>>(),
        "cautions": paper.cautions.iter().map(|caution| words::lye::caution(*caution)).collect::<Vec<_>>(),
    })
}
