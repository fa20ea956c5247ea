//! What no dose exceeds: in batches whose chemistry is a textbook's, in the corners where a belief goes wrong, and on any log
//! at all.

use crate::dose::{OpenDocument, any_event};
use crate::{grams, percent, ph};
use hundred_parts::batch::dose::bounds::{HIDDEN, MOST_PURE, THINNED};
use hundred_parts::batch::dose::{Advice, DoseBounds, DoseLimit, Proposal, Refusal, Titrant, Water, expect};
use hundred_parts::batch::{Instrument, MolPerKg, PhEvent, Vessel};
use hundred_parts::facts::{IngredientId, acid};
use hundred_parts::quantity::{Mass, Percent, Ph, Quantity, Timestamp};
use hundred_parts::sheet::ph::Dissolved;
use hundred_parts::words::{self, DecimalSign};
use proptest::prelude::*;

/// A product whose pools of weak acids nobody sees, mol per kg and constant each, with its pH as it was.
///
/// Source: the charge balance of any textbook, without activities, so that it is not the page's own model; Kw 1e-14 at 25 °C
/// (CRC Handbook of Chemistry and Physics).
struct Product {
    pools: &'static [(f64, f64)],
    start: f64,
}

impl Product {
    /// Net negative charge of a kilogram at a pH.
    fn charge(&self, ph: f64) -> f64 {
        let water = 0.8 * (10f64.powf(ph - 14.0) - 10f64.powf(-ph));
        water + self.pools.iter().map(|(amount, constant)| amount / (1.0 + 10f64.powf(constant - ph))).sum::<f64>()
    }

    /// The pH after so much of a strong base, or less than nothing of a strong acid, mol per kg.
    fn ph(&self, base: f64) -> f64 {
        let goal = self.charge(self.start) + base;
        let (mut low, mut high) = (0.0, 14.0);
        for _ in 0..60 {
            let middle = f64::midpoint(low, high);
            if self.charge(middle) < goal { low = middle } else { high = middle }
        }
        f64::midpoint(low, high)
    }
}

/// One dose with what was read before it and what was true after it.
struct Dosed {
    proposal: Proposal,
    read: f64,
    after: f64,
    /// What was in the vessel before it.
    into: f64,
    text: String,
}

/// A batch from its first reading to its end by what is advised, read without error.
fn carry_out(bench: &mut OpenDocument, product: &Product, name: &str) -> (Vec<Dosed>, Advice) {
    *bench = core::mem::replace(bench, OpenDocument::new("citric-acid", "100", "5")).checked();
    carry_out_unchecked(bench, product, name)
}

/// The same with whatever the log says of the meter.
fn carry_out_unchecked(bench: &mut OpenDocument, product: &Product, name: &str) -> (Vec<Dosed>, Advice) {
    let (mut batch, mut side) = ((0.0, 0.5), (0.0, 0.0));
    batch.1 = bench.log.batch.units() as f64 / 1e9;
    let base = if bench.titrant.ion > 0 { 1.0 } else { -1.0 };
    let mut dosed = Vec::new();
    for _ in 0..90 {
        let advice = bench.advice();
        let event = match &advice {
            Advice::Read(vessel) | Advice::Repeat(vessel) => {
                let (added, _) = if *vessel == Vessel::Batch { batch } else { side };
                let read = Ph::from_units((product.ph(added) * 100.0).round() as i64);
                PhEvent::Read {
                    vessel: *vessel,
                    ph: read,
                    instrument: Instrument::Meter,
                    dilution: 1,
                    taken: Mass::ZERO,
                    steady: None,
                }
            }
            Advice::TakeSample(mass) => {
                side = (batch.0, mass.units() as f64 / 1e9);
                PhEvent::Sample { mass: *mass }
            }
            Advice::Add(proposal) => {
                let course = bench.log.course(&|id| acid(id.as_str()));
                let state = course.vessel(proposal.vessel).unwrap();
                let vessel = if proposal.vessel == Vessel::Batch { &mut batch } else { &mut side };
                let read = product.ph(vessel.0);
                let portion = proposal.portion;
                let pure = portion.mass.share(portion.strength).units() as f64 / 1e9;
                vessel.0 += base * pure * 1000.0 / bench.titrant.mass / state.product.0;
                let expected = expect(&bench.case(), &|id| acid(id.as_str()), proposal);
                let text = words::dose::advice(&advice, name, expected.as_ref(), DecimalSign::Point);
                let after = product.ph(vessel.0);
                dosed.push(Dosed { proposal: proposal.clone(), read, after, into: state.total.0, text });
                PhEvent::Dose {
                    vessel: proposal.vessel,
                    titrant: IngredientId::parse(bench.titrant.id).unwrap(),
                    strength: portion.strength,
                    mass: portion.mass,
                    step: grams("0.01"),
                    lot: String::new(),
                }
            }
            _ => return (dosed, advice),
        };
        bench.log.events.push((Timestamp::default(), event));
    }
    panic!("no end: {:?}", bench.advice());
}

#[track_caller]
fn within_bounds(dosed: &[Dosed]) {
    for dose in dosed {
        let bounds = DoseBounds::of(dose.proposal.vessel);
        let mass = dose.proposal.portion.mass.units() as f64 / 1e9;
        assert!(mass <= dose.into / bounds.parts as f64 + 1e-9, "{:?} into {}", dose.proposal, dose.into);
    }
}

fn of_batch(dosed: &[Dosed]) -> Vec<&Dosed> {
    dosed.iter().filter(|dose| dose.proposal.vessel == Vessel::Batch).collect()
}

/// What was met: some 60 g of lye of 10 % wanted at once for 1,186 g, beside "each dose is kept small". Worked: a pool of
/// 150 mmol/kg of constant 4.9 goes from pH 4.2 to 5.2 by 150 × (0.666 - 0.166) = 75 mmol/kg, which is 3.56 g of sodium
/// hydroxide (39.997 g/mol) or 35.6 g of the lye for 1.186 kg: 2.9 % of it then.
#[test]
fn much_lye_goes_in_by_portions_and_what_it_thins_is_said() {
    let product = Product { pools: &[(0.15, 4.9)], start: 4.2 };
    let mut bench = OpenDocument { named: MolPerKg(0.15), ..OpenDocument::new("sodium-hydroxide", "10", "5.2") };
    bench.log.batch = grams("1186");
    let (dosed, end) = carry_out(&mut bench, &product, "Sodium Hydroxide");
    assert_eq!(end, Advice::Stop);
    within_bounds(&dosed);
    let batch = of_batch(&dosed);
    let all: i64 = batch.iter().map(|dose| dose.proposal.portion.mass.units()).sum();
    assert!(all > 32_000_000 && all < 37_000_000, "{all}");
    let first = &batch[0];
    let split = first.proposal.split.expect("the first of some portions");
    assert_eq!((split.limit, split.portions), (DoseLimit::Mass, 2));
    assert!(
        first.text.contains("No dose is more than 2\u{202f}% of the batch: this is one portion."),
        "{}",
        first.text
    );
    let last = batch.last().unwrap();
    let expected = "was added makes up 2.9\u{202f}% of the batch: everything else in it, the preservative too, is then 97.1\u{202f}%";
    assert!(last.text.contains(expected), "{}", last.text);
    assert!(batch.iter().all(|dose| (dose.after - dose.read).abs() <= 1.0), "{}", batch.len());
}

/// Lye in a product that hardly holds its pH, 0.1 mmol/kg: the belief is of much more, and one drop moves it by units.
#[test]
fn lye_in_a_nearly_unbuffered_product_does_not_run_away() {
    let product = Product { pools: &[(0.1e-3, 4.8)], start: 4.4 };
    for strength in ["10", "1", "0.1"] {
        let mut bench = OpenDocument::new("sodium-hydroxide", strength, "5.5");
        let (dosed, end) = carry_out(&mut bench, &product, "Sodium Hydroxide");
        within_bounds(&dosed);
        let batch = of_batch(&dosed);
        let worst = batch.iter().map(|dose| dose.after).fold(0.0, f64::max);
        assert!(worst <= 5.5 + 0.3, "{strength} %: {worst}, {end:?}");
        assert!(dosed.iter().all(|dose| !dose.proposal.strong), "{strength} %");
    }
}

/// Hydrochloric acid through a pool of constant 7, where it hardly moves the pH, and beyond, where nothing holds it.
#[test]
fn strong_acid_beyond_a_pool_near_seven_does_not_fall_through() {
    for (pools, target) in
        [(&[(20e-3, 7.0)][..], "5.0"), (&[(20e-3, 7.0)], "5.8"), (&[(60e-3, 7.1), (0.2e-3, 4.0)], "4.8")]
    {
        let product = Product { pools, start: 7.6 };
        let mut bench = OpenDocument::new("hydrochloric-acid", "10", target);
        let (dosed, end) = carry_out(&mut bench, &product, "Hydrochloric Acid");
        within_bounds(&dosed);
        let batch = of_batch(&dosed);
        let worst = batch.iter().map(|dose| dose.after).fold(14.0, f64::min);
        assert!(worst >= ph(target).units() as f64 / 100.0 - 0.3, "{pools:?} to {target}: {worst}, {end:?}");
        assert!(batch.iter().all(|dose| dose.read - dose.after <= 1.3), "{pools:?} to {target}");
    }
}

/// 300 mmol/kg that the formula does not name. Worked: from pH 4.2 to 5.6 a pool of constant 4.9 takes up
/// 300 × (0.834 - 0.166) = 200 mmol/kg, twice what is taken to be hidden: it is said on the way, and it goes on only as long as
/// readings of a checked meter agree on how strongly it buffers.
#[test]
fn hidden_strong_buffer_is_said_and_goes_on_by_what_was_measured() {
    let product = Product { pools: &[(0.3, 4.9)], start: 4.2 };
    let mut bench = OpenDocument::new("sodium-hydroxide", "30", "5.6");
    let (dosed, end) = carry_out(&mut bench, &product, "Sodium Hydroxide");
    within_bounds(&dosed);
    assert!(dosed.iter().any(|dose| dose.proposal.strong && dose.text.contains("something buffers the pH strongly")));
    let beyond: Vec<_> = dosed.iter().filter(|dose| dose.proposal.beyond).collect();
    assert!(beyond.iter().all(|dose| dose.text.contains("agree on how strongly the product buffers")), "{end:?}");
    assert!(!beyond.is_empty() && dosed.iter().all(|dose| dose.after <= 5.7), "{end:?}");
    assert_eq!(end, Advice::Stop);
}

/// The same where nobody checked the meter: 100 mmol/kg of sodium hydroxide are 4.0 g, and there it ends, in the side sample, before
/// the batch has had any.
#[test]
fn hidden_strong_buffer_by_an_unchecked_meter_ends_at_its_bound() {
    let product = Product { pools: &[(0.3, 4.9)], start: 4.2 };
    let mut bench = OpenDocument::new("sodium-hydroxide", "10", "5.6");
    bench.log.events.push((Timestamp::default(), PhEvent::Unchecked));
    let (dosed, end) = carry_out_unchecked(&mut bench, &product, "Sodium Hydroxide");
    within_bounds(&dosed);
    assert!(of_batch(&dosed).is_empty());
    let Advice::Refuse(Refusal::TooMuch { gone_in, most }) = &end else { panic!("{end:?}") };
    assert!(*most == grams("3.9997") && *gone_in > grams("3.8") && *gone_in < grams("4.1"), "{gone_in:?} {most:?}");
    let text = words::dose::advice(&end, "Sodium Hydroxide", None, DecimalSign::Point);
    for said in ["something does not fit", "the meter", "the strength of the solution", "the formula", "4\u{202f}g"] {
        assert!(text.contains(said), "{said}: {text}");
    }
}

/// Where the formula names what holds the pH, there is room for it, and nothing to be said.
#[test]
fn strong_buffer_that_the_formula_names_is_nothing_to_be_said() {
    let product = Product { pools: &[(0.3, 4.9)], start: 4.2 };
    let known = vec![Dissolved { molality: 0.3, pkas: vec![4.9], charge: 0, corrected: false }];
    let mut named = OpenDocument { named: MolPerKg(0.3), known, ..OpenDocument::new("sodium-hydroxide", "30", "5.6") };
    let (dosed, end) = carry_out(&mut named, &product, "Sodium Hydroxide");
    within_bounds(&dosed);
    assert_eq!(end, Advice::Stop);
    assert!(dosed.iter().all(|dose| !dose.proposal.strong));
}

/// A weak lye thins the batch: that is said, and it ends before it is a tenth. Worked: 75 mmol/kg are 3.0 g of sodium
/// hydroxide or 300 g of lye of 1 % for each kilogram.
#[test]
fn weak_lye_ends_before_it_has_thinned_the_batch_by_more_than_a_tenth() {
    let product = Product { pools: &[(0.15, 4.9)], start: 4.2 };
    let mut bench = OpenDocument { named: MolPerKg(0.15), ..OpenDocument::new("sodium-hydroxide", "1", "5.2") };
    // The side sample found the dose with a stronger one.
    bench = bench.checked().meter("4.2").sample();
    bench = bench.dose(Vessel::Side, "10", "1.5").side("5.2");
    let mut thinned = Percent::ZERO;
    let end = loop {
        let advice = bench.advice();
        let Advice::Add(proposal) = &advice else { break advice };
        assert!(proposal.thinned > thinned && proposal.thinned <= THINNED, "{proposal:?}");
        thinned = proposal.thinned;
        let (strength, mass) = (proposal.portion.strength.canonical(), proposal.portion.mass.canonical());
        bench = bench.dose(proposal.vessel, &strength, &mass);
        let course = bench.log.course(&|id| acid(id.as_str()));
        let now = Ph::from_units((product.ph(course.batch.added[0].0) * 100.0).round() as i64).canonical();
        bench = bench.meter(&now);
    };
    let Advice::Refuse(Refusal::Thinned(share)) = end else { panic!("{end:?}") };
    assert!(share > percent("9.4") && share <= percent("10.001"), "{share:?}");
    let text = words::dose::advice(&end, "Sodium Hydroxide", None, DecimalSign::Comma);
    assert!(
        text.contains("10\u{202f}% of the batch") && text.contains("the preservative too, is 90\u{202f}%"),
        "{text}"
    );
}

/// The readings of the batch say that it is not there, all else says that it is: nothing is claimed of the scale.
#[test]
fn vessels_that_do_not_fit_together_get_no_dose() {
    let bench = OpenDocument::new("citric-acid", "50", "5.2")
        .meter("6.4")
        .sample()
        .dose(Vessel::Side, "50", "0.02")
        .side("3.1");
    let again = bench.meter("6.4").meter("6.42").sample().side("6.41").dose(Vessel::Side, "50", "0.02").side("3.1");
    let again = again.sample().dose(Vessel::Side, "50", "0.02").side("3.05");
    assert!(!matches!(again.advice(), Advice::Refuse(Refusal::TooSmall)), "{:?}", again.advice());
}

/// What the page says before a log is begun holds of every dose.
#[test]
fn words_before_the_log_name_the_bounds() {
    let text = words::portions::begin_intro(DecimalSign::Point);
    assert!(text.contains("more than 2\u{202f}% of the batch") && text.contains("move it by 1\u{202f}pH"), "{text}");
    assert!(!text.contains("small"), "{text}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(ProptestConfig::default().cases / 3))]

    /// Logs that contradict themselves, absurd readings, absurd strengths: no dose is above any bound, none leads away from
    /// the target, and nothing panics.
    #[test]
    fn dose_of_any_log_is_within_its_bounds_and_leads_to_the_target(
        events in prop::collection::vec(any_event(), 0..14),
        titrant in prop_oneof![
            Just("citric-acid"), Just("lactic-acid"), Just("hydrochloric-acid"), Just("sodium-hydroxide"),
            Just("sodium-bicarbonate"), Just("triethanolamine"),
        ],
        (strength, step) in (1i64..=100_000_000, prop_oneof![Just("0.001"), Just("0.01"), Just("0.1"), Just("1")]),
        (target, last) in (0i64..=1400, 0i64..=1400),
        (batch, named) in (0i64..=3_000_000_000_000, 0u32..500),
        side_first in any::<bool>(),
        ends_read in any::<bool>(),
    ) {
        let mut bench = OpenDocument { side_first, named: MolPerKg(f64::from(named) / 1000.0), ..OpenDocument::new(titrant, "50", "5") };
        bench.log.target = Ph::from_units(target);
        bench.log.batch = Mass::from_units(batch);
        bench.strength = Percent::from_units(strength);
        bench.log.events = events.into_iter().map(|event| (Timestamp::default(), event)).collect();
        if ends_read {
            bench = bench.meter(&Ph::from_units(last).canonical());
        }
        let case = hundred_parts::batch::dose::DoseInputs { step: grams(step), ..bench.case() };
        let row = |id: &IngredientId| acid(id.as_str());
        let advice = hundred_parts::batch::dose::advise(&case, &row);
        let text = words::dose::advice(&advice, "It", None, DecimalSign::Point);
        prop_assert!(!text.contains("NaN") && !text.contains("inf"), "{text}");
        if let Advice::Add(proposal) = advice {
            let course = bench.log.course(&row);
            let state = course.vessel(proposal.vessel).unwrap();
            let (mass, strength) = (proposal.portion.mass, proposal.portion.strength);
            let pure = mass.share(strength).units() as f64 / 1e9;
            let bounds = DoseBounds::of(proposal.vessel);
            let kilograms = mass.units() as f64 / 1e9;
            prop_assert!(kilograms <= state.total.0 / bounds.parts as f64 + 1e-9, "{proposal:?} into {state:?}");
            prop_assert!(pure <= state.total.0 * MOST_PURE.units() as f64 / 1e8 + 1e-9, "{proposal:?}");
            prop_assert!(strength <= bench.strength, "{proposal:?}");
            prop_assert!(proposal.vessel == Vessel::Side || proposal.thinned.units() <= THINNED.units() + 1, "{proposal:?}");
            // All that leads the same way, in mol of acid or base per kg at the target.
            let water = Water::default();
            let target = target as f64 / 100.0;
            let newest = course.readings.iter().rev().find(|reading| reading.vessel == Vessel::Batch).unwrap();
            let down = newest.ph > target;
            let delivers = |row| Titrant::new(row, &water).delivers(target) * if down { 1.0 } else { -1.0 };
            let own = delivers(bench.titrant);
            prop_assert!(own > 0.0, "the wrong way: {proposal:?}");
            let so_far: f64 =
                course.titrants.iter().zip(&state.added).map(|(row, added)| (added.0 * delivers(row)).max(0.0)).sum();
            prop_assert!(so_far + proposal.brings.0 * own <= (HIDDEN + case.named).0 + 1e-6, "{proposal:?}");
            // By the best guess it moves the pH by no more than it may, and towards the target.
            let nothing = Proposal { brings: MolPerKg::ZERO, ..proposal.clone() };
            let (now, then) = (expect(&case, &row, &nothing).unwrap(), expect(&case, &row, &proposal).unwrap());
            let moves = (now.ph.units() - then.ph.units()) * if down { 1 } else { -1 };
            prop_assert!(moves >= -1 && moves as f64 <= bounds.moves * 100.0 + 2.0, "{now:?} to {then:?}: {proposal:?}");
            if let Some(split) = proposal.split {
                prop_assert!(split.portions > 1 && split.in_all > mass, "{split:?}");
            }
        }
    }
}
