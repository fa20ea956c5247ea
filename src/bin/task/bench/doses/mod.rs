//! `cargo task bench`: the next dose on simulated batches, four ways side by side.
//!
//! The population is artificial: 1 to 3 hidden pools of weak acids of 0.3 to 30 mmol/kg with constants of 3.5 to 8.5, a
//! start of pH 4.5 to 8 and a target of 4.5 to 6, a meter of ±0.05 or strips of ±0.5 in steps of 0.5, a scale of 0.01 or
//! 0.1 g, batches of 300 to 1000 g. Of each pool the formula tells with a probability of one half, to 10 % and to 0.1 of
//! its constant; the rows `formula unknown` do without. Every reading takes 2 g away. The random numbers are our own and
//! the same every time.

// Its other numbers are for the tests.
mod meter;
mod meters;
#[allow(dead_code)]
#[path = "../../../../../tests/vectors/one_pool.rs"]
mod one_pool;
mod population;

use crate::say::say;
use hundred_parts::batch::dose::{Advice, DoseInputs, Headroom, MeterDoubt, Titrant, Water, advise, portion};
use hundred_parts::batch::{Instrument, MolPerKg, PhEvent, PhLog, Vessel};
use hundred_parts::facts::IngredientId;
use hundred_parts::quantity::{Mass, Ph, Quantity, Timestamp};
use meter::{Care, Fault, Meter};
use one_pool::{Step, one_pool};
use population::{Pot, Product, Random, SETTINGS, Setting, WATER, read};

/// More readings than this nobody takes.
const MOST_READINGS: usize = 25;

/// A meter that fails its check more often than this is thrown away.
const MOST_CALIBRATIONS: usize = 3;

/// How the doses are found.
#[derive(Clone, Copy, PartialEq)]
enum Way {
    Pinches,
    Reference,
    Alone {
        told: bool,
    },
    Sample {
        told: bool,
    },
    /// A side sample first, with a meter that may lie.
    Judged {
        fault: Fault,
        care: Care,
    },
}

const SAMPLING_METHODS: [(Way, &str); 6] = [
    (Way::Pinches, "fixed pinches"),
    (Way::Reference, "reference rule"),
    (Way::Alone { told: true }, "batch alone"),
    (Way::Alone { told: false }, "batch alone, formula unknown"),
    (Way::Sample { told: true }, "side sample first"),
    (Way::Sample { told: false }, "side sample first, formula unknown"),
];

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
    /// Doses of any vessel before the maker was asked to check the meter, and whether the course was the reason.
    asked: Option<(usize, bool)>,
    /// Doses into any vessel.
    all_doses: usize,
    /// How often the meter was set anew.
    calibrated: usize,
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

/// How a maker goes about it.
#[derive(Clone, Copy)]
struct Maker {
    told: bool,
    side_first: bool,
    fault: Fault,
    care: Care,
}

impl Maker {
    /// With a meter that is as good as its readings are taken to be.
    fn with_a_sound_meter(told: bool, side_first: bool) -> Self {
        Self { told, side_first, fault: Fault::None, care: Care::Trusting }
    }
}

/// The page's own way, through the log as the page keeps it.
fn ours(setting: Setting, product: &Product, maker: Maker, random: &mut Random) -> Outcome {
    let Maker { told, side_first, fault, care } = maker;
    let mut meter = Meter::new(setting, fault, care == Care::Checking, random);
    let id = IngredientId::parse(product.titrant.id).expect("an id");
    let row = |_: &IngredientId| Some(product.titrant);
    let mut log = PhLog::new(product.batch, ph(product.target));
    let mut outcome = Outcome::default();
    let kilograms = product.batch.units() as f64 / 1e9;
    let mut batch = Pot { product: kilograms, total: kilograms, added: 0.0 };
    let mut side = Pot { product: 0.0, total: 0.0, added: 0.0 };
    let taken = Mass::from_units(2_000_000);
    if care == Care::Checking {
        log.events.push((Timestamp::default(), PhEvent::Buffers(meter.check(random))));
    }
    while outcome.readings + outcome.side_readings < 2 * MOST_READINGS {
        let case = DoseInputs {
            log: &log,
            water: WATER,
            known: if told { &product.told } else { &[] },
            named: MolPerKg(if told { product.told.iter().map(|pool| pool.molality).sum() } else { 0.0 }),
            titrant: product.titrant,
            strength: product.strength,
            step: step(setting),
            side_first,
        };
        let event = match advise(&case, &row) {
            Advice::Read(vessel) | Advice::Repeat(vessel) => {
                let pot = if vessel == Vessel::Batch { &mut batch } else { &mut side };
                let shown = meter.read(product.ph(pot.added), random);
                pot.take(0.002);
                if vessel == Vessel::Batch {
                    outcome.readings += 1
                } else {
                    outcome.side_readings += 1
                }
                PhEvent::Read {
                    vessel,
                    ph: ph(shown),
                    instrument: setting.instrument,
                    dilution: 5,
                    taken,
                    steady: Some(true),
                }
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
                outcome.all_doses += 1;
                if proposal.vessel == Vessel::Batch {
                    outcome.dosed(setting, product, product.ph(batch.added));
                }
                PhEvent::Dose {
                    vessel: proposal.vessel,
                    titrant: id.clone(),
                    strength: portion.strength,
                    mass: portion.mass,
                    step: step(setting),
                    lot: String::new(),
                }
            }
            Advice::CheckMeter(doubt) => {
                outcome.asked.get_or_insert((
                    outcome.all_doses,
                    !matches!(doubt, MeterDoubt::DosesOnTrust | MeterDoubt::BeforeBatch | MeterDoubt::BeforeStop),
                ));
                if care == Care::Trusting {
                    PhEvent::Unchecked
                } else {
                    meter.patient = true;
                    PhEvent::Buffers(meter.check(random))
                }
            }
            Advice::Recalibrate(_) if outcome.calibrated < MOST_CALIBRATIONS => {
                outcome.calibrated += 1;
                meter.calibrate(random);
                PhEvent::Buffers(meter.check(random))
            }
            Advice::Stop | Advice::Passed(_) => {
                outcome.gap = (product.ph(batch.added) - product.target).abs();
                return outcome;
            }
            Advice::Refuse(_) | Advice::Recalibrate(_) => {
                outcome.gap = (product.ph(batch.added) - product.target).abs();
                outcome.refused = true;
                return outcome;
            }
        };
        log.events.push((Timestamp::default(), event));
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
        let room = Headroom::of(Vessel::Batch, into);
        let Some(portion) = portion(pure, product.strength, step(setting), room, None) else { break };
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
        Way::Alone { told } => ours(setting, &product, Maker::with_a_sound_meter(told, false), &mut random),
        Way::Sample { told } => ours(setting, &product, Maker::with_a_sound_meter(told, true), &mut random),
        Way::Judged { fault, care } => {
            let maker = Maker { told: true, side_first: true, fault, care };
            ours(setting, &product, maker, &mut random)
        }
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
    say!("next dose: {runs} simulated batches a row (artificial population); limit 0.1 with a meter, 0.5 with strips");
    say!(
        "{:<36}{:>8}{:>8}{:>8}{:>8}{:>8}{:>7}{:>7}{:>7}{:>9}{:>10}",
        "",
        "within",
        "first",
        "later",
        "> 0.3",
        "worst",
        "doses",
        "reads",
        "side",
        "not done",
        "solutions"
    );
    for setting in SETTINGS {
        say!("{}", setting.name);
        for (way, name) in SAMPLING_METHODS {
            if !setting.down && matches!(way, Way::Alone { .. }) {
                continue;
            }
            let outcomes = all(setting, way, runs);
            let of = outcomes.len().max(1) as f64;
            let share =
                |test: &dyn Fn(&Outcome) -> bool| 100.0 * outcomes.iter().filter(|o| test(o)).count() as f64 / of;
            let mean = |value: &dyn Fn(&Outcome) -> f64| outcomes.iter().map(value).sum::<f64>() / of;
            let band = if setting.instrument == Instrument::Meter { 0.2 } else { 0.75 };
            say!(
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
    meters::print(runs);
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

    /// A checked meter leaves nothing of its lie, and one that was not checked is asked about.
    #[test]
    fn meters_that_lie_are_found_out() {
        let of = |care, setting| all(setting, Way::Judged { fault: Fault::All, care }, 24);
        for setting in [SETTINGS[0], SETTINGS[4], SETTINGS[6]] {
            let checked = of(Care::Checking, setting);
            assert!(checked.iter().filter(|o| o.gap > 0.2).count() <= 1, "{}", setting.name);
            assert!(checked.iter().all(|o| !o.far_past && !o.refused), "{}", setting.name);
            let trusting = of(Care::Trusting, setting);
            assert!(trusting.iter().all(meters::asked_in_time), "{}", setting.name);
            assert!(trusting.iter().filter(|o| o.asked.is_some()).count() >= 8, "{}", setting.name);
        }
    }
}
