//! A batch at the stove: what is asked of its record there beside what is to be done next.

use super::cups::Cups;
use super::{
    BatchFlows, BatchLoss, BatchRecord, Check, Event, FrozenScale, FrozenStep, LineState, MadeFrom, Making, MakingLine,
    PhEvent, Pot, Vessel, WeighIn,
};
use crate::facts::craft;
use crate::formula::StepKind;
use crate::quantity::{Celsius, Day, Mass, Minutes, Percent, Quantity};
use std::sync::Arc;

/// A batch that is made, and what it is made from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AtStove {
    /// What it is made from.
    pub from: Arc<MadeFrom>,
    /// How far it has come.
    pub making: Making,
}

/// What is looked at before it is decided what becomes of a batch.
pub const CHECKS_TO_DECIDE: [Check; 4] = [Check::Appearance, Check::Odour, Check::Viscosity, Check::CodeOnPack];

/// A lot that something is weighed from.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct WeighedLot {
    /// What it is called; may be empty.
    pub name: String,
    /// The day up to which it is good.
    pub expiry: Option<Day>,
}

/// Whether what is good up to a day, that day with it, is no longer so on another.
pub fn is_past(expiry: Day, on: Day) -> bool {
    on > expiry
}

/// How far apart water and oil are when they are to be joined.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PotGap {
    /// In degrees.
    pub apart: Celsius,
    /// How far they may be.
    pub most: Celsius,
}

impl PotGap {
    /// True if they may be joined.
    pub fn fits(self) -> bool {
        self.apart <= self.most
    }
}

impl AtStove {
    /// Of a record; nothing where it was not begun under a code.
    pub fn of(record: &BatchRecord) -> Option<Self> {
        Some(Self { making: Making::of(record)?, from: record.made_from.clone()? })
    }

    /// The step at a place.
    pub fn step(&self, place: usize) -> Option<&FrozenStep> {
        self.from.steps.get(place)
    }

    /// The lot that a line was weighed from, else the one that counted as the batch began.
    pub fn lot_of(&self, line: usize) -> WeighedLot {
        let weighed = self.making.lines.get(line).and_then(|line| line.weighed.as_ref());
        match weighed {
            Some(weighed) => WeighedLot { name: weighed.lot.clone(), expiry: weighed.expiry },
            None => WeighedLot {
                name: self.from.lines.get(line).map(|line| line.lot.clone()).unwrap_or_default(),
                expiry: None,
            },
        }
    }

    /// Its lines as another size is told from them.
    pub fn lines(&self) -> Vec<LineState> {
        let line = |(line, frozen): (&MakingLine, &super::FrozenLine)| LineState {
            target: line.target,
            actual: line.weighed.as_ref().map(|weighed| weighed.mass),
            capped: frozen.capped,
        };
        self.making.lines.iter().zip(&self.from.lines).map(line).collect()
    }

    /// The scale that it is weighed on; where it was not kept, one of steps of 0.01 g that may be off by nothing more.
    pub fn scale(&self) -> FrozenScale {
        self.from.scale.unwrap_or(FrozenScale { step: Mass::micrograms(10_000), tolerance: Percent::ZERO })
    }

    /// How so much of a line stands to what is to go in of it.
    pub fn judge(&self, line: usize, actual: Mass) -> Option<WeighIn> {
        let target = self.making.lines.get(line)?.target;
        let capped = self.from.lines.get(line)?.capped;
        self.scale().judge(&LineState { target, actual: Some(actual), capped })
    }

    /// How far off a line may be.
    pub fn allowed(&self, line: usize) -> Option<Mass> {
        Some(self.judge(line, self.making.lines.get(line)?.target)?.allowed)
    }

    /// What is looked at in a step: the bench before anything is weighed, and the scale as it is laid out.
    pub fn checks(&self, place: usize) -> &'static [Check] {
        let weighs_before = self.from.steps.iter().take(place).any(|step| step.kind == StepKind::Weigh);
        match self.step(place).map(|step| step.kind) {
            Some(StepKind::Clean) if !weighs_before => &[Check::Clearance],
            Some(StepKind::LayOut) => &[Check::Scale],
            _ => &[],
        }
    }

    /// The time that begins once a step is done: both pots are hot, and are held for as long as the step after that says.
    /// Nothing where it runs already.
    pub fn time_after(&self, place: usize) -> Option<(usize, Minutes)> {
        let held = place.checked_add(1)?;
        let heats = self.step(place)?.kind == StepKind::Heat;
        let minutes = self.step(held).filter(|step| heats && step.kind == StepKind::Hold)?.minutes?;
        self.making.timer(held).is_none().then_some((held, minutes))
    }

    /// How far apart both pots are, as they were read last; nothing before both were.
    pub fn gap(&self) -> Option<PotGap> {
        let of = |pot| self.making.temperature(pot).map(|reading| reading.celsius.units());
        let apart = of(Pot::Water)?.abs_diff(of(Pot::Oil)?);
        Some(PotGap { apart: Celsius::from_units(i64::try_from(apart).ok()?), most: craft().join_gap })
    }

    /// Whether the pH was measured and is as it should be.
    pub fn ph_is_set(&self, record: &BatchRecord) -> bool {
        record.ph().is_some_and(|setting| setting.log.is_at_target())
    }

    /// What went in and what came out so far. A pack that is kept as a sample was filled, and counts there.
    pub fn flows(&self, record: &BatchRecord) -> BatchFlows {
        let mut flows = BatchFlows { weighed: self.making.charged(), ..BatchFlows::default() };
        let (mut before, mut after) = (None, None);
        let mut cups = Cups::default();
        for entry in record.standing() {
            match &entry.event {
                Event::Added { mass, .. } => flows.added = flows.added.plus(*mass),
                Event::Filled { mass } => flows.filled = flows.filled.plus(*mass),
                Event::Retained { mass, .. } => flows.retained = flows.retained.plus(*mass),
                Event::SplitOff { mass, .. } => flows.split_off = flows.split_off.plus(*mass),
                Event::Lost { what, mass } => flows.losses.push(BatchLoss { what: what.clone(), mass: *mass }),
                Event::PotWeighed { mass, after: false } => before = Some(*mass),
                Event::PotWeighed { mass, after: true } => after = Some(*mass),
                Event::Ph(PhEvent::Sample { mass }) => flows.sampled = flows.sampled.plus(*mass),
                Event::Ph(PhEvent::Read { taken, vessel: Vessel::Batch, .. }) => {
                    flows.sampled = flows.sampled.plus(*taken);
                }
                Event::Ph(PhEvent::Dose { vessel: Vessel::Batch, mass, titrant, strength, .. }) => {
                    cups.dose(titrant, *mass, *strength);
                }
                _ => {}
            }
        }
        flows.weighed = flows.weighed.minus(cups.left(self));
        flows.added = flows.added.plus(cups.beside(self));
        flows.evaporated = before.zip(after).and_then(|(before, after)| evaporated(before, after)).unwrap_or_default();
        flows
    }
}

/// What boiled off, of a pot that was weighed before it was heated and after that; nothing where it has become no lighter.
pub fn evaporated(before: Mass, after: Mass) -> Option<Mass> {
    Some(before.minus(after)).filter(|missing| *missing > Mass::ZERO)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::batch::{BatchEntry, EntryId};
    use crate::facts::IngredientId;
    use crate::quantity::{Day, Timestamp};

    fn grams(text: &str) -> Mass {
        Mass::from_canonical(text).unwrap()
    }

    fn step(kind: StepKind, minutes: Option<i64>) -> FrozenStep {
        FrozenStep {
            kind,
            text: String::new(),
            why: String::new(),
            stirring: String::new(),
            lines: Vec::new(),
            temperature: None,
            minutes: minutes.map(Minutes::from_units),
        }
    }

    fn record(events: Vec<Event>) -> BatchRecord {
        let begun = Event::Begun { code: "H1".into(), maker: String::new() };
        let entry = |(event, n): (Event, u64)| BatchEntry {
            id: EntryId::random(n),
            at: Timestamp::from_millis(1000 * n as i64),
            event,
        };
        let from = MadeFrom {
            formula: crate::formula::Formula::default(),
            version: None,
            mark: 0,
            batch: Some(grams("100")),
            lines: Vec::new(),
            steps: vec![step(StepKind::Heat, None), step(StepKind::Hold, Some(20)), step(StepKind::Blend, Some(3))],
            scale: None,
            packs: None,
            findings: Vec::new(),
            rules_known_to: Day::read("2026-11-25").unwrap(),
        };
        let entries = [begun].into_iter().chain(events).zip(1..).map(entry).collect();
        BatchRecord { made_from: Some(Arc::new(from)), entries }
    }

    #[test]
    fn time_of_holding_begins_with_the_end_of_heating_and_only_once() {
        let at = AtStove::of(&record(Vec::new())).unwrap();
        assert_eq!(at.time_after(0), Some((1, Minutes::from_units(20))));
        assert_eq!((at.time_after(1), at.time_after(2), at.time_after(9)), (None, None, None));
        let begun = Event::TimerStarted { step: 1, minutes: Minutes::from_units(20) };
        assert_eq!(AtStove::of(&record(vec![begun])).unwrap().time_after(0), None);
    }

    // Common practice, no source: both phases within 5 degrees when they are joined.
    #[test]
    fn pots_are_joined_within_five_degrees() {
        let read = |pot, thousandths| Event::Temperature { pot, reading: Celsius::from_units(thousandths) };
        let gap = |water, oil| AtStove::of(&record(vec![read(Pot::Water, water), read(Pot::Oil, oil)])).unwrap().gap();
        for (water, oil, fits) in [(70_000, 75_000, true), (75_000, 70_000, true), (70_000, 75_001, false)] {
            assert_eq!(gap(water, oil).map(PotGap::fits), Some(fits), "{water} {oil}");
        }
        assert_eq!(AtStove::of(&record(vec![read(Pot::Water, 70_000)])).unwrap().gap(), None);
    }

    // Worked by hand: 1049 g before and 1041 g after are 8 g of water.
    #[test]
    fn what_boiled_off_and_was_put_back_cancels_out() {
        assert_eq!(evaporated(grams("1049"), grams("1041")), Some(grams("8")));
        assert_eq!(evaporated(grams("1041"), grams("1041")), None);
        let pot = |mass, after| Event::PotWeighed { mass: grams(mass), after };
        let put_back = Event::Added { what: "Water".into(), mass: grams("8") };
        let record = record(vec![pot("1049", false), pot("1041", true), put_back]);
        let flows = AtStove::of(&record).unwrap().flows(&record);
        assert_eq!((flows.evaporated, flows.added), (grams("8"), grams("8")));
    }

    // Worked by hand: of 2 g of lactic acid in a cup 0.3 g went in, so 1.7 g are not in the batch; of 2.5 g half a gram came from
    // elsewhere. In 9 g of a solution of 1 % there are 0.1 g of the acid of 90 %, and water. Where nothing was dosed, all of the
    // cup went in.
    #[test]
    fn acid_of_a_cup_counts_once() {
        let dose = |(mass, strength): &(&str, &str)| {
            Event::Ph(PhEvent::Dose {
                vessel: Vessel::Batch,
                titrant: IngredientId::parse("lactic-acid").unwrap(),
                strength: Percent::from_canonical(strength).unwrap(),
                mass: grams(mass),
                step: grams("0.01"),
                lot: String::new(),
            })
        };
        let weighed = Event::Weighed {
            line: 0,
            actual: grams("2"),
            source: crate::batch::MassSource::Typed,
            lot: String::new(),
            expiry: None,
            kept: false,
        };
        for (doses, into, beside) in [
            (&[][..], "2", "0"),
            (&[("0.1", "90"), ("0.2", "90")], "0.3", "0"),
            (&[("2.5", "90")], "2", "0.5"),
            (&[("9", "1")], "0.1", "8.9"),
        ] {
            let begun = Event::PhBegun { batch: grams("100"), target: crate::quantity::Ph::from_units(520) };
            let events = [weighed.clone(), begun].into_iter().chain(doses.iter().map(dose));
            let mut record = record(events.collect());
            let from = Arc::make_mut(record.made_from.as_mut().unwrap());
            from.lines = vec![super::super::FrozenLine {
                name: "Lactic acid".into(),
                share: Percent::ZERO,
                on_scale: grams("2"),
                lot: String::new(),
                inci: "Lactic Acid".into(),
                phase: String::new(),
                capped: false,
            }];
            from.steps = vec![FrozenStep { lines: vec![0], ..step(StepKind::SetPh, None) }];
            let flows = AtStove::of(&record).unwrap().flows(&record);
            assert_eq!((flows.weighed, flows.added), (grams(into), grams(beside)), "{doses:?}");
        }
    }

    #[test]
    fn ph_is_set_once_it_was_read_near_its_target_and_nothing_went_in_since() {
        let read = |hundredths| {
            Event::Ph(PhEvent::Read {
                vessel: Vessel::Batch,
                ph: crate::quantity::Ph::from_units(hundredths),
                instrument: crate::batch::Instrument::Meter,
                dilution: 1,
                taken: Mass::ZERO,
                steady: None,
            })
        };
        let begun = Event::PhBegun { batch: grams("100"), target: crate::quantity::Ph::from_units(520) };
        for (readings, set) in [(&[][..], false), (&[620][..], false), (&[620, 530], true), (&[530, 531], false)] {
            let events = core::iter::once(begun.clone()).chain(readings.iter().map(|one| read(*one)));
            let record = record(events.collect());
            assert_eq!(AtStove::of(&record).unwrap().ph_is_set(&record), set, "{readings:?}");
        }
    }
}
