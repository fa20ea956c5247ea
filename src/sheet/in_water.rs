//! What of a preservative is free in the water of an emulsion: it divides between oil and water, and an acid ionises there.
//!
//! Sources: oil and water, Bean and others, J. Soc. Cosmet. Chem. 16 (1965) 18; weak acids, Garrett and Woods, J. Am. Pharm.
//! Assoc. 42 (1953) 736 (from memory); the ceiling of solubility by mass balance. What emulsifiers bind is not known for those
//! of today, and counts as nothing: the answer is the upper side of the truth.

use crate::facts::{
    ActingForm, Basis, Partition, PartitionCoefficient, Provenance, SubstanceClass, WaterSolubility, craft, fold,
    in_class, partition,
};
use crate::formula::Formula;
use crate::quantity::{Celsius, Percent, Quantity};
use crate::shelf::Shelf;

use super::emulsion::oil_volume;
use super::{Named, Totals, consists_of};

/// A substance in an emulsion: everything else of it follows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Divided {
    /// How much of it there is in oil and water together, in g per 100 mL of both.
    pub concentration: f64,
    /// Volume of oil over that of water.
    pub oil_per_water: f64,
    /// Its concentration in the oil over that in the water, undissociated.
    pub coefficient: f64,
    /// Ionised over undissociated in the water: 10^(pH − pKa); nothing for what is no acid.
    pub ionised: f64,
}

impl Divided {
    /// What stands in the water undissociated, in g per 100 mL of water, where all of it dissolves:
    /// C (φ + 1) / (K φ + 1 + x).
    pub fn free(&self) -> f64 {
        self.concentration * (self.oil_per_water + 1.0) / self.holds()
    }

    /// What does not dissolve, in g per 100 mL of oil and water together, where water holds no more than `most` g per 100 mL
    /// undissociated; nothing where all of it does.
    pub fn undissolved(&self, most: f64) -> f64 {
        let undissolved = self.concentration - most * self.holds() / (self.oil_per_water + 1.0);
        if undissolved > NOTHING { undissolved } else { 0.0 }
    }

    fn holds(&self) -> f64 {
        self.coefficient * self.oil_per_water + 1.0 + self.ionised
    }
}

/// Whether a substance stays dissolved.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Dissolves {
    /// As far as is known.
    Yes,
    /// Crystals may come, where it is cold above all.
    InDoubt,
    /// It is more than water and oil hold, even if the oil takes as much as it may.
    No,
}

/// What is free of one substance.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct InWater {
    /// Undissociated and dissolved, of the water in percent (g per 100 mL): least, most likely, greatest.
    pub free: [Percent; 3],
    /// What water holds of it undissociated, in the same unit.
    pub most: Option<Percent>,
    /// Whether it stays dissolved.
    pub dissolves: Dissolves,
    /// True if the coefficient was estimated.
    pub estimated: bool,
    /// Something to know of it; may be empty.
    pub note: &'static str,
    /// Where solubility and coefficient come from.
    pub basis: Basis,
}

/// Water and oil of an emulsion.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Volumes {
    /// Volume of oil over that of water.
    pub oil_per_water: f64,
    /// Volume of liquid paraffin over that of all oil.
    pub paraffin: f64,
}

/// What is less is an error of the reckoning, in g per 100 mL.
const NOTHING: f64 = 1e-9;

impl Volumes {
    /// Of a formula. Fatty alcohols and waxes count as oil, which they are not quite.
    pub fn of(formula: &Formula, totals: &Totals, shelf: &Shelf) -> Self {
        let (dispersed, oil) = oil_volume(formula, totals, shelf);
        let (share, oil) = (fraction(dispersed).min(0.99), fraction(oil));
        let is_paraffin = |named: &Named| in_class(SubstanceClass::Paraffin, &fold(&named.name)).is_some();
        let paraffin = formula.lines().filter_map(|(_, line)| {
            let parts = consists_of(&line.choice, shelf);
            let all = !parts.is_empty() && parts.iter().all(is_paraffin);
            totals.share_of(line.id).filter(|_| all)
        });
        let paraffin: f64 = paraffin.map(fraction).sum();
        Self { oil_per_water: share / (1.0 - share), paraffin: if oil > 0.0 { (paraffin / oil).min(1.0) } else { 0.0 } }
    }
}

/// The temperature at which it is asked whether everything stays dissolved, in °C.
fn cold_store() -> f64 {
    craft().cold_store.units() as f64 / 10f64.powi(Celsius::PLACES as i32)
}

fn fraction(share: Percent) -> f64 {
    share.units() as f64 / Percent::WHOLE.units() as f64
}

/// What is free of a preservative; nothing where its free part cannot be told, or is not what acts. `concentration` is its share
/// of the formula as its acid, taken as grams in 100 mL; `ionised` is 10^(pH − pKa).
pub fn in_water(id: &str, concentration: Percent, volumes: Volumes, ionised: f64) -> Option<InWater> {
    let row = partition(id).filter(|row| row.acts == ActingForm::Molecule)?;
    let coefficient = mixed(row, volumes.paraffin)?;
    let divided = |coefficient: f64| Divided {
        concentration: fraction(concentration) * 100.0,
        oil_per_water: volumes.oil_per_water,
        coefficient,
        ionised,
    };
    let at = [coefficient.value * coefficient.doubt, coefficient.value, coefficient.value / coefficient.doubt];
    let (most, provenance) = match row.solubility {
        WaterSolubility::Limited { grams_per_litre, provenance, .. } => (Some(grams_per_litre / 10.0), provenance),
        WaterSolubility::Miscible | WaterSolubility::Unknown => (None, Provenance::Memory),
    };
    let cold = row.solubility.at(cold_store()).map(|grams| grams / 10.0);
    let free = at.map(|coefficient| divided(coefficient).free().min(most.unwrap_or(f64::MAX)));
    let at_best = divided(coefficient.value * coefficient.doubt);
    let dissolves = match (most, cold) {
        (Some(most), _) if at_best.undissolved(most) > 0.0 => Dissolves::No,
        (_, Some(cold)) if divided(coefficient.value).undissolved(cold) > 0.0 => Dissolves::InDoubt,
        _ => Dissolves::Yes,
    };
    Some(InWater {
        free: free.map(of_water),
        most: most.map(of_water),
        dissolves,
        estimated: coefficient.provenance.is_none(),
        note: row.note,
        basis: Basis { source: row.sources, provenance },
    })
}

/// Of vegetable oil and liquid paraffin by volume. What nobody measured in paraffin counts as in vegetable oil, which takes more.
fn mixed(row: &Partition, paraffin: f64) -> Option<PartitionCoefficient> {
    let vegetable = row.vegetable?;
    let in_paraffin = row.paraffin.unwrap_or(vegetable);
    let value = vegetable.value * (1.0 - paraffin) + in_paraffin.value * paraffin;
    Some(PartitionCoefficient { value, ..vegetable })
}

fn of_water(grams_per_100_ml: f64) -> Percent {
    Percent::from_units((grams_per_100_ml / 100.0 * Percent::WHOLE.units() as f64).round() as i64)
}
