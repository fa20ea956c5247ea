//! The next dose: from a batch's own log, the composition and the maker's scale to one careful proposal.
//!
//! A side sample comes first: what goes wrong there costs 20 to 50 g. Its readings and the batch's are then one set, for
//! a kilogram of either takes up the same. No proposal can rule out that the target is passed: after each one it is stir,
//! wait, measure again.

mod belief;
pub mod bounds;
mod doubt;
mod fit;
mod measured;
mod portion;
mod propose;
mod rule;
mod shapes;
mod titrant;

pub use belief::{Belief, Chemistry, Point, Spread};
pub use bounds::{DoseBounds, DoseLimit, DosePortion, named_in};
pub use doubt::{DOSES_ON_TRUST, MeterDoubt, ReadingClash};
pub use portion::{Headroom, Portion, Stock, portion};
pub use rule::{Next, Policy, next_total};
pub use titrant::{Titrant, Water, usual_strength};

use super::{Instrument, Kilograms, MeterCheck, MolPerKg, PhLog, PhReading, ReplayedLog, Vessel, VesselState};
use crate::facts::{Acid, IngredientId};
use crate::quantity::{Mass, Percent, Ph, Quantity};
use crate::sheet::ph::{Dissolved, WaterPhase};

/// Everything that a proposal rests on.
#[derive(Clone, Copy)]
pub struct DoseInputs<'a> {
    /// What happened so far.
    pub log: &'a PhLog,
    /// kg of water per kg of product.
    pub water: f64,
    /// What the formula is known to hold; molalities are here in mol per kg of product. See [`known_of`].
    pub known: &'a [Dissolved],
    /// What the acids and bases that the formula names can take up at most: [`named_in`].
    pub named: MolPerKg,
    /// The acid or base that the maker wants to use.
    pub titrant: &'static Acid,
    /// The share of pure substance in what the maker has of it.
    pub strength: Percent,
    /// The scale's step.
    pub step: Mass,
    /// True to titrate a side sample first. Bases are never given without.
    pub side_first: bool,
}

/// What to do next.
#[derive(Debug, Clone, PartialEq)]
pub enum Advice {
    /// Read the pH of this vessel: it was not read since the last dose, or never.
    Read(Vessel),
    /// Take a side sample from the batch and read nothing yet: it has the batch's pH.
    TakeSample(Mass),
    /// Add this, stir, wait, measure again.
    Add(Proposal),
    /// Within the instrument's error of the target: leave it.
    Stop,
    /// The reading and what was learnt before disagree a little: measure the same again before adding anything.
    Repeat(Vessel),
    /// The target was passed by so many hundredths of pH; what was chosen to add would lead further away.
    Passed(i64),
    /// Check the meter with two buffers before anything more goes in; a maker who has none says so and goes on.
    CheckMeter(MeterDoubt),
    /// The meter failed its check: set it anew, check it again, and read again.
    Recalibrate(MeterCheck),
    /// No proposal.
    Refuse(Refusal),
}

/// Why there is no proposal.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Refusal {
    /// Strips are too coarse for raising a pH: a base can move it by units at once.
    StripsCannotRaise,
    /// Two readings, by their places in the log, that cannot both be right.
    Contradiction(usize, usize, ReadingClash),
    /// A dose, by its place in the log, of something that no table knows.
    UnknownDose(usize),
    /// The chosen acid or base cannot take a product to the target.
    CannotReach,
    /// The dose cannot be weighed on this scale, not even as a weak solution.
    TooSmall,
    /// So much has gone in that something does not fit: in g of the pure substance per kg of product what went in, or what
    /// it is worth of it, and the most that this formula is taken to need.
    TooMuch {
        /// What went in.
        gone_in: Mass,
        /// The most.
        most: Mass,
    },
    /// All doses together make up so much of the batch that no more is advised.
    Thinned(Percent),
    /// The readings of the vessels do not fit together: by what they say the target is reached, and it is not.
    DoNotFit,
    /// There is nothing left in the batch, or never was.
    NoBatch,
}

/// One dose.
#[derive(Debug, Clone, PartialEq)]
pub struct Proposal {
    /// Into what.
    pub vessel: Vessel,
    /// What to weigh, and the solution to make first.
    pub portion: Portion,
    /// What it brings.
    pub brings: MolPerKg,
    /// Probability that it passes the target by more than [`Advice`]'s limit: 0.1 with a meter, 0.5 with strips.
    pub chance_past: f64,
    /// Readings do not fit any product that the model knows; the interval was widened.
    pub misfit: bool,
    /// Readings that were left out, since they were diluted in another way than the last.
    pub left_out: Vec<usize>,
    /// This is one portion of more.
    pub split: Option<DosePortion>,
    /// The share of all doses in the vessel once this one is in.
    pub thinned: Percent,
    /// What went in moved the pH so little that the product must hold more than the formula tells and lotions are taken to.
    pub strong: bool,
    /// It moved the pH further than what the formula tells of allows.
    pub weak: bool,
    /// With it more is in than a formula like this one is taken to need: readings that agree measured how strongly it buffers.
    pub beyond: bool,
}

/// What a dose is expected to do.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Expected {
    /// Middle.
    pub ph: Ph,
    /// What the pH is above with a probability of 95 %.
    pub low: Ph,
    /// What it is below with a probability of 95 %.
    pub high: Ph,
}

/// What a formula is known to hold, for [`DoseInputs::known`].
///
/// What a pH is set with does not count: such a line may be what is being added now, and to count it as there already
/// would make the doses too large. If it is there, they are only more careful than they need be.
pub fn known_of(phase: &WaterPhase) -> Vec<Dissolved> {
    let dissolved = |known: &crate::sheet::ph::Electrolyte| {
        known
            .row
            .system()
            .filter(|_| known.row.adjusts.is_none())
            .map(|system| Dissolved::of(system, known.amount.middle, 25.0, 0.0))
    };
    phase.known.iter().filter_map(dissolved).collect()
}

/// Added to every reading for mixing, drift and what the model does not know.
const MIXING: f64 = 0.03;
/// Mass of a side sample: a tenth of the batch within these ends.
const SAMPLE: (Mass, Mass) = (Mass::micrograms(20_000_000), Mass::micrograms(50_000_000));
/// Below this a batch is too small to take a side sample from.
const SMALL_BATCH: Mass = Mass::micrograms(100_000_000);
/// After so many doses a side sample has told what it can.
const MOST_SIDE_DOSES: usize = 7;
/// After so many side samples a batch has given enough of itself away.
const MOST_SAMPLES: usize = 3;

/// Standard uncertainty of a reading.
pub fn uncertainty(instrument: Instrument) -> f64 {
    let half = instrument.half_width();
    (half * half / 3.0 + MIXING * MIXING).sqrt()
}

/// How near to the target counts as there: twice a meter's error, once a strip's.
pub(super) fn near_enough(instrument: Instrument) -> f64 {
    match instrument {
        Instrument::Meter => 0.1,
        Instrument::Strip => 0.5,
    }
}

/// The next thing to do. `row` gives the acid or base of an ingredient.
pub fn advise(case: &DoseInputs<'_>, row: &dyn Fn(&IngredientId) -> Option<&'static Acid>) -> Advice {
    let course = course(case, row);
    if let Some(check) = doubt::failed(case.log) {
        return Advice::Recalibrate(check);
    }
    match by_course(case, &course) {
        Advice::Add(proposal) => doubt::ask(case, &course, &proposal).map_or(Advice::Add(proposal), Advice::CheckMeter),
        advice @ (Advice::Stop | Advice::Passed(_)) => doubt::before_stopping(case, &course).unwrap_or(advice),
        advice => advice,
    }
}

/// The next thing to do if every reading that counts is as good as its instrument.
fn by_course(case: &DoseInputs<'_>, course: &ReplayedLog) -> Advice {
    if let Some(place) = course.unknown.first() {
        return Advice::Refuse(Refusal::UnknownDose(*place));
    }
    if course.batch.product <= Kilograms::ZERO {
        return Advice::Refuse(Refusal::NoBatch);
    }
    let target = case.log.target.units() as f64 / 100.0;
    let Some(batch) = fresh(course, Vessel::Batch) else { return Advice::Read(Vessel::Batch) };
    let gap = batch.ph - target;
    if gap.abs() <= near_enough(batch.instrument) {
        return Advice::Stop;
    }
    if let Some((a, b, clash)) = clash(course) {
        return Advice::Refuse(Refusal::Contradiction(a, b, clash));
    }
    let down = gap > 0.0;
    let titrant = Titrant::new(case.titrant, &Water::default());
    if !titrant.reaches(target, down) {
        let turned = titrant.reaches(target, !down);
        return if turned {
            Advice::Passed((gap.abs() * 100.0).round() as i64)
        } else {
            Advice::Refuse(Refusal::CannotReach)
        };
    }
    if !down && course.readings.iter().any(|reading| reading.instrument == Instrument::Strip) {
        return Advice::Refuse(Refusal::StripsCannotRaise);
    }
    // What not even a side sample could be brought to is not tried on the batch.
    if let Some(side) = course.side.as_ref().filter(|side| side_there(course, side, target, down) == Some(false))
        && let Some(why) = propose::too_much(case, course, side, down)
    {
        return Advice::Refuse(why);
    }
    let large = case.log.batch >= SMALL_BATCH;
    let place = course.titrants.iter().position(|known| known.id == case.titrant.id);
    // A base goes into the batch only after a side sample of what the batch is now has had some of it.
    let tried = |side: &VesselState| place.and_then(|place| side.doses.get(place)).is_some_and(|doses| *doses > 0);
    match &course.side {
        Some(side) if !down && !tried(side) && side.dosed() > 0 => Advice::TakeSample(sample(case.log.batch)),
        None if !down || (case.side_first && large && course.batch.dosed() == 0) => {
            Advice::TakeSample(sample(case.log.batch))
        }
        Some(side) if !side_done(course, side, target, down) => propose::on(case, course, Vessel::Side, down),
        _ => propose::on(case, course, Vessel::Batch, down),
    }
}

/// What the proposal of a log is expected to do to the pH of its vessel.
pub fn expect(
    case: &DoseInputs<'_>,
    row: &dyn Fn(&IngredientId) -> Option<&'static Acid>,
    proposal: &Proposal,
) -> Option<Expected> {
    let course = course(case, row);
    let (chemistry, belief, titrant, _) = believe(case, &course, proposal.vessel)?;
    let mut added = course.vessel(proposal.vessel)?.added.clone();
    *added.get_mut(titrant)? += proposal.brings;
    let at = |share: f64| {
        let ph = belief.ph_quantile(&chemistry, &added, titrant, share);
        Ph::from_units(((ph * 100.0).round() as i64).clamp(Ph::MIN, Ph::MAX))
    };
    Some(Expected { ph: at(0.5), low: at(0.05), high: at(0.95) })
}

/// The model's curve for a picture: for each pH the total of the titrant that reaches it: least (5 %), middle and greatest
/// (95 %).
pub fn curve(
    case: &DoseInputs<'_>,
    row: &dyn Fn(&IngredientId) -> Option<&'static Acid>,
    vessel: Vessel,
    ph: &[f64],
) -> Vec<(f64, [MolPerKg; 3])> {
    let course = course(case, row);
    let Some((chemistry, belief, titrant, _)) = believe(case, &course, vessel) else { return Vec::new() };
    let Some(state) = course.vessel(vessel) else { return Vec::new() };
    ph.iter()
        .map(|ph| {
            let spread = belief.total_for(&chemistry, &state.added, titrant, *ph);
            (*ph, [0.05, 0.5, 0.95].map(|share| MolPerKg(spread.quantile(share))))
        })
        .collect()
}

/// The course of the log, with the chosen titrant among its titrants.
fn course(case: &DoseInputs<'_>, row: &dyn Fn(&IngredientId) -> Option<&'static Acid>) -> ReplayedLog {
    let mut course = case.log.course(row);
    course.place_of(case.titrant);
    // What was read of the same again once the meter had been checked stands in the place of what was read before.
    let readings = course.readings.clone();
    course.readings.retain(|reading| {
        let again = |later: &PhReading| {
            later.event > reading.event
                && later.vessel == reading.vessel
                && later.added == reading.added
                && case.log.was_checked_between(reading.event, later.event)
        };
        reading.instrument != Instrument::Meter || !readings.iter().any(again)
    });
    course
}

fn sample(batch: Mass) -> Mass {
    let tenth = Mass::from_units(batch.units() / 10 / 1_000_000 * 1_000_000);
    tenth.clamp(SAMPLE.0, SAMPLE.1)
}

/// The newest reading of a vessel, if nothing was added to it since.
fn fresh(course: &ReplayedLog, vessel: Vessel) -> Option<&PhReading> {
    let state = course.vessel(vessel)?;
    let last = course.readings.iter().rev().find(|reading| reading.vessel == vessel)?;
    (last.added == state.added).then_some(last)
}

/// Where the side sample stands: its own newest reading, or the batch's, if it had no dose yet.
fn side_reading<'a>(course: &'a ReplayedLog, side: &VesselState) -> Option<&'a PhReading> {
    if side.dosed() == 0 {
        return course.readings.iter().rev().find(|reading| reading.added == side.added);
    }
    fresh(course, Vessel::Side)
}

/// True once the side sample has reached or passed the target; nothing while it has had no dose or was not read since.
fn side_there(course: &ReplayedLog, side: &VesselState, target: f64, down: bool) -> Option<bool> {
    let reading = side_reading(course, side).filter(|_| side.dosed() > 0)?;
    let gap = if down { reading.ph - target } else { target - reading.ph };
    Some(gap <= near_enough(reading.instrument) / 2.0)
}

/// True once it is there, or has had its doses.
fn side_done(course: &ReplayedLog, side: &VesselState, target: f64, down: bool) -> bool {
    side_there(course, side, target, down).is_some_and(|there| there || side.dosed() >= MOST_SIDE_DOSES)
}

/// Two readings that cannot both be right.
fn clash(course: &ReplayedLog) -> Option<(usize, usize, ReadingClash)> {
    let water = Water::default();
    let titrants: Vec<Titrant> = course.titrants.iter().map(|row| Titrant::new(row, &water)).collect();
    let delivers = |n: usize, ph| titrants.get(n).map_or(0.0, |titrant| titrant.delivers(ph));
    doubt::contradiction(course, &delivers)
}

/// Chemistry, belief, the titrant's place and the readings left out.
fn believe(
    case: &DoseInputs<'_>,
    course: &ReplayedLog,
    vessel: Vessel,
) -> Option<(Chemistry, Belief, usize, Vec<usize>)> {
    let titrant = course.titrants.iter().position(|known| known.id == case.titrant.id)?;
    let newest = course.readings.iter().rev().find(|reading| reading.vessel == vessel).or(course.readings.last())?;
    let alike = |reading: &&PhReading| reading.dilution == newest.dilution;
    let left_out = course.readings.iter().filter(|reading| !alike(reading)).map(|reading| reading.event).collect();
    let points: Vec<Point> = course
        .readings
        .iter()
        .filter(alike)
        .map(|reading| Point {
            added: reading.added.clone(),
            doubt: reading.doubt.clone(),
            ph: reading.ph,
            u: uncertainty(reading.instrument),
        })
        .collect();
    let chemistry = Chemistry::new(case.water, &course.titrants, case.known);
    let belief = Belief::from(&chemistry, &points);
    Some((chemistry, belief, titrant, left_out))
}
