//! The computed sheet of a document as one JSON object: what `cargo task sheet` prints.

use super::chemistry_report::{emulsion_report, ph_report, preservation_report};
use super::choice_name;
use super::findings::finding;
use crate::desk::{DocId, OpenDocument, ReadProblem, read_document};
use crate::facts::{FattyAcid, Shelf};
use crate::formula::{Choice, Formula, LineId};
use crate::quantity::{Day, Quantity, Timestamp};
use crate::rules::Finding;
use crate::sheet::{Balance, Label, Lye, NoSheet, OilPhase, PremixAdvice, Sheet, Totals, UsedLot, WeighSheet};
use serde_json::{Value, json};

/// Reads a document and gives its sheet. A part that cannot be computed is absent; `weigh_missing` says why.
///
/// # Errors
/// The first thing that is wrong with the document, with its path.
pub fn sheet_report(document: &str) -> Result<String, ReadProblem> {
    let mut shelf = Shelf::default();
    let document = read_document(document, &mut shelf)?;
    let open = OpenDocument::new(DocId::random(0), document, shelf.into(), Timestamp::default());
    let derived = open.derive();
    let formula = &open.state().formula;
    let mut report = json!({
        "format": "hundred-parts-sheet",
        "version": 1,
        "title": formula.about.title,
        "totals": totals(formula, &derived.sheet.totals),
        "findings": derived.findings.iter().map(|found| one_finding(formula, open.shelf(), found)).collect::<Vec<_>>(),
    });
    let ingredient = |id| ingredient(formula, id);
    let Sheet { ph, window, preservation, emulsion, .. } = &derived.sheet;
    report["ph"] = ph_report(ph.as_ref(), window, formula.about.target_ph.value(), &ingredient);
    if let Some(preservation) = preservation {
        report["preservation"] = preservation_report(preservation, &ingredient);
    }
    if let Some(emulsion) = emulsion {
        report["emulsion"] = emulsion_report(emulsion, &ingredient);
    }
    report["label"] = label(&derived.sheet.label);
    report["label"]["lots"] = lots(formula, &derived.sheet.composition.lots);
    report["rules_known_to"] = crate::rules::KNOWN_TO.into();
    if let Some(fats) = fats(formula, open.shelf(), &derived.sheet.fats) {
        report["fats"] = fats;
    }
    match &derived.sheet.lye {
        Some(Ok(found)) => report["lye"] = lye(formula, open.shelf(), found),
        Some(Err(why)) => {
            let name = why.line().and_then(|id| formula.line(id));
            let name = name.map(|line| choice_name(&line.choice, open.shelf())).unwrap_or_default();
            report["lye_missing"] = super::lye::no_lye(why, &name).into();
        }
        None => {}
    }
    match &derived.sheet.weigh {
        Ok(sheet) => report["weigh"] = weigh(formula, sheet),
        Err(why) => report["weigh_missing"] = no_sheet(why),
    }
    Ok(serde_json::to_string_pretty(&report).unwrap_or_default())
}

fn no_sheet(why: &NoSheet) -> Value {
    super::no_sheet(why).into()
}

/// The id of a line's ingredient, or the name that was typed.
fn ingredient(formula: &Formula, id: LineId) -> Value {
    match formula.line(id).map(|line| &line.choice) {
        Some(Choice::Known(id)) => id.as_str().into(),
        Some(Choice::Named(name)) => name.as_str().into(),
        None => Value::Null,
    }
}

fn totals(formula: &Formula, totals: &Totals) -> Value {
    let (short, over) = match totals.balance {
        Balance::Whole => (None, None),
        Balance::Short(by) => (Some(by.canonical()), None),
        Balance::Over(by) => (None, Some(by.canonical())),
    };
    let phases: Vec<Value> = formula
        .phases()
        .iter()
        .zip(&totals.phases)
        .map(|(phase, total)| json!({"name": phase.name, "kind": phase.kind.key(), "percent": total.share.canonical(), "complete": total.complete}))
        .collect();
    let mut value = json!({"percent": totals.total.canonical(), "complete": totals.complete(), "phases": phases});
    if let Some(short) = short {
        value["short"] = short.into();
    }
    if let Some(over) = over {
        value["over"] = over.into();
    }
    value
}

fn weigh(formula: &Formula, sheet: &WeighSheet) -> Value {
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

/// Absent if the formula has no fat and nothing that could be one.
fn fats(formula: &Formula, shelf: &Shelf, fats: &OilPhase) -> Option<Value> {
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
        .map(|(id, why)| json!({"ingredient": ingredient(formula, *id), "why": why.key(), "message": super::fats::why_uncounted(*why)}))
        .collect();
    let untold: Vec<Value> = fats
        .untold
        .iter()
        .map(|(id, unknown)| {
            let name = formula.line(*id).map(|line| choice_name(&line.choice, shelf)).unwrap_or_default();
            let message = super::fats::untold(&name, *unknown);
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
        value["outlook_message"] = super::oils::outlook(figures).into();
        match &figures.reckoned {
            Some(reckoned) => {
                value["mean_molar_mass"] = reckoned.mean_molar_mass.canonical().into();
                value["saponification_value_of_acids"] = reckoned.computed_sv.canonical().into();
                value["iodine_value_of_acids"] = reckoned.computed_iv.canonical().into();
                value["oxidation_index"] = reckoned.oxidizability.canonical().into();
                value["outlook"] = reckoned.outlook.key().into();
            }
            None => value["withheld"] = super::fats::acids_unknown(figures.unknown).into(),
        }
        value["methods"] = json!({
            "saponification_value": super::fats::SV_METHOD,
            "iodine_value": super::fats::IV_METHOD,
            "oxidation_index": super::fats::COX_METHOD,
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

fn lye(formula: &Formula, shelf: &Shelf, lye: &Lye) -> Value {
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
                value["label"] = super::lye::label(row).into();
                value["expected_ph"] = json!([row.ph.0.canonical(), row.ph.1.canonical()]);
                value["cure_days"] = json!([row.cure_days.0, row.cure_days.1]);
            }
            value
        })
        .collect();
    let paper = crate::paper::lye_paper(formula, lye, shelf);
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
                "message": super::lye::acid_row(row, crate::words::DecimalSign::Point),
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
        "notes": paper.notes.iter().map(|(note, name)| super::lye::note(note, name)).collect::<Vec<_>>(),
        "cautions": paper.cautions.iter().map(|caution| super::lye::caution(*caution)).collect::<Vec<_>>(),
    })
}

/// The lot of each raw material whose allergen statement counts.
fn lots(formula: &Formula, used: &[UsedLot]) -> Value {
    let one = |used: &UsedLot| {
        json!({
            "ingredient": ingredient(formula, used.line),
            "lot": used.name,
            "date": used.day.map_or(String::new(), Day::text),
            "chosen": used.chosen,
            "of": used.of,
            "stated": used.stated,
        })
    };
    used.iter().map(one).collect()
}

/// The label's list in order, and every allergen of the product with whether it must be named.
fn label(label: &Label) -> Value {
    let allergens: Vec<Value> = label
        .allergens
        .iter()
        .map(|sum| {
            json!({
                "name": sum.allergen.name,
                "percent": sum.share.canonical(),
                "threshold_percent": sum.threshold.canonical(),
                "named": sum.named,
                "source": sum.allergen.basis.source,
            })
        })
        .collect();
    json!({
        "ingredients": label.names(),
        "allergens": allergens,
        "missing": label.open.iter().map(super::label_open).collect::<Vec<_>>(),
    })
}

fn one_finding(formula: &Formula, shelf: &Shelf, found: &Finding) -> Value {
    let names: Vec<String> =
        found.lines.iter().filter_map(|id| formula.line(*id)).map(|line| choice_name(&line.choice, shelf)).collect();
    json!({
        "rule": found.rule,
        "grade": found.grade.key(),
        "lines": found.lines.iter().map(|id| ingredient(formula, *id)).collect::<Vec<_>>(),
        "value": found.value(),
        "limit": found.limit(),
        "source": found.source(),
        "verified": found.verified(),
        "verification": super::verification(found),
        "message": finding(found, &names),
    })
}
