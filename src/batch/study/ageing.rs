//! What warm storage is sometimes taken for: models of a reaction that goes faster when it is warmer. They are conventions.
//! An emulsion does not age by one reaction: waxes melt, emulsifiers turn, microbes and oxidation follow laws of their own.

use crate::quantity::{Celsius, Quantity};

/// The gas constant in J/(mol K); CODATA 2018, exact.
const GAS: f64 = 8.314_462_618;
/// 0 °C in kelvin.
const ZERO_CELSIUS: f64 = 273.15;

fn kelvin(celsius: Celsius) -> f64 {
    celsius.units() as f64 / 10f64.powi(Celsius::PLACES as i32) + ZERO_CELSIUS
}

/// How many times faster a reaction goes at `warm` than at `room`, if it goes `q10` times faster for each 10 °C
/// (ASTM F1980: Q10 to the power of the difference over ten).
pub fn q10_factor(q10: f64, warm: Celsius, room: Celsius) -> f64 {
    q10.powf((kelvin(warm) - kelvin(room)) / 10.0)
}

/// The same by Arrhenius' law, for an activation energy in kJ/mol.
pub fn arrhenius_factor(energy: f64, warm: Celsius, room: Celsius) -> f64 {
    (energy * 1_000.0 / GAS * (1.0 / kelvin(room) - 1.0 / kelvin(warm))).exp()
}

/// The activation energy in kJ/mol at which Arrhenius' law gives a factor between two temperatures; nothing where these are
/// the same or the factor is none.
pub fn activation_energy(factor: f64, warm: Celsius, room: Celsius) -> Option<f64> {
    let energy = factor.ln() * GAS / (1.0 / kelvin(room) - 1.0 / kelvin(warm)) / 1_000.0;
    energy.is_finite().then_some(energy)
}

/// For how many whole days at `room` so many at `warm` are taken by the rule of Q10, which is in tenths; cut off, never rounded up.
pub fn like_days(days: i64, q10_tenths: i64, warm: Celsius, room: Celsius) -> i64 {
    // A product of exact figures may come out a hair below the whole number that it is.
    (days as f64 * q10_factor(q10_tenths as f64 / 10.0, warm, room) + 1e-9).floor() as i64
}
