//! What is said of lots that are traced.
#![allow(missing_docs, reason = "each constant is its own text")]

use super::clock::{Zone, day};
use super::{DecimalSign, course, grams, page, record};
use crate::batch::{BatchStage, TracedLot, UsedBatch};
use crate::quantity::Mass;

pub const LOTS_FOUND: &str = "Lots of that name";
pub const RECALL: &str = "Recall sheet";
pub const PRINT: &str = "Print recall sheet";
pub const BACK: &str = "Back to the search";
pub const PLANNED: &str = "planned";
pub const PLANNED_SAYS: &str = "\u{201c}Planned\u{201d}: the record names the lot for the line and does not say that it was weighed. Count that batch in until you know better.";
pub const NOWHERE: &str = "No record of a batch names this lot.";
pub const UNTITLED: &str = "without a code";

/// A lot as a row: which material, and where it went.
pub fn lot(found: &TracedLot, batches: &[UsedBatch]) -> String {
    format!("{}: {}", heading(&found.lot, &found.name), went(found, batches))
}

/// The heading of a lot that is looked at.
pub fn heading(lot: &str, material: &str) -> String {
    format!("Lot {lot} of {material}")
}

/// How many batches and packs.
pub fn went(found: &TracedLot, batches: &[UsedBatch]) -> String {
    let of = |place: usize| batches.get(place);
    let packs: usize = found.batches.iter().filter_map(|one| of(one.place)).map(|batch| batch.packs).sum();
    format!("{}, {}", counted(found.batches.len(), "batch", "batches"), counted(packs, "pack", "packs"))
}

/// What all batches that hold it hold in packs.
pub fn filled(found: &TracedLot, batches: &[UsedBatch]) -> Mass {
    found.batches.iter().filter_map(|one| batches.get(one.place)).map(|batch| batch.filled).sum()
}

fn counted(count: usize, one: &str, many: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { many })
}

/// A batch by its code.
pub fn code(batch: &UsedBatch) -> String {
    if batch.code.is_empty() { UNTITLED.to_owned() } else { batch.code.clone() }
}

/// What was made.
pub fn product(batch: &UsedBatch) -> String {
    if batch.title.trim().is_empty() { page::UNTITLED.to_owned() } else { batch.title.trim().to_owned() }
}

/// The day on which it was begun.
pub fn made_on(batch: &UsedBatch, zone: Zone) -> String {
    batch.began.map(|at| day(at, zone)).unwrap_or_default()
}

/// How much of the lot went in.
pub fn mass(mass: Option<Mass>, sign: DecimalSign) -> String {
    mass.map_or_else(|| PLANNED.to_owned(), |mass| grams(mass, sign))
}

/// A batch that holds a lot, as a row: when it was begun, how much of the lot, its packs, how it stands.
pub fn row(batch: &UsedBatch, of_lot: Option<Mass>, zone: Zone, sign: DecimalSign) -> String {
    let packs = counted(batch.packs, "pack", "packs");
    [made_on(batch, zone), mass(of_lot, sign), packs, stage(batch)].join(" \u{b7} ")
}

/// How a batch stands.
pub fn stage(batch: &UsedBatch) -> String {
    match batch.stage {
        BatchStage::Making => record::IN_THE_MAKING.to_owned(),
        BatchStage::Decided(decision) => course::decision(decision).to_owned(),
        BatchStage::Abandoned => record::GIVEN_UP.to_owned(),
    }
}

/// Every lot that a batch names, one a line.
pub fn lots_of(batch: &UsedBatch) -> String {
    let one = |used: &crate::batch::LotUse| {
        let planned = if used.mass.is_none() { format!(" ({PLANNED})") } else { String::new() };
        format!("{} {}{planned}", used.name, used.lot)
    };
    batch.uses.iter().filter(|used| !used.lot.is_empty()).map(one).collect::<Vec<_>>().join("; ")
}
