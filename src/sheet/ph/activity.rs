//! What salts and temperature do to ions: the law of Davies, and constants away from 25 °C.

/// Natural logarithm of 10.
pub(super) const LN10: f64 = core::f64::consts::LN_10;
/// Gas constant in J/(mol K): exact since 2019 (SI).
const R: f64 = 8.314_462_618;
/// 25 °C in kelvin, at which tables give constants.
const T0: f64 = 298.15;
/// Water at 25 °C: pKw, heat in kJ/mol, change of heat capacity in J/(mol K). From memory (CODATA; Olofsson and Hepler);
/// with them pKw is 14.16 at 20 °C and 13.54 at 40 °C.
const WATER: (f64, f64, f64) = (13.995, 55.815, -224.0);
/// The law of Davies is held at its value here: beyond, it only goes wrong faster.
const MOST_STRENGTH: f64 = 0.6;

pub(super) fn kelvin(celsius: f64) -> f64 {
    celsius.clamp(0.0, 100.0) + 273.15
}

/// A constant at another temperature: the integrated law of van 't Hoff with a constant change of heat capacity, in the
/// form that Goldberg, Kishore and Lennen use (J Phys Chem Ref Data 31, 231, 2002). `heat` in kJ/mol, `capacity` in
/// J/(mol K), `kelvin` in K.
pub fn pk_at(pk: f64, heat: f64, capacity: f64, kelvin: f64) -> f64 {
    let ratio = T0 / kelvin;
    let change = heat * 1000.0 / R * (1.0 / T0 - 1.0 / kelvin) + capacity / R * (ratio - 1.0 - ratio.ln());
    pk - change / LN10
}

/// pKw of water at a temperature in K.
pub fn pkw(kelvin: f64) -> f64 {
    pk_at(WATER.0, WATER.1, WATER.2, kelvin)
}

/// D in log10 γ = -z² D, after Davies: A (√I / (1 + √I) - 0.3 I). I in mol per kg of water, at a temperature in K.
///
/// A after the polynomial of Alberty 2003, from memory; it is 0.5107 at 25 °C. Good to about 0.02 pH up to I = 0.1, and
/// 0.1 to 0.2 pH high with ions of two and three charges up to I = 0.5.
pub fn davies(strength: f64, kelvin: f64) -> f64 {
    let a = (1.107_08 - 1.545_08e-3 * kelvin + 5.955_84e-6 * kelvin * kelvin) / LN10;
    let strength = strength.clamp(0.0, MOST_STRENGTH);
    let root = strength.sqrt();
    a * (root / (1.0 + root) - 0.3 * strength)
}
