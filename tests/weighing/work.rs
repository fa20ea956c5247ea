//! Documents and the sheets that come of them.

use hundred_parts::words::sheet_report;
use serde_json::Value;

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

pub(crate) fn report(document: &str) -> Value {
    serde_json::from_str(&sheet_report(document).unwrap_or_else(|problem| panic!("{problem}"))).unwrap()
}
