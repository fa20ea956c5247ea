//! A study as it stands: a fold over its entries.

use super::{
    ConditionKind, Observation, Pull, StudyBasis, StudyEntry, StudyEvent, StudyIncident, StudyLot, StudyPhotograph,
    StudyPlan,
};
use crate::batch::EntryId;
use crate::facts::Months;
use crate::quantity::{Day, Percent, Quantity, Timestamp, sort_by};

/// A sample that was looked at.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StudyPull {
    /// Which.
    pub pull: Pull,
    /// On which day.
    pub on: Day,
    /// What was seen.
    pub seen: Observation,
    /// The entry that says so.
    pub entry: EntryId,
}

/// A study as it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Study {
    /// What it is of.
    pub basis: StudyBasis,
    /// The plan that holds now.
    pub plan: StudyPlan,
    /// The pulls of that plan, by day.
    pub pulls: Vec<Pull>,
    /// What was seen, by day; also of pulls that the plan no longer has.
    pub seen: Vec<StudyPull>,
    /// Photographs, by condition and then by day, with those that were crossed out.
    pub photographs: Vec<StudyPhotograph>,
    /// What went into the batch, and how long it is good as far as is known by now.
    pub lots: Vec<StudyLot>,
    /// For how many months after making the maker lets it be used at the most.
    pub rule: Option<Months>,
    /// What happened beside the pulls, and remarks (without a kind), in order.
    pub notes: Vec<(Timestamp, Option<StudyIncident>, String)>,
}

impl Study {
    /// From its entries; `None` if it was never begun.
    pub fn of(entries: &[StudyEntry]) -> Option<Self> {
        let reason = |id: &EntryId| {
            entries.iter().find_map(|later| match &later.event {
                StudyEvent::Struck { entry, reason } if entry == id => Some(reason),
                _ => None,
            })
        };
        let begun = entries.iter().find_map(|entry| match &entry.event {
            StudyEvent::Begun { basis, plan } => Some((basis.clone(), plan.clone())),
            _ => None,
        });
        let (basis, plan) = begun?;
        let lots = basis.lots.clone();
        let photographs = Vec::new();
        let (pulls, seen, notes) = (Vec::new(), Vec::new(), Vec::new());
        let mut study = Self { basis, plan, pulls, seen, photographs, lots, rule: None, notes };
        for entry in entries {
            match reason(&entry.id) {
                None => study.take(entry),
                struck => study.take_photograph(entry, struck),
            }
        }
        study.pulls = study.plan.pulls(study.basis.began);
        sort_by(&mut study.seen, |a, b| a.pull.due.cmp(&b.pull.due));
        sort_by(&mut study.photographs, |a, b| {
            (a.pull.condition as usize, a.pull.due).cmp(&(b.pull.condition as usize, b.pull.due))
        });
        Some(study)
    }

    fn take(&mut self, entry: &StudyEntry) {
        match &entry.event {
            StudyEvent::Begun { .. } | StudyEvent::Struck { .. } => {}
            StudyEvent::Planned(plan) => self.plan = plan.clone(),
            StudyEvent::Observed { condition, point, on, seen } => {
                let pull = Pull { condition: *condition, point: *point, due: point.day(self.basis.began) };
                self.seen.retain(|known| !known.is_of(&pull));
                self.seen.push(StudyPull { pull, on: *on, seen: seen.clone(), entry: entry.id.clone() });
            }
            StudyEvent::Photographed { .. } => self.take_photograph(entry, None),
            StudyEvent::Lot(lot) => {
                match self.lots.iter_mut().find(|known| known.name == lot.name && known.lot == lot.lot) {
                    Some(known) => known.expiry = lot.expiry,
                    None => self.lots.push(lot.clone()),
                }
            }
            StudyEvent::Ruled(months) => self.rule = *months,
            StudyEvent::Happened { what, text } => self.notes.push((entry.at, Some(*what), text.clone())),
            StudyEvent::Remark { text } => self.notes.push((entry.at, None, text.clone())),
        }
    }

    fn take_photograph(&mut self, entry: &StudyEntry, struck: Option<&String>) {
        if let StudyEvent::Photographed { condition, point, on, photograph } = &entry.event {
            let pull = Pull { condition: *condition, point: *point, due: point.day(self.basis.began) };
            let (photograph, entry) = (photograph.clone(), entry.id.clone());
            self.photographs.push(StudyPhotograph { pull, on: *on, photograph, entry, struck: struck.cloned() });
        }
    }

    /// The photographs of a pull, in the order in which they were taken.
    pub fn photographs_of(&self, pull: &Pull) -> impl Iterator<Item = &StudyPhotograph> {
        let (condition, due) = (pull.condition, pull.due);
        self.photographs.iter().filter(move |known| known.pull.condition == condition && known.pull.due == due)
    }

    /// All photographs side by side with those of the same condition, by day: so that a change can be seen.
    pub fn photographs_by_condition(&self) -> Vec<(ConditionKind, Vec<StudyPhotograph>)> {
        let mut rows: Vec<(ConditionKind, Vec<StudyPhotograph>)> = Vec::new();
        for photograph in &self.photographs {
            match rows.last_mut() {
                Some((kind, row)) if *kind == photograph.pull.condition => row.push(photograph.clone()),
                _ => rows.push((photograph.pull.condition, vec![photograph.clone()])),
            }
        }
        rows
    }

    /// What was seen of a pull, if it was looked at.
    pub fn seen_of(&self, pull: &Pull) -> Option<&StudyPull> {
        self.seen.iter().find(|seen| seen.is_of(pull))
    }

    /// The pulls that were not looked at yet, by day.
    pub fn open_pulls(&self) -> impl Iterator<Item = &Pull> {
        self.pulls.iter().filter(|pull| self.seen_of(pull).is_none())
    }

    /// Those of them that are due on a day or were before it, by day.
    pub fn due(&self, today: Day) -> Vec<Pull> {
        self.open_pulls().filter(|pull| pull.due <= today).copied().collect()
    }

    /// The next pulls after a day: all of the first day that has any.
    pub fn next(&self, today: Day) -> Vec<Pull> {
        let first = self.open_pulls().find(|pull| pull.due > today).map(|pull| pull.due);
        self.open_pulls().filter(|pull| Some(pull.due) == first).copied().collect()
    }

    /// The pulls that were not looked at yet, from a day on: each day with all of its own.
    pub fn open_days(&self, from: Day) -> Vec<(Day, Vec<Pull>)> {
        let mut days: Vec<(Day, Vec<Pull>)> = Vec::new();
        for pull in self.open_pulls().filter(|pull| pull.due >= from) {
            match days.last_mut() {
                Some((day, pulls)) if *day == pull.due => pulls.push(*pull),
                _ => days.push((pull.due, vec![*pull])),
            }
        }
        days
    }

    /// What was seen first under a condition.
    pub(super) fn first(&self, condition: ConditionKind) -> impl Iterator<Item = &StudyPull> {
        self.seen.iter().filter(move |seen| seen.pull.condition == condition)
    }

    /// How much of its content a pack has lost since it was first weighed under its condition. Nothing where it was not weighed
    /// twice or its content is not known; nothing is lost where it weighs more.
    pub fn weight_loss(&self, of: &StudyPull) -> Option<Percent> {
        let content = self.basis.content.filter(|content| content.units() > 0)?;
        let first = self.first(of.pull.condition).find_map(|seen| seen.seen.weight.map(|weight| (seen, weight)));
        let (first, before) = first.filter(|(first, _)| first.entry != of.entry)?;
        let now = of.seen.weight.filter(|_| first.pull.due <= of.pull.due)?;
        let lost = i128::from(before.minus(now).units().max(0)) * i128::from(Percent::WHOLE.units());
        Some(Percent::from_units(i64::try_from(lost / i128::from(content.units())).unwrap_or(Percent::MAX)))
    }
}

impl StudyPull {
    /// Whether it is that of a pull. By its day: `2w` and `14d` are one.
    fn is_of(&self, pull: &Pull) -> bool {
        self.pull.condition == pull.condition && self.pull.due == pull.due
    }
}
