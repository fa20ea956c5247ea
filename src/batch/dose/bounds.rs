//! What no dose exceeds, whatever is believed of the product.
//!
//! Every figure here is a choice of ours (`custom`: common practice, no source), and a cautious one. A belief can be
//! wrong: a meter that is off, a solution of another strength, an acid that nobody named. These bounds rest on none of
//! that but the maker's own reading and masses.

use super::belief::Chemistry;
use super::{MolPerKg, Vessel};
use crate::quantity::{Mass, Percent, Quantity};
use crate::sheet::ph::WaterPhase;

/// The most pure acid or base in one dose, as a share of what it goes into: whatever is believed, more is a mistake.
pub const MOST_PURE: Percent = Percent::millionths(1_000_000);
/// The most that a product is taken to hide from its formula, in acid or base: three pools at the upper end
/// of what lotions are taken to hold (30 mmol/kg, `shapes.rs`) and a tenth more.
pub const HIDDEN: MolPerKg = MolPerKg(0.1);
/// The most that all doses together may make up of the batch: everything else in it, the preservative too, is thinned by
/// so much.
pub const THINNED: Percent = Percent::millionths(10_000_000);
/// From here on a thinned batch is worth a warning: usual doses of preservatives leave hardly more room.
pub const THIN: Percent = Percent::millionths(5_000_000);
/// Buffering that the formula does not account for, in mol per kg and unit of pH, from which on it is said: three pools of
/// 30 mmol/kg with one and the same constant hold 3 × 30 × ln 10 / 4 = 52 there.
pub const STRONG: f64 = 0.055;

/// What bounds one dose into a vessel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DoseBounds {
    /// What is weighed is at most one part in so many of what it goes into.
    pub parts: i64,
    /// By the best guess it moves the pH at most so far.
    pub moves: f64,
}

impl DoseBounds {
    /// A fiftieth and one pH for the batch; more for a side sample, which is thrown away and is there to be moved.
    pub const fn of(vessel: Vessel) -> Self {
        match vessel {
            Vessel::Batch => Self { parts: 50, moves: 1.0 },
            Vessel::Side => Self { parts: 8, moves: 2.0 },
        }
    }

    /// What is weighed, as a share of what it goes into.
    pub fn share(self) -> Percent {
        Percent::from_units(Percent::WHOLE.units() / self.parts)
    }
}

/// What bounds a dose that would have been larger.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DoseLimit {
    /// The mass that is weighed.
    Mass,
    /// The pure substance in it.
    Pure,
    /// How far it moves the pH.
    Moves,
    /// What all doses together may bring.
    InAll,
    /// What all doses together may thin the batch.
    Thins,
}

/// A dose that is one portion of more.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DosePortion {
    /// What would be weighed if nothing bounded it, of the same strength: by what is believed now.
    pub in_all: Mass,
    /// How many portions of this size that is.
    pub portions: i64,
    /// What bounds this one.
    pub limit: DoseLimit,
}

/// What the acids, bases and salts that a formula names can take up at the very most: every step
/// of the most that there may be of each, those that a pH is set with too.
pub fn named_in(phase: &WaterPhase) -> MolPerKg {
    let steps = |known: &crate::sheet::ph::Electrolyte| {
        let steps = known.row.system().map_or(0, |system| system.steps.len());
        known.amount.high * steps.max(known.row.ion.unsigned_abs() as usize) as f64
    };
    MolPerKg(phase.known.iter().map(steps).sum())
}

/// What has gone in that leads the same way as what is needed, in acid or base at a pH.
pub(super) fn gone_in(chemistry: &Chemistry, added: &[MolPerKg], ph: f64, down: bool) -> MolPerKg {
    let way = if down { 1.0 } else { -1.0 };
    let each = |(titrant, x): (usize, &MolPerKg)| (x.0 * chemistry.delivers(titrant, ph) * way).max(0.0);
    MolPerKg(added.iter().enumerate().map(each).sum())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bounds_of_the_batch_are_the_narrower() {
        let (batch, side) = (DoseBounds::of(Vessel::Batch), DoseBounds::of(Vessel::Side));
        assert!(batch.parts > side.parts && batch.moves < side.moves);
        assert!(THIN < THINNED);
    }

    // Source: the slope of one acid at its constant is ln 10 / 4 of its amount (Van Slyke 1922, J Biol Chem 52:525).
    #[test]
    fn bound_of_strong_buffering_lies_above_three_full_pools() {
        let pools = 3.0 * 0.03 * core::f64::consts::LN_10 / 4.0;
        assert!(pools < STRONG && STRONG < 1.1 * pools, "{pools}");
    }
}
