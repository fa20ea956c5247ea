//! One proposal for one vessel: what is wanted by what is believed, no more than the bounds allow, as the scale weighs it.

use super::bounds::{DoseBounds, DoseLimit, DosePortion, HIDDEN, MOST_PURE, STRONG, THINNED, gone_in};
use super::{
    Advice, Belief, Chemistry, DoseInputs, Headroom, MOST_SAMPLES, Policy, Proposal, Refusal, Titrant, Water, believe,
    fresh, near_enough, next_total, portion, sample, side_reading, uncertainty,
};
use crate::batch::{PhReading, ReplayedLog, Vessel, VesselState};
use crate::quantity::{Mass, Percent, Quantity, mul_div_nearest};

/// A bound on all doses together counts as reached from this share of it on: no one measures crumbs.
const SPENT: f64 = 0.95;

/// A vessel before its next dose.
struct Stand<'a> {
    case: &'a DoseInputs<'a>,
    course: &'a ReplayedLog,
    vessel: Vessel,
    state: &'a VesselState,
    reading: &'a PhReading,
    chemistry: Chemistry,
    belief: Belief,
    /// The place of the chosen acid or base.
    titrant: usize,
    target: f64,
    down: bool,
}

/// What to do with a vessel that is not at its target.
pub(super) fn on(case: &DoseInputs<'_>, course: &ReplayedLog, vessel: Vessel, down: bool) -> Advice {
    let Some(state) = course.vessel(vessel).filter(|state| state.product > 0.0) else {
        return Advice::Refuse(Refusal::NoBatch);
    };
    let reading = match vessel {
        Vessel::Batch => fresh(course, vessel),
        Vessel::Side => side_reading(course, state),
    };
    let Some(reading) = reading else { return Advice::Read(vessel) };
    let Some((chemistry, belief, titrant, left_out)) = believe(case, course, vessel) else {
        return Advice::Read(vessel);
    };
    let target = case.log.target.units() as f64 / 100.0;
    let stand = Stand { case, course, vessel, state, reading, chemistry, belief, titrant, target, down };
    match stand.increment() {
        Ok(increment) => stand.dose(increment, left_out),
        Err(advice) => advice,
    }
}

/// What one dose brings, mol per kg of product: as wanted, and as bounded.
#[derive(Clone, Copy)]
struct Increment {
    wanted: f64,
    bounded: f64,
    limit: Option<DoseLimit>,
}

impl Stand<'_> {
    fn so_far(&self) -> f64 {
        self.state.added.get(self.titrant).copied().unwrap_or(0.0)
    }

    /// Bounds what is wanted; or says what else is to be done.
    fn increment(&self) -> Result<Increment, Advice> {
        let half_width = self.reading.instrument.half_width();
        let policy = match self.vessel {
            Vessel::Side => Policy::SIDE,
            Vessel::Batch => Policy::BATCH,
        };
        let (belief, chemistry, added) = (&self.belief, &self.chemistry, &self.state.added);
        let policy = policy.for_half_width(half_width);
        let next = next_total(belief, chemistry, added, self.titrant, self.target, self.down, policy);
        let so_far = self.so_far();
        let mut wanted = next.total - so_far;
        if wanted <= 0.01 * so_far {
            // What was learnt before says that the target is reached; the reading says that it is not.
            let alike = |other: &&PhReading| other.vessel == self.vessel && other.added == self.state.added;
            if self.course.readings.iter().filter(alike).count() < 2 {
                return Err(Advice::Repeat(self.vessel));
            }
            // A side sample that went far too far tells no more than that: a smaller dose in a fresh one does.
            if self.vessel == Vessel::Batch && so_far == 0.0 && (1..MOST_SAMPLES).contains(&self.course.samples) {
                return Err(Advice::TakeSample(sample(self.case.log.batch)));
            }
            wanted = (next.range.1 - so_far).max(0.05 * so_far).min(0.1 * so_far) / 2.0;
            if wanted <= 0.0 {
                return Err(Advice::Refuse(Refusal::DoNotFit));
            }
        }
        self.bounded(wanted)
    }

    /// What moves the pH by as much as one dose may, by the best guess of where it is and of where it goes.
    fn moved(&self) -> f64 {
        let (most, added) = (DoseBounds::of(self.vessel).moves, &self.state.added);
        let now = self.belief.ph_quantile(&self.chemistry, added, self.titrant, 0.5);
        let at = if self.down { now - most } else { now + most };
        (self.belief.total_for(&self.chemistry, added, self.titrant, at).quantile(0.5) - self.so_far()).max(0.0)
    }

    fn bounded(&self, wanted: f64) -> Result<Increment, Advice> {
        let (state, row) = (self.state, self.case.titrant);
        let parts = DoseBounds::of(self.vessel).parts as f64;
        // mol per kg of product that so many kg of what the maker has bring.
        let brings = |mass: f64| mass * fraction(self.case.strength) * 1000.0 / row.mass / state.product;
        let delivers = self.chemistry.delivers(self.titrant, self.target).abs();
        if let Some(why) = too_much(self.case, self.course, state, self.down) {
            return Err(Advice::Refuse(why));
        }
        let in_all = (HIDDEN + self.case.named - self.gone_in()) / delivers;
        let thins = self.until_thin();
        if thins <= (1.0 - SPENT) * fraction(THINNED) * state.total {
            return Err(Advice::Refuse(self.too_thin()));
        }
        let limits = [
            (DoseLimit::Moves, self.moved()),
            (DoseLimit::Mass, brings(state.total / parts)),
            (DoseLimit::Pure, fraction(MOST_PURE) * state.total * 1000.0 / row.mass / state.product),
            (DoseLimit::InAll, in_all),
            (DoseLimit::Thins, brings(thins)),
        ];
        let all = Increment { wanted, bounded: wanted, limit: None };
        Ok(limits.into_iter().fold(all, |found, (limit, most)| {
            if most < found.bounded { Increment { bounded: most, limit: Some(limit), ..found } } else { found }
        }))
    }

    fn dose(&self, increment: Increment, left_out: Vec<usize>) -> Advice {
        let (case, state, row) = (self.case, self.state, self.case.titrant);
        let mass = |kilograms: f64| Mass::from_units((kilograms * 1e9).clamp(0.0, 1e15) as i64);
        let pure = |brings: f64| {
            // kg of pure substance: mol/kg × kg × g/mol ÷ 1000.
            mass(brings * state.product * row.mass / 1000.0)
        };
        let room = Headroom::of(self.vessel, mass(state.total)).within(mass(self.until_thin()));
        let made = case.log.last_strength(self.vessel, row.id);
        let Some(portion) = portion(pure(increment.bounded), case.strength, case.step, room, made) else {
            return Advice::Refuse(Refusal::TooSmall);
        };
        let weighed = portion.mass.share(portion.strength).units() as f64 / 1e9;
        let brings = weighed * 1000.0 / row.mass / state.product;
        let limit = near_enough(self.reading.instrument);
        let past = if self.down { self.target - limit } else { self.target + limit };
        let mut after = state.added.clone();
        if let Some(own) = after.get_mut(self.titrant) {
            *own += brings;
        }
        let split = increment.limit.map(|limit| {
            let whole = Percent::WHOLE.units();
            let in_all = mul_div_nearest(pure(increment.wanted).units(), whole, portion.strength.units());
            let portions = in_all.saturating_add(portion.mass.units() - 1) / portion.mass.units();
            DosePortion { in_all: Mass::from_units(in_all), portions, limit }
        });
        Advice::Add(Proposal {
            vessel: self.vessel,
            portion,
            brings,
            chance_past: self.belief.reached(&self.chemistry, &after, self.titrant, past),
            misfit: self.belief.widened > 1.0,
            left_out,
            split: split.filter(|split| split.portions > 1),
            thinned: thinned(state, portion.mass.units() as f64 / 1e9),
            strong: self.is_strong(),
        })
    }

    /// kg that may still go in until all doses make up too much of the vessel: (added + x) / (total + x) is then the bound.
    /// A side sample is thrown away.
    fn until_thin(&self) -> f64 {
        let (most, VesselState { total, product, .. }) = (fraction(THINNED), self.state);
        match self.vessel {
            Vessel::Batch => (most * total - (total - product)) / (1.0 - most),
            Vessel::Side => f64::INFINITY,
        }
    }

    fn gone_in(&self) -> f64 {
        gone_in(&self.chemistry, &self.state.added, self.target, self.down)
    }

    fn too_thin(&self) -> Refusal {
        Refusal::Thinned(thinned(self.state, 0.0))
    }

    /// True if what went in since the first reading moved the pH less than any product would that hides no more than
    /// lotions are taken to, beside what the formula tells: by the readings alone and by as much as they may be wrong.
    fn is_strong(&self) -> bool {
        let alike = |other: &&PhReading| other.dilution == self.reading.dilution;
        let Some(first) = self.course.readings.iter().find(alike) else { return false };
        let way = if self.down { 1.0 } else { -1.0 };
        let pairs = self.reading.added.iter().zip(&first.added).enumerate();
        let went: f64 =
            pairs.map(|(n, (now, then))| (now - then) * self.chemistry.delivers(n, self.reading.ph) * way).sum();
        let doubt = 2.0 * uncertainty(self.reading.instrument).hypot(uncertainty(first.instrument));
        let takes = self.chemistry.accounts_for(first.ph, self.reading.ph, doubt);
        went - takes > STRONG * ((self.reading.ph - first.ph).abs() + doubt)
    }
}

fn fraction(share: Percent) -> f64 {
    share.units() as f64 / Percent::WHOLE.units() as f64
}

/// Why no more may go into a vessel: hardly anything is left of what all doses may bring.
pub(super) fn too_much(
    case: &DoseInputs<'_>,
    course: &ReplayedLog,
    state: &VesselState,
    down: bool,
) -> Option<Refusal> {
    let target = case.log.target.units() as f64 / 100.0;
    let chemistry = Chemistry::new(case.water, &course.titrants, case.known);
    let (gone_in, most) = (gone_in(&chemistry, &state.added, target, down), HIDDEN + case.named);
    let delivers = Titrant::new(case.titrant, &Water::default()).delivers(target).abs();
    // g per kg of product: mol/kg ÷ (mol of acid or base a mol) × g/mol.
    let pure = |moles: f64| Mass::from_units((moles / delivers * case.titrant.mass * 1e6).min(1e15) as i64);
    (gone_in >= SPENT * most).then(|| Refusal::TooMuch { gone_in: pure(gone_in), most: pure(most) })
}

/// The share of what was added in all that a vessel holds, once so many kg more are in.
fn thinned(state: &VesselState, more: f64) -> Percent {
    let total = state.total + more;
    let share = if total > 0.0 { 1.0 - state.product / total } else { 0.0 };
    Percent::from_units((share.clamp(0.0, 1.0) * Percent::WHOLE.units() as f64).round() as i64)
}
