//! The record of one batch: what it was made from, frozen as it began, and what happened to it since.
//!
//! Entries are only ever added. A mistake is told by a later entry, with its reason; the mistaken one stays readable.

use super::{Event, LineState, Making, PhLog, WeighIn, judge_weighing};
use crate::formula::{Formula, StepKind};
use crate::quantity::{Celsius, Count, Day, Mass, Minutes, Percent, Ph, Timestamp};
use crate::rules::Grade;
use std::collections::BTreeSet;
use std::sync::Arc;

/// Names an entry within its record.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct EntryId(String);

/// Longest id of an entry, in bytes.
const MOST_ID: usize = 40;

impl EntryId {
    /// From 64 random bits, which the page provides: two tabs never give the same one.
    pub fn random(bits: u64) -> Self {
        Self(format!("{bits:016x}"))
    }

    /// From text of small letters, digits and hyphens; `None` if it is anything else or longer than 40 bytes.
    pub fn parse(text: &str) -> Option<Self> {
        let fits = |byte: u8| matches!(byte, b'a'..=b'z' | b'0'..=b'9' | b'-');
        ((1..=MOST_ID).contains(&text.len()) && text.bytes().all(fits)).then(|| Self(text.to_owned()))
    }

    /// As text.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

/// One entry of a record.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BatchEntry {
    /// Names it.
    pub id: EntryId,
    /// When, as the page's clock had it.
    pub at: Timestamp,
    /// What happened.
    pub event: Event,
}

/// A line as it was to be weighed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FrozenLine {
    /// What the ingredient was called.
    pub name: String,
    /// Its share of the formula.
    pub share: Percent,
    /// What was to go onto the scale.
    pub on_scale: Mass,
    /// The lot that counted; empty if none was named.
    pub lot: String,
    /// Its INCI name, if it has one.
    pub inci: String,
    /// The phase that it belongs to, by name.
    pub phase: String,
    /// True where a rule may cap it: no tolerance of weighing carries it above its share.
    pub capped: bool,
}

/// A step of the method as it was then.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FrozenStep {
    /// What is done.
    pub kind: StepKind,
    /// What to do, in words.
    pub text: String,
    /// Why.
    pub why: String,
    /// How it is stirred.
    pub stirring: String,
    /// The lines that it weighs or adds, by their places in [`MadeFrom::lines`].
    pub lines: Vec<usize>,
    /// To, at or below which temperature.
    pub temperature: Option<Celsius>,
    /// How long.
    pub minutes: Option<Minutes>,
}

/// The scale that it was planned for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FrozenScale {
    /// Its step.
    pub step: Mass,
    /// How far off a weighed mass may be, in percent of it.
    pub tolerance: Percent,
}

impl FrozenScale {
    /// How a weighing stands to its target; nothing before the line was weighed.
    pub fn judge(self, line: &LineState) -> Option<WeighIn> {
        judge_weighing(line, self.step, self.tolerance)
    }
}

/// What it was to be filled into.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FrozenPacks {
    /// How many.
    pub count: Count,
    /// What each is to hold.
    pub fill: Mass,
}

/// A finding as it was shown.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FrozenFinding {
    /// The code of its rule.
    pub rule: String,
    /// How grave it was.
    pub grade: Grade,
    /// Its sentence.
    pub text: String,
    /// How the maker answered it in writing; empty if nobody did.
    pub answer: String,
}

/// What a batch was made from, as it was when the record began.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MadeFrom {
    /// The formula.
    pub formula: Formula,
    /// The number of the kept version that it equalled, if it did.
    pub version: Option<u32>,
    /// The mark that stands on its papers: CRC-32 of the formula.
    pub mark: u32,
    /// The mass of the batch; nothing where there was no weigh sheet.
    pub batch: Option<Mass>,
    /// Every line that was to be weighed, in order.
    pub lines: Vec<FrozenLine>,
    /// The method; empty in records of releases without one.
    pub steps: Vec<FrozenStep>,
    /// The scale; nothing in records of releases that did not keep it.
    pub scale: Option<FrozenScale>,
    /// Jars and what each is to hold, where the batch was planned by them.
    pub packs: Option<FrozenPacks>,
    /// What was found, gravest first.
    pub findings: Vec<FrozenFinding>,
    /// The day of the tables and rules that it was checked against.
    pub rules_known_to: Day,
}

/// The record of one batch.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BatchRecord {
    /// What it was made from; nothing where the log of an earlier release, which kept none of it, became a record.
    pub made_from: Option<Arc<MadeFrom>>,
    /// What happened, in order.
    pub entries: Vec<BatchEntry>,
}

/// The setting of the pH as it stands: a fold over a record.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PhSetting {
    /// What it started from and what happened since.
    pub log: PhLog,
    /// The entry of the record behind each event of the log.
    pub entries: Vec<EntryId>,
}

impl BatchRecord {
    /// When the batch began: with its code, else with its first entry. Nothing where nothing was noted.
    pub fn began(&self) -> Option<Timestamp> {
        Making::of(self).map(|making| making.began).or_else(|| self.entries.first().map(|entry| entry.at))
    }

    /// The pH that it was to have: that of its pH log where one was begun, else that of the formula that it was made from.
    pub fn target_ph(&self) -> Option<Ph> {
        let by_formula = || self.made_from.as_ref()?.formula.about.target_ph.value();
        self.ph().map(|setting| setting.log.target).or_else(by_formula)
    }

    /// The entries that were not struck, in order; those that strike are no news of the batch.
    pub fn standing(&self) -> impl Iterator<Item = &BatchEntry> {
        let struck: BTreeSet<&EntryId> = self
            .entries
            .iter()
            .filter_map(|entry| match &entry.event {
                Event::Struck { entry, .. } => Some(entry),
                _ => None,
            })
            .collect();
        self.entries
            .iter()
            .filter(move |entry| !matches!(entry.event, Event::Struck { .. }) && !struck.contains(&entry.id))
    }

    /// Why an entry was struck; `None` if it was not.
    pub fn struck(&self, id: &EntryId) -> Option<&str> {
        self.entries.iter().find_map(|later| match &later.event {
            Event::Struck { entry, reason } if entry == id => Some(reason.as_str()),
            _ => None,
        })
    }

    /// The setting of the pH, if it has begun: from the last beginning that was not struck.
    pub fn ph(&self) -> Option<PhSetting> {
        let begun = self.entries.iter().enumerate().rev().find_map(|(place, entry)| match entry.event {
            Event::PhBegun { batch, target } if self.struck(&entry.id).is_none() => Some((place, batch, target)),
            _ => None,
        });
        let (place, batch, target) = begun?;
        let mut setting = PhSetting { log: PhLog::new(batch, target), entries: Vec::new() };
        for entry in self.entries.iter().skip(place + 1) {
            match &entry.event {
                Event::Ph(event) => {
                    setting.log.events.push((entry.at, event.clone()));
                    setting.entries.push(entry.id.clone());
                }
                Event::Struck { entry, .. } => {
                    setting.log.struck.extend(setting.entries.iter().position(|id| id == entry))
                }
                _ => {}
            }
        }
        Some(setting)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::batch::{Instrument, PhEvent, Vessel};
    use crate::quantity::{Ph, Quantity};

    fn entry(n: u64, event: Event) -> BatchEntry {
        BatchEntry { id: EntryId::random(n), at: Timestamp::from_millis(1000 * n as i64), event }
    }

    fn begun(n: u64, target: i64) -> BatchEntry {
        entry(n, Event::PhBegun { batch: Mass::micrograms(1_236_000_000), target: Ph::from_units(target) })
    }

    fn reading(n: u64, ph: i64) -> BatchEntry {
        let event = PhEvent::Read {
            vessel: Vessel::Batch,
            ph: Ph::from_units(ph),
            instrument: Instrument::Meter,
            dilution: 5,
            taken: Mass::ZERO,
            steady: None,
        };
        entry(n, Event::Ph(event))
    }

    fn struck(n: u64, of: u64) -> BatchEntry {
        entry(n, Event::Struck { entry: EntryId::random(of), reason: "Misread".into() })
    }

    fn record(entries: Vec<BatchEntry>) -> BatchRecord {
        BatchRecord { made_from: None, entries }
    }

    #[test]
    fn setting_of_the_ph_follows_from_the_entries() {
        assert_eq!(record(Vec::new()).ph(), None);
        assert_eq!(record(vec![reading(1, 640)]).ph(), None, "nothing has begun");
        let record = record(vec![begun(1, 520), reading(2, 640), reading(3, 460), struck(4, 3)]);
        let setting = record.ph().unwrap();
        assert_eq!(setting.log.target, Ph::from_units(520));
        assert_eq!(record.target_ph(), Some(Ph::from_units(520)), "though it was made from no formula");
        assert_eq!(setting.entries, [2, 3].map(EntryId::random));
        assert!(setting.log.is_struck(1) && !setting.log.is_struck(0));
        assert_eq!(record.struck(&EntryId::random(3)), Some("Misread"));
        assert_eq!(record.struck(&EntryId::random(2)), None);
    }

    #[test]
    fn setting_begun_anew_takes_the_place_of_the_one_before_until_it_is_struck() {
        let mut entries = vec![begun(1, 520), reading(2, 640), begun(3, 480), reading(4, 600), struck(5, 2)];
        let setting = record(entries.clone()).ph().unwrap();
        assert_eq!((setting.log.target, setting.entries), (Ph::from_units(480), vec![EntryId::random(4)]));
        entries.push(struck(6, 3));
        let setting = record(entries).ph().unwrap();
        assert_eq!(setting.log.target, Ph::from_units(520));
        assert!(setting.log.is_struck(0), "what was struck meanwhile stays so");
    }

    #[test]
    fn id_of_an_entry_is_short_and_plain() {
        assert_eq!(EntryId::parse("00ff-3").map(|id| id.as_str().to_owned()).as_deref(), Some("00ff-3"));
        for bad in ["", "A", "ü", " ", "a b", &"a".repeat(MOST_ID + 1)] {
            assert_eq!(EntryId::parse(bad), None, "{bad:?}");
        }
    }
}
