//! The computed sheet of a document as one JSON object: what `cargo task sheet` prints.

use super::chemistry::{emulsion_report, ph_report, preservation_report};
use super::findings::finding;
use crate::desk::{Bench, DocId, Moment, ReadProblem, read_document};
use crate::facts::Shelf;
use crate::formula::{Choice, Formula, LineId};
use crate::quantity::Quantity;
use crate::rules::Finding;
use crate::sheet::{Balance, Label, NoSheet, Sheet, Totals, WeighSheet};
use serde_json::{Value, json};

/// Reads a document and gives its sheet. A part that cannot be computed is absent; `weigh_missing` says why.
///
/// # Errors
/// The first thing that is wrong with the document, with its path.
pub fn sheet_report(document: &str) -> Result<String, ReadProblem> {
    let mut shelf = Shelf::default();
    let document = read_document(document, &mut shelf)?;
    let bench = Bench::new(DocId::random(0), document, shelf.into(), Moment::default());
    let derived = bench.derive();
    let formula = &bench.state().formula;
    let mut report = json!({
        "format": "hundred-parts-sheet",
        "version": 1,
        "title": formula.about.title,
        "totals": totals(formula, &derived.sheet.totals),
        "findings": derived.findings.iter().map(|found| one_finding(formula, bench.shelf(), found)).collect::<Vec<_>>(),
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
    report["rules_known_to"] = crate::rules::KNOWN_TO.into();
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
            json!({
                "ingredient": ingredient(formula, line.line),
                "phase": formula.phase(line.phase).map(|phase| phase.name.as_str()),
                "percent": line.share.canonical(),
                "mass_g": line.mass.canonical(),
                "rounding_error_percent": line.error.canonical(),
                "on_the_scale_g": sheet.line_on_the_scale(line.line).canonical(),
            })
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
        "largest_rounding_error_percent": sheet.worst.and_then(|id| sheet.line(id)).map_or("0".to_owned(), |line| line.error.canonical()),
        "lines": lines,
        "premixes": premixes,
    })
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
    let names: Vec<String> = found
        .lines
        .iter()
        .filter_map(|id| formula.line(*id))
        .map(|line| crate::paper::line_name(&line.choice, shelf))
        .collect();
    json!({
        "rule": found.rule,
        "grade": found.grade.key(),
        "lines": found.lines.iter().map(|id| ingredient(formula, *id)).collect::<Vec<_>>(),
        "value": found.value(),
        "limit": found.limit(),
        "source": found.source(),
        "verified": found.verified(),
        "message": finding(found, &names),
    })
}
