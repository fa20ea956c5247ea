//! What can happen to a study. An entry holds one of these; none is ever changed or removed.

use super::{ConditionKind, Photograph, PullPoint, StudyPlan};
use crate::batch::{BatchRecord, EntryId, Making};
use crate::facts::Months;
use crate::quantity::{Day, Mass, Ph, Timestamp, keyed, unitless};

unitless! {
    /// A viscosity by the maker's own method and in its unit, 0 to 1 000 000 000 in thousandths.
    Viscosity, Measure, 3, 0, 1_000_000_000_000
}

keyed! {
    /// Whether something has come out of a sample.
    Separation {
        /// Nothing.
        None = "none",
        /// Drops, sweat or grain.
        Drops = "drops",
        /// A layer of oil or water.
        Layer = "layer",
    }
}

keyed! {
    /// What happened to the samples beside the plan.
    StudyIncident {
        /// A sample was spun.
        Centrifuge = "centrifuge",
        /// A sample was frozen and thawed.
        FreezeThaw = "freeze-thaw",
        /// A sample was shaken or carried about.
        Transport = "transport",
        /// Samples were kept otherwise than planned.
        Storage = "storage",
        /// Anything else.
        Other = "other",
    }
}

/// The greatest change: 0 as the control that is kept cold, 5 quite another.
pub const SCORES: u8 = 5;

/// What was seen of one sample. What was not looked at is missing.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Observation {
    /// How far its look is from the control, 0 to 5.
    pub appearance: Option<u8>,
    /// How far its colour is, 0 to 5.
    pub colour: Option<u8>,
    /// How far its odour is, 0 to 5.
    pub odour: Option<u8>,
    /// Its pH.
    pub ph: Option<Ph>,
    /// Its viscosity, by the method of the study.
    pub viscosity: Option<Viscosity>,
    /// What it weighs with its pack.
    pub weight: Option<Mass>,
    /// What has come out of it.
    pub separation: Option<Separation>,
    /// Anything to be said of it.
    pub note: String,
}

impl Observation {
    /// True if nothing was looked at.
    pub fn is_empty(&self) -> bool {
        *self == Self { note: self.note.clone(), ..Self::default() }
    }
}

/// A lot that went into the batch.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StudyLot {
    /// The ingredient.
    pub name: String,
    /// The lot; may be empty.
    pub lot: String,
    /// The day up to which it is good, where that is known.
    pub expiry: Option<Day>,
}

/// What a study is of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StudyBasis {
    /// The stored record of the batch, by its id.
    pub batch: String,
    /// The code of the batch; may be empty.
    pub code: String,
    /// What was made.
    pub title: String,
    /// The day on which the batch was made.
    pub made: Day,
    /// The day from which pulls are counted.
    pub began: Day,
    /// The content of one pack, from which a loss of weight is reckoned.
    pub content: Option<Mass>,
    /// What went into it.
    pub lots: Vec<StudyLot>,
}

impl StudyBasis {
    /// From the record of a batch as it is now: the lots that went in with the last end that was noted for each, else those
    /// that were planned. `None` where its record says neither what it was made from nor how it was made.
    pub fn of(record: &BatchRecord, batch: String, made: Day, began: Day) -> Option<Self> {
        let from = record.made_from.as_ref()?;
        let making = Making::of(record);
        let mut lots: Vec<StudyLot> = Vec::new();
        for (place, line) in from.lines.iter().enumerate() {
            let weighed = making.as_ref().and_then(|making| making.lines.get(place)?.weighed.as_ref());
            let lot = StudyLot {
                name: line.name.clone(),
                lot: weighed.map_or(&line.lot, |weighed| &weighed.lot).trim().to_owned(),
                expiry: weighed.and_then(|weighed| weighed.expiry),
            };
            match lots.iter_mut().find(|known| known.name == lot.name && known.lot == lot.lot) {
                Some(known) => known.expiry = lot.expiry.or(known.expiry),
                None => lots.push(lot),
            }
        }
        Some(Self {
            batch,
            code: making.map(|making| making.code).unwrap_or_default(),
            title: from.formula.about.title.clone(),
            made,
            began,
            content: from.packs.map(|packs| packs.fill),
            lots,
        })
    }
}

impl StudyBasis {
    /// Whether a record is that of this batch, by its code and what was made.
    pub fn is_of(&self, record: &BatchRecord) -> bool {
        let title = record.made_from.as_ref().map(|from| from.formula.about.title.as_str());
        let code = Making::of(record).map(|making| making.code);
        !self.code.is_empty() && code.as_ref() == Some(&self.code) && title == Some(self.title.as_str())
    }
}

/// What happened.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum StudyEvent {
    /// It was begun. Only the first one counts.
    Begun {
        /// What it is of.
        basis: StudyBasis,
        /// Its plan.
        plan: StudyPlan,
    },
    /// It goes on by another plan; what was seen stays.
    Planned(StudyPlan),
    /// A sample was looked at. A later one of the same pull takes its place.
    Observed {
        /// How it is kept.
        condition: ConditionKind,
        /// Which pull.
        point: PullPoint,
        /// On which day.
        on: Day,
        /// What was seen.
        seen: Observation,
    },
    /// A sample was photographed. It belongs to the pull and not to what was seen then: it stays where that is crossed out.
    Photographed {
        /// How it is kept.
        condition: ConditionKind,
        /// Which pull.
        point: PullPoint,
        /// On which day.
        on: Day,
        /// The photograph, which was stored before.
        photograph: Photograph,
    },
    /// Something happened to samples.
    Happened {
        /// What.
        what: StudyIncident,
        /// In words.
        text: String,
    },
    /// How long a lot is good. A later one for the same ingredient and lot takes its place.
    Lot(StudyLot),
    /// For how many months after making the maker lets the product be used at the most; nothing takes the rule away.
    Ruled(Option<Months>),
    /// Something worth writing down.
    Remark {
        /// What.
        text: String,
    },
    /// An earlier entry was a mistake.
    Struck {
        /// Which.
        entry: EntryId,
        /// Why.
        reason: String,
    },
}

/// One entry of a study.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StudyEntry {
    /// Names it.
    pub id: EntryId,
    /// When, as the page's clock had it.
    pub at: Timestamp,
    /// What happened.
    pub event: StudyEvent,
}
