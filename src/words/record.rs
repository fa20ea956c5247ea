//! What is said of the record of a batch: its title, how it stands, its yield, its packs and its seal.
#![allow(missing_docs, reason = "each constant is its own text")]

use super::clock::{Zone, day, moment};
use super::{DecimalSign, course, grams, page};
use crate::batch::{Event, Seal, SealState};
use crate::paper::{RecordFacts, RecordFills};
use crate::quantity::{Mass, Percent, Quantity, mul_div_nearest};

pub const NOT_STATED: &str = "not stated";
pub const NOT_KEPT: &str = "What it was made from was not kept.";
pub const NOT_WEIGHED: &str = "not weighed";
pub const CROSSED_OUT: &str = "crossed out";
pub const EXPIRED: &str = ", which had passed";
pub const UNDECIDED: &str = "Not decided yet.";
pub const NO_SAMPLE: &str = "No sample is kept.";
pub const NOT_SEALED: &str = "Not sealed: entries can still be added. A seal shows later whether anything was changed.";
pub const SEAL_BROKEN: &str = "This seal does not hold: an entry, or what the batch was made from, was changed, removed or moved after it. Compare with a printed record or an older export.";
pub const IN_THE_MAKING: &str = "In the making";
pub const GIVEN_UP: &str = "Given up";
pub const NO_RECORD: &str = "No batch of this formula has been started, so there is no record.";
pub const RECORD_CLOSED: &str = "The record of this batch is not open here. Open it under Batch first.";

/// Batches and their lists.
pub const BATCHES: &str = "Batches";
pub const RECORD: &str = "Record";
pub const SEARCH: &str = "Find a batch: code, title, day or lot";
pub const NO_BATCHES: &str =
    "No batch has been started yet. Its record begins at the stove, or with the setting of its pH.";
pub const NO_BATCH_FOUND: &str = "No batch has that in its code, its title, its day or its lots.";
pub const READING_LOTS: &str = "Looking through the lots\u{2026}";
pub const COURSE: &str = "What happened";
pub const YIELD: &str = "Yield";
pub const FILL_WEIGHTS: &str = "Fill weights";
pub const FROM_LOTS: &str = "From lots";
pub const NO_LOTS: &str = "No lots were recorded.";
pub const SEAL: &str = "Seal";
pub const CLOSE_AND_SEAL: &str = "Close and seal";
pub const SEAL_AGAIN: &str = "Seal again";
pub const SEALED_TOAST: &str = "Record sealed. A correction is still possible: it stands after the seal.";
pub const PRINT_RECORD: &str = "Print record";
pub const CORRECT: &str = "Correct an entry";
pub const DONE_CORRECTING: &str = "Done correcting";
pub const CORRECT_HINT: &str =
    "An entry is never changed. Cross it out with a reason, then record what is right; both stay readable.";
pub const BACK_TO_LIST: &str = "All batches";
pub const ONLY_TO_READ: &str = "The formula of this batch is not open, so the record can only be read here.";
pub const RECORD_GONE: &str = "That record is not in this browser any more.";
pub const CORRECT_THIS: &str = "Correct";
pub const RIGHT_FIGURE: &str = "The right figure";
pub const CROSS_OUT_AND_RECORD: &str = "Cross out and record this";
pub const ONLY_CROSS_OUT: &str = "Only cross out";
pub const PUT_RIGHT: &str = "The old entry is crossed out, and the right one is recorded.";

/// The groups of which nothing was recorded.
pub fn nothing_of(groups: &str) -> String {
    format!("Nothing was recorded under: {groups}.")
}

/// What a batch is called: its code and what was made.
pub fn called(facts: &RecordFacts) -> String {
    title(&facts.code, &facts.title)
}

/// A code and a title, as a list shows them.
pub fn title(code: &str, title: &str) -> String {
    let title = if title.trim().is_empty() { page::UNTITLED } else { title.trim() };
    if code.trim().is_empty() { title.to_owned() } else { format!("{} \u{b7} {title}", code.trim()) }
}

/// How it stands.
pub fn status(facts: &RecordFacts) -> String {
    match (&facts.abandoned, &facts.decision) {
        (Some(_), _) => GIVEN_UP.to_owned(),
        (None, Some(made)) => course::decision(made.decision).to_owned(),
        (None, None) => IN_THE_MAKING.to_owned(),
    }
}

/// The line under its title.
pub fn subtitle(facts: &RecordFacts, zone: Zone) -> String {
    let version = facts.version.map_or_else(String::new, |version| format!("version {version}"));
    let made = format!("started {}", day(facts.began, zone));
    let maker = if facts.maker.is_empty() { String::new() } else { format!("by {}", facts.maker) };
    course::joined([made, maker, version])
}

/// A part of a mass, to a tenth of a percent; empty of nothing.
pub fn share_of(part: Mass, whole: Mass, sign: DecimalSign) -> String {
    if whole <= Mass::ZERO {
        return String::new();
    }
    let share = mul_div_nearest(part.units(), Percent::WHOLE.units(), whole.units());
    course::tenth(Percent::from_units(share), sign)
}

/// The yield as a figure and what it is of; nothing where nothing was weighed, or nothing filled.
pub fn yield_text(facts: &RecordFacts, sign: DecimalSign) -> Option<(String, String)> {
    let (flows, found) = facts.flows.as_ref()?;
    let share = found.yield_share.filter(|_| flows.filled > Mass::ZERO)?;
    let of = format!("{} of {}", grams(flows.filled, sign), grams(found.theoretical, sign));
    Some((course::tenth(share, sign), of))
}

/// What is not accounted for, where packs were filled.
pub fn unaccounted_text(facts: &RecordFacts, sign: DecimalSign) -> Option<String> {
    let (_, found) = facts.flows.as_ref()?;
    if found.unaccounted < Mass::ZERO {
        let more = grams(Mass::ZERO.minus(found.unaccounted), sign);
        return Some(format!("{more} more came out than went in: a mass was recorded wrongly."));
    }
    Some(format!("Not accounted for: {}", grams(found.unaccounted, sign)))
}

/// The packs in a sentence or two, against their bounds where there are any.
pub fn fills_text(fills: &RecordFills, sign: DecimalSign) -> String {
    let count = fills.fills.len();
    let mut text = if count == 1 { "1 pack was filled.".to_owned() } else { format!("{count} packs were filled.") };
    let (Some(nominal), Some(judged)) = (fills.nominal, &fills.judged) else { return text };
    let g = |mass: Mass| grams(mass, sign);
    text += &format!(
        " Nominal content {}; average {}, from {} to {}.",
        g(nominal),
        g(judged.average),
        g(judged.least),
        g(judged.greatest)
    );
    if judged.average_below {
        text += " The average is below the nominal content.";
    }
    if let Some(bounds) = fills.bounds {
        let said = |n: usize| if n == 0 { "none".to_owned() } else { n.to_string() };
        text += &format!(
            " Below {} (nominal content less the tolerable negative error): {}. Below {} (less twice that): {}.",
            g(bounds.few),
            said(judged.below.len()),
            g(bounds.none),
            said(judged.far_below.len())
        );
    }
    text
}

/// A seal and whether it holds.
pub fn seal_text(seal: &Seal, zone: Zone) -> String {
    let state = match seal.state {
        SealState::Intact => "unchanged since",
        SealState::Changed => "changed since",
    };
    format!("Sealed {} \u{b7} {} \u{b7} {state}", moment(seal.at, zone), seal.short())
}

/// How many entries came after the seal.
pub fn after_seal(count: usize) -> String {
    if count == 1 {
        "1 entry was recorded after the seal.".to_owned()
    } else {
        format!("{count} entries were recorded after the seal.")
    }
}

/// What the button says that corrects an entry.
pub fn correct_label(what: &str) -> String {
    format!("{CORRECT_THIS}: {what}")
}

/// What the words of an entry are asked for as, in their order.
pub const fn word_labels(event: &Event) -> &'static [&'static str] {
    match event {
        Event::Begun { .. } => &["Batch code", "Made by"],
        Event::Weighed { .. } | Event::Ph(crate::batch::PhEvent::Dose { .. }) => &["Lot"],
        Event::SplitOff { .. } => &["Its code", "What it becomes"],
        Event::Deviation { .. } => &["What happened", "What was decided, and why"],
        Event::Checked { .. } => &["What was found"],
        _ => &["What"],
    }
}

/// What a mark on the axis of the fill weights says: its figure, and its name.
pub fn mark(class: &str, mass: Mass, sign: DecimalSign) -> (&'static str, String) {
    let name = match class {
        "t1" => "T1",
        "t2" => "T2",
        _ => "nominal",
    };
    (name, grams(mass, sign))
}

/// The lots in one line: the first few, and how many more.
pub fn lots_text(facts: &RecordFacts) -> String {
    const SHOWN: usize = 6;
    let lots = facts.lots();
    let shown: Vec<String> =
        lots.iter().take(SHOWN).map(|(lot, name)| format!("{lot} {}", crate::facts::mid_sentence(name))).collect();
    match lots.len().saturating_sub(SHOWN) {
        0 if shown.is_empty() => NO_LOTS.to_owned(),
        0 => shown.join(", "),
        more => format!("{} and {more} more", shown.join(", ")),
    }
}
