//! A document: a formula with its plan, and the versions that were kept of it.

use super::{Moment, Snapshot, read, write};
use crate::batch::PhLog;
use crate::formula::Formula;
use crate::sheet::{LyePlan, Plan};
use std::sync::Arc;

/// What undo goes back over: the formula, the plan for a batch of it, that batch's log, and the plan for its lye.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct State {
    /// The formula.
    pub formula: Formula,
    /// The plan.
    pub plan: Plan,
    /// What happened to the pH of the batch, once that was begun.
    pub ph_log: Option<PhLog>,
    /// The plan for lye.
    pub lye: LyePlan,
}

impl Snapshot for State {
    fn write(&self) -> String {
        write::state_text(self)
    }

    fn read(text: &str) -> Option<Self> {
        read::read_state(text).ok()
    }
}

/// A formula as it was when the maker saved it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Version {
    /// Counts from 1.
    pub number: u32,
    /// When.
    pub saved: Moment,
    /// What it was.
    pub formula: Formula,
}

/// A formula, its plan and its versions.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Document {
    /// As it is now.
    pub state: State,
    /// Kept versions, oldest first.
    pub versions: Vec<Arc<Version>>,
}

impl Document {
    /// Keeps the formula as a new version, unless the newest kept one is the same. Gives its number.
    pub fn save_version(&mut self, now: Moment) -> u32 {
        let newest = self.versions.last();
        if let Some(version) = newest.filter(|version| write::same_formula(&version.formula, &self.state.formula)) {
            return version.number;
        }
        let number = newest.map_or(1, |version| version.number + 1);
        self.versions.push(Arc::new(Version { number, saved: now, formula: self.state.formula.clone() }));
        number
    }

    /// The formula of a kept version with the plan of now.
    pub fn with_version(&self, number: u32) -> Option<State> {
        let version = self.versions.iter().find(|version| version.number == number)?;
        Some(State { formula: version.formula.clone(), ..self.state.clone() })
    }

    /// The number of the kept version that the formula equals now, if it is the newest.
    pub fn current_version(&self) -> Option<u32> {
        self.versions
            .last()
            .filter(|version| write::same_formula(&version.formula, &self.state.formula))
            .map(|version| version.number)
    }
}
