//! A phase: lines that are weighed and heated together.

use super::{Line, LineId};
use crate::facts::UsualPhase;
use crate::quantity::{Celsius, Typed, keyed};

/// Names a phase within its formula.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PhaseId(pub(super) u32);

impl PhaseId {
    /// The id of a number.
    pub const fn of(number: u32) -> Self {
        Self(number)
    }

    /// A number for keys in views and stored positions.
    pub const fn number(self) -> u32 {
        self.0
    }
}

keyed! {
    /// What a phase is mostly made of, or when it is added.
    #[derive(Default)]
    PhaseKind {
        /// Water and what dissolves in it.
        #[default]
        Water = "water",
        /// Oils, waxes and what melts into them.
        Oil = "oil",
        /// Added once the emulsion has cooled.
        CoolDown = "cool-down",
        /// Anything else.
        Other = "other",
    }
}

/// A phase and its lines in order.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Phase {
    /// Its id, unique in the formula and never used again in it.
    pub id: PhaseId,
    /// What it is mostly made of.
    pub kind: PhaseKind,
    /// Its name.
    pub name: String,
    /// The temperature to which it is heated.
    pub heat: Typed<Celsius>,
    /// Its lines.
    pub lines: Vec<Line>,
}

impl Phase {
    pub(super) fn new(id: PhaseId, kind: PhaseKind, name: String) -> Self {
        Self { id, kind, name, heat: Typed::default(), lines: Vec::new() }
    }

    /// What usually goes into a phase of its kind, in the words of the shelf.
    pub const fn usual(&self) -> Option<UsualPhase> {
        match self.kind {
            PhaseKind::Water => Some(UsualPhase::Water),
            PhaseKind::Oil => Some(UsualPhase::Oil),
            PhaseKind::CoolDown => Some(UsualPhase::CoolDown),
            PhaseKind::Other => None,
        }
    }

    /// The place of a line in this phase.
    pub fn index_of(&self, id: LineId) -> Option<usize> {
        self.lines.iter().position(|line| line.id == id)
    }
}
