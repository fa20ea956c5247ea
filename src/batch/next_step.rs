//! What a batch asks for next: its log, the formula and what the maker has at hand put together, with a picture of it.

use super::dose::{Advice, DoseInputs, Expected, advise, curve, expect, known_of, named_in, usual_strength};
use super::{LeftOpen, MeterCheck, MeterTrust, MolPerKg, PhEvent, PhLog, PhReading, Vessel};
use crate::facts::{Acid, Adjusts, IngredientId, acid};
use crate::formula::Formula;
use crate::quantity::{Mass, Percent, Ph, Quantity, Timestamp, Typed};
use crate::sheet::ph::{water_phase, window};
use crate::sheet::totals;
use crate::shelf::Shelf;

/// An acid or base of the shelf that a pH is set with.
#[derive(Debug, Clone)]
pub struct Adjuster {
    /// Which ingredient.
    pub id: IngredientId,
    /// Its substance's name: the label of the shelf may speak of a strength that the maker does not have.
    pub name: String,
    /// Its chemistry.
    pub row: &'static Acid,
}

/// All of the shelf: what lowers a pH first.
pub fn adjusters(shelf: &Shelf) -> Vec<Adjuster> {
    let of = |entry: crate::shelf::Ingredient| {
        let row = entry.links().acid_base.and_then(acid).filter(|row| row.adjusts.is_some())?;
        let name = entry.inci().map_or_else(|| entry.label().to_owned(), |inci| inci.value.to_owned());
        Some(Adjuster { id: entry.id().clone(), name, row })
    };
    let (mut down, up): (Vec<_>, Vec<_>) =
        shelf.iter().filter_map(of).partition(|adjuster| adjuster.row.adjusts == Some(Adjusts::Down));
    down.extend(up);
    down
}

/// What the maker works with.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tools {
    /// The acid or base.
    pub titrant: IngredientId,
    /// The share of pure substance in what there is of it.
    pub strength: Percent,
    /// The step of the scale that doses are weighed on.
    pub step: Mass,
    /// True to find the dose in a side sample first.
    pub side_first: bool,
}

impl Tools {
    /// What to begin with: what went in last, else the first one that the formula names, else the first of the shelf.
    pub fn first(adjusters: &[Adjuster], log: Option<&PhLog>, formula: &Formula, step: Mass) -> Option<Self> {
        let has = |id: &IngredientId| adjusters.iter().find(|adjuster| adjuster.id == *id);
        let dosed = log.into_iter().flat_map(|log| log.events.iter().rev()).find_map(|(_, event)| match event {
            PhEvent::Dose { titrant, .. } => has(titrant),
            _ => None,
        });
        let named = || formula.lines().find_map(|(_, line)| has(line.choice.id()?));
        let chosen = dosed.or_else(named).or_else(|| adjusters.first())?;
        let strength = usual_strength(chosen.row);
        Some(Self { titrant: chosen.id.clone(), strength, step, side_first: true })
    }

    /// With an acid or base as it is sold, or as a solution of a stated strength; nothing while that cannot be read.
    pub fn of(adjuster: &Adjuster, solution: Option<&Typed<Percent>>, step: Mass, side_first: bool) -> Option<Self> {
        let strength = match solution {
            Some(stated) => stated.value()?,
            None => usual_strength(adjuster.row),
        };
        let usable = strength > Percent::ZERO && strength <= Percent::WHOLE;
        usable.then(|| Self { titrant: adjuster.id.clone(), strength, step, side_first })
    }

    /// As text that can be kept: what there is of which, and the scale.
    pub fn write(&self) -> String {
        format!("{} {} {}", self.titrant.as_str(), self.strength.canonical(), self.step.canonical())
    }

    /// From that text; nothing if it does not fit the shelf any more.
    pub fn read(text: &str, adjusters: &[Adjuster]) -> Option<Self> {
        let mut parts = text.split(' ');
        let adjuster = parts.next().and_then(|id| adjusters.iter().find(|adjuster| adjuster.id.as_str() == id))?;
        let strength = parts.next().and_then(|text| Percent::from_canonical(text).ok());
        let step = parts.next().and_then(|text| Mass::from_canonical(text).ok()).filter(|step| *step > Mass::ZERO)?;
        let strength = strength.filter(|share| *share > Percent::ZERO && *share <= Percent::WHOLE)?;
        Some(Self { titrant: adjuster.id.clone(), strength, step, side_first: true })
    }
}

/// A reading in the picture.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Dot {
    /// Of what.
    pub vessel: Vessel,
    /// What had been added by then, in mg of what the maker has per kg of product.
    pub at: i64,
    /// The pH.
    pub ph: Ph,
    /// Half the width of its error, in hundredths of pH.
    pub error: i64,
    /// Something else had been added as well, in another amount than now: it does not lie on the curve.
    pub off: bool,
    /// The reading before it of the same vessel, by its place among the dots; for the first of a side sample, that of the
    /// batch which it was taken from.
    pub before: Option<usize>,
}

/// Readings, doses and what the model makes of them: pH over what was added.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Picture {
    /// Right end of the axis, in mg per kg.
    pub most: i64,
    /// Distance of its marks.
    pub mark: i64,
    /// Lowest and highest pH, in whole halves.
    pub span: (Ph, Ph),
    /// What is to be reached.
    pub target: Ph,
    /// Readings in order.
    pub dots: Vec<Dot>,
    /// For each pH what reaches it, in mg per kg: least (5 %), middle, greatest (95 %).
    pub curve: Vec<(Ph, [i64; 3])>,
    /// The dose that is proposed: from, to, and what it is expected to do.
    pub next: Option<(i64, i64, Expected)>,
}

/// The meter as it stands for the next reading.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct MeterNow {
    /// What speaks for it.
    pub trust: MeterTrust,
    /// Its last check in this log, with the instant at which it was done.
    pub last: Option<(MeterCheck, Timestamp)>,
    /// The newest reading was still moving.
    pub unsteady: bool,
}

/// All that follows for now.
#[derive(Debug, Clone, PartialEq)]
pub struct NextStep {
    /// What to do.
    pub advice: Advice,
    /// What a proposed dose is expected to do.
    pub expected: Option<Expected>,
    /// True while nothing was added to anything: what lies beyond the target was so from the start.
    pub untouched: bool,
    /// The picture, once there is a reading.
    pub picture: Option<Picture>,
    /// Where a batch that is there lies.
    pub ends: Option<LeftOpen>,
    /// The meter.
    pub meter: MeterNow,
}

/// Reckons it; nothing if the shelf does not have the acid or base any more.
pub fn next_step(formula: &Formula, shelf: &Shelf, log: &PhLog, tools: &Tools, now: Timestamp) -> Option<NextStep> {
    let row = |id: &IngredientId| shelf.entry(id).and_then(|entry| entry.links().acid_base.and_then(acid));
    let sums = totals(formula);
    let phase = water_phase(formula, &sums, shelf);
    let known = known_of(&phase);
    let case = DoseInputs {
        log,
        water: phase.water,
        known: &known,
        named: named_in(&phase),
        titrant: row(&tools.titrant)?,
        strength: tools.strength,
        step: tools.step,
        side_first: tools.side_first,
    };
    let advice = advise(&case, &row);
    let expected = match &advice {
        Advice::Add(proposal) => expect(&case, &row, proposal),
        _ => None,
    };
    let picture = picture(&case, &row, &advice, expected);
    let untouched = !log.events.iter().any(|(_, event)| matches!(event, PhEvent::Dose { .. }));
    let bars = || window(formula, &sums, shelf).bars;
    let ends = (advice == Advice::Stop).then(|| LeftOpen::of(log, &row, &bars())).flatten();
    let trust = log.trust(log.events.len(), now);
    let meter = MeterNow { trust, last: log.last_check(), unsteady: log.is_unsteady() };
    Some(NextStep { advice, expected, untouched, picture, ends, meter })
}

/// Points of the curve.
const POINTS: i64 = 32;
/// The axis goes so much further than what is on it.
const ROOM: f64 = 1.1;

fn picture(
    case: &DoseInputs<'_>,
    row: &dyn Fn(&IngredientId) -> Option<&'static Acid>,
    advice: &Advice,
    expected: Option<Expected>,
) -> Option<Picture> {
    let mut course = case.log.course(row);
    let titrant = course.place_of(case.titrant);
    let vessel = match advice {
        Advice::Add(proposal) => proposal.vessel,
        Advice::Read(vessel) | Advice::Repeat(vessel) => *vessel,
        _ => Vessel::Batch,
    };
    let now = &course.vessel(vessel)?.added;
    let at = |added: MolPerKg| added.milligrams_of(case.titrant, case.strength);
    let dot = |reading: &PhReading| {
        let others = |n: &usize| *n != titrant && reading.added.get(*n) != now.get(*n);
        Dot {
            vessel: reading.vessel,
            at: at(reading.added.get(titrant).copied().unwrap_or_default()),
            ph: Ph::from_units((reading.ph * 100.0).round() as i64),
            error: (reading.instrument.half_width() * 100.0).round() as i64,
            off: (0..now.len()).any(|n| others(&n)),
            before: before(case.log, &course.readings, reading),
        }
    };
    let dots: Vec<Dot> = course.readings.iter().map(dot).collect();
    let first = dots.first()?;
    let next = match (advice, expected) {
        (Advice::Add(proposal), Some(expected)) => {
            let from = now.get(titrant).copied().unwrap_or_default();
            Some((at(from), at(from + proposal.brings), expected))
        }
        _ => None,
    };
    let target = case.log.target;
    let heights = dots.iter().flat_map(|dot| [dot.ph.units() - dot.error, dot.ph.units() + dot.error]);
    let heights = heights.chain(next.iter().flat_map(|(_, _, expected)| [expected.low.units(), expected.high.units()]));
    let (low, high) = heights.fold((target.units(), target.units()), |(low, high), ph| (low.min(ph), high.max(ph)));
    let (low, high) = (((low - 20).div_euclid(50) * 50).max(Ph::MIN), ((high + 69).div_euclid(50) * 50).min(Ph::MAX));
    let heights: Vec<f64> =
        (0..=POINTS).map(|n| low as f64 / 100.0 + (high - low) as f64 / 100.0 * n as f64 / POINTS as f64).collect();
    let of_curve = |(ph, totals): (f64, [MolPerKg; 3])| (Ph::from_units((ph * 100.0).round() as i64), totals.map(at));
    let curve: Vec<(Ph, [i64; 3])> = curve(case, row, vessel, &heights).into_iter().map(of_curve).collect();
    let reached = curve.iter().min_by_key(|(ph, _)| (ph.units() - target.units()).abs()).map_or(0, |(_, at)| at[1]);
    let furthest = dots.iter().map(|dot| dot.at).chain(next.iter().map(|(_, to, _)| *to));
    let most = furthest.fold(first.at, i64::max).max(reached).max(10);
    let most = (most as f64 * ROOM) as i64;
    Some(Picture {
        most,
        mark: mark(most),
        span: (Ph::from_units(low), Ph::from_units(high)),
        target,
        dots,
        curve,
        next,
    })
}

/// The reading that led to this one.
fn before(log: &PhLog, readings: &[PhReading], reading: &PhReading) -> Option<usize> {
    let sample =
        |place: &usize| matches!(log.events.get(*place), Some((_, PhEvent::Sample { .. }))) && !log.is_struck(*place);
    let last = |vessel: Vessel, from: usize, to: usize| {
        readings.iter().rposition(|other| other.vessel == vessel && (from..to).contains(&other.event))
    };
    match reading.vessel {
        Vessel::Batch => last(Vessel::Batch, 0, reading.event),
        Vessel::Side => {
            let taken = (0..reading.event).rev().find(sample)?;
            last(Vessel::Side, taken, reading.event).or_else(|| last(Vessel::Batch, 0, taken))
        }
    }
}

/// A round distance that gives two to five marks: 1, 2 or 5 times a power of ten.
fn mark(most: i64) -> i64 {
    let mut power = 1;
    loop {
        for times in [1, 2, 5] {
            if most / (times * power) <= 5 {
                return times * power;
            }
        }
        power *= 10;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::batch::Instrument;

    fn read(vessel: Vessel, ph: i64) -> (Timestamp, PhEvent) {
        let taken = Mass::from_units(2_000_000);
        (
            Timestamp::default(),
            PhEvent::Read {
                vessel,
                ph: Ph::from_units(ph),
                instrument: Instrument::Meter,
                dilution: 5,
                taken,
                steady: None,
            },
        )
    }

    fn tools(shelf: &Shelf) -> Tools {
        Tools::first(&adjusters(shelf), None, &Formula::default(), Mass::from_units(10_000)).unwrap()
    }

    #[test]
    fn adjusters_are_named_by_their_substance_and_lower_first() {
        let all = adjusters(&Shelf::default());
        let names: Vec<_> = all.iter().map(|adjuster| adjuster.name.as_str()).collect();
        assert_eq!(names.first(), Some(&"Citric Acid"));
        assert!(names.contains(&"Sodium Hydroxide") && all.len() == 7, "{names:?}");
    }

    #[test]
    fn tools_are_kept_as_text_and_refused_when_they_make_no_sense() {
        let shelf = Shelf::default();
        let all = adjusters(&shelf);
        let half = Tools { strength: Percent::from_units(50_000_000), ..tools(&shelf) };
        assert_eq!(half.write(), "citric-acid 50 0.01");
        assert_eq!(Tools::read(&half.write(), &all), Some(half));
        for wrong in
            ["", "citric-acid", "citric-acid 0 0.01", "citric-acid 120 0.01", "gone 50 0.01", "citric-acid 50 0"]
        {
            assert_eq!(Tools::read(wrong, &all), None, "{wrong:?}");
        }
    }

    #[test]
    fn outlook_asks_for_a_reading_then_a_sample_then_a_dose_with_a_picture() {
        let shelf = Shelf::default();
        let formula = Formula::default();
        let mut log = PhLog::new(Mass::from_units(500_000_000), Ph::from_units(520));
        let tools = tools(&shelf);
        let see = |log: &PhLog| next_step(&formula, &shelf, log, &tools, Timestamp::default()).unwrap();
        assert_eq!((see(&log).advice, see(&log).picture), (Advice::Read(Vessel::Batch), None));
        log.events.push(read(Vessel::Batch, 640));
        assert!(matches!(see(&log).advice, Advice::TakeSample(_)));
        let mut low = PhLog::new(log.batch, log.target);
        low.events.push(read(Vessel::Batch, 450));
        assert!(matches!(see(&low).advice, Advice::CheckMeter(_)));
        low.events.push((Timestamp::default(), PhEvent::Unchecked));
        assert!(matches!(see(&low), NextStep { advice: Advice::Passed(_), untouched: true, .. }));
        log.events.push((Timestamp::default(), PhEvent::Sample { mass: Mass::from_units(50_000_000) }));
        let found = see(&log);
        let (Advice::Add(proposal), Some(expected), Some(picture)) = (&found.advice, found.expected, &found.picture)
        else {
            panic!("{found:?}")
        };
        assert_eq!(proposal.vessel, Vessel::Side);
        let (from, to, _) = picture.next.unwrap();
        assert!(from == 0 && to > 0 && to <= picture.most, "{picture:?}");
        assert!(picture.span.0 < expected.low && picture.span.1.units() >= 645);
        // The dose in mg per kg is what is weighed, over the sample.
        let weighed = proposal.portion.mass.share(proposal.portion.strength).units() / 1000;
        assert!((to * 48 / 1000..=to * 52 / 1000 + 1).contains(&weighed), "{weighed} mg against {to} mg/kg");
        assert_eq!(picture.dots[0].before, None);
        log.events.push(read(Vessel::Side, 600));
        log.events.push(read(Vessel::Batch, 640));
        log.events.push((Timestamp::default(), PhEvent::Sample { mass: Mass::from_units(50_000_000) }));
        log.events.push(read(Vessel::Side, 610));
        let led: Vec<_> = see(&log).picture.unwrap().dots.iter().map(|dot| dot.before).collect();
        assert_eq!(led, [None, Some(0), Some(0), Some(2)], "a fresh sample starts from the batch");
        for (_, [least, middle, greatest]) in &picture.curve {
            assert!(least <= middle && middle <= greatest);
        }
    }

    #[test]
    fn mark_is_round_and_not_too_dense() {
        assert_eq!([10, 60, 99, 1_100, 26_000].map(mark), [2, 20, 20, 200, 5_000]);
    }
}
