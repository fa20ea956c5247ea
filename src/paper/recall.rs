//! What a recall sheet says: a lot, and every batch that holds it with its packs.

use crate::batch::{BatchStage, TracedLot, UsedBatch};
use crate::quantity::{Mass, Timestamp};
use crate::shelf::Lot;

/// A batch that holds the lot.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RecallBatch {
    /// The batch.
    pub batch: UsedBatch,
    /// How much of the lot it took; `None` where it was only planned.
    pub mass: Option<Mass>,
}

/// A recall sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RecallFacts {
    /// What the material is called.
    pub material: String,
    /// The lot.
    pub lot: String,
    /// The lot as the shelf has it; nothing where it does not.
    pub delivery: Option<Lot>,
    /// The batches, the earliest first.
    pub batches: Vec<RecallBatch>,
    /// How many packs there are of all of them.
    pub packs: usize,
    /// What is in all of them.
    pub filled: Mass,
    /// The first and the last day on which one of them began.
    pub span: Option<(Timestamp, Timestamp)>,
}

/// The sheet of a lot that was traced. `delivery`: its lot on the shelf, `material` its name there, if it is on it.
pub fn recall_facts(
    found: &TracedLot,
    batches: &[UsedBatch],
    material: Option<&str>,
    delivery: Option<&Lot>,
) -> RecallFacts {
    let of =
        |one: &crate::batch::TracedBatch| Some(RecallBatch { batch: batches.get(one.place)?.clone(), mass: one.mass });
    let mut rows: Vec<RecallBatch> = found.batches.iter().filter_map(of).collect();
    crate::quantity::sort_by(&mut rows, |a, b| (a.batch.began, &a.batch.code).cmp(&(b.batch.began, &b.batch.code)));
    let days = || rows.iter().filter_map(|row| row.batch.began);
    RecallFacts {
        material: material.unwrap_or(&found.name).to_owned(),
        lot: found.lot.clone(),
        delivery: delivery.cloned(),
        packs: rows.iter().map(|row| row.batch.packs).sum(),
        filled: rows.iter().map(|row| row.batch.filled).sum(),
        span: days().min().zip(days().max()),
        batches: rows,
    }
}

impl RecallFacts {
    /// True if a batch of it may hold the lot and does not say so.
    pub fn has_planned(&self) -> bool {
        self.batches.iter().any(|row| row.mass.is_none())
    }

    /// True if a batch of it was not given up or rejected, so that packs of it may be with others.
    pub fn may_be_out(&self) -> bool {
        let kept =
            |stage| matches!(stage, BatchStage::Abandoned | BatchStage::Decided(crate::batch::Decision::Rejected));
        self.batches.iter().any(|row| !kept(row.batch.stage))
    }
}
