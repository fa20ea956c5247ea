//! The computed sheet of a document as one JSON object, an export format: what `cargo task sheet` prints.
//!
//! Its keys keep their meaning for ever. Sentences in it are those of the page, from `words`.

mod batch;
mod chemistry;
mod cost;
mod fats;
mod label;
mod lots;
mod lye;
mod names;
mod record;
mod record_method;
mod swap;
mod weigh;
mod weighed_on_sheet;

pub use lots::{lot_at_hand, lot_keeps_until, lots_of, lots_to_choose};
pub use names::name_report;
pub use record::made_from;
pub use weighed_on_sheet::{SheetLine, lines_on_sheet};

use crate::desk::{DocId, OpenDocument, ReadProblem, read_document};
use crate::formula::{Choice, Formula, LineId, MethodStep, StepField};
use crate::quantity::{Quantity, Timestamp};
use crate::rules::Finding;
use crate::sheet::{Balance, Sheet, Totals};
use crate::shelf::Shelf;
use crate::words::{self, choice_name};
use serde_json::{Value, json};

/// Reads a document and gives its sheet. A part that cannot be computed is absent; `weigh_missing` says why.
///
/// # Errors
/// The first thing that is wrong with the document, with its path.
pub fn sheet_report(document: &str) -> Result<String, ReadProblem> {
    let mut shelf = Shelf::default();
    let asked: Value = serde_json::from_str(document).unwrap_or_default();
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
    report["ph"] = chemistry::ph(ph.as_ref(), window, formula.about.target_ph.value(), &ingredient);
    if let Some(preservation) = preservation {
        report["preservation"] = chemistry::preservation(preservation, &ingredient);
    }
    if let Some(emulsion) = emulsion {
        report["emulsion"] = chemistry::emulsion(emulsion, &ingredient);
    }
    report["label"] = label::label(&derived.sheet.label);
    report["label"]["lots"] = label::lots(formula, &derived.sheet.composition.lots);
    report["rules_known_to"] = crate::rules::KNOWN_TO.text().into();
    if let Some(fats) = fats::fats(formula, open.shelf(), &derived.sheet.fats) {
        report["fats"] = fats;
    }
    if !formula.method().is_empty() {
        report["method"] = method(formula);
    }
    match &derived.sheet.lye {
        Some(Ok(found)) => report["lye"] = lye::lye(formula, open.shelf(), found),
        Some(Err(why)) => {
            report["lye_missing"] = words::lye::no_lye_of(why, formula, open.shelf(), words::DecimalSign::Point).into();
        }
        None => {}
    }
    if let Some(swap) = swap::answer(&asked, open.shelf())? {
        report["swap"] = swap;
    }
    if let Some(batch) = batch::batch(&open) {
        report["batch"] = batch;
    }
    match &derived.sheet.weigh {
        Ok(sheet) => {
            report["weigh"] = weigh::weigh(formula, sheet);
            let makes_lye = derived.sheet.lye.is_some();
            if let Some(found) = crate::sheet::cost(formula, sheet, &open.state().plan, open.shelf(), makes_lye) {
                report["cost"] = cost::cost(formula, &found);
            }
        }
        Err(why) => report["weigh_missing"] = words::no_sheet(why, words::DecimalSign::Point).into(),
    }
    Ok(serde_json::to_string_pretty(&report).unwrap_or_default())
}

/// The maker's own method. The first one follows from the rest of the document, in words that another release may better:
/// it is left out, so that a sheet changes only where its formula does.
fn method(formula: &Formula) -> Value {
    let step = |(step, lines): (&MethodStep, Vec<LineId>)| {
        let mut value = json!({"kind": step.kind.key(), "text": step.text});
        for field in [StepField::Why, StepField::Stirring] {
            if !step.field(field).is_empty() {
                value[field.key()] = step.field(field).into();
            }
        }
        if let Some(heat) = step.celsius() {
            value[StepField::Temperature.key()] = heat.canonical().into();
        }
        if let Some(minutes) = step.lasts() {
            value[StepField::Minutes.key()] = minutes.canonical().into();
        }
        if !lines.is_empty() {
            value["lines"] = lines.into_iter().map(|id| ingredient(formula, id)).collect();
        }
        value
    };
    formula.method().iter().zip(formula.lines_of_steps()).map(step).collect()
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
        "verification": words::verification(found),
        "message": words::finding(found, &names, words::DecimalSign::Point),
    })
}
