//! One proposal for one vessel: what is wanted by what is believed, no more than the bounds allow, as the scale weighs it.

use super::bounds::{DoseBounds, DoseLimit, DosePortion, HIDDEN, MOST_PURE, THINNED, gone_in};
use super::doubt::strong_or_weak;
use super::measured::{MOST_MEASURED, OF_MISSING, capacity};
use super::{
    Advice, Belief, Chemistry, DoseInputs, Headroom, MOST_SAMPLES, Policy, Proposal, Refusal, Titrant, Water, believe,
    fresh, near_enough, next_total, portion, sample, side_reading,
};
use crate::batch::units::fraction;
use crate::batch::{Kilograms, MolPerKg, PhReading, ReplayedLog, Vessel, VesselState};
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
    let Some(state) = course.vessel(vessel).filter(|state| state.product > Kilograms::ZERO) else {
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

/// What one dose brings: as wanted, and as bounded.
#[derive(Clone, Copy)]
struct Increment {
    wanted: MolPerKg,
    bounded: MolPerKg,
    limit: Option<DoseLimit>,
}

impl Stand<'_> {
    fn so_far(&self) -> MolPerKg {
        self.state.added.get(self.titrant).copied().unwrap_or_default()
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
        // A product that buffers more than any that is believed in is known by its readings alone.
        let strong = strong_or_weak(&self.chemistry, self.course, self.reading, self.down).0;
        if let Some(missing) = self.measured().filter(|_| strong) {
            let delivers = self.chemistry.delivers(self.titrant, self.target).abs();
            return self.bounded(wanted.max(missing / delivers));
        }
        if wanted <= so_far * 0.01 {
            // What was learnt before says that the target is reached; the reading says that it is not.
            let alike = |other: &&PhReading| other.vessel == self.vessel && other.added == self.state.added;
            if self.course.readings.iter().filter(alike).count() < 2 {
                return Err(Advice::Repeat(self.vessel));
            }
            // A side sample that went far too far tells no more than that: a smaller dose in a fresh one does.
            if self.vessel == Vessel::Batch
                && so_far == MolPerKg::ZERO
                && (1..MOST_SAMPLES).contains(&self.course.samples)
            {
                return Err(Advice::TakeSample(sample(self.case.log.batch)));
            }
            wanted = (next.range.1 - so_far).max(so_far * 0.05).min(so_far * 0.1) / 2.0;
            if wanted <= MolPerKg::ZERO {
                return Err(Advice::Refuse(Refusal::DoNotFit));
            }
        }
        self.bounded(wanted)
    }

    /// What moves the pH by as much as one dose may, by the best guess of where it is and of where it goes.
    fn moved(&self) -> MolPerKg {
        let (most, added) = (DoseBounds::of(self.vessel).moves, &self.state.added);
        let now = self.belief.ph_quantile(&self.chemistry, added, self.titrant, 0.5);
        let at = if self.down { now - most } else { now + most };
        let total = MolPerKg(self.belief.total_for(&self.chemistry, added, self.titrant, at).quantile(0.5));
        (total - self.so_far()).max(MolPerKg::ZERO)
    }

    fn bounded(&self, wanted: MolPerKg) -> Result<Increment, Advice> {
        let (state, row) = (self.state, self.case.titrant);
        let parts = DoseBounds::of(self.vessel).parts as f64;
        let brings = |mass: Kilograms| MolPerKg::of(mass * fraction(self.case.strength), row, state.product);
        let delivers = self.chemistry.delivers(self.titrant, self.target).abs();
        if let Some(why) = too_much(self.case, self.course, state, self.down) {
            return Err(Advice::Refuse(why));
        }
        let in_all = self.in_all() / delivers;
        let thins = self.until_thin();
        if thins <= state.total * ((1.0 - SPENT) * fraction(THINNED)) {
            return Err(Advice::Refuse(self.too_thin()));
        }
        let limits = [
            (DoseLimit::Moves, self.moved()),
            (DoseLimit::Mass, brings(state.total / parts)),
            (DoseLimit::Pure, MolPerKg::of(state.total * fraction(MOST_PURE), row, state.product)),
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
        let pure = |brings: MolPerKg| brings.pure(row, state.product).mass();
        let room = Headroom::of(self.vessel, state.total.mass()).within(self.until_thin().mass());
        let made = case.log.last_strength(self.vessel, row.id);
        let Some(portion) = portion(pure(increment.bounded), case.strength, case.step, room, made) else {
            return Advice::Refuse(Refusal::TooSmall);
        };
        let weighed = Kilograms::of(portion.mass.share(portion.strength));
        let brings = MolPerKg::of(weighed, row, state.product);
        let limit = near_enough(self.reading.instrument);
        let past = if self.down { self.target - limit } else { self.target + limit };
        let mut after = state.added.clone();
        if let Some(own) = after.get_mut(self.titrant) {
            *own += brings;
        }
        let (strong, weak) = strong_or_weak(&self.chemistry, self.course, self.reading, self.down);
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
            thinned: thinned(state, Kilograms::of(portion.mass)),
            strong,
            weak,
            beyond: self.gone_in() + brings * self.chemistry.delivers(self.titrant, self.target).abs()
                > HIDDEN + case.named,
        })
    }

    /// What may still go in until all doses make up too much of the vessel: (added + x) / (total + x) is then the bound. A
    /// side sample is thrown away.
    fn until_thin(&self) -> Kilograms {
        let (most, VesselState { total, product, .. }) = (fraction(THINNED), self.state);
        match self.vessel {
            Vessel::Batch => (*total * most - (*total - *product)) / (1.0 - most),
            Vessel::Side => Kilograms(f64::INFINITY),
        }
    }

    /// What all doses may still bring: what is left of what a formula like this one is taken to need, or part of what is
    /// missing by the capacity that readings measured.
    fn in_all(&self) -> MolPerKg {
        let usual = HIDDEN + self.case.named - self.gone_in();
        self.measured().map_or(usual, |measured| usual.max(measured.min(MOST_MEASURED - self.gone_in())))
    }

    /// Part of what is missing by the capacity that readings measured, in acid or base.
    fn measured(&self) -> Option<MolPerKg> {
        let capacity = capacity(&self.chemistry, self.course, self.down)?;
        Some(MolPerKg(capacity * (self.reading.ph - self.target).abs() * OF_MISSING))
    }

    fn gone_in(&self) -> MolPerKg {
        gone_in(&self.chemistry, &self.state.added, self.target, self.down)
    }

    fn too_thin(&self) -> Refusal {
        Refusal::Thinned(thinned(self.state, Kilograms::ZERO))
    }
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
    // Each mole of the chosen one delivers so much acid or base.
    let pure = |equivalents: MolPerKg| (equivalents / delivers).pure_per_kilogram(case.titrant);
    let goes_on = || gone_in < MOST_MEASURED * SPENT && capacity(&chemistry, course, down).is_some();
    (gone_in >= most * SPENT && !goes_on()).then(|| Refusal::TooMuch { gone_in: pure(gone_in), most: pure(most) })
}

/// The share of what was added in all that a vessel holds, once so much more is in.
fn thinned(state: &VesselState, more: Kilograms) -> Percent {
    let total = state.total + more;
    let share = if total > Kilograms::ZERO { 1.0 - state.product.part_of(total) } else { 0.0 };
    Percent::from_units((share.clamp(0.0, 1.0) * Percent::WHOLE.units() as f64).round() as i64)
}
