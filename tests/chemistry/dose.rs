//! The next dose: what is believed, what is advised, and that nothing in a log breaks it.

use crate::balance::LANGE;
use crate::{grams, near, percent, ph, row};
use hundred_parts::batch::dose::{
    Advice, Belief, Chemistry, DoseInputs, Headroom, Point, ReadingClash, Refusal, Titrant, Water, advise, expect,
    portion,
};
use hundred_parts::batch::{BufferReading, Instrument, MeterCheck, MolPerKg, PhEvent, PhLog, Vessel};
use hundred_parts::facts::{Acid, IngredientId, acid};
use hundred_parts::quantity::{Mass, Percent, Ph, Quantity, Timestamp};
use hundred_parts::sheet::ph::Dissolved;
use proptest::prelude::*;

// Common practice, no source: about 0.05 g of citric acid was seen to take about 100 g of a lotion from about pH 6 to
// about 5 on strips, some 4.5 meq per kg and unit of pH. What is believed of an unknown product must hold that possible:
// neither its lowest nor its highest twentieth may begin beyond it.
#[test]
fn prior_spans_what_the_trade_has_seen() {
    let citric = row("citric-acid");
    let titrant = Titrant::new(citric, &Water::default());
    near("delivers at 5", titrant.delivers(5.0), 1.847, 0.005);
    near("delivers at 6", titrant.delivers(6.0), 2.496, 0.005);
    let seen = 0.5 / citric.mass;
    near("meq per kg and pH", seen * titrant.delivers(5.0) * 1000.0, 4.8, 0.05);
    let monohydrate = 0.5 / 210.138 * titrant.delivers(5.0) * 1000.0;
    near("of the monohydrate", monohydrate, 4.4, 0.05);
    let chemistry = Chemistry::new(0.8, &[citric], &[]);
    let start = Point { added: vec![MolPerKg::ZERO], doubt: vec![0.0], ph: 6.0, u: 0.042 };
    let belief = Belief::from(&chemistry, &[start]);
    let below = belief.total_for(&chemistry, &[MolPerKg::ZERO], 0, 5.0).below(seen);
    assert!((0.1..0.9).contains(&below), "{below}");
    let (low, high) = (belief.buffer(&chemistry, 5.5, 0.05), belief.buffer(&chemistry, 5.5, 0.95));
    assert!(low < 4.5e-3 && high > 4.5e-3, "{low} to {high}");
}

// Source: Lange's Handbook, table 8.16, as an unknown product: what is believed after some of its readings must hold the
// published dose for a later one within its 1st and 99th hundredth.
#[test]
fn belief_holds_the_published_titration() {
    let sodium = row("sodium-hydroxide");
    let chemistry = Chemistry::new(1.0, &[sodium], &[]);
    let up: Vec<(f64, f64)> = LANGE.into_iter().filter(|(_, added)| *added > 0.0).collect();
    for (points, at) in [(1, 1), (1, 2), (2, 2), (2, 3), (3, 3), (3, 4), (4, 5)] {
        let mut readings = vec![Point { added: vec![MolPerKg::ZERO], doubt: vec![0.0], ph: 4.005, u: 0.02 }];
        readings.extend(up.iter().take(points).map(|(ph, added)| Point {
            added: vec![MolPerKg(added / 1000.0)],
            doubt: vec![0.0],
            ph: *ph,
            u: 0.02,
        }));
        let belief = Belief::from(&chemistry, &readings);
        let (target, published) = up[at];
        let spread = belief.total_for(&chemistry, &[MolPerKg::ZERO], 0, target);
        let (low, high) = (spread.quantile(0.01) * 1000.0, spread.quantile(0.99) * 1000.0);
        assert!(low <= published && published <= high, "{points} points to {target}: {low} to {high}, not {published}");
    }
}

pub(crate) struct OpenDocument {
    pub(crate) log: PhLog,
    pub(crate) titrant: &'static Acid,
    pub(crate) strength: Percent,
    pub(crate) known: Vec<Dissolved>,
    pub(crate) named: MolPerKg,
    pub(crate) side_first: bool,
}

impl OpenDocument {
    pub(crate) fn new(titrant: &str, strength: &str, target: &str) -> Self {
        let log = PhLog::new(grams("500"), ph(target));
        Self {
            log,
            titrant: row(titrant),
            strength: percent(strength),
            known: Vec::new(),
            named: MolPerKg::ZERO,
            side_first: true,
        }
    }

    pub(crate) fn read(mut self, vessel: Vessel, at: &str, instrument: Instrument) -> Self {
        let event = PhEvent::Read { vessel, ph: ph(at), instrument, dilution: 5, taken: grams("2"), steady: None };
        self.log.events.push((Timestamp::default(), event));
        self
    }

    /// With a meter that shows both buffers as they are.
    pub(crate) fn checked(mut self) -> Self {
        let one = |buffer| BufferReading { buffer: ph(buffer), shown: ph(buffer) };
        let check = MeterCheck { first: one("7"), second: one("4.01"), done: None };
        self.log.events.push((Timestamp::default(), PhEvent::Buffers(check)));
        self
    }

    pub(crate) fn meter(self, at: &str) -> Self {
        self.read(Vessel::Batch, at, Instrument::Meter)
    }

    pub(crate) fn side(self, at: &str) -> Self {
        self.read(Vessel::Side, at, Instrument::Meter)
    }

    pub(crate) fn dose(mut self, vessel: Vessel, strength: &str, mass: &str) -> Self {
        let titrant = IngredientId::parse(self.titrant.id).unwrap();
        let event = PhEvent::Dose {
            vessel,
            titrant,
            strength: percent(strength),
            mass: grams(mass),
            step: grams("0.01"),
            lot: String::new(),
        };
        self.log.events.push((Timestamp::default(), event));
        self
    }

    pub(crate) fn sample(mut self) -> Self {
        self.log.events.push((Timestamp::default(), PhEvent::Sample { mass: grams("50") }));
        self
    }

    pub(crate) fn case(&self) -> DoseInputs<'_> {
        DoseInputs {
            log: &self.log,
            water: 0.8,
            known: &self.known,
            named: self.named,
            titrant: self.titrant,
            strength: self.strength,
            step: grams("0.01"),
            side_first: self.side_first,
        }
    }

    pub(crate) fn advice(&self) -> Advice {
        advise(&self.case(), &|id| acid(id.as_str()))
    }
}

#[test]
fn advice_begins_with_a_reading_and_a_side_sample() {
    let bench = OpenDocument::new("citric-acid", "100", "5.2");
    assert_eq!(bench.advice(), Advice::Read(Vessel::Batch));
    let bench = bench.meter("6.4");
    assert_eq!(bench.advice(), Advice::TakeSample(grams("50")));
    let bench = bench.sample();
    let Advice::Add(proposal) = bench.advice() else { panic!("{:?}", bench.advice()) };
    assert_eq!(proposal.vessel, Vessel::Side);
    // A few milligrams cannot be weighed on a scale of 0.01 g: a solution is made first.
    assert!(proposal.portion.stock.is_some() && proposal.portion.mass >= grams("0.1"), "{proposal:?}");
    let expected = expect(&bench.case(), &|id| acid(id.as_str()), &proposal).unwrap();
    assert!(expected.low <= expected.ph && expected.ph <= expected.high && expected.ph < ph("6.4"), "{expected:?}");
}

#[test]
fn advice_after_a_side_sample_brings_the_batch_most_of_the_way() {
    let bench = OpenDocument::new("citric-acid", "100", "5.2")
        .checked()
        .meter("6.4")
        .sample()
        .dose(Vessel::Side, "10", "0.20")
        .side("5.60")
        .dose(Vessel::Side, "10", "0.15")
        .side("5.22");
    let Advice::Add(proposal) = bench.advice() else { panic!("{:?}", bench.advice()) };
    assert_eq!(proposal.vessel, Vessel::Batch);
    // The sample took 0.035 g for some 50 g, which is some 0.3 g for the batch.
    let pure = proposal.portion.mass.share(proposal.portion.strength);
    assert!(pure > grams("0.2") && pure < grams("0.36"), "{proposal:?}");
    assert!(proposal.chance_past < 0.02, "{proposal:?}");
    let expected = expect(&bench.case(), &|id| acid(id.as_str()), &proposal).unwrap();
    assert!(expected.low > ph("5") && expected.high < ph("5.6"), "{expected:?}");
}

#[test]
fn advice_stops_turns_back_and_refuses() {
    let start = || OpenDocument { side_first: false, ..OpenDocument::new("citric-acid", "50", "5.2") };
    assert_eq!(start().checked().meter("5.25").advice(), Advice::Stop);
    assert_eq!(start().meter("6.4").dose(Vessel::Batch, "50", "0.2").advice(), Advice::Read(Vessel::Batch));
    assert_eq!(start().meter("6.4").dose(Vessel::Batch, "50", "0.8").meter("4.9").advice(), Advice::Passed(30));
    let wrong_way = start().meter("6.4").dose(Vessel::Batch, "50", "0.2").meter("6.9");
    assert_eq!(wrong_way.advice(), Advice::Refuse(Refusal::Contradiction(0, 2, ReadingClash::WrongWay)));
    let unmoved = start().meter("6.4").meter("6.0");
    assert_eq!(unmoved.advice(), Advice::Refuse(Refusal::Contradiction(0, 1, ReadingClash::Moved)));
    // Struck, the mistaken reading counts no more.
    let mut struck = start().meter("6.4").meter("6.0");
    struck.log.struck.push(1);
    assert!(matches!(struck.advice(), Advice::Add(_)), "{:?}", struck.advice());
}

/// A side sample that was taken far past the target says only that the product holds little: a fresh one with less follows,
/// and the batch gets nothing on the strength of it.
#[test]
fn advice_after_a_wild_side_sample_is_a_fresh_one() {
    let strip = |bench: OpenDocument, vessel, at| bench.read(vessel, at, Instrument::Strip);
    let wild = strip(OpenDocument::new("citric-acid", "100", "5.8"), Vessel::Batch, "7.5").sample();
    let wild = strip(wild.dose(Vessel::Side, "1", "0.54"), Vessel::Side, "3.5");
    let advice = wild.advice();
    assert_eq!(advice, Advice::Repeat(Vessel::Batch), "{advice:?}");
    let again = strip(wild, Vessel::Batch, "7");
    assert_eq!(again.advice(), Advice::TakeSample(grams("50")));
    let fresh = again.sample();
    let Advice::Add(proposal) = fresh.advice() else { panic!("{:?}", fresh.advice()) };
    assert_eq!(proposal.vessel, Vessel::Side);
    let less = proposal.portion.mass.share(proposal.portion.strength);
    assert!(less < grams("0.54").share(percent("1")), "{less:?}");
}

/// With strips the chance of passing the target by 0.25 in one dose to the batch is bounded as with a meter that of 0.1.
#[test]
fn advice_with_strips_holds_back_from_the_target() {
    let strip = |bench: OpenDocument, vessel, at| bench.read(vessel, at, Instrument::Strip);
    let bench =
        strip(OpenDocument { side_first: false, ..OpenDocument::new("citric-acid", "50", "5") }, Vessel::Batch, "7");
    let bench = strip(bench.dose(Vessel::Batch, "50", "0.3"), Vessel::Batch, "6");
    let Advice::Add(proposal) = bench.advice() else { panic!("{:?}", bench.advice()) };
    let expected = expect(&bench.case(), &|id| acid(id.as_str()), &proposal).unwrap();
    assert!(expected.low >= ph("4.75") && expected.ph > ph("5.1"), "{expected:?}");
}

/// Doses of one side sample are weighed from one bottle as long as the scale can.
#[test]
fn advice_keeps_the_solution_that_was_made() {
    let pure = Mass::from_units;
    let of = |vessel, milligrams: i64, made| {
        let room = Headroom::of(vessel, grams("50"));
        portion(pure(milligrams * 1_000), Percent::WHOLE, grams("0.01"), room, made).unwrap().strength
    };
    let side = |milligrams, made| of(Vessel::Side, milligrams, made);
    assert_eq!(side(12, None), percent("1"));
    assert_eq!(side(60, None), percent("10"));
    let made = Some(percent("1"));
    assert_eq!((side(12, made), side(60, made)), (percent("1"), percent("1")));
    // A hundredth of the sample in pure acid would be a tenth of it in water: that needs the stronger bottle.
    assert_eq!(side(700, made), Percent::WHOLE);
    // The batch is not thinned for it.
    assert_eq!(of(Vessel::Batch, 60, made), percent("10"));
}

/// Two strips that are both as wrong as strips may be do not contradict each other; what is beyond that does.
#[test]
fn advice_refuses_strips_only_where_they_cannot_both_be_right() {
    let bench = || {
        OpenDocument { side_first: false, ..OpenDocument::new("citric-acid", "50", "5") }.read(
            Vessel::Batch,
            "7",
            Instrument::Strip,
        )
    };
    let after = |at| bench().dose(Vessel::Batch, "50", "0.3").read(Vessel::Batch, at, Instrument::Strip).advice();
    assert!(!matches!(after("8"), Advice::Refuse(_)), "{:?}", after("8"));
    assert_eq!(after("8.5"), Advice::Refuse(Refusal::Contradiction(0, 2, ReadingClash::WrongWay)));
}

#[test]
fn advice_on_bases_needs_a_meter_and_a_side_sample() {
    let base = || OpenDocument { side_first: false, ..OpenDocument::new("sodium-hydroxide", "10", "5.2") };
    assert_eq!(base().meter("4.4").advice(), Advice::TakeSample(grams("50")));
    let strips = base().read(Vessel::Batch, "4", Instrument::Strip);
    assert_eq!(strips.advice(), Advice::Refuse(Refusal::StripsCannotRaise));
    let after = base().checked().meter("4.4").sample().dose(Vessel::Side, "1", "0.4").side("4.80").dose(
        Vessel::Side,
        "1",
        "0.3",
    );
    let after = after.side("5.20");
    let Advice::Add(proposal) = after.advice() else { panic!("{:?}", after.advice()) };
    assert_eq!(proposal.vessel, Vessel::Batch);
}

#[test]
fn advice_leaves_out_readings_diluted_otherwise() {
    let mut bench = OpenDocument { side_first: false, ..OpenDocument::new("citric-acid", "50", "5.2") }.meter("6.4");
    bench.log.events.push((
        Timestamp::default(),
        PhEvent::Read {
            vessel: Vessel::Batch,
            ph: ph("6.5"),
            instrument: Instrument::Meter,
            dilution: 10,
            taken: grams("1"),
            steady: None,
        },
    ));
    let Advice::Add(proposal) = bench.advice() else { panic!("{:?}", bench.advice()) };
    assert_eq!(proposal.left_out, [0]);
}

#[test]
fn log_counts_what_was_taken_away() {
    let bench = OpenDocument::new("citric-acid", "100", "5.2").meter("6.4").sample().dose(Vessel::Batch, "50", "0.448");
    let course = bench.log.course(&|id| acid(id.as_str()));
    near("batch", course.batch.total.0, 0.448_448, 1e-9);
    near("product", course.batch.product.0, 0.448, 1e-9);
    // 0.224 g ÷ 192.123 g/mol ÷ 0.448 kg.
    near("added", course.batch.added[0].0, 0.224 / 192.123 / 0.448, 1e-9);
    assert_eq!(course.side.unwrap().added, [MolPerKg::ZERO]);
}

pub(crate) fn any_event() -> impl Strategy<Value = PhEvent> {
    let vessel = || prop_oneof![Just(Vessel::Batch), Just(Vessel::Side)];
    prop_oneof![
        4 => (vessel(), 0i64..=1400, any::<bool>(), prop_oneof![Just(1u8), Just(5), Just(10)]).prop_map(
            |(vessel, ph, strip, dilution)| PhEvent::Read {
                vessel,
                ph: Ph::from_units(ph),
                instrument: if strip { Instrument::Strip } else { Instrument::Meter },
                dilution,
                taken: grams("2"), steady: None }
        ),
        4 => (vessel(), any::<bool>(), 0i64..20_000_000, 0i64..=100_000_000).prop_map(|(vessel, acid, mass, strength)| {
            PhEvent::Dose {
                vessel,
                titrant: IngredientId::parse(if acid { "citric-acid" } else { "sodium-hydroxide" }).unwrap(),
                strength: Percent::from_units(strength),
                mass: Mass::from_units(mass),
                step: grams("0.01"),
                lot: String::new(),
            }
        }),
        1 => (0i64..600_000_000).prop_map(|mass| PhEvent::Sample { mass: Mass::from_units(mass) }),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(ProptestConfig::default().cases / 3))]

    /// Whatever a log holds, sense or nonsense, there is advice, and nothing in it is without bounds.
    #[test]
    fn advice_on_any_log_is_finite(
        events in prop::collection::vec(any_event(), 0..10),
        titrant in prop_oneof![Just("citric-acid"), Just("lactic-acid"), Just("sodium-hydroxide"), Just("sodium-bicarbonate")],
        struck in prop::collection::vec(0usize..8, 0..3),
        target in 0i64..=1400,
        side_first in any::<bool>(),
    ) {
        let mut bench = OpenDocument { side_first, ..OpenDocument::new(titrant, "50", "5") };
        bench.log.target = Ph::from_units(target);
        bench.log.events = events.into_iter().map(|event| (Timestamp::default(), event)).collect();
        bench.log.struck = struck;
        if let Advice::Add(proposal) = bench.advice() {
            prop_assert!(proposal.brings.0.is_finite() && proposal.brings > MolPerKg::ZERO, "{proposal:?}");
            prop_assert!((0.0..=1.0).contains(&proposal.chance_past), "{proposal:?}");
            // 500 g, and at most 20 g of each dose above: no dose is more than a hundredth of it in pure substance.
            let pure = proposal.portion.mass.share(proposal.portion.strength);
            prop_assert!(proposal.portion.mass > Mass::ZERO && pure <= grams("7"), "{proposal:?}");
            let expected = expect(&bench.case(), &|id| acid(id.as_str()), &proposal).unwrap();
            prop_assert!(expected.low <= expected.ph && expected.ph <= expected.high, "{expected:?}");
        }
    }
}
