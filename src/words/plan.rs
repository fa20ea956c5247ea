//! Words of the batch: how much, as a sentence with blanks, and what is weighed.
#![allow(missing_docs, reason = "each constant is its own text")]

use super::{SheetStyle, ledger, with_unit};
use crate::sheet::{BatchBasis, Plan};

pub const MAKE: &str = "Make";
pub const JARS_OF: &str = "jars of";
pub const WITH: &str = "with";
pub const FOR_LOSS: &str = "% for loss,";
pub const GRAMS_IN_ALL: &str = "g in all,";
pub const ALL_THIS_ALLOWS: &str = "Make as much as this allows,";
pub const VESSEL_OF: &str = "Fill a vessel of";
pub const LEAVING: &str = "mL, leaving";
pub const FREE: &str = "% of it free,";
pub const AT: &str = "at";
pub const GRAMS_PER_ML: &str = "g/mL,";
pub const ON_A_SCALE: &str = "on a scale that shows";
pub const STEPS: &str = "steps.";
pub const WEIGHED: &str = "weighed";
pub const PRINT: &str = "Print";
/// Why an entry was crossed out.
pub const TICK_TAKEN_AWAY: &str = "The tick was taken away.";
pub const TICKS_CLEARED: &str = "The ticks were removed.";
pub const CLEAR_TICKS: &str = "Clear ticks for the next batch";
pub const WEIGH_OUT: &str = "Weigh out";
/// Blanks at the foot of the printed sheet.
pub const BLANKS: [&str; 5] = ["Batch", "Date", "Made by", "pH", "Yield, g"];

/// What the size of a batch follows from, as a switch has room for it.
pub const fn basis(basis: BatchBasis) -> &'static str {
    match basis {
        BatchBasis::Jars => "Jars",
        BatchBasis::Mass => "Mass",
        BatchBasis::InHand => "In stock",
        BatchBasis::Vessel => "Vessel",
    }
}

/// How many lines are ticked.
pub fn count(done: usize, all: usize) -> String {
    format!("{done} of {all}")
}

/// What the printed sheet says of the batch: jars and what goes into each, the loss, and the scale.
pub fn made(plan: &Plan, style: SheetStyle) -> String {
    let jars = Some(ledger::jars(plan, style.sign)).filter(|text| !text.is_empty());
    let loss = jars.as_ref().and_then(|_| plan.loss.value());
    let loss = loss.map(|loss| format!(", {} loss", with_unit(loss, "%", style.sign)));
    let scale = format!("on a {} scale", with_unit(style.step, "g", style.sign));
    match jars {
        Some(jars) => format!("{jars}{} \u{b7} {scale}", loss.unwrap_or_default()),
        None => scale,
    }
}

/// The heading of a tick: what it says of which line.
pub fn tick(name: &str) -> String {
    format!("Weighed: {name}")
}

/// What is asked about ticks that stand on the weigh sheet as a batch begins.
pub fn take_ticks_over(count: usize) -> String {
    if count == 1 {
        "The line ticked on the weigh sheet is weighed for this batch".to_owned()
    } else {
        format!("The {count} lines ticked on the weigh sheet are weighed for this batch")
    }
}
