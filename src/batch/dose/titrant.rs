//! What one mole of an acid or base brings at a pH, and the water's own share.

use crate::facts::Acid;
use crate::quantity::{Percent, Quantity};
use crate::sheet::ph::{Dissolved, davies, pkw};

/// The ionic strength at which doses are reckoned, mol per kg of water: that of a lotion with salts. It moves every
/// constant by the same little, which the readings then correct.
const STRENGTH: f64 = 0.05;
/// 25 °C in kelvin.
const KELVIN: f64 = 298.15;

/// The chemistry that does not depend on the product: activity term and water.
#[derive(Debug, Clone, Copy)]
pub struct Water {
    d: f64,
    pkw: f64,
}

impl Default for Water {
    fn default() -> Self {
        Self { d: davies(STRENGTH, KELVIN), pkw: pkw(KELVIN) }
    }
}

impl Water {
    /// [H⁺] - [OH⁻] in mol per kg of water, and its slope per unit of pH (negative).
    pub fn excess(&self, ph: f64) -> (f64, f64) {
        let (acid, base) = (10f64.powf(self.d - ph), 10f64.powf(self.d + ph - self.pkw));
        (acid - base, -core::f64::consts::LN_10 * (acid + base))
    }

    /// How far an apparent constant lies below the one at no ionic strength, for a neutral acid.
    pub fn d(&self) -> f64 {
        self.d
    }
}

/// The strength that is taken where the maker states none: the upper end of what is sold, so that a dose is rather too
/// small than too large.
pub fn usual_strength(row: &Acid) -> Percent {
    Percent::from_units((row.assay.1 * Percent::WHOLE.units() as f64).round() as i64)
}

/// An acid or base ready to reckon with.
#[derive(Debug, Clone)]
pub struct Titrant {
    system: Option<Dissolved>,
    ion: f64,
    d: f64,
    /// Molar mass in g/mol.
    pub mass: f64,
}

impl Titrant {
    /// From its row.
    pub fn new(row: &Acid, water: &Water) -> Self {
        let system = row.system().map(|system| Dissolved::of(system, 1.0, 25.0, 0.0));
        Self { system, ion: f64::from(row.ion), d: water.d, mass: row.mass }
    }

    /// Acid equivalents that one mole delivers at a pH; negative for a base.
    pub fn delivers(&self, ph: f64) -> f64 {
        -(self.ion + self.system.as_ref().map_or(0.0, |system| system.mean_charge(ph, self.d)))
    }

    /// Its slope per unit of pH: never negative.
    pub fn slope(&self, ph: f64) -> f64 {
        self.system.as_ref().map_or(0.0, |system| system.slope(ph, self.d))
    }

    /// Whether it can take the product to a pH: an acid down to where it no longer gives protons, a base up.
    pub fn reaches(&self, ph: f64, down: bool) -> bool {
        let delivers = self.delivers(ph);
        if down { delivers > 0.02 } else { delivers < -0.02 }
    }
}
