//! The artificial population: products whose hidden acids nobody sees, scales and instruments that err.

use hundred_parts::batch::Instrument;
use hundred_parts::batch::dose::{Titrant, Water};
use hundred_parts::facts::{Acid, acid};
use hundred_parts::quantity::{Mass, Percent, Quantity};
use hundred_parts::sheet::ph::Dissolved;

/// Kilograms of water per kilogram of product.
pub(super) const WATER: f64 = 0.8;

/// SplitMix64 (Steele, Lea and Flood 2014): small, even, the same everywhere.
pub(super) struct Random(pub(super) u64);

impl Random {
    pub(super) fn substances(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    pub(super) fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * (self.substances() >> 11) as f64 / (1u64 << 53) as f64
    }

    pub(super) fn pick<T: Copy>(&mut self, of: &[T]) -> T {
        of[(self.substances() % of.len() as u64) as usize]
    }
}

/// One of the population's corners.
#[derive(Clone, Copy)]
pub(super) struct Setting {
    pub(super) name: &'static str,
    pub(super) down: bool,
    pub(super) instrument: Instrument,
    pub(super) step: &'static str,
    /// Products unlike those that the rule was made for: 1 to 5 pools of 0.05 to 100 mmol/kg, constants of 2.5 to 10.
    pub(super) unlike: bool,
    /// So much of a buffer, mol per kg, that the formula does not tell, with its constant between 4 and 7.
    pub(super) hidden: f64,
}

pub(super) const SETTINGS: [Setting; 7] = [
    Setting {
        name: "down, meter, 0.01 g",
        down: true,
        instrument: Instrument::Meter,
        step: "0.01",
        unlike: false,
        hidden: 0.0,
    },
    Setting {
        name: "down, meter, 0.1 g",
        down: true,
        instrument: Instrument::Meter,
        step: "0.1",
        unlike: false,
        hidden: 0.0,
    },
    Setting {
        name: "down, strips, 0.01 g",
        down: true,
        instrument: Instrument::Strip,
        step: "0.01",
        unlike: false,
        hidden: 0.0,
    },
    Setting {
        name: "down, strips, 0.1 g",
        down: true,
        instrument: Instrument::Strip,
        step: "0.1",
        unlike: false,
        hidden: 0.0,
    },
    Setting {
        name: "up, meter, 0.01 g",
        down: false,
        instrument: Instrument::Meter,
        step: "0.01",
        unlike: false,
        hidden: 0.0,
    },
    Setting {
        name: "up, meter, 0.1 g",
        down: false,
        instrument: Instrument::Meter,
        step: "0.1",
        unlike: false,
        hidden: 0.0,
    },
    Setting {
        name: "down, meter, 0.01 g, unlike products",
        down: true,
        instrument: Instrument::Meter,
        step: "0.01",
        unlike: true,
        hidden: 0.0,
    },
];

/// A product whose pools nobody sees.
pub(super) struct Product {
    pub(super) pools: Vec<(f64, f64)>,
    pub(super) told: Vec<Dissolved>,
    pub(super) start: f64,
    pub(super) target: f64,
    pub(super) titrant: &'static Acid,
    pub(super) strength: Percent,
    pub(super) batch: Mass,
}

impl Product {
    pub(super) fn of(random: &mut Random, setting: Setting) -> Self {
        let least = if setting.instrument == Instrument::Meter { 0.3 } else { 0.8 };
        let (start, target) = loop {
            let start = random.between(4.5, 8.0);
            let target = (random.between(4.5, 6.0) * 10.0).round() / 10.0;
            let gap = if setting.down { start - target } else { target - start };
            if gap >= least {
                break (start, target);
            }
        };
        let (counts, amounts, constants) = match setting.unlike {
            false => (&[1, 2, 3][..], (0.3e-3, 30e-3), (3.5, 8.5)),
            true => (&[1, 2, 3, 4, 5][..], (0.05e-3, 100e-3), (2.5, 10.0)),
        };
        let amounts: (f64, f64) = amounts;
        let count = random.pick(counts);
        let mut pools: Vec<(f64, f64)> = (0..count)
            .map(|_| (random.between(amounts.0.ln(), amounts.1.ln()).exp(), random.between(constants.0, constants.1)))
            .collect();
        let mut told = Vec::new();
        for (amount, constant) in &pools {
            let (tells, off, moved) =
                (random.between(0.0, 1.0) < 0.5, random.between(0.9, 1.1), random.between(-0.1, 0.1));
            if tells {
                told.push(Dissolved {
                    molality: amount * off,
                    pkas: vec![constant + moved],
                    charge: 0,
                    corrected: false,
                });
            }
        }
        if setting.hidden > 0.0 {
            pools.push((setting.hidden, random.between(4.0, 7.0)));
        }
        let (titrant, strength) = if setting.down {
            random.pick(&[("citric-acid", "100"), ("lactic-acid", "88")])
        } else {
            random.pick(&[
                ("sodium-hydroxide", "10"),
                ("triethanolamine", "99"),
                ("sodium-bicarbonate", "100"),
                ("arginine", "100"),
            ])
        };
        Self {
            pools,
            told,
            start,
            target,
            titrant: acid(titrant).expect("in the table"),
            strength: Percent::from_canonical(strength).expect("a percent"),
            batch: Mass::from_units((random.between(300.0, 1000.0) as i64) * 1_000_000),
        }
    }

    /// The true pH after so much of the titrant, mol per kg of product.
    pub(super) fn ph(&self, added: f64) -> f64 {
        let water = Water::default();
        let titrant = Titrant::new(self.titrant, &water);
        let takes = |ph: f64| {
            self.pools.iter().map(|(amount, constant)| amount / (1.0 + 10f64.powf(ph - constant))).sum::<f64>()
        };
        let unbalanced = |ph: f64| {
            added * titrant.delivers(ph) - WATER * (water.excess(ph).0 - water.excess(self.start).0) - takes(ph)
                + takes(self.start)
        };
        let (mut low, mut high) = (0.5, 13.5);
        for _ in 0..40 {
            let middle = f64::midpoint(low, high);
            // More acid than is taken up at a pH: the true one is lower.
            if unbalanced(middle) > 0.0 { high = middle } else { low = middle }
        }
        f64::midpoint(low, high)
    }
}

/// A vessel as it truly is.
pub(super) struct Pot {
    pub(super) product: f64,
    pub(super) total: f64,
    pub(super) added: f64,
}

impl Pot {
    pub(super) fn take(&mut self, kilograms: f64) {
        self.product *= 1.0 - kilograms / self.total;
        self.total -= kilograms;
    }

    /// What the scale shows is true to half a step.
    pub(super) fn dose(&mut self, shown: Mass, strength: Percent, step: Mass, molar: f64, random: &mut Random) {
        let step = step.units() as f64 / 1e9;
        let mass = (shown.units() as f64 / 1e9 + random.between(-0.5, 0.5) * step).max(0.0);
        self.added += mass * (strength.units() as f64 / 1e8) * 1000.0 / molar / self.product;
        self.total += mass;
    }
}

pub(super) fn read(instrument: Instrument, ph: f64, random: &mut Random) -> f64 {
    match instrument {
        Instrument::Meter => ((ph + random.between(-0.05, 0.05)) * 100.0).round() / 100.0,
        Instrument::Strip => ((ph + random.between(-0.25, 0.25)) * 2.0).round() / 2.0,
    }
}
