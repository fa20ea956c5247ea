//! `cargo task bench`: the next dose on simulated batches, four ways side by side.
//!
//! The population is artificial: 1 to 3 hidden pools of weak acids of 0.3 to 30 mmol/kg with constants of 3.5 to 8.5, a
//! start of pH 4.5 to 8 and a target of 4.5 to 6, a meter of ±0.05 or strips of ±0.5 in steps of 0.5, a scale of 0.01 or
//! 0.1 g, batches of 300 to 1000 g. Of each pool the formula tells with a probability of one half, to 10 % and to 0.1 of
//! its constant; the rows `formula unknown` do without. Every reading takes 2 g away. The random numbers are our own and
//! the same every time.

use hundred_parts::batch::dose::one_pool::{Step, one_pool};
use hundred_parts::batch::dose::{Advice, Case, Titrant, Water, advise, portion};
use hundred_parts::batch::{Instrument, PhEvent, PhLog, Vessel};
use hundred_parts::facts::{Acid, IngredientId, acid};
use hundred_parts::quantity::{Mass, Percent, Ph, Quantity};
use hundred_parts::sheet::ph::Dissolved;

/// Kilograms of water per kilogram of product.
const WATER: f64 = 0.8;
/// More readings than this nobody takes.
const MOST_READINGS: usize = 25;

/// SplitMix64 (Steele, Lea and Flood 2014): small, even, the same everywhere.
struct Random(u64);

impl Random {
    fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * (self.bits() >> 11) as f64 / (1u64 << 53) as f64
    }

    fn pick<T: Copy>(&mut self, of: &[T]) -> T {
        of[(self.bits() % of.len() as u64) as usize]
    }
}

/// One of the population's corners.
#[derive(Clone, Copy)]
struct Setting {
    name: &'static str,
    down: bool,
    instrument: Instrument,
    step: &'static str,
    /// Products unlike those that the rule was made for: 1 to 5 pools of 0.05 to 100 mmol/kg, constants of 2.5 to 10.
    unlike: bool,
}

const SETTINGS: [Setting; 7] = [
    Setting { name: "down, meter, 0.01 g", down: true, instrument: Instrument::Meter, step: "0.01", unlike: false },
    Setting { name: "down, meter, 0.1 g", down: true, instrument: Instrument::Meter, step: "0.1", unlike: false },
    Setting { name: "down, strips, 0.01 g", down: true, instrument: Instrument::Strip, step: "0.01", unlike: false },
    Setting { name: "down, strips, 0.1 g", down: true, instrument: Instrument::Strip, step: "0.1", unlike: false },
    Setting { name: "up, meter, 0.01 g", down: false, instrument: Instrument::Meter, step: "0.01", unlike: false },
    Setting { name: "up, meter, 0.1 g", down: false, instrument: Instrument::Meter, step: "0.1", unlike: false },
    Setting {
        name: "down, meter, 0.01 g, unlike products",
        down: true,
        instrument: Instrument::Meter,
        step: "0.01",
        unlike: true,
    },
];

/// How the doses are found.
#[derive(Clone, Copy, PartialEq)]
enum Way {
    Pinches,
    Reference,
    Alone { told: bool },
    Sample { told: bool },
}

const WAYS: [(Way, &str); 6] = [
    (Way::Pinches, "fixed pinches"),
    (Way::Reference, "reference rule"),
    (Way::Alone { told: true }, "batch alone"),
    (Way::Alone { told: false }, "batch alone, formula unknown"),
    (Way::Sample { told: true }, "side sample first"),
    (Way::Sample { told: false }, "side sample first, formula unknown"),
];

/// A product whose pools nobody sees.
struct Product {
    pools: Vec<(f64, f64)>,
    told: Vec<Dissolved>,
    start: f64,
    target: f64,
    titrant: &'static Acid,
    strength: Percent,
    batch: Mass,
}

impl Product {
    fn of(random: &mut Random, setting: Setting) -> Self {
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
        let pools: Vec<(f64, f64)> = (0..count)
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
    fn ph(&self, added: f64) -> f64 {
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
struct Pot {
    product: f64,
    total: f64,
    added: f64,
}

impl Pot {
    fn take(&mut self, kilograms: f64) {
        self.product *= 1.0 - kilograms / self.total;
        self.total -= kilograms;
    }

    /// What the scale shows is true to half a step.
    fn dose(&mut self, shown: Mass, strength: Percent, step: Mass, molar: f64, random: &mut Random) {
        let step = step.units() as f64 / 1e9;
        let mass = (shown.units() as f64 / 1e9 + random.between(-0.5, 0.5) * step).max(0.0);
        self.added += mass * (strength.units() as f64 / 1e8) * 1000.0 / molar / self.product;
        self.total += mass;
    }
}

fn read(instrument: Instrument, ph: f64, random: &mut Random) -> f64 {
    match instrument {
        Instrument::Meter => ((ph + random.between(-0.05, 0.05)) * 100.0).round() / 100.0,
        Instrument::Strip => ((ph + random.between(-0.25, 0.25)) * 2.0).round() / 2.0,
    }
}

/// What came of one batch.
#[derive(Default, Clone, Copy)]
struct Outcome {
    first_past: bool,
    later_past: bool,
    far_past: bool,
    worst: f64,
    doses: usize,
    readings: usize,
    side_readings: usize,
    /// Solutions that had to be made, each of a strength of its own.
    solutions: usize,
    /// How far the batch was left from its target.
    gap: f64,
    unfinished: bool,
    refused: bool,
}

fn limit(instrument: Instrument) -> f64 {
    if instrument == Instrument::Meter { 0.1 } else { 0.5 }
}

impl Outcome {
    /// Notes the batch's true pH after a dose.
    fn dosed(&mut self, setting: Setting, product: &Product, ph: f64) {
        let past = if setting.down { product.target - ph } else { ph - product.target };
        self.doses += 1;
        let over = past > limit(setting.instrument);
        self.first_past |= over && self.doses == 1;
        self.later_past |= over && self.doses > 1;
        self.far_past |= past > 0.3;
        self.worst = self.worst.max(past);
    }
}

fn ph(value: f64) -> Ph {
    Ph::from_units((value * 100.0).round() as i64)
}

fn step(setting: Setting) -> Mass {
    Mass::from_canonical(setting.step).expect("a mass")
}

/// The page's own way, through the log as the page keeps it.
fn ours(setting: Setting, product: &Product, told: bool, side_first: bool, random: &mut Random) -> Outcome {
    let id = IngredientId::parse(product.titrant.id).expect("an id");
    let row = |_: &IngredientId| Some(product.titrant);
    let mut log = PhLog::new(product.batch, ph(product.target));
    let mut outcome = Outcome::default();
    let kilograms = product.batch.units() as f64 / 1e9;
    let mut batch = Pot { product: kilograms, total: kilograms, added: 0.0 };
    let mut side = Pot { product: 0.0, total: 0.0, added: 0.0 };
    let taken = Mass::from_units(2_000_000);
    while outcome.readings + outcome.side_readings < 2 * MOST_READINGS {
        let case = Case {
            log: &log,
            water: WATER,
            known: if told { &product.told } else { &[] },
            titrant: product.titrant,
            strength: product.strength,
            step: step(setting),
            side_first,
        };
        let event = match advise(&case, &row) {
            Advice::Read(vessel) | Advice::Repeat(vessel) => {
                let pot = if vessel == Vessel::Batch { &mut batch } else { &mut side };
                let shown = read(setting.instrument, product.ph(pot.added), random);
                pot.take(0.002);
                if vessel == Vessel::Batch {
                    outcome.readings += 1
                } else {
                    outcome.side_readings += 1
                }
                PhEvent::Read { vessel, ph: ph(shown), instrument: setting.instrument, dilution: 5, taken }
            }
            Advice::TakeSample(mass) => {
                let taken = mass.units() as f64 / 1e9;
                side = Pot { product: batch.product * taken / batch.total, total: taken, added: batch.added };
                batch.take(taken);
                PhEvent::Sample { mass }
            }
            Advice::Add(proposal) => {
                let portion = proposal.portion;
                if portion.stock.is_some() && !log.has_used(&id, portion.strength) {
                    outcome.solutions += 1;
                }
                let pot = if proposal.vessel == Vessel::Batch { &mut batch } else { &mut side };
                pot.dose(portion.mass, portion.strength, step(setting), product.titrant.mass, random);
                if proposal.vessel == Vessel::Batch {
                    outcome.dosed(setting, product, product.ph(batch.added));
                }
                PhEvent::Dose {
                    vessel: proposal.vessel,
                    titrant: id.clone(),
                    strength: portion.strength,
                    mass: portion.mass,
                    step: step(setting),
                }
            }
            Advice::Stop | Advice::Passed(_) => {
                outcome.gap = (product.ph(batch.added) - product.target).abs();
                return outcome;
            }
            Advice::Refuse(_) => {
                outcome.gap = (product.ph(batch.added) - product.target).abs();
                outcome.refused = true;
                return outcome;
            }
        };
        log.events.push((0, event));
    }
    outcome.gap = (product.ph(batch.added) - product.target).abs();
    outcome.unfinished = true;
    outcome
}

/// From the reading before and the totals with the reading after each, the next increment.
type Rule<'a> = &'a dyn Fn(f64, &[(f64, f64)]) -> Option<f64>;

/// Doses by a rule that sees only totals and readings: gives the next increment, mol per kg of product, or nothing.
fn by_rule(setting: Setting, product: &Product, random: &mut Random, rule: Rule<'_>) -> Outcome {
    let mut outcome = Outcome::default();
    let kilograms = product.batch.units() as f64 / 1e9;
    let mut batch = Pot { product: kilograms, total: kilograms, added: 0.0 };
    let start = read(setting.instrument, product.start, random);
    outcome.readings = 1;
    let (mut points, mut shown) = (Vec::new(), 0.0);
    while outcome.readings < MOST_READINGS {
        let Some(increment) = rule(start, &points) else {
            outcome.gap = (product.ph(batch.added) - product.target).abs();
            return outcome;
        };
        let pure = Mass::from_units((increment * batch.product * product.titrant.mass * 1e6) as i64);
        let into = Mass::from_units((batch.total * 1e9) as i64);
        let Some(portion) = portion(pure, product.strength, step(setting), into, None) else { break };
        shown += portion.mass.share(portion.strength).units() as f64 / 1e6 / product.titrant.mass / batch.product;
        batch.dose(portion.mass, portion.strength, step(setting), product.titrant.mass, random);
        let true_ph = product.ph(batch.added);
        outcome.dosed(setting, product, true_ph);
        batch.take(0.002);
        points.push((shown, read(setting.instrument, true_ph, random)));
        outcome.readings += 1;
    }
    outcome.gap = (product.ph(batch.added) - product.target).abs();
    outcome.unfinished = true;
    outcome
}

/// True once a reading is within the instrument's error of the target, or past it.
fn there(setting: Setting, product: &Product, ph: f64) -> bool {
    let gap = if setting.down { ph - product.target } else { product.target - ph };
    gap <= limit(setting.instrument)
}

fn run(setting: Setting, way: Way, seed: u64) -> Outcome {
    let mut random = Random(seed);
    let product = Product::of(&mut random, setting);
    match way {
        // Usual practice: the same pinch, 0.05 g of acid or 0.1 g of a 10 % base for 100 g, and look again.
        Way::Pinches => by_rule(setting, &product, &mut random, &|start, points| {
            let last = points.last().map_or(start, |point| point.1);
            let grams_per_kg = if setting.down { 0.5 } else { 0.1 };
            (!there(setting, &product, last)).then_some(grams_per_kg / product.titrant.mass)
        }),
        Way::Reference => by_rule(setting, &product, &mut random, &|start, points| {
            let last = points.last().map_or(start, |point| point.1);
            if there(setting, &product, last) {
                return None;
            }
            if points.is_empty() {
                let delivers = Titrant::new(product.titrant, &Water::default()).delivers(product.target);
                return Some(0.05e-3 * (start - product.target).abs() / delivers.abs());
            }
            let recent = &points[points.len().saturating_sub(4)..];
            let answer =
                one_pool(product.titrant, start, recent, product.target, WATER, setting.instrument.half_width());
            let goes_on = matches!(answer.step, Step::Add | Step::Creep | Step::Repeat) && answer.increment > 0.0;
            goes_on.then_some(answer.increment)
        }),
        Way::Alone { told } => ours(setting, &product, told, false, &mut random),
        Way::Sample { told } => ours(setting, &product, told, true, &mut random),
    }
}

/// Every batch of one case, on all cores; the sum is the same in any order.
fn all(setting: Setting, way: Way, runs: u64) -> Vec<Outcome> {
    let cores = std::thread::available_parallelism().map_or(1, usize::from) as u64;
    std::thread::scope(|scope| {
        let work: Vec<_> = (0..cores)
            .map(|core| {
                scope.spawn(move || {
                    (core..runs).step_by(cores as usize).map(|n| run(setting, way, n * 7919 + 17)).collect::<Vec<_>>()
                })
            })
            .collect();
        work.into_iter().flat_map(|thread| thread.join().unwrap_or_default()).collect()
    })
}

/// Prints the table.
pub(crate) fn print(runs: u64) {
    println!(
        "next dose: {runs} simulated batches a row (artificial population); limit 0.1 with a meter, 0.5 with strips"
    );
    println!(
        "{:<36}{:>8}{:>8}{:>8}{:>8}{:>8}{:>7}{:>7}{:>7}{:>9}{:>10}",
        "", "within", "first", "later", "> 0.3", "worst", "doses", "reads", "side", "not done", "solutions"
    );
    for setting in SETTINGS {
        println!("{}", setting.name);
        for (way, name) in WAYS {
            if !setting.down && matches!(way, Way::Alone { .. }) {
                continue;
            }
            let outcomes = all(setting, way, runs);
            let of = outcomes.len().max(1) as f64;
            let share =
                |test: &dyn Fn(&Outcome) -> bool| 100.0 * outcomes.iter().filter(|o| test(o)).count() as f64 / of;
            let mean = |value: &dyn Fn(&Outcome) -> f64| outcomes.iter().map(value).sum::<f64>() / of;
            let band = if setting.instrument == Instrument::Meter { 0.2 } else { 0.75 };
            println!(
                "  {name:<34}{:>7.1}%{:>7.2}%{:>7.2}%{:>7.2}%{:>8.2}{:>7.2}{:>7.2}{:>7.2}{:>8.2}%{:>10.2}",
                share(&|o| o.gap <= band),
                share(&|o| o.first_past),
                share(&|o| o.later_past),
                share(&|o| o.far_past),
                outcomes.iter().map(|o| o.worst).fold(0.0, f64::max),
                mean(&|o| o.doses as f64),
                mean(&|o| o.readings as f64),
                mean(&|o| o.side_readings as f64),
                share(&|o| o.unfinished || o.refused),
                mean(&|o| o.solutions as f64),
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A few batches of the population, so that a change that spoils the rule is seen before the bench is run.
    #[test]
    fn side_sample_first_leaves_batches_at_their_target() {
        for setting in [SETTINGS[0], SETTINGS[1], SETTINGS[4], SETTINGS[5]] {
            let outcomes = all(setting, Way::Sample { told: true }, 24);
            assert_eq!(outcomes.len(), 24);
            assert!(outcomes.iter().all(|o| o.gap <= 0.2 && !o.far_past && !o.refused), "{}", setting.name);
            assert!(outcomes.iter().map(|o| o.doses).sum::<usize>() <= 3 * outcomes.len(), "{}", setting.name);
        }
    }

    #[test]
    fn simulated_batches_are_the_same_every_time() {
        let ends = |way| all(SETTINGS[0], way, 4).iter().fold(0u64, |sum, o| sum.wrapping_add(o.gap.to_bits()));
        assert_eq!(ends(Way::Reference), ends(Way::Reference));
    }
}
