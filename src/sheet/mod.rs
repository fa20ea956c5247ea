//! Everything computed from a formula: a pure function of formula, plan and shelf.
//!
//! Broken or half-typed input never stops it: what could not be read is left out, and whatever depends on it says so.

mod allergens;
mod annexes;
mod as_weighed;
mod asked_names;
mod components;
mod composition;
mod cost;
mod emulsion;
mod emulsion_system;
mod fat_table;
mod fats;
pub mod hlb;
mod identity;
mod in_water;
mod label;
mod lye;
mod lye_acids;
mod lye_lines;
mod lye_notes;
mod lye_plan;
mod method;
mod net_content;
mod pairing;
mod parts;
pub mod ph;
mod picture;
mod plan;
mod premix;
mod preservation;
mod preserves;
mod round;
mod scale;
mod square;
mod swap;
mod totals;
mod weigh;

pub use allergens::{AllergenSum, allergen_sums, asked_for};
pub use annexes::AnnexCheck;
pub use as_weighed::AsWeighed;
pub use asked_names::{AskedName, names_in, names_written};
pub use composition::{FormulaComposition, Scent, SoldBlend, Stated, SubstanceShare, Trust, UsedLot, composition};
pub use cost::{Cost, CostLine, NoCost, SwapCost, cost, swap_cost};
pub use emulsion::{Crowding, Dose, EmulsifierLine, Emulsion, crowding, emulsion, required_hlb};
pub use emulsion_system::EmulsionSystem;
pub use fat_table::{FatCard, FatFilter, FatSort, FatTable};
pub use fats::{Figures, OilPhase, Reckoned, Values, WhyUncounted, oil_phase};
pub use identity::{Named, Recognition};
pub use in_water::{Dissolves, Divided, InWater, Volumes, in_water};
pub use label::{AddedLye, Label, Listed, ListedKind, NANO, Open, label, lye_label};
pub use lye::{AlkaliDose, Lye, LyeFat, Margins, asks_for_lye, from_fats, from_fats_and_acids, lye};
pub use lye_acids::LyeAcid;
pub use lye_notes::{LyeNote, NoLye};
pub use lye_plan::{
    Acknowledgement, AlkaliChoice, LyeDiscount, LyeField, LyePlan, Saponified, SvBasis, WaterBy, WaterRatio,
};
pub use method::{PlannedStep, Reason, first_method};
pub use net_content::{NominalBounds, bounds};
pub use pairing::{PairingCandidate, Wish, candidates};
pub use parts::{consists_of, makers_inci};
pub use picture::{AcidBars, Axis, End, Gauge, Measure, Reach};
pub use plan::{BatchBasis, CostField, CostTexts, Fill, FillBy, InHand, Plan, PlanField, Premixes, STEPS};
pub use premix::{Premix, PremixAdvice, ROUGHLY, least_weighable};
pub use preservation::{Agent, Preservation, ShareAt, preservation, share_at};
pub use preserves::{BAND, Enough, Works, counts_at, enough, works};
pub use round::{RoundedParts, fill_up_takes_rest, largest_remainder, largest_remainder_below};
pub use scale::{Batch, HandLine, ScaleProblem, batch};
pub use square::{Group, Square, square};
pub use swap::{
    Constraint, Hint, LeftOut, Limits, MOST_OILS, MixtureProblem, NewLine, NoReplacement, NoSwap, Offer, OilMixture,
    OilPool, REAL_MATCH, Single, SwapAnswer, SwapLimit, SwapWish, Weighting, WhyLeftOut, drying, nearest, nearest_few,
    new_lines, offer_of, replace, swap,
};
pub use totals::{Balance, PhaseTotal, Totals, totals};
pub use weigh::{NoSheet, WeighLine, WeighSheet, weigh};

use crate::formula::Formula;
use crate::quantity::Celsius;
use crate::shelf::Shelf;

/// What is read off while typing: sums, the picture of the hundred parts, the masses of one batch. It costs a small part
/// of the whole [`Sheet`], which may follow a moment later.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Masses {
    /// Sums.
    pub totals: Totals,
    /// The picture of its hundred parts.
    pub square: Square,
    /// The masses of one batch, or why there are none.
    pub weigh: Result<WeighSheet, NoSheet>,
}

/// All that is computed from a formula.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sheet {
    /// Sums.
    pub totals: Totals,
    /// The picture of its hundred parts.
    pub square: Square,
    /// The masses of one batch, or why there are none.
    pub weigh: Result<WeighSheet, NoSheet>,
    /// What the batch will be on this scale, where that is not what was typed.
    pub as_weighed: Option<AsWeighed>,
    /// The pH that its acids, bases and salts make of its water.
    pub ph: Option<ph::Prediction>,
    /// How the target misses that, if it does.
    pub ph_missed: Option<ph::Missed>,
    /// The pH that it needs.
    pub window: ph::Window,
    /// What its preservatives can do.
    pub preservation: Option<Preservation>,
    /// What its emulsifiers can do.
    pub emulsion: Option<Emulsion>,
    /// What it consists of, substance by substance.
    pub composition: FormulaComposition,
    /// What the annexes of the law say of it; nothing before law and names are here.
    pub annexes: Option<AnnexCheck>,
    /// The label's list of ingredients.
    pub label: Label,
    /// The fats as one blend.
    pub fats: OilPhase,
    /// The lye of one batch, where one is asked for, or why there is none.
    pub lye: Option<Result<Lye, NoLye>>,
}

/// Computes what is read off while typing.
pub fn masses(formula: &Formula, plan: &Plan, shelf: &Shelf) -> Masses {
    let totals = totals(formula);
    Masses { square: square(formula, &totals), weigh: weigh(formula, &totals, plan, shelf), totals }
}

/// Computes the whole sheet.
pub fn compute(formula: &Formula, plan: &Plan, lye_plan: &LyePlan, shelf: &Shelf) -> Sheet {
    complete(masses(formula, plan, shelf), formula, lye_plan, shelf)
}

/// Computes the whole sheet of a formula of which the [`Masses`] is there.
pub fn complete(masses: Masses, formula: &Formula, lye_plan: &LyePlan, shelf: &Shelf) -> Sheet {
    let Masses { totals, square, weigh } = masses;
    let fats = oil_phase(formula, &totals, shelf);
    let composition = composition(formula, &totals, shelf);
    let water = ph::water_phase(formula, &totals, shelf);
    let as_weighed = as_weighed::as_weighed(formula, &totals, &weigh, shelf);
    let lye = lye(formula, &weigh, lye_plan, &water, shelf);
    let added_lye = lye.as_ref().map(|found| match (found, &weigh) {
        (Ok(lye), Ok(weigh)) => AddedLye::of(lye, weigh.batch.mass),
        _ => AddedLye::default(),
    });
    let estimate = ph::predict(&water, Celsius::ROOM);
    Sheet {
        ph_missed: ph::missed(&water, estimate.as_ref(), formula, shelf, Celsius::ROOM),
        ph: estimate,
        window: ph::window(formula, &totals, shelf),
        preservation: preservation(
            formula,
            &composition,
            as_weighed.as_ref().map(|weighed| &weighed.composition),
            &water,
            Volumes::of(formula, &totals, shelf),
        ),
        emulsion: emulsion(formula, &totals, &composition, shelf),
        annexes: AnnexCheck::of(&composition, &formula.about),
        label: label(formula, &totals, &composition, shelf, added_lye.as_ref()),
        composition,
        as_weighed,
        totals,
        square,
        weigh,
        fats,
        lye,
    }
}
