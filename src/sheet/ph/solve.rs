//! The pH of a mixture: the one at which all charges cancel.
//!
//! At a fixed ionic strength the sum of charges falls strictly with pH, so there is exactly one root and bisection
//! always finds it; around it the ionic strength is brought into step.

use super::activity::{LN10, davies, kelvin, pk_at, pkw};
use crate::facts::Acid;

/// The pH in which the root is sought: wider than any mixture in water can be.
const RANGE: (f64, f64) = (-2.0, 16.0);
/// Halvings of the range: 18 / 2^40 is below 2e-11.
const HALVINGS: u32 = 40;
/// Most rounds of bringing the ionic strength into step, and the change at which it is.
const ROUNDS: u32 = 120;
const IN_STEP: f64 = 1e-8;

/// A root is sought this near to the one before first, and so often halved.
const NEAR: (f64, u32) = (0.25, 32);

/// 10 to the power of `x`; the exponential is quicker than a general power.
fn power_of_ten(x: f64) -> f64 {
    (x * LN10).exp()
}

/// One acid or base in a mixture.
#[derive(Debug, Clone)]
pub struct Dissolved {
    /// mol per kg of water.
    pub molality: f64,
    /// Constants at the mixture's temperature and no ionic strength, in rising order.
    pub pkas: Vec<f64>,
    /// Charge of the fully protonated form.
    pub charge: i32,
    /// False if the constants are conditional ones, which no law of activities may move.
    pub corrected: bool,
}

impl Dissolved {
    /// So much of a system of the table, at a temperature in °C, its first constant moved by `shift`.
    pub fn of(system: &Acid, molality: f64, celsius: f64, shift: f64) -> Self {
        let kelvin = kelvin(celsius);
        let mut pkas: Vec<f64> = system
            .steps
            .iter()
            // Without a heat the constant is held as it is at 25 °C.
            .map(|step| step.heat.map_or(step.pka, |heat| pk_at(step.pka, heat, step.heat_capacity, kelvin)))
            .collect();
        if let Some(first) = pkas.first_mut() {
            *first += shift;
        }
        Self { molality: molality.max(0.0), pkas, charge: system.charge, corrected: !system.conditional() }
    }

    /// Mean charge of one molecule at a pH, with an activity term `d`.
    pub fn mean_charge(&self, ph: f64, d: f64) -> f64 {
        self.charges(ph, d).0
    }

    /// How fast the mean charge falls per unit of pH: never negative.
    pub fn slope(&self, ph: f64, d: f64) -> f64 {
        let (mean, square) = self.charges(ph, d);
        LN10 * (square - mean * mean).max(0.0)
    }

    /// Mean charge, and the mean of the squares of charges, at a pH with activity term `d`.
    fn charges(&self, ph: f64, d: f64) -> (f64, f64) {
        let d = if self.corrected { d } else { 0.0 };
        let mut log = 0.0;
        let mut z = f64::from(self.charge);
        // Shares relative to the largest one so far, so that nothing overflows.
        let (mut top, mut sum, mut first, mut second) = (0.0, 1.0, z, z * z);
        for pka in &self.pkas {
            let next = z - 1.0;
            log += ph - pka + d * (next * next - z * z);
            z = next;
            if log > top {
                let shrink = power_of_ten(top - log);
                (sum, first, second, top) = (sum * shrink, first * shrink, second * shrink, log);
            }
            let share = power_of_ten(log - top);
            sum += share;
            first += share * z;
            second += share * z * z;
        }
        (first / sum, second / sum)
    }
}

/// Acids, bases and the ions of strong ones, in water.
#[derive(Debug, Clone)]
pub struct AcidBaseMixture {
    /// Weak acids and bases.
    pub dissolved: Vec<Dissolved>,
    /// Net charge of all other ions: Na⁺ and K⁺ positive, Cl⁻ negative; mol per kg of water.
    pub strong: f64,
    /// Ionic strength of those ions: half the sum of molality × charge².
    pub strong_strength: f64,
    /// Temperature in °C, 0 to 100.
    pub celsius: f64,
    /// False for an ideal solution without activities: what textbooks' simple sums give.
    pub active: bool,
}

/// The state of a mixture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Solution {
    /// -log10 of the activity of H⁺: what a meter is made to show.
    pub ph: f64,
    /// mol per kg of water.
    pub strength: f64,
    /// Buffer capacity in mol per kg of water and unit of pH.
    pub buffer: f64,
    /// The activity term D of Davies at that strength.
    pub d: f64,
}

impl AcidBaseMixture {
    /// Water at a temperature in °C.
    pub fn water(celsius: f64) -> Self {
        Self { dissolved: Vec::new(), strong: 0.0, strong_strength: 0.0, celsius, active: true }
    }

    /// The same with all but the water made `factor` times as strong: a diluted sample.
    #[must_use]
    pub fn diluted(&self, factor: f64) -> Self {
        let mut mixture = self.clone();
        for dissolved in &mut mixture.dissolved {
            dissolved.molality *= factor;
        }
        mixture.strong *= factor;
        mixture.strong_strength *= factor;
        mixture
    }

    /// Adds `amount` mol per kg of water of a row of the table: its system and its strong ions. `shift` moves the first
    /// constant.
    pub fn add(&mut self, row: &Acid, amount: f64, shift: f64) {
        if let Some(system) = row.system() {
            let more = Dissolved::of(system, amount, self.celsius, shift);
            let same = |known: &&mut Dissolved| known.pkas == more.pkas && known.charge == more.charge;
            match self.dissolved.iter_mut().find(same) {
                Some(known) => known.molality += more.molality,
                None => self.dissolved.push(more),
            }
        }
        self.add_ions(f64::from(row.ion) * amount);
    }

    /// Adds strong ions of one charge each: positive for Na⁺ and K⁺.
    pub fn add_ions(&mut self, charge: f64) {
        self.strong += charge;
        self.strong_strength += charge.abs() / 2.0;
    }

    /// The charge of strong ions, in mol per kg of water, that brings it to a pH: positive for a base. Each round takes the
    /// activities of the one before.
    pub fn ions_to(&self, ph: f64) -> f64 {
        let kelvin = kelvin(self.celsius);
        let mut ions = 0.0;
        for _ in 0..4 {
            let mut there = self.clone();
            there.add_ions(ions);
            ions -= there.charge(ph, there.solve().d, pkw(kelvin));
        }
        ions
    }

    /// Solves it. Never fails: for any finite amounts the answer is finite.
    pub fn solve(&self) -> Solution {
        let kelvin = kelvin(self.celsius);
        let pkw = pkw(kelvin);
        let mut strength = 0.0;
        let mut solution = self.at_strength(0.0, pkw, kelvin, None);
        for round in 0..ROUNDS {
            if !self.active || (solution.strength - strength).abs() < IN_STEP {
                break;
            }
            // Half steps end any swing between two values.
            strength = if round < 20 { solution.strength } else { (strength + solution.strength) / 2.0 };
            solution = self.at_strength(strength, pkw, kelvin, Some(solution.ph));
        }
        solution
    }

    fn at_strength(&self, strength: f64, pkw: f64, kelvin: f64, last: Option<f64>) -> Solution {
        let d = if self.active { davies(strength, kelvin) } else { 0.0 };
        let close = last.map(|ph| (ph - NEAR.0, ph + NEAR.0));
        let holds = |(low, high): &(f64, f64)| self.charge(*low, d, pkw) > 0.0 && self.charge(*high, d, pkw) <= 0.0;
        let ((mut low, mut high), halvings) = match close.filter(holds) {
            Some(range) => (range, NEAR.1),
            None => (RANGE, HALVINGS),
        };
        for _ in 0..halvings {
            let middle = f64::midpoint(low, high);
            if self.charge(middle, d, pkw) > 0.0 { low = middle } else { high = middle }
        }
        let ph = f64::midpoint(low, high);
        let water = power_of_ten(d - ph) + power_of_ten(d + ph - pkw);
        let (mut strength, mut variance) = (self.strong_strength + water / 2.0, 0.0);
        for dissolved in &self.dissolved {
            let (mean, square) = dissolved.charges(ph, d);
            strength += dissolved.molality * square / 2.0;
            variance += dissolved.molality * (square - mean * mean).max(0.0);
        }
        Solution { ph, strength, buffer: LN10 * (water + variance), d }
    }

    /// The sum of all charges, in mol per kg of water.
    fn charge(&self, ph: f64, d: f64, pkw: f64) -> f64 {
        let weak: f64 = self.dissolved.iter().map(|dissolved| dissolved.molality * dissolved.charges(ph, d).0).sum();
        self.strong + weak + power_of_ten(d - ph) - power_of_ten(d + ph - pkw)
    }
}

/// The undissociated share of an acid, 0 to 1, at a pH: 1 / (1 + 10^(pH - pKa + D)), the constant moved by one step of
/// charge.
pub fn undissociated(pka: f64, ph: f64, d: f64) -> f64 {
    1.0 / (1.0 + power_of_ten(ph - pka + d))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::facts::acid;
    use proptest::prelude::*;

    fn mixture(amounts: &[(usize, f64)], strong: f64) -> AcidBaseMixture {
        let all = crate::facts::acids();
        let mut mixture = AcidBaseMixture::water(25.0);
        for (n, amount) in amounts {
            mixture.add(&all[n % all.len()], *amount, 0.0);
        }
        mixture.add_ions(strong);
        mixture
    }

    #[test]
    fn solve_water_alone_is_neutral() {
        let solution = AcidBaseMixture::water(25.0).solve();
        assert!((solution.ph - 6.9975).abs() < 1e-3, "{solution:?}");
    }

    #[test]
    fn solve_buffer_of_one_acid_is_greatest_at_its_constant() {
        // 0.576 C for one weak acid half neutralised: ln 10 / 4. Textbook result, here without activities.
        let mut mixture = AcidBaseMixture::water(25.0);
        mixture.active = false;
        mixture.add(acid("acetic-acid").unwrap(), 0.1, 0.0);
        mixture.add_ions(0.05);
        let solution = mixture.solve();
        assert!((solution.ph - 4.756).abs() < 1e-3 && (solution.buffer - 0.0576).abs() < 2e-4, "{solution:?}");
    }

    proptest! {
        /// Any mixture of any rows, 0 to 10 mol/kg in all, at any temperature of a kitchen.
        #[test]
        fn solve_any_mixture_converges(
            amounts in prop::collection::vec((0usize..64, 0.0f64..2.5), 0..4),
            strong in -2.0f64..2.0,
            celsius in 0.0f64..100.0,
        ) {
            let mut mixture = mixture(&amounts, strong);
            mixture.celsius = celsius;
            let solution = mixture.solve();
            for value in [solution.ph, solution.strength, solution.buffer, solution.d] {
                prop_assert!(value.is_finite());
            }
            prop_assert!((RANGE.0..=RANGE.1).contains(&solution.ph) && solution.buffer > 0.0);
            // In step: solving at the strength found gives the same pH again.
            let kelvin = kelvin(celsius);
            let again = mixture.at_strength(solution.strength, pkw(kelvin), kelvin, None);
            prop_assert!((again.ph - solution.ph).abs() < 1e-6, "{} against {}", again.ph, solution.ph);
        }

        #[test]
        fn solve_more_strong_base_is_never_a_lower_ph(
            amounts in prop::collection::vec((0usize..64, 0.0f64..0.2), 0..4),
            strong in -0.1f64..0.1,
            more in 1e-4f64..0.1,
        ) {
            let (before, after) = (mixture(&amounts, strong).solve(), mixture(&amounts, strong + more).solve());
            prop_assert!(after.ph >= before.ph - 1e-9, "{before:?} {after:?}");
        }
    }
}
