//! The batches of all formulas as a list shows them, and what is found in it.

use super::{DocId, DocumentMeta, RecordBody};
use crate::facts::fold;
use crate::quantity::Timestamp;
use serde_json::Value;

/// A batch in a list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BatchRow {
    /// Its stored record.
    pub id: DocId,
    /// Its code, and what was made.
    pub title: String,
    /// The day on which something was noted last, by the maker's clock.
    pub day: String,
    /// What is searched, in the form in which texts are compared: once, not at every key.
    searched: String,
    /// Whether its record was read, so that its lots are searched, too.
    read: bool,
}

/// Stands between what is searched: nobody types it into a line.
const BETWEEN: &str = "\n";

impl BatchRow {
    /// What the stores say of a batch, without reading it. `zone` tells how many minutes a clock is ahead of UTC.
    pub fn of(meta: DocumentMeta, zone: fn(Timestamp) -> i64) -> Self {
        let at = Timestamp::from_millis(meta.changed);
        let local = Timestamp::from_millis(meta.changed.saturating_add(zone(at).saturating_mul(60_000)));
        Self::new(meta.id, meta.title, local.day().text())
    }

    fn new(id: DocId, title: String, day: String) -> Self {
        let searched = [fold(&title), fold(&day)].join(BETWEEN);
        Self { id, title, day, searched, read: false }
    }

    /// Has its lots searched as well.
    pub fn with_lots(&mut self, lots: &[String]) {
        for lot in lots.iter().filter(|_| !self.read) {
            self.searched.push_str(BETWEEN);
            self.searched.push_str(&fold(lot));
        }
        self.read = true;
    }

    /// Whether its lots are searched.
    pub fn is_read(&self) -> bool {
        self.read
    }
}

/// The batches that have a text in their code, title, day or lots; accents and case do not count.
pub fn find_batches<'a>(rows: &'a [BatchRow], query: &str) -> Vec<&'a BatchRow> {
    let wanted = fold(query);
    let wanted = wanted.trim();
    rows.iter().filter(|row| row.searched.contains(wanted)).collect()
}

/// The lots of a record, those that were planned and those that went in.
pub fn lots_of(body: &RecordBody) -> Vec<String> {
    let planned = body.made_from.as_ref().and_then(|from| from.get("lines")?.as_array()).map_or(&[][..], Vec::as_slice);
    let mut lots: Vec<String> = Vec::new();
    for line in planned.iter().chain(body.entries()) {
        let lot = line.get("lot").and_then(Value::as_str).unwrap_or_default();
        if !lot.trim().is_empty() && lots.iter().all(|known| known != lot) {
            lots.push(lot.to_owned());
        }
    }
    lots
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    fn row(n: u64, title: &str, lots: Option<Vec<String>>) -> BatchRow {
        let mut row = BatchRow::new(DocId::batch(n), title.into(), "2026-11-28".into());
        if let Some(lots) = lots {
            row.with_lots(&lots);
        }
        row
    }

    #[test]
    fn batches_are_found_by_code_title_day_and_lot() {
        let rows = [
            row(1, "H2811 \u{b7} Harbour hand lotion", Some(vec!["0412".into()])),
            row(2, "S2911 \u{b7} Cr\u{e8}me", None),
        ];
        let found =
            |query: &str| -> Vec<DocId> { find_batches(&rows, query).into_iter().map(|row| row.id.clone()).collect() };
        assert_eq!(found(" h2811 "), [DocId::batch(1)]);
        assert_eq!(found("creme"), [DocId::batch(2)]);
        assert_eq!(found("0412"), [DocId::batch(1)]);
        assert_eq!(found("2026-11").len(), 2);
        assert_eq!(found("").len(), 2);
        assert!(found("0417").is_empty());
        assert!(found("lotion 2026").is_empty(), "not across what stands beside each other");
    }

    #[test]
    fn lots_of_a_record_are_those_planned_and_those_that_went_in() {
        let body = RecordBody::read(&json!({
            "made_from": {"lines": [{"lot": "L7"}, {"lot": ""}]},
            "entries": [{"id": "a", "event": "weighed", "lot": "L8"}, {"id": "b", "event": "weighed", "lot": "L7"}],
        }));
        assert_eq!(body.map(|body| lots_of(&body)), Some(vec!["L7".to_owned(), "L8".to_owned()]));
    }
}
