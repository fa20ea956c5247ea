//! The record of a batch on paper, group by group, with its seal at the foot.

use super::{NO_ASSESSMENT, foot, table};
use crate::batch::{Check, Event, SealState};
use crate::facts::{IngredientId, mid_sentence};
use crate::paper::{Block, Paper, RecordFacts, RecordFills, RecordMaterial};
use crate::quantity::{Mass, MassUnit, Quantity, Timestamp};
use crate::words::clock::{Zone, moment, time_of_day, zone_name};
use crate::words::{DecimalSign, SheetStyle, course, grams, meter, record, with_unit};

/// Room to sign in.
const SIGNED: &str = "\u{a0}\n\u{a0}";

/// How a record is written: by which clock and sign, and with which names.
#[derive(Clone, Copy)]
pub struct RecordStyle<'a> {
    /// The clock where the maker is.
    pub zone: Zone,
    /// What acids and bases are called.
    pub name: &'a dyn Fn(&IngredientId) -> String,
    /// Sign between whole and fraction.
    pub sign: DecimalSign,
}

impl RecordStyle<'_> {
    fn grams(self, mass: Mass) -> String {
        grams(mass, self.sign)
    }

    fn moment(self, at: Timestamp) -> String {
        moment(at, self.zone)
    }
}

/// The record as a paper of its own.
pub fn record_paper(facts: &RecordFacts, style: RecordStyle<'_>) -> Paper {
    let title = format!("Batch record: {}", record::called(facts));
    // Groups are sections here; in the bundle they stand within one.
    let section = |block| match block {
        Block::Heading(level, text) => Block::Heading(level.saturating_sub(1).max(1), text),
        other => other,
    };
    let mut parts: Vec<Block> = record_blocks(facts, style).into_iter().map(section).collect();
    parts.push(table(&["Checked by", "Date", "Signature"], &[], vec![vec![SIGNED.to_owned(); 3]]));
    parts.push(Block::Text(NO_ASSESSMENT.to_owned()));
    let seal = facts.seals.last().map_or_else(String::new, |seal| format!(" \u{b7} seal {}", seal.short()));
    Paper { foot: foot(&format!("{}{seal}", record::called(facts))), title, parts }
}

/// Its groups, as they stand in the assessor's bundle too. The seal is the last.
pub(super) fn record_blocks(facts: &RecordFacts, style: RecordStyle<'_>) -> Vec<Block> {
    let mut parts = vec![head(facts, style)];
    let groups: [(&str, Vec<Block>); 10] = [
        ("Before the start", before(facts, style)),
        ("Materials", materials(facts, style)),
        ("Process log", log(facts, style)),
        ("In-process controls", controls(facts, style)),
        ("Deviations", deviations(facts, style)),
        ("Yield and reconciliation", reconciliation(facts, style)),
        ("Packing", packing(facts, style)),
        ("Decision and retained sample", decision(facts, style)),
        ("Remarks", remarks(facts, style)),
        ("Corrections", corrections(facts, style)),
    ];
    let mut empty = Vec::new();
    for (name, group) in groups {
        if group.is_empty() {
            empty.push(mid_sentence(name));
            continue;
        }
        parts.push(Block::Heading(2, name.to_owned()));
        parts.extend(group);
    }
    if !empty.is_empty() {
        parts.push(Block::Text(record::nothing_of(&empty.join(", "))));
    }
    parts.push(Block::Frame(seals(facts, style)));
    parts
}

/// Short lines; none where nothing of a group was recorded.
fn columns(rows: Vec<String>) -> Vec<Block> {
    match rows.as_slice() {
        [] => Vec::new(),
        [one] => vec![Block::Text(one.clone())],
        _ => vec![Block::Columns(rows)],
    }
}

fn head(facts: &RecordFacts, style: RecordStyle<'_>) -> Block {
    let or = |text: &str| if text.trim().is_empty() { record::NOT_STATED.to_owned() } else { text.to_owned() };
    let version = match facts.version {
        Some(version) => format!("version {version}"),
        None => "not saved as a version".to_owned(),
    };
    let mark = facts.mark.map_or_else(String::new, |mark| format!("{mark:08x}"));
    let mass = |mass: Option<Mass>| mass.map_or_else(|| record::NOT_STATED.to_owned(), |mass| style.grams(mass));
    let size = if facts.batch == facts.planned {
        mass(facts.planned)
    } else {
        format!("{}, changed to {}", mass(facts.planned), mass(facts.batch))
    };
    let rules = facts.rules_known_to.map_or_else(String::new, |day| day.text());
    let started = format!("{} ({})", style.moment(facts.began), zone_name(facts.began, style.zone));
    let rows = [
        ("Product", or(&facts.title)),
        ("Batch", or(&facts.code)),
        ("Formula", course::joined([version, mark])),
        ("Size", size),
        ("Started", started),
        ("Made by", or(&facts.maker)),
        ("Rules known to", or(&rules)),
        ("Status", record::status(facts)),
    ];
    let cells = rows.map(|(what, said)| vec![what.to_owned(), said]);
    let [a, b, c, d, e, f, g, h] = cells;
    let pair = |left: Vec<String>, right: Vec<String>| left.into_iter().chain(right).collect::<Vec<String>>();
    table(&["Item", "Stated", "Item", "Stated"], &[], vec![pair(a, b), pair(c, d), pair(e, f), pair(g, h)])
}

fn checks(facts: &RecordFacts, style: RecordStyle<'_>, wanted: impl Fn(Check) -> bool) -> Vec<String> {
    let checks = facts.checks.iter().filter(|(_, check, _)| wanted(*check));
    let row = |(at, check, found): &(Timestamp, Check, String)| {
        format!("{} {}: {found}", time_of_day(*at, style.zone), course::check(*check))
    };
    checks.map(row).collect()
}

const BEFORE: [Check; 2] = [Check::Clearance, Check::Scale];

fn before(facts: &RecordFacts, style: RecordStyle<'_>) -> Vec<Block> {
    columns(checks(facts, style, |check| BEFORE.contains(&check)))
}

fn materials(facts: &RecordFacts, style: RecordStyle<'_>) -> Vec<Block> {
    if facts.materials.is_empty() {
        return vec![Block::Text(record::NOT_KEPT.to_owned())];
    }
    let sheet = SheetStyle { unit: MassUnit::Gram, sign: style.sign, step: facts.step.unwrap_or(Mass::from_units(1)) };
    let rows = facts.materials.iter().map(|one| material(one, sheet));
    let head = ["Ingredient", "To weigh, g", "Weighed, g", "Difference, g", "Found", "Lot"];
    vec![table(&head, &[1, 2, 3], rows.collect())]
}

fn material(one: &RecordMaterial, sheet: SheetStyle) -> Vec<String> {
    let inci = if one.inci.is_empty() || one.inci == one.name { String::new() } else { format!("\n{}", one.inci) };
    let difference = one.difference().map_or_else(String::new, |off| {
        let plus = if off > Mass::ZERO { "+" } else { "" };
        format!("{plus}{}{}", sheet.figure(off), if one.off { "\noff" } else { "" })
    });
    let expired = if one.expired { record::EXPIRED } else { "" };
    let good = one.expiry.map_or_else(String::new, |day| format!("good until {day}{expired}"));
    vec![
        format!("{}{inci}", one.name),
        sheet.figure(one.target),
        one.weighed.map_or_else(|| record::NOT_WEIGHED.to_owned(), |mass| sheet.figure(mass)),
        difference,
        one.source.map_or_else(String::new, |source| course::source_of(source).to_owned()),
        course::joined([one.lot.clone(), good]),
    ]
}

fn log(facts: &RecordFacts, style: RecordStyle<'_>) -> Vec<Block> {
    let row = |one: &crate::paper::CourseEntry| {
        let (what, more) = course::entry(one, facts, style.name, style.sign);
        let struck = if one.struck.is_some() { record::CROSSED_OUT } else { "" };
        let after = if one.after_seal { course::AFTER_SEAL } else { "" };
        let more = course::joined([more, struck.to_owned(), after.to_owned()]);
        vec![time_of_day(one.at, style.zone), what, more]
    };
    let seal = |one: &&crate::paper::CourseEntry| !matches!(one.event, Event::Sealed { .. });
    vec![table(&["Time", "What", "Details"], &[], facts.course.iter().filter(seal).map(row).collect())]
}

fn controls(facts: &RecordFacts, style: RecordStyle<'_>) -> Vec<Block> {
    let target =
        facts.target_ph.map(|target| format!("pH to be reached: {}", with_unit(target, "", style.sign).trim()));
    let ph = facts.ph.iter().map(|(at, ph, counted)| {
        format!("{} {}", time_of_day(*at, style.zone), meter::reading(*ph, *counted, style.sign))
    });
    let looked = checks(facts, style, |check| !BEFORE.contains(&check) && check != Check::CodeOnPack);
    columns(target.into_iter().chain(ph).chain(looked).collect())
}

fn deviations(facts: &RecordFacts, style: RecordStyle<'_>) -> Vec<Block> {
    let row = |(at, event): &(Timestamp, Event)| {
        let (what, more) = course::told(event, facts, style.sign);
        format!("{} {}", time_of_day(*at, style.zone), course::joined([what, more]))
    };
    columns(facts.deviations.iter().map(row).collect())
}

fn reconciliation(facts: &RecordFacts, style: RecordStyle<'_>) -> Vec<Block> {
    let Some((flows, found)) = &facts.flows else { return Vec::new() };
    let share = |of: Mass| record::share_of(of, found.theoretical, style.sign);
    let row = |what: &str, mass: Mass, share: String| vec![what.to_owned(), style.grams(mass), share];
    let out = |(what, mass): (&str, Mass)| (mass != Mass::ZERO).then(|| row(what, mass, share(mass)));
    let into =
        [("Weighed", flows.weighed), ("Added later", flows.added), ("Boiled off", Mass::ZERO.minus(flows.evaporated))];
    let mut rows: Vec<Vec<String>> = into
        .into_iter()
        .filter(|(_, mass)| *mass != Mass::ZERO)
        .map(|(what, mass)| row(what, mass, String::new()))
        .collect();
    rows.push(row("Theoretical", found.theoretical, share(found.theoretical)));
    rows.push(row("Filled (yield)", flows.filled, share(flows.filled)));
    let others = [("Retained", flows.retained), ("Samples", flows.sampled), ("Taken out", flows.split_off)];
    rows.extend(others.into_iter().filter_map(out));
    rows.extend(flows.losses.iter().map(|loss| row(&loss.what, loss.mass, share(loss.mass))));
    rows.push(row("Accounted for", found.accounted, share(found.accounted)));
    rows.push(row("Not accounted for", found.unaccounted, share(found.unaccounted)));
    vec![beside(rows)]
}

/// The rows of the reconciliation in two columns, so that they take half of the height.
fn beside(rows: Vec<Vec<String>>) -> Block {
    let half = rows.len().div_ceil(2);
    let (left, right) = rows.split_at(half);
    let none = vec![String::new(); 3];
    let pair = |(n, row): (usize, &Vec<String>)| [row.as_slice(), right.get(n).unwrap_or(&none)].concat();
    let head = ["What", "Mass", "Of the theoretical"];
    table(&[head, head].concat(), &[1, 2, 4, 5], left.iter().enumerate().map(pair).collect())
}

fn packing(facts: &RecordFacts, style: RecordStyle<'_>) -> Vec<Block> {
    let code = checks(facts, style, |check| check == Check::CodeOnPack);
    let Some(fills) = &facts.fills else { return columns(code) };
    let mut parts = vec![Block::Text(record::fills_text(fills, style.sign))];
    parts.extend(fill_rows(fills, style));
    parts.extend(code.into_iter().map(Block::Text));
    parts
}

/// Each pack in the order of filling, ten in a row.
fn fill_rows(fills: &RecordFills, style: RecordStyle<'_>) -> Vec<Block> {
    let figure = |mass: &Mass| {
        let low = fills.bounds.is_some_and(|bounds| *mass < bounds.few);
        let text = style.grams(*mass).replace("\u{202f}g", "");
        if low { format!("{text}\u{a0}!") } else { text }
    };
    let rows = fills.fills.chunks(10).map(|ten| ten.iter().map(figure).collect::<Vec<_>>().join("  "));
    let rows: Vec<String> = rows.collect();
    vec![Block::Text(format!("Each pack in order, g: {}", rows.join("  ")))]
}

fn decision(facts: &RecordFacts, style: RecordStyle<'_>) -> Vec<Block> {
    let mut lines = Vec::new();
    match (&facts.decision, &facts.abandoned) {
        (_, Some(reason)) => lines.push(format!("Given up: {reason}")),
        (Some(made), None) => lines.push(course::joined([
            course::decision(made.decision).to_owned(),
            style.moment(made.at),
            if made.by.is_empty() { String::new() } else { format!("decided by {}", made.by) },
            made.remark.clone(),
        ])),
        (None, None) => lines.push(record::UNDECIDED.to_owned()),
    }
    let retained = facts.retained.iter().map(|(what, mass)| {
        let mass = if *mass > Mass::ZERO { style.grams(*mass) } else { String::new() };
        format!("Retained sample: {}", course::joined([what.clone(), mass]))
    });
    lines.extend(retained);
    if facts.retained.is_empty() {
        lines.push(record::NO_SAMPLE.to_owned());
    }
    columns(lines)
}

fn remarks(facts: &RecordFacts, style: RecordStyle<'_>) -> Vec<Block> {
    columns(facts.remarks.iter().map(|(at, text)| format!("{} {text}", time_of_day(*at, style.zone))).collect())
}

fn corrections(facts: &RecordFacts, style: RecordStyle<'_>) -> Vec<Block> {
    let row = |(one, why): (&crate::paper::CourseEntry, &str)| {
        let (what, more) = course::entry(one, facts, style.name, style.sign);
        let why = if why.is_empty() { record::NOT_STATED } else { why };
        vec![time_of_day(one.at, style.zone), course::joined([what, more]), why.to_owned()]
    };
    let rows: Vec<Vec<String>> = facts.struck().map(row).collect();
    if rows.is_empty() { Vec::new() } else { vec![table(&["Time", "Crossed out", "Why"], &[], rows)] }
}

fn seals(facts: &RecordFacts, style: RecordStyle<'_>) -> Vec<Block> {
    if facts.seals.is_empty() {
        return vec![Block::Text(record::NOT_SEALED.to_owned())];
    }
    let mut parts: Vec<Block> = Vec::new();
    for seal in &facts.seals {
        parts.push(Block::Text(record::seal_text(seal, style.zone)));
        parts.push(Block::Text(format!("SHA-256 {}", seal.digest)));
        if seal.state == SealState::Changed {
            parts.push(Block::Text(record::SEAL_BROKEN.to_owned()));
        }
    }
    if facts.after_seals > 0 {
        parts.push(Block::Text(record::after_seal(facts.after_seals)));
    }
    parts
}
