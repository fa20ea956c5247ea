//! Everything computed from a formula: a pure function of formula, plan and shelf.
//!
//! Broken or half-typed input never stops it: what could not be read is left out, and whatever depends on it says so.

mod fat_table;
mod fats;
mod lye;
mod lye_plan;
mod plan;
mod premix;
mod round;
mod scale;
mod square;
mod swap;
mod totals;
mod weigh;

pub use fat_table::{FatCard, FatFilter, FatSort, fat_table};
pub use fats::{Figures, OilPhase, Values, WhyUncounted, oil_phase};
pub use lye::{AlkaliDose, Lye, LyeFat, LyeNote, Margins, NoLye, from_fats, lye};
pub use lye_plan::{AlkaliChoice, LyeDiscount, LyeField, LyePlan, Part, SvBasis, WaterBy, WaterRatio};
pub use plan::{Basis, Fill, InHand, Plan, PlanField, STEPS};
pub use premix::{Premix, PremixAdvice, least_weighable};
pub use round::{fill_up_takes_rest, largest_remainder};
pub use scale::{Batch, HandLine, ScaleProblem, batch};
pub use square::{Group, Square, square};
pub use swap::{
    Answer, Hint, LeftOut, Limit, Limits, MOST_OILS, Mixture, NewLine, NoReplacement, NoSwap, Offer, Pool, Problem,
    Row, Weighting, WhyLeftOut, nearest, nearest_few, new_lines, replace, swap,
};
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
    /// The fats as one blend.
    pub fats: OilPhase,
    /// The lye of one batch, where one is asked for, or why there is none.
    pub lye: Option<Result<Lye, NoLye>>,
}

/// Computes the whole sheet.
pub fn compute(formula: &Formula, plan: &Plan, lye_plan: &LyePlan, shelf: &Shelf) -> Sheet {
    let totals = totals(formula);
    let square = square(formula, &totals);
    let weigh = weigh(formula, &totals, plan, shelf);
    let fats = oil_phase(formula, &totals, shelf);
    let lye = lye(formula, &weigh, lye_plan, shelf);
    Sheet { totals, square, weigh, fats, lye }
}
