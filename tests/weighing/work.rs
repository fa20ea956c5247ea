//! Documents and the sheets that come of them.

use hundred_parts::desk::read_document;
use hundred_parts::formula::Formula;
use hundred_parts::quantity::{Percent, Quantity};
use hundred_parts::report::sheet_report;
use hundred_parts::rules::{self, Fact, Finding};
use hundred_parts::sheet::{LyePlan, Sheet, WeighSheet, compute};
use hundred_parts::shelf::Shelf;
use serde_json::Value;

/// A formula with the sheet and the findings of one batch.
pub(crate) struct Worked {
    pub(crate) formula: Formula,
    pub(crate) sheet: Sheet,
    pub(crate) findings: Vec<Finding>,
    pub(crate) shelf: Shelf,
}

/// A document: phases as `(kind, lines)`, a line as `id share`; the batch as JSON.
pub(crate) fn document(phases: &[(&str, Vec<String>)], batch: &str) -> String {
    let line = |line: &String| {
        let (id, share) = line.split_once(' ').unwrap();
        format!(r#"{{"ingredient":"{id}","percent":"{share}"}}"#)
    };
    let phase = |(kind, lines): &(&str, Vec<String>)| {
        let lines: Vec<String> = lines.iter().map(line).collect();
        format!(r#"{{"name":"{kind}","kind":"{kind}","lines":[{}]}}"#, lines.join(","))
    };
    let phases: Vec<String> = phases.iter().map(phase).collect();
    format!(
        r#"{{"format":"hundred-parts","version":1,"formula":{{"title":"T","use":"leave-on","area":"body","target_ph":"5","phases":[{}]}},"batch":{batch}}}"#,
        phases.join(",")
    )
}

pub(crate) fn one_phase(lines: &[&str]) -> Vec<(&'static str, Vec<String>)> {
    vec![("water", lines.iter().map(|line| (*line).to_owned()).collect())]
}

pub(crate) fn work(document: &str) -> Worked {
    let mut shelf = Shelf::default();
    let read = read_document(document, &mut shelf).unwrap_or_else(|problem| panic!("{problem}: {document}"));
    let formula = read.state.formula;
    let sheet = compute(&formula, &read.state.plan, &LyePlan::default(), &shelf);
    let findings = rules::check(&formula, &sheet, &shelf);
    Worked { formula, sheet, findings, shelf }
}

pub(crate) fn report(document: &str) -> Value {
    serde_json::from_str(&sheet_report(document).unwrap_or_else(|problem| panic!("{problem}"))).unwrap()
}

impl Worked {
    pub(crate) fn weighed(&self) -> &WeighSheet {
        self.sheet.weigh.as_ref().unwrap_or_else(|why| panic!("{why:?}"))
    }

    pub(crate) fn id(&self, line: hundred_parts::formula::LineId) -> &str {
        self.formula.line(line).unwrap().choice.id().unwrap().as_str()
    }

    pub(crate) fn find(&self, said: &str) -> Option<&Finding> {
        self.findings.iter().find(|finding| key(finding) == said)
    }
}

pub(crate) fn key(finding: &Finding) -> &'static str {
    match &finding.fact {
        Fact::Message(said) => said.key(),
        _ => finding.rule,
    }
}

pub(crate) fn percent(text: &str) -> Percent {
    Percent::from_canonical(text).unwrap()
}
