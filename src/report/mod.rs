//! The computed sheet of a document as one JSON object, an export format: what `cargo task sheet` prints.
//!
//! Its keys keep their meaning for ever. Sentences in it are those of the page, from `words`.

mod chemistry;
mod fats;
mod label;
mod lye;
mod names;
mod record;
mod weigh;

pub use names::name_report;
pub use record::made_from;

use crate::desk::{DocId, OpenDocument, ReadProblem, read_document};
use crate::formula::{Choice, Formula, LineId};
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
    match &derived.sheet.lye {
        Some(Ok(found)) => report["lye"] = lye::lye(formula, open.shelf(), found),
        Some(Err(why)) => {
            report["lye_missing"] = words::lye::no_lye_of(why, formula, open.shelf(), words::DecimalSign::Point).into();
        }
        None => {}
    }
    match &derived.sheet.weigh {
        Ok(sheet) => report["weigh"] = weigh::weigh(formula, sheet),
        Err(why) => report["weigh_missing"] = words::no_sheet(why, words::DecimalSign::Point).into(),
    }
    Ok(serde_json::to_string_pretty(&report).unwrap_or_default())
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
