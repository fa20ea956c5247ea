//! From a lot to every batch that holds it, and from a batch to every lot in it.

use super::UsedBatch;
use crate::facts::{IngredientId, fold};
use crate::quantity::Mass;
use std::collections::BTreeMap;

/// A batch that a lot went into.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TracedBatch {
    /// Its place among the batches that were looked through.
    pub place: usize,
    /// How much of the lot went in, of all its lines; `None` where it was planned and nothing of it was noted as weighed: it may
    /// have gone in.
    pub mass: Option<Mass>,
}

/// A lot of one material, and where it went.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TracedLot {
    /// The ingredient, where the shelf has it.
    pub ingredient: Option<IngredientId>,
    /// What it was called in the first batch that it was found in.
    pub name: String,
    /// The lot.
    pub lot: String,
    /// The batches, in the order in which they were looked through.
    pub batches: Vec<TracedBatch>,
}

/// The lots of many batches, put together once, so that a text that is typed is only looked for in their names.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct LotIndex(Vec<(String, TracedLot)>);

impl LotIndex {
    /// Of these batches.
    pub fn of(batches: &[UsedBatch]) -> Self {
        Self(traced(batches).into_iter().map(|lot| (fold(&lot.lot).trim().to_owned(), lot)).collect())
    }

    /// The lots in whose names a text is found, those that have no other name first; accents and case do not count. Of an empty
    /// text there are none.
    pub fn find(&self, query: &str) -> Vec<&TracedLot> {
        let wanted = fold(query);
        let wanted = wanted.trim();
        if wanted.is_empty() {
            return Vec::new();
        }
        let found = self.0.iter().filter(|(name, _)| name.contains(wanted));
        let (mut exact, others): (Vec<_>, Vec<_>) = found.partition(|(name, _)| name == wanted);
        exact.extend(others);
        exact.into_iter().map(|(_, lot)| lot).collect()
    }
}

/// The lots in whose names a text is found ([`LotIndex::find`]), where only one is looked for.
pub fn trace(batches: &[UsedBatch], query: &str) -> Vec<TracedLot> {
    LotIndex::of(batches).find(query).into_iter().cloned().collect()
}

/// One lot of an ingredient, as the shelf names it.
pub fn trace_lot(batches: &[UsedBatch], ingredient: &IngredientId, lot: &str) -> Option<TracedLot> {
    let lot = lot.trim();
    traced(batches).into_iter().find(|found| found.lot == lot && found.ingredient.as_ref() == Some(ingredient))
}

/// Every lot that has a name, in the order in which they are met.
fn traced(batches: &[UsedBatch]) -> Vec<TracedLot> {
    let mut found: Vec<TracedLot> = Vec::new();
    // What is of no ingredient of the shelf is told apart by its name.
    let mut places: BTreeMap<(Option<&IngredientId>, &str, &str), usize> = BTreeMap::new();
    for (place, batch) in batches.iter().enumerate() {
        for used in batch.uses.iter().filter(|used| !used.lot.is_empty()) {
            let name = if used.ingredient.is_some() { "" } else { &*used.name };
            let at = *places.entry((used.ingredient.as_ref(), name, &used.lot)).or_insert(found.len());
            if at == found.len() {
                found.push(TracedLot {
                    ingredient: used.ingredient.clone(),
                    name: used.name.clone(),
                    lot: used.lot.clone(),
                    batches: Vec::new(),
                });
            }
            if let Some(lot) = found.get_mut(at) {
                lot.went_into(place, used.mass);
            }
        }
    }
    found
}

impl TracedLot {
    fn went_into(&mut self, place: usize, mass: Option<Mass>) {
        match self.batches.last_mut().filter(|last| last.place == place) {
            Some(last) => {
                last.mass = match (last.mass, mass) {
                    (Some(a), Some(b)) => Some(a.plus(b)),
                    (a, b) => a.or(b),
                };
            }
            None => self.batches.push(TracedBatch { place, mass }),
        }
    }
}
