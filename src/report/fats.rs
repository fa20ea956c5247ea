//! `fats`: the oil phase, its fatty acids and values.

use super::ingredient;
use crate::facts::FattyAcid;
use crate::formula::{Formula, LineId};
use crate::quantity::Quantity;
use crate::sheet::OilPhase;
use crate::shelf::Shelf;
use crate::words::{self, choice_name};
use serde_json::{Value, json};

/// Absent if the formula has no fat and nothing that could be one.
pub(super) fn fats(formula: &Formula, shelf: &Shelf, fats: &OilPhase) -> Option<Value> {
    if fats.counted.is_empty() && fats.uncounted.is_empty() {
        return None;
    }
    let ids = |lines: &[LineId]| lines.iter().map(|id| ingredient(formula, *id)).collect::<Vec<_>>();
    let counted: Vec<Value> = fats
        .counted
        .iter()
        .map(|(id, share)| json!({"ingredient": ingredient(formula, *id), "percent": share.canonical()}))
        .collect();
    let uncounted: Vec<Value> = fats
        .uncounted
        .iter()
        .map(|(id, why)| json!({"ingredient": ingredient(formula, *id), "why": why.key(), "message": words::fats::why_uncounted(*why)}))
        .collect();
    let untold: Vec<Value> = fats
        .untold
        .iter()
        .map(|(id, unknown)| {
            let name = formula.line(*id).map(|line| choice_name(&line.choice, shelf)).unwrap_or_default();
            let message = words::fats::untold(&name, *unknown, words::DecimalSign::Point);
            json!({"ingredient": ingredient(formula, *id), "unknown_acids_percent": unknown.canonical(), "message": message})
        })
        .collect();
    let mut value = json!({
        "untold": untold,
        "counted": counted,
        "uncounted": uncounted,
        "allergens": fats.allergens.keys().collect::<Vec<_>>(),
        "allergens_unknown": ids(&fats.allergens_unknown),
    });
    if let Some(figures) = &fats.figures {
        let mut profile: serde_json::Map<String, Value> = FattyAcid::ALL
            .into_iter()
            .filter(|acid| figures.acid(*acid).units() > 0)
            .map(|acid| (acid.key().to_owned(), figures.acid(acid).canonical().into()))
            .collect();
        if figures.rest.units() > 0 {
            profile.insert("other".into(), figures.rest.canonical().into());
        }
        value["profile"] = profile.into();
        value["saturated_percent"] = figures.saturated.canonical().into();
        value["monounsaturated_percent"] = figures.mono.canonical().into();
        value["polyunsaturated_percent"] = figures.poly.canonical().into();
        value["hydroxy_percent"] = figures.hydroxy.canonical().into();
        value["unknown_acids_percent"] = figures.unknown.canonical().into();
        value["oxidation_doubtful"] = ids(&fats.oxidation_doubtful).into();
        value["outlook_message"] = words::oils::outlook(figures, words::DecimalSign::Point).into();
        match &figures.reckoned {
            Some(reckoned) => {
                value["mean_molar_mass"] = reckoned.mean_molar_mass.canonical().into();
                value["saponification_value_of_acids"] = reckoned.computed_sv.canonical().into();
                value["saponification_value_by_standard"] = reckoned.standard_sv.canonical().into();
                value["iodine_value_of_acids"] = reckoned.computed_iv.canonical().into();
                value["oxidation_index"] = reckoned.oxidizability.canonical().into();
                value["outlook"] = reckoned.outlook.key().into();
            }
            None => value["withheld"] = words::fats::acids_unknown(figures.unknown, words::DecimalSign::Point).into(),
        }
        value["methods"] = json!({
            "saponification_value": words::fats::SV_METHOD,
            "iodine_value": words::fats::IV_METHOD,
            "oxidation_index": words::fats::COX_METHOD,
        });
    }
    if let Some(values) = &fats.values {
        if let Some((sv, range)) = values.sv.zip(values.sv_range) {
            value["saponification_value"] = sv.canonical().into();
            value["saponification_value_range"] = json!([range.low.canonical(), range.high.canonical()]);
        }
        if let Some(iv) = values.iv {
            value["iodine_value"] = iv.canonical().into();
        }
    }
    if let Some(hlb) = fats.required_hlb {
        value["required_hlb"] = hlb.canonical().into();
        value["required_hlb_unknown"] = ids(&fats.hlb_unknown).into();
    }
    Some(value)
}
