//! The record of the batch beside the open document: begun, added to and opened. Undo does not reach it.

use super::record::{entry_value, made_from_value};
use super::record_body::RecordBody;
use super::{BatchRef, DocId, Document, OpenDocument, Persist, RecordDocument};
use crate::batch::{BatchEntry, BatchRecord, EntryId, Event, MadeFrom, Making};
use crate::formula::{Choice, Formula, Share};
use crate::quantity::{Day, Mass, Ph, Timestamp};
use std::sync::Arc;

/// What is to be shown of the batch that is worked on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum BatchState {
    /// None was begun.
    None,
    /// A release without records has kept a log: [`OpenDocument::open_old_log`] makes a record of it.
    OldLog,
    /// Its record is stored under this id, and not open yet.
    Closed(DocId),
    /// Its record.
    Open(Arc<BatchRecord>),
    /// Its record is open, and something in it cannot be read: what, in words.
    Unreadable(String),
}

impl OpenDocument {
    /// The batch that is worked on.
    pub fn batch(&self) -> BatchState {
        match (self.open_record(), self.document.batches.last()) {
            (Some(record), _) => match record.body().record() {
                Ok(record) => BatchState::Open(record),
                Err(problem) => BatchState::Unreadable(problem.to_string()),
            },
            (None, Some(BatchRef::Stored { id, .. })) => BatchState::Closed(id.clone()),
            (None, _) => self.old_log(),
        }
    }

    fn old_log(&self) -> BatchState {
        match &self.document.old_log {
            None => BatchState::None,
            Some(log) if RecordBody::of_log(log).is_some() => BatchState::OldLog,
            Some(log) => BatchState::Unreadable(log.to_string().chars().take(60).collect()),
        }
    }

    /// The record that is open, if it is that of the batch that is worked on.
    pub fn open_record(&self) -> Option<&RecordDocument> {
        let current = match self.document.batches.last()? {
            BatchRef::Stored { id, .. } => id,
            BatchRef::Carried(_) => return None,
        };
        self.record.as_ref().filter(|record| record.id() == current)
    }

    /// What was noted of the batch that is worked on, where that is open here or came with the formula.
    pub fn record_body(&self) -> Option<&RecordBody> {
        match self.document.batches.last()? {
            BatchRef::Carried(body) => Some(body),
            BatchRef::Stored { .. } => self.open_record().map(RecordDocument::body),
        }
    }

    /// The stored record of the batch that is worked on, whether it is open or not.
    pub fn batch_id(&self) -> Option<&DocId> {
        match self.document.batches.last()? {
            BatchRef::Stored { id, .. } => Some(id),
            BatchRef::Carried(_) => None,
        }
    }

    /// True if a batch was begun, whether its record is open or not.
    pub fn has_batch(&self) -> bool {
        !self.document.batches.is_empty() || self.document.old_log.is_some()
    }

    /// The code of the batch that is worked on, and the day on which it began by a clock that is so many minutes ahead of UTC:
    /// for its labels. Nothing where the formula has other lines by now, since its label is then that of another product.
    pub fn batch_on_label(&self, zone: fn(Timestamp) -> i64) -> Option<(String, Day)> {
        let record = self.record_body()?.record().ok()?;
        let making = Making::of(&record)?;
        let made = &record.made_from.as_ref()?.formula;
        let began = making.began.millis().saturating_add(zone(making.began).saturating_mul(60_000));
        same_lines(made, &self.state().formula).then(|| (making.code, Timestamp::from_millis(began).day()))
    }

    /// Batches of which the record has to be looked for in the stores: it is not open here, or what is open was made of the
    /// log of an earlier release, and the stored one may have more.
    pub fn closed_batches(&self) -> Vec<DocId> {
        let mut open = self.clone();
        open.open_old_log();
        let known = |id: &DocId| open.record.as_ref().is_some_and(|record| record.id() == id && record.is_stored());
        let closed = |batch: &BatchRef| match batch {
            BatchRef::Stored { id, .. } if !known(id) => Some(id.clone()),
            _ => None,
        };
        open.document.batches.iter().filter_map(closed).collect()
    }

    /// Batches that were made before the one that is worked on, the newest first: the id of each and when it began.
    pub fn earlier_batches(&self) -> Vec<(DocId, Timestamp)> {
        let stored = |batch: &BatchRef| match batch {
            BatchRef::Stored { id, begun } => Some((id.clone(), *begun)),
            BatchRef::Carried(_) => None,
        };
        self.document.batches.iter().rev().skip(1).filter_map(stored).collect()
    }

    /// Begins the record of a batch with its first entry. The record of the one before stays what it was. False, and nothing
    /// changes, where that one is open and not written yet, or where what is to be kept could not be read again.
    pub fn begin_record(&mut self, id: DocId, from: &MadeFrom, first: &BatchEntry) -> bool {
        let mut body = RecordBody::new(Some(made_from_value(from)));
        let noted = entry_value(first).is_some_and(|(entry, _)| body.append(entry));
        let unwritten = self.record.as_ref().is_some_and(|record| record.tracking().is_dirty());
        if !noted || unwritten || body.record().is_err() {
            return false;
        }
        let title = self.document.state.formula.about.title.clone();
        self.record = Some(RecordDocument::new(id.clone(), title, body, first.at));
        self.document.batches.push(BatchRef::Stored { id, begun: first.at });
        self.touch(first.at);
        true
    }

    /// Notes one more entry of the batch that is worked on. False, and nothing changes, if there is none, if its record has
    /// no room, or if the entry could not be read again.
    pub fn note(&mut self, entry: &BatchEntry) -> bool {
        let Some((value, read)) = entry_value(entry).filter(|_| self.open_record().is_some()) else { return false };
        let noted = self.record.as_mut().is_some_and(|record| record.append_read(value, read));
        if noted && self.document.old_log.is_some() {
            // The stored formula may not name it yet: it was made of the log of an earlier release.
            self.touch(entry.at);
        }
        noted
    }

    /// Goes on with an earlier batch.
    pub fn go_on_with(&mut self, batch: &DocId, now: Timestamp) {
        let named = |known: &BatchRef| matches!(known, BatchRef::Stored { id, .. } if id == batch);
        if let Some(place) = self.document.batches.iter().position(named) {
            let batch = self.document.batches.remove(place);
            self.document.batches.push(batch);
            self.touch(now);
        }
    }

    /// Takes over a stored record, if it is that of the batch that is worked on: what was noted here meanwhile stays in it.
    /// Not in the place of another record that is not written yet.
    pub fn adopt_record(&mut self, stored: RecordDocument) {
        if !matches!(self.document.batches.last(), Some(BatchRef::Stored { id, .. }) if id == stored.id()) {
            return;
        }
        match &mut self.record {
            Some(record) if record.id() == stored.id() => record.adopt(stored),
            Some(other) if other.tracking().is_dirty() => {}
            record => *record = Some(stored),
        }
    }

    /// The document as it goes into a file, with the records that are known here: the one that is open, and those of
    /// `others`.
    pub fn with_records(&self, others: &[RecordDocument]) -> Document {
        let mut open = self.clone();
        open.open_old_log();
        let Self { mut document, record, .. } = open;
        let known = |wanted: &DocId| {
            let bodies = others.iter().chain(&record).filter(|record| record.id() == wanted).map(RecordDocument::body);
            bodies.cloned().reduce(|mut whole, more| {
                whole.join(&more);
                whole
            })
        };
        for batch in &mut document.batches {
            if let BatchRef::Stored { id, .. } = batch
                && let Some(body) = known(id)
            {
                *batch = BatchRef::Carried(Arc::new(body));
            }
        }
        let recorded = |batch: &BatchRef| matches!(batch, BatchRef::Carried(record) if self.is_log_of_before(record));
        if document.batches.iter().any(recorded) {
            document.old_log = None;
        }
        document
    }

    /// Whether a record has all that the log of an earlier release has.
    fn is_log_of_before(&self, record: &RecordBody) -> bool {
        self.document.old_log.as_ref().and_then(RecordBody::of_log).is_some_and(|log| record.holds(&log))
    }

    /// Makes a record of the log of an earlier release, the same in every tab. Where the stores have it already, they may have
    /// more: [`Self::adopt_record`].
    pub fn open_old_log(&mut self) {
        let Some(log) = self.document.old_log.as_ref().filter(|_| self.document.batches.is_empty()) else { return };
        let Some(body) = RecordBody::of_log(log) else { return };
        let (id, begun) = (DocId::batch_of(self.id()), Timestamp::read(body.begun()).unwrap_or_default());
        let title = self.document.state.formula.about.title.clone();
        self.document.batches.push(BatchRef::Stored { id: id.clone(), begun });
        self.record = Some(RecordDocument::new(id, title, body, begun));
    }
}

/// Whether two formulas have the same ingredients in the same shares and order.
fn same_lines(a: &Formula, b: &Formula) -> bool {
    let lines = |formula: &Formula| -> Vec<(Choice, Share)> {
        let filled = formula.lines().map(|(_, line)| line).filter(|line| !line.is_blank());
        filled.map(|line| (line.choice.clone(), line.share.clone())).collect()
    };
    lines(a) == lines(b)
}

/// The first entry of a record that begins with the setting of the pH.
pub fn ph_begun(id: EntryId, at: Timestamp, batch: Mass, target: Ph) -> BatchEntry {
    BatchEntry { id, at, event: Event::PhBegun { batch, target } }
}

#[cfg(test)]
mod tests;
