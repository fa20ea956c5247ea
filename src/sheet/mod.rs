//! Everything computed from a formula: a pure function of formula, plan and shelf.
//!
//! Broken or half-typed input never stops it: what could not be read is left out, and whatever depends on it says so.

pub mod ph;
mod plan;
mod premix;
mod round;
mod scale;
mod square;
mod totals;
mod weigh;

pub use plan::{Basis, Fill, InHand, Plan, PlanField, STEPS};
pub use premix::{Premix, PremixAdvice, least_weighable};
pub use round::{fill_up_takes_rest, largest_remainder};
pub use scale::{Batch, HandLine, ScaleProblem, batch};
pub use square::{Group, Square, square};
pub use totals::{Balance, PhaseTotal, Totals, totals};
pub use weigh::{NoSheet, WeighLine, WeighSheet, weigh};

use crate::facts::Shelf;
use crate::formula::Formula;

/// All that is computed from a formula.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sheet {
    /// Sums.
    pub totals: Totals,
    /// The picture of its hundred parts.
    pub square: Square,
    /// The masses of one batch, or why there are none.
    pub weigh: Result<WeighSheet, NoSheet>,
}

/// Computes the whole sheet.
pub fn compute(formula: &Formula, plan: &Plan, shelf: &Shelf) -> Sheet {
    let totals = totals(formula);
    let square = square(formula, &totals);
    let weigh = weigh(formula, &totals, plan, shelf);
    Sheet { totals, square, weigh }
}
