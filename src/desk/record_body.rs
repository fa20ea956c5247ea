//! The record of a batch as it is kept. Entries stay the values that they were written as: nothing that was noted is ever
//! written anew, and the first part of the program need not understand it to keep it.

use super::format::{BATCH_RECORDS, LOTS_TO_THE_END, METER_CHECKS, METHODS, PHOTOGRAPHS, STUDIES};
use super::ph_events::DOSE_LOT;
use crate::batch::{BatchEntry, BatchRecord, Event};
use serde_json::{Value, json};
use std::sync::{Arc, OnceLock};

/// More than any batch sees, and more than a log of an earlier release could hold.
pub(super) const MOST_ENTRIES: usize = 100_001;

/// What a batch was made from and what happened to it, in the open format. [`super::record`] reads what it says.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct RecordBody {
    pub(super) made_from: Option<Value>,
    entries: Vec<Value>,
    read: AsRead,
}

/// What it says, once somebody has read it: at the stove it is asked for with every entry. It follows from the rest, and makes no
/// record another one.
#[derive(Debug, Clone, Default)]
pub(super) struct AsRead(pub(super) OnceLock<Arc<BatchRecord>>);

impl PartialEq for AsRead {
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

impl Eq for AsRead {}

/// What a record of the first release with records holds.
const FIRST_EVENTS: [&str; 5] = ["ph-begun", "read", "dose", "sample", "struck"];

/// What came with checks of the meter.
const METER_EVENTS: [&str; 2] = ["buffers", "unchecked"];

/// How a stability study begins. It is kept like the record of a batch, of which no entry is called so.
pub(super) const STUDY_BEGUN: &str = "study-begun";
/// What an entry of a study is called that names a photograph.
pub(super) const PHOTOGRAPHED: &str = "photographed";

/// What names an entry; empty where a damaged file has none.
fn id(entry: &Value) -> &str {
    entry.get("id").and_then(Value::as_str).unwrap_or_default()
}

/// When an entry was made. As text: that of an earlier instant comes first.
fn at(entry: &Value) -> &str {
    entry.get("at").and_then(Value::as_str).unwrap_or_default()
}

impl RecordBody {
    /// A record that begins.
    pub(super) fn new(made_from: Option<Value>) -> Self {
        Self { made_from, ..Self::default() }
    }

    /// The log of a release without records, with the id of an entry by its place. `None` if it is no such log.
    ///
    /// A log gives the same record wherever it is opened, so that two tabs make no two of it.
    pub(super) fn of_log(log: &Value) -> Option<Self> {
        let events = log.get("events")?.as_array()?;
        let place = |n: usize| format!("log-{n}");
        let when = events.first().and_then(|event| event.get("at")).cloned().unwrap_or_else(|| NO_TIME.into());
        let mut body = Self::new(None);
        body.entries.push(json!({
            "id": "log", "at": when, "event": "ph-begun",
            "batch_g": log.get("batch_g")?, "target_ph": log.get("target_ph")?,
        }));
        for (n, event) in events.iter().enumerate() {
            let mut entry = event.clone();
            entry.as_object_mut()?.insert("id".into(), place(n).into());
            if event.get("event").and_then(Value::as_str) == Some("strike") {
                let struck = usize::try_from(event.get("entry")?.as_u64()?).ok()?;
                entry["event"] = "struck".into();
                entry["entry"] = place(struck).into();
            }
            body.entries.push(entry);
        }
        Some(body)
    }

    /// From the open format, as it is: [`super::record`] says what is wrong with an entry. `None` without a list of entries.
    pub(super) fn read(value: &Value) -> Option<Self> {
        let entries = value.get("entries")?.as_array()?.clone();
        Some(Self { made_from: value.get("made_from").cloned(), entries, read: AsRead::default() })
    }

    /// Its entries, in order, as they were written.
    pub(super) fn entries(&self) -> &[Value] {
        &self.entries
    }

    /// What was read of it already.
    pub(super) fn as_read(&self) -> &OnceLock<Arc<BatchRecord>> {
        &self.read.0
    }

    /// In the open format.
    pub(super) fn value(&self) -> Value {
        let mut value = json!({ "entries": self.entries });
        if let Some(made_from) = &self.made_from {
            value["made_from"] = made_from.clone();
        }
        value
    }

    /// One more entry. False, and nothing changes, where there is one of its id, or where there are as many as can be read.
    pub(super) fn append(&mut self, entry: Value) -> bool {
        let fits = self.entries.len() < MOST_ENTRIES && self.entries.iter().all(|known| id(known) != id(&entry));
        if fits {
            self.entries.push(entry);
            self.read = AsRead::default();
        }
        fits
    }

    /// The same of an entry of a batch as it is written and as that is read: what was read before is not read again.
    pub(super) fn append_read(&mut self, entry: Value, last: BatchEntry) -> bool {
        let read = self.read.0.take();
        let fits = self.append(entry);
        // An entry that crosses another one out is right only with that one before it: the reader looks.
        if let Some(mut read) = read.filter(|_| !fits || !matches!(last.event, Event::Struck { .. })) {
            if fits {
                Arc::make_mut(&mut read).entries.push(last);
            }
            self.read = AsRead(OnceLock::from(read));
        }
        fits
    }

    /// Adds what `other` has noted beside, each entry by its time among those that this one has of its own. Both keep their
    /// order. True if that added anything.
    pub(super) fn join(&mut self, other: &Self) -> bool {
        self.read = AsRead::default();
        if self.made_from.is_none() {
            self.made_from.clone_from(&other.made_from);
        }
        let same = self.entries.iter().zip(&other.entries).take_while(|(ours, theirs)| id(ours) == id(theirs)).count();
        let (before, mut place) = (self.entries.len(), same);
        for entry in other.entries.iter().skip(same) {
            if let Some(known) = self.entries.iter().position(|ours| id(ours) == id(entry)) {
                place = place.max(known + 1);
                continue;
            }
            let earlier = self.entries.iter().skip(place).take_while(|ours| at(ours) <= at(entry)).count();
            place += earlier;
            self.entries.insert(place, entry.clone());
            place += 1;
        }
        self.entries.len() > before
    }

    /// True if this one has every entry of the other.
    pub(super) fn holds(&self, other: &Self) -> bool {
        other.entries.iter().all(|entry| self.entries.iter().any(|ours| id(ours) == id(entry)))
    }

    /// Up to which addition to the format something stands in it.
    pub(super) fn additions(&self) -> u64 {
        if self.begins(STUDY_BEGUN) {
            return if self.photographed().next().is_some() { PHOTOGRAPHS } else { STUDIES };
        }
        let kind = |entry: &Value| entry.get("event").and_then(Value::as_str).unwrap_or_default().to_owned();
        let of_meter = |entry: &Value| METER_EVENTS.contains(&kind(entry).as_str()) || entry.get("steady").is_some();
        if self.entries.iter().any(|entry| kind(entry) == "dose" && entry.get(DOSE_LOT).is_some()) {
            return LOTS_TO_THE_END;
        }
        if self.entries.iter().any(of_meter) {
            return METER_CHECKS;
        }
        let known = |entry: &Value| FIRST_EVENTS.contains(&kind(entry).as_str());
        let frozen = |key: &str| self.made_from.as_ref().is_some_and(|from| from.get(key).is_some());
        let method = self.made_from.as_ref().and_then(|from| from.get("formula")?.get("method")).is_some();
        let first = self.entries.iter().all(known) && !frozen("steps") && !frozen("scale") && !frozen("packs");
        if first && !method { BATCH_RECORDS } else { METHODS }
    }

    /// The entries of a study that name photographs.
    pub(super) fn photographed(&self) -> impl Iterator<Item = &Value> {
        let is_one = |entry: &&Value| entry.get("event").and_then(Value::as_str) == Some(PHOTOGRAPHED);
        self.entries.iter().filter(is_one)
    }

    /// The code that it was begun under last; empty where it was not.
    pub(super) fn code(&self) -> &str {
        let begun = |entry: &&Value| matches!(entry.get("event").and_then(Value::as_str), Some("begun" | STUDY_BEGUN));
        let code = self.entries.iter().rev().find(begun).and_then(|entry| entry.get("code")?.as_str());
        code.unwrap_or_default().trim()
    }

    /// True if its first entry is such an event.
    fn begins(&self, event: &str) -> bool {
        self.entries.first().and_then(|entry| entry.get("event")?.as_str()) == Some(event)
    }

    /// What the formula was called as it began, where that was kept.
    pub(super) fn title(&self) -> Option<&str> {
        self.made_from.as_ref()?.get("formula")?.get("title")?.as_str()
    }

    /// What was made, where it is a study; empty in any other.
    pub fn study_title(&self) -> String {
        let title = self.entries.first().and_then(|entry| entry.get("title")?.as_str());
        title.unwrap_or_default().to_owned()
    }

    /// When something was noted last, as text; empty if nothing was.
    pub(super) fn last(&self) -> &str {
        self.entries.last().map_or("", at)
    }

    /// How many entries there are.
    pub fn len(&self) -> usize {
        self.entries.len()
    }

    /// True while nothing was noted.
    pub fn is_empty(&self) -> bool {
        self.entries.is_empty()
    }

    /// When it began, as text; empty if nothing was noted.
    pub(super) fn begun(&self) -> &str {
        self.entries.first().map_or("", at)
    }
}

/// The time of a log in which nothing was noted.
const NO_TIME: &str = "1970-01-01T00:00:00Z";

#[cfg(test)]
mod tests {
    use super::super::record::entry_value;
    use super::*;
    use crate::batch::EntryId;
    use crate::quantity::Timestamp;
    use proptest::prelude::*;

    fn entry(id: &str, at: u32) -> Value {
        json!({"id": id, "at": format!("2026-11-25T14:{at:02}:00Z"), "event": "sample", "mass_g": "50"})
    }

    fn body(entries: &[(&str, u32)]) -> RecordBody {
        let entries = entries.iter().map(|(id, at)| entry(id, *at)).collect();
        RecordBody { entries, ..RecordBody::default() }
    }

    fn ids(body: &RecordBody) -> Vec<&str> {
        body.entries.iter().map(id).collect()
    }

    #[test]
    fn joined_entries_stand_by_their_time_and_each_side_keeps_its_order() {
        let mut here = body(&[("a", 1), ("b", 2), ("d", 5)]);
        assert!(here.join(&body(&[("a", 1), ("c", 4), ("e", 6)])));
        assert_eq!(ids(&here), ["a", "b", "c", "d", "e"]);
        assert!(!here.join(&body(&[("a", 1), ("c", 4)])), "nothing new");
        // A clock that was set back between two entries of one tab reorders nothing.
        let mut here = body(&[("a", 50), ("b", 2)]);
        here.join(&body(&[("x", 40), ("y", 1)]));
        assert_eq!(ids(&here), ["x", "y", "a", "b"]);
    }

    #[test]
    fn log_of_an_earlier_release_becomes_the_same_record_every_time() {
        let log = json!({"batch_g": "1236", "target_ph": "5.2", "events": [
            {"event": "sample", "mass_g": "50", "at": "2026-11-25T14:04:00Z"},
            {"event": "strike", "entry": 0, "at": "2026-11-25T14:05:00Z"},
        ]});
        let body = RecordBody::of_log(&log).unwrap();
        assert_eq!(ids(&body), ["log", "log-0", "log-1"]);
        assert_eq!(body.entries[2]["entry"], "log-0");
        assert_eq!(RecordBody::of_log(&log).unwrap(), body);
        for bad in [json!(1), json!({"events": 1}), json!({"batch_g": "1", "target_ph": "5", "events": [1]})] {
            assert_eq!(RecordBody::of_log(&bad), None, "{bad}");
        }
    }

    /// The same entries, as they are known: every third strikes out the one before, or one that nobody noted.
    fn known(n: u64, strikes: u8) -> BatchEntry {
        let of = match strikes % 3 {
            0 => None,
            1 => n.checked_sub(1),
            _ => Some(9_999),
        };
        let event = match of {
            Some(of) => Event::Struck { entry: EntryId::random(of), reason: "Misread".into() },
            None => Event::StepDone { step: usize::from(strikes % 40) },
        };
        BatchEntry { id: EntryId::random(n), at: Timestamp::from_millis(1000 * n as i64), event }
    }

    fn noted() -> impl Strategy<Value = Vec<(u8, u32)>> {
        prop::collection::vec((any::<u8>(), 0..60u32), 0..12)
    }

    /// Entries of ids that only this tab gives.
    fn appended(body: &mut RecordBody, tab: char, noted: &[(u8, u32)]) {
        for (n, (_, at)) in noted.iter().enumerate() {
            assert!(body.append(entry(&format!("{tab}{n}"), *at)));
        }
    }

    fn in_order(body: &RecordBody, tab: char) -> Vec<usize> {
        ids(body).into_iter().filter_map(|id| id.strip_prefix(tab)?.parse().ok()).collect()
    }

    /// Of each entry: what it strikes out, whether somebody asks after it, and whether its id was there before.
    fn reads_as_anew(noted: &[(u8, bool, u64)]) {
        let mut body = RecordBody::default();
        for (n, (strikes, asked, twice)) in (0..).zip(noted) {
            // Now and then an id comes twice, and is refused.
            let entry = known(if *twice == 0 { n / 2 } else { n }, *strikes);
            let (value, read) = entry_value(&entry).unwrap();
            body.append_read(value, read);
            if *asked {
                let again = RecordBody::read(&body.value()).unwrap();
                assert_eq!(body.record(), again.record());
            }
        }
    }

    /// A property test found it once.
    #[test]
    fn record_whose_first_entry_nobody_asked_after_reads_as_anew() {
        reads_as_anew(&[(207, false, 0)]);
        reads_as_anew(&[(207, true, 0)]);
    }

    proptest! {
        /// What is kept of an earlier reading is what a new one would give, whenever somebody asked.
        #[test]
        fn record_as_it_was_read_is_as_it_would_be_read(noted in prop::collection::vec((any::<u8>(), any::<bool>(), 0..3u64), 0..20)) {
            reads_as_anew(&noted);
        }

        /// Whatever tabs note and in whatever order they meet, each entry is there once and in the order of its tab.
        #[test]
        fn record_that_tabs_append_to_loses_nothing(begun in noted(), here in noted(), there in noted(), third in noted()) {
            let mut base = RecordBody::default();
            appended(&mut base, 'z', &begun);
            let [mut a, mut b, mut c] = [base.clone(), base.clone(), base.clone()];
            appended(&mut a, 'a', &here);
            appended(&mut b, 'b', &there);
            b.join(&a);
            appended(&mut c, 'c', &third);
            c.join(&b);
            c.join(&a);
            for (tab, noted) in [('z', &begun), ('a', &here), ('b', &there), ('c', &third)] {
                prop_assert_eq!(in_order(&c, tab), (0..noted.len()).collect::<Vec<_>>());
            }
            prop_assert_eq!(c.len(), begun.len() + here.len() + there.len() + third.len());
            prop_assert!(c.holds(&a) && c.holds(&b) && !c.join(&b));
        }
    }
}
