//! The pH that the acids, bases and salts of a formula make: an estimate for the water alone, always a range.

use super::solve::{AcidBaseMixture, Dissolved};
use super::water::{Electrolyte, MolalityRange, WaterPhase};
use crate::facts::Acid;
use crate::formula::LineId;
use crate::quantity::{Celsius, Percent, Ph, Quantity};

/// Half the width of the model itself, in pH, at an ionic strength up to 0.1: what charge balance with Davies' law is
/// off by in handbook buffers is 0.02, what an emulsion adds is not known. Common practice, no source.
const MODEL: f64 = 0.2;
/// The same above 0.1, where ions of two and three charges read 0.1 to 0.2 high.
const MODEL_STRONG: f64 = 0.4;
const STRONG: f64 = 0.1;
/// Share of polyols in the water above which constants measured in water no longer hold.
const THICK_WATER: f64 = 0.2;

/// What the model expects, and what it cannot see. Never a substitute for a reading.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Prediction {
    /// Low end, in tenths.
    pub low: Ph,
    /// Middle, in tenths.
    pub middle: Ph,
    /// High end, in tenths.
    pub high: Ph,
    /// Buffer capacity in µmol per kg of product and unit of pH, at the middle.
    pub buffer: i64,
    /// How much higher a sample of one part in ten reads than the product as it is, in hundredths of pH.
    pub shift_one_in_ten: i64,
    /// The same for one part in five.
    pub shift_one_in_five: i64,
    /// Lines that move the pH and are counted.
    pub counted: Vec<LineId>,
    /// Lines that move or hold the pH and could not be counted.
    pub unseen: Vec<LineId>,
    /// So much is dissolved that the model is on thin ice.
    pub salty: bool,
    /// So much glycerin or glycol is in the water that the constants no longer hold.
    pub thick_water: bool,
    /// Carbon dioxide will leave and the pH rise.
    pub gas: bool,
    /// Something turns into an acid over hours and the pH will fall.
    pub drifts: bool,
}

/// Predicts it at a temperature; nothing if there is no water, or nothing in it that moves the pH.
pub fn predict(phase: &WaterPhase, at: Celsius) -> Option<Prediction> {
    if phase.water < 0.01 || phase.known.is_empty() {
        return None;
    }
    let celsius = at.units() as f64 / 10f64.powi(Celsius::PLACES as i32);
    let middle_mixture = mixture(phase, celsius, 0);
    let middle = middle_mixture.solve();
    let (low, high) = (mixture(phase, celsius, -1).solve(), mixture(phase, celsius, 1).solve());
    let model = if middle.strength > STRONG { MODEL_STRONG } else { MODEL };
    let brings = |id: &str| phase.known.iter().any(|known| known.row.id == id);
    // One part of product in n parts: its water meets n - 1 parts of distilled water.
    let shift = |parts: f64| {
        let diluted = middle_mixture.diluted(phase.water / (phase.water + parts - 1.0)).solve();
        ((diluted.ph - middle.ph) * 100.0).round() as i64
    };
    let mut counted: Vec<LineId> = phase.known.iter().map(|known| known.line).collect();
    counted.dedup();
    Some(Prediction {
        low: tenths(low.ph.min(middle.ph) - model),
        middle: tenths(middle.ph),
        high: tenths(high.ph.max(middle.ph) + model),
        buffer: (middle.buffer * phase.water * 1e6).round() as i64,
        shift_one_in_ten: shift(10.0),
        shift_one_in_five: shift(5.0),
        counted,
        unseen: phase.unseen.clone(),
        salty: middle.strength > STRONG,
        thick_water: phase.polyols > THICK_WATER * phase.water,
        gas: brings("sodium-bicarbonate"),
        drifts: brings("gluconolactone") || brings("ascorbic-acid"),
    })
}

/// How much pure acid or base, as least and greatest share of the product, takes the water to a pH at a temperature: over all that
/// the estimate does not know, the model's own width included.
pub(super) fn needed(phase: &WaterPhase, row: &Acid, target: Ph, at: Celsius) -> (Percent, Percent) {
    let celsius = at.units() as f64 / 10f64.powi(Celsius::PLACES as i32);
    let target = target.units() as f64 / 100.0;
    let model = if mixture(phase, celsius, 0).solve().strength > STRONG { MODEL_STRONG } else { MODEL };
    let system = row.system().map(|system| Dissolved::of(system, 1.0, celsius, 0.0));
    let share = |end: i32, ph: f64| {
        let mixture = mixture(phase, celsius, end);
        let charge =
            f64::from(row.ion) + system.as_ref().map_or(0.0, |system| system.mean_charge(ph, mixture.solve().d));
        let moles = if charge.abs() < 0.02 { 0.0 } else { mixture.ions_to(ph) / charge };
        (moles * phase.water * row.mass / 1000.0).max(0.0)
    };
    let all = [-1, 0, 1].into_iter().flat_map(|end| [target - model, target, target + model].map(|ph| share(end, ph)));
    let (least, most) = all.fold((f64::INFINITY, 0.0f64), |(least, most), one| (least.min(one), most.max(one)));
    // Outwards to a hundredth: no model knows it better.
    let hundredths = |share: f64| Percent::from_units((share.min(1.0) * 10_000.0) as i64 * 10_000);
    (hundredths(least), hundredths(most + 0.000_099))
}

/// The mixture in the water: towards the acid end of every range (-1), the middle (0) or the alkaline end (1).
fn mixture(phase: &WaterPhase, celsius: f64, end: i32) -> AcidBaseMixture {
    let mut mixture = AcidBaseMixture::water(celsius);
    for Electrolyte { row, amount, .. } in &phase.known {
        let MolalityRange { low, middle, high } = *amount;
        // A salt of an acid, a base and an amine lift the pH; an acid lowers it.
        let lifts = row.ion > 0 || row.system().is_some_and(|system| system.charge > 0);
        let moles = match (end, lifts) {
            (0, _) => middle,
            (1, true) | (-1, false) => high,
            _ => low,
        };
        let shift = row.system().and_then(|system| Some((system.span?, system.steps.first()?.pka)));
        let shift = shift.map_or(0.0, |((least, most), pka)| match end {
            0 => 0.0,
            1 => most - pka,
            _ => least - pka,
        });
        mixture.add(row, moles / phase.water, shift);
    }
    mixture
}

fn tenths(ph: f64) -> Ph {
    Ph::from_units(((ph * 10.0).round() as i64 * 10).clamp(Ph::MIN, Ph::MAX))
}
