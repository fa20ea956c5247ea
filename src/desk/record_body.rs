//! The record of a batch as it is kept. Entries stay the values that they were written as: nothing that was noted is ever
//! written anew, and the first part of the program need not understand it to keep it.

use serde_json::{Value, json};

/// More than any batch sees, and more than a log of an earlier release could hold.
pub(super) const MOST_ENTRIES: usize = 100_001;

/// What a batch was made from and what happened to it, in the open format. [`super::record`] reads what it says.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct RecordBody {
    pub(super) made_from: Option<Value>,
    entries: Vec<Value>,
}

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
        Self { made_from, entries: Vec::new() }
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
        Some(Self { made_from: value.get("made_from").cloned(), entries })
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
        }
        fits
    }

    /// Adds what `other` has noted beside, each entry by its time among those that this one has of its own. Both keep their
    /// order. True if that added anything.
    pub(super) fn join(&mut self, other: &Self) -> bool {
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
    use super::*;
    use proptest::prelude::*;

    fn entry(id: &str, at: u32) -> Value {
        json!({"id": id, "at": format!("2026-11-25T14:{at:02}:00Z"), "event": "sample", "mass_g": "50"})
    }

    fn body(entries: &[(&str, u32)]) -> RecordBody {
        RecordBody { made_from: None, entries: entries.iter().map(|(id, at)| entry(id, *at)).collect() }
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

    proptest! {
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
