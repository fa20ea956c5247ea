//! Changes of the method of a formula.

use super::texts::{MOST_NAME, MOST_NOTE};
use crate::formula::{Formula, NewStep, StepField, StepId};

/// A change of the method. One of a step that is gone changes nothing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum MethodChange {
    /// All of it at once: the first method, taken over to be changed; none brings the first one back.
    Take(Vec<NewStep>),
    /// One step more, at a place.
    Add(Box<NewStep>, usize),
    /// Away with a step.
    Remove(StepId),
    /// A step to another place.
    Move(StepId, usize),
    /// A text of a step, as typed.
    Text(StepId, StepField, String),
}

impl MethodChange {
    /// Makes it.
    pub(super) fn apply(self, formula: &mut Formula) {
        match self {
            Self::Take(steps) => formula.set_method(steps),
            Self::Add(step, at) => {
                formula.add_step(*step, at);
            }
            Self::Remove(id) => formula.remove_step(id),
            Self::Move(id, to) => formula.move_step(id, to),
            Self::Text(id, field, text) => {
                if let Some(step) = formula.step_mut(id) {
                    step.set(field, text);
                }
            }
        }
    }
}

impl StepField {
    /// The most that may be typed into it, in UTF-16 code units.
    pub(super) const fn most(self) -> usize {
        match self {
            Self::Text | Self::Why | Self::Stirring => MOST_NOTE,
            Self::Temperature | Self::Minutes => MOST_NAME,
        }
    }
}
