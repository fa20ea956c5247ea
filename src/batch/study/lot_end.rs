//! How long the lots of a batch keep, by all that is known of them today: what was noted, and what stands on the shelf.

use super::{Study, StudyLot};
use crate::batch::{BatchRecord, LotUse, UsedBatch};
use crate::facts::{IngredientId, Months};
use crate::quantity::{Day, sort_by};
use crate::shelf::{Lot, Shelf};

/// Where the end of a lot comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LotEndBasis {
    /// It was noted for this batch: in its study, else in its record.
    Noted,
    /// It stands on the shelf.
    Shelf,
    /// The shelf says when it was opened and for how long it is good from then on.
    Opened(Day, Months),
}

/// A lot and the days on which it may end.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LotEnd {
    /// The lot, with what was noted of its end.
    pub lot: StudyLot,
    /// Every end that is known, the earliest first: that one counts.
    pub ends: Vec<(Day, LotEndBasis)>,
}

impl LotEnd {
    /// The day up to which it is good, if one is known.
    pub fn day(&self) -> Option<Day> {
        self.ends.first().map(|(day, _)| *day)
    }

    /// A lot without a name: of such a line nobody knows which lot went in.
    pub fn is_unnamed(&self) -> bool {
        self.lot.lot.is_empty()
    }
}

/// The lots that went into the batch of a study: those of its record as it is now where that is at hand, else those that the
/// study took over. What was noted in the study of the end of a lot stands in the place of what the record says of it; what
/// stands on the shelf is held against both, since there a lot may have been opened, or put right, since.
pub fn lot_ends(study: &Study, record: Option<&BatchRecord>, shelf: &Shelf) -> Vec<LotEnd> {
    let used = record.map(|record| UsedBatch::of(&study.basis.batch, &study.basis.title, record).uses);
    let Some(uses) = used.filter(|uses| !uses.is_empty()) else {
        return study.lots.iter().map(|lot| ends_of(lot.clone(), on_shelf(shelf, None, lot))).collect();
    };
    let mut found: Vec<(StudyLot, Option<IngredientId>)> = Vec::new();
    for used in uses {
        match found.iter_mut().find(|(lot, _)| lot.name == used.name && lot.lot == used.lot) {
            Some((lot, _)) => lot.expiry = used.expiry.or(lot.expiry),
            None => found.push(taken(used)),
        }
    }
    let one = |(mut lot, id): (StudyLot, Option<IngredientId>)| {
        lot.expiry = noted_in(study, &lot);
        let on_shelf = on_shelf(shelf, id.as_ref(), &lot);
        ends_of(lot, on_shelf)
    };
    found.into_iter().map(one).collect()
}

fn taken(used: LotUse) -> (StudyLot, Option<IngredientId>) {
    (StudyLot { name: used.name, lot: used.lot, expiry: used.expiry }, used.ingredient)
}

/// What the study says of the end of a lot where somebody noted that in it, else what the record says.
fn noted_in(study: &Study, lot: &StudyLot) -> Option<Day> {
    let same = |known: &&StudyLot| known.name == lot.name && known.lot == lot.lot;
    let expiry = |lots: &[StudyLot]| lots.iter().find(same).map(|known| known.expiry);
    let now = expiry(&study.lots);
    if now == expiry(&study.basis.lots) { lot.expiry } else { now.flatten() }
}

/// The lot on the shelf: of the ingredient, where that is known, else of whatever is called like it there.
fn on_shelf<'a>(shelf: &'a Shelf, id: Option<&IngredientId>, lot: &StudyLot) -> Option<&'a Lot> {
    let of = |id: &IngredientId| {
        // Of two of one name the first is the one that was weighed from.
        shelf.lots_of(id).iter().find(|known| !known.is_blank() && known.name.trim() == lot.lot)
    };
    if lot.lot.is_empty() {
        return None;
    }
    if let Some(id) = id {
        return of(id);
    }
    let named = |id: &IngredientId| shelf.entry(id).is_some_and(|entry| entry.label() == lot.name);
    let id = shelf.lots().map(|(id, _)| id).find(|id| of(id).is_some() && named(id))?;
    of(id)
}

fn ends_of(lot: StudyLot, on_shelf: Option<&Lot>) -> LotEnd {
    let noted = lot.expiry.map(|day| (day, LotEndBasis::Noted));
    let own = on_shelf.and_then(Lot::expires).map(|day| (day, LotEndBasis::Shelf));
    let opened =
        on_shelf.and_then(Lot::opened).map(|(day, months)| (months.after(day), LotEndBasis::Opened(day, months)));
    // The same day twice says nothing more.
    let own = own.filter(|own| noted.is_none_or(|noted| noted.0 != own.0));
    let mut ends: Vec<_> = noted.into_iter().chain(own).chain(opened).collect();
    sort_by(&mut ends, |a, b| a.0.cmp(&b.0));
    LotEnd { lot, ends }
}
