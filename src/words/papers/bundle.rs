//! The assessor's bundle: one document with its contents, its sections, and what is missing from it.

use super::checked::checked_whole;
use super::label::{labels, missing};
use super::open_points::open_points;
use super::{NO_ASSESSMENT, UNVERIFIED, answered, degrees, foot, region, table, table_with_codes};
use crate::facts::Alkali;
use crate::formula::{NewStep, PaperField};
use crate::paper::{Block, BundleFacts, BundleFinding, BundleLye, LabelFacts, Paper};
use crate::quantity::{Mass, Percent, Quantity};
use crate::rules::Grade;
use crate::sheet::Trust;
use crate::words::{DecimalSign, finding, known_to, lot, lye, method as steps, page, verification};

fn share(percent: Percent) -> String {
    percent.canonical()
}

/// The assessor's bundle, with the steps by which the product is made.
pub fn bundle_paper(facts: &BundleFacts, steps: &[NewStep]) -> Paper {
    bundle_with_record(facts, steps, Vec::new())
}

/// The same with what is told of the record of a batch, where there is one.
pub(super) fn bundle_with_record(facts: &BundleFacts, steps: &[NewStep], record: Vec<Block>) -> Paper {
    let mut sections: Vec<(&str, Vec<Block>)> = vec![
        ("Product", product(facts)),
        ("Formula by INCI name", vec![formula_table(facts)]),
        ("Checked against the annexes", checked_whole(&facts.checked)),
        ("Raw materials and documents", vec![material_table(facts)]),
        (METHOD, method(facts, steps)),
        ("Specification", specification(facts)),
        ("Preservation", state(facts, PaperField::ChallengeTest, "No challenge test (ISO 11930) is entered.")),
        ("Label", label_section(&facts.label)),
        ("Findings and answers", findings(facts)),
        ("Progress", readiness(facts)),
        ("Not in this bundle", not_here(facts)),
    ];
    if !record.is_empty() {
        let method = sections.iter().position(|(head, _)| *head == METHOD).map_or(0, |place| place + 1);
        sections.insert(method, ("Batch record", record));
    }
    let mut parts = vec![
        Block::Text(NO_ASSESSMENT.to_owned()),
        Block::Text(format!("{} {UNVERIFIED}", known_to())),
        Block::Contents(sections.iter().map(|(head, _)| (*head).to_owned()).collect()),
        Block::NewPage,
    ];
    for (head, section) in sections {
        parts.push(Block::Heading(1, head.to_owned()));
        parts.extend(section);
    }
    Paper { title: format!("Assessor\u{2019}s bundle: {}", facts.about.title), foot: foot(&facts.about.title), parts }
}

const METHOD: &str = "Method";

/// What the bundle says of records of batches: where there is none, and where there is that of the last one.
const NO_RECORD: &str = "Batch records: none was kept here. Add the records of the batches that were made.";
const ONE_RECORD: &str =
    "Batch records: that of the last batch is in this bundle. Print those of the batches before it under Batch.";

/// Sections whose room this program does not have yet.
const NOT_HERE: [&str; 2] = [
    "Stability test: no observations are kept here so far. Add the plan and its results.",
    "The suppliers\u{2019} documents themselves: add those that are named under raw materials.",
];

fn not_here(facts: &BundleFacts) -> Vec<Block> {
    let record = if facts.record.is_some() { ONE_RECORD } else { NO_RECORD };
    let mut parts = vec![Block::List([record].into_iter().chain(NOT_HERE).map(str::to_owned).collect())];
    parts.extend(open_points(facts));
    parts
}

fn product(facts: &BundleFacts) -> Vec<Block> {
    let about = &facts.about;
    let mut rows = vec![
        vec!["Name".to_owned(), about.title.clone()],
        vec!["For".to_owned(), page::audience(about.audience).to_owned()],
        vec!["Use".to_owned(), format!("{}, {}", page::purpose(about.purpose), page::area(about.area))],
        vec!["Pack".to_owned(), page::pack(about.pack).to_owned()],
        vec!["Region".to_owned(), region(about.region).to_owned()],
    ];
    if !about.notes.trim().is_empty() {
        rows.push(vec!["Notes".to_owned(), about.notes.clone()]);
    }
    vec![table(&["Item", "Stated"], &[], rows)]
}

/// The numbers of a substance in one register.
fn numbers(all: &[&str]) -> String {
    if all.is_empty() { "not known here".to_owned() } else { all.join("\n") }
}

fn formula_table(facts: &BundleFacts) -> Block {
    let known = |trust: Trust| match trust {
        Trust::Plain => "as weighed",
        Trust::Maker => "supplier\u{2019}s document",
        Trust::Table => "usual range (unverified)",
        Trust::Open => "percentage not known",
    };
    let rows = facts.substances.iter().map(|one| {
        vec![
            one.name.clone(),
            numbers(&one.numbers.cas),
            numbers(&one.numbers.ec),
            share(one.range.0),
            share(one.range.1),
            if one.inside { "part of a fragrance or oil".to_owned() } else { one.functions.clone() },
            known(one.trust).to_owned(),
        ]
    });
    let head = ["INCI name", "CAS", "EC", "From, %", "To, %", "Functions of its raw material", "Known from"];
    table_with_codes(&head, &[3, 4], &[1, 2], rows.collect())
}

fn material_table(facts: &BundleFacts) -> Block {
    let text = |text: &Option<String>| text.clone().unwrap_or_else(|| "none named".to_owned());
    let rows = facts.materials.iter().map(|one| {
        let own: Vec<&str> = one.overridden.iter().map(|field| page::field(*field)).collect();
        vec![
            one.name.clone(),
            one.share.map_or_else(String::new, share),
            text(&one.document),
            match &one.stated {
                Some(used) => lot(used),
                None => one.lot.clone().unwrap_or_else(|| "\u{2013}".to_owned()),
            },
            own.join(", "),
        ]
    });
    let rows = rows.chain(facts.lye.iter().flat_map(lye_rows));
    table(&["Raw material", "%", "Documents", "Lot", "Values changed by the maker"], &[1], rows.collect())
}

/// The lye is weighed beside the formula, so it has a mass and no share.
fn lye_rows(made: &BundleLye) -> Vec<Vec<String>> {
    let row = |what: String| vec![what, String::new(), "none named".to_owned(), "\u{2013}".to_owned(), String::new()];
    if made.alkalis.is_empty() {
        return vec![row("Lye: it could not be calculated".to_owned())];
    }
    let grams = |mass: Mass| format!("{}\u{202f}g", mass.canonical());
    let batch = grams(made.batch);
    let alkali = |(which, mass): &(Alkali, Mass)| {
        row(format!("{} for the lye: {} to {batch} of the formula", lye::alkali(*which), grams(*mass)))
    };
    let water = format!(
        "Water for the lye: {} to {batch} of the formula, including the water already in it",
        grams(made.water)
    );
    made.alkalis.iter().map(alkali).chain([row(water)]).collect()
}

/// The steps, then the lines by phase with the maker's remarks.
fn method(facts: &BundleFacts, made_by: &[NewStep]) -> Vec<Block> {
    let row = |(n, step): (usize, &NewStep)| {
        let figures = steps::figures(step, DecimalSign::Point);
        vec![(n + 1).to_string(), steps::kind(step.kind).to_owned(), step.text.clone(), figures, step.why.clone()]
    };
    let rows: Vec<Vec<String>> = made_by.iter().enumerate().map(row).collect();
    let mut parts = Vec::new();
    if !rows.is_empty() {
        parts.push(table(&["No.", "Step", "What to do", "Temperature, time, stirring", "Why"], &[], rows));
    }
    for step in &facts.steps {
        let heat = step.heat.map_or_else(String::new, |heat| format!(", {}", degrees(heat)));
        parts.push(Block::Heading(2, format!("{}{heat}", step.phase)));
        let line =
            |(name, note): &(String, String)| if note.is_empty() { name.clone() } else { format!("{name}: {note}") };
        parts.push(Block::List(step.lines.iter().map(line).collect()));
    }
    parts
}

fn specification(facts: &BundleFacts) -> Vec<Block> {
    let ph = facts
        .about
        .target_ph
        .value()
        .map_or_else(|| "not stated".to_owned(), |ph| format!("{} (target)", ph.canonical()));
    let water = facts.water_activity.clone().unwrap_or_else(|| "not measured".to_owned());
    vec![
        table(&["Item", "Stated"], &[], vec![vec!["pH".to_owned(), ph], vec!["Water activity".to_owned(), water]]),
        Block::Text("Appearance, odour, viscosity and microbial limits are not kept here so far.".to_owned()),
    ]
}

fn state(facts: &BundleFacts, field: PaperField, none: &str) -> Vec<Block> {
    let text = facts.state.iter().find(|(at, _)| *at == field).and_then(|(_, text)| text.clone());
    vec![Block::Text(text.unwrap_or_else(|| none.to_owned()))]
}

fn label_section(facts: &LabelFacts) -> Vec<Block> {
    let format = crate::paper::LABEL_FORMATS[4];
    let (labels, leaflet) = labels(facts, format);
    let mut parts: Vec<Block> = labels
        .lines
        .into_iter()
        .map(|line| Block::Text(line.text))
        .chain(leaflet.into_iter().map(Block::Text))
        .collect();
    parts = vec![Block::Frame(parts)];
    parts.extend(missing(&facts.gaps));
    parts
}

fn findings(facts: &BundleFacts) -> Vec<Block> {
    let row = |one: &BundleFinding| {
        let mut text = finding(&one.finding, &one.names, DecimalSign::Point);
        if let Some(answer) = &one.answer {
            text += &format!(" {}", answered(answer));
        } else if one.lapsed {
            text += " There is an answer, but it is incomplete or was given for another value.";
        }
        let source = format!("{}. {}", one.finding.source().trim_end_matches('.'), verification(&one.finding));
        vec![page::grade(one.finding.grade).to_owned(), text, source]
    };
    let mut parts = vec![table(&["Grade", "Finding", "Source"], &[], facts.findings.iter().map(row).collect())];
    parts.push(Block::Text(format!("{} more checks found no problem.", facts.fine)));
    parts
}

/// How far things are, without a verdict.
fn readiness(facts: &BundleFacts) -> Vec<Block> {
    let said = |field: PaperField, none: &str| {
        let text = facts.state.iter().find(|(at, _)| *at == field).and_then(|(_, text)| text.clone());
        text.unwrap_or_else(|| none.to_owned())
    };
    let named = facts.materials.iter().filter(|one| one.document.is_some()).count();
    let stops = facts.findings.iter().filter(|one| one.finding.grade == Grade::Stop);
    let open = stops.clone().filter(|one| one.answer.is_none()).count();
    let rows = [
        ("Assessment", said(PaperField::Assessor, "not assessed")),
        ("Challenge test", said(PaperField::ChallengeTest, "none entered")),
        ("Stability", said(PaperField::Stability, "none entered")),
        ("Notification", said(PaperField::Notified, "none entered")),
        ("Documents of raw materials", format!("{named} of {} named", facts.materials.len())),
        ("Stops", format!("{} found, {open} without an answer", stops.count())),
        ("Label", format!("items missing: {}", facts.label.gaps.len())),
    ];
    vec![
        table(&["Item", "Progress"], &[], rows.into_iter().map(|(what, far)| vec![what.to_owned(), far]).collect()),
        Block::Text("This list shows progress. It does not say that the product may be sold.".to_owned()),
    ]
}
