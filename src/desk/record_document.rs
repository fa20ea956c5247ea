//! The record of a batch as a stored document: written at once, joined where two tabs have noted something, never undone.

use super::read_cursor::{JsonCursor, check_head, parse};
use super::record_body::RecordBody;
use super::{DocId, Fresh, News, Persist, Reopen, Steps, StepsChange, StoredDocument, Tracking, Written, write};
use crate::batch::BatchEntry;
use crate::quantity::Timestamp;
use serde_json::Value;

/// The record that is open.
#[derive(Debug, Clone)]
pub struct RecordDocument {
    body: RecordBody,
    /// What it is called in lists: its code, and the title of the formula as it began.
    title: String,
    tracking: Tracking,
}

impl RecordDocument {
    /// One that was never stored.
    pub fn new(id: DocId, title: String, body: RecordBody, now: Timestamp) -> Self {
        let title = titled(body.code(), &title);
        Self { body, title, tracking: Tracking::new(id, now) }
    }

    /// Its id.
    pub fn id(&self) -> &DocId {
        self.tracking.id()
    }

    /// What it is called in lists.
    pub fn title(&self) -> &str {
        &self.title
    }

    /// What was noted.
    pub fn body(&self) -> &RecordBody {
        &self.body
    }

    /// True once the journal has it.
    pub fn is_stored(&self) -> bool {
        self.tracking.revision().is_some()
    }

    /// Notes one more entry of a batch, as it is written and as that is read. False if there is no room for it.
    pub(super) fn append_read(&mut self, entry: Value, read: BatchEntry) -> bool {
        let at = read.at;
        let noted = self.body.append_read(entry, read);
        self.appended(noted, at)
    }

    /// Notes one more entry. False if there is no room for it.
    pub(super) fn append(&mut self, entry: Value, now: Timestamp) -> bool {
        let noted = self.body.append(entry);
        self.appended(noted, now)
    }

    fn appended(&mut self, noted: bool, now: Timestamp) -> bool {
        if noted {
            if let Some(title) = self.body.title() {
                self.title = titled(self.body.code(), title);
            }
            self.tracking.touch(now);
        }
        noted
    }

    /// Goes on from a stored copy: what either has noted is in it.
    pub(super) fn adopt(&mut self, stored: Self) {
        let Self { body, title, tracking } = stored;
        let mine = core::mem::replace(&mut self.body, body);
        self.title = title;
        if self.body.join(&mine) {
            self.tracking.go_on_from(&tracking);
        } else {
            self.tracking = tracking;
        }
    }
}

/// A code and a title, as a list shows them.
fn titled(code: &str, title: &str) -> String {
    if code.is_empty() { title.to_owned() } else { [code, CODE_ENDS, title].concat() }
}

/// What stands between the code and the title of a formula in the title of a record.
const CODE_ENDS: &str = " \u{b7} ";

/// The code in the title of a record; nothing where it has none.
pub fn code_in_title(title: &str) -> Option<&str> {
    title.split_once(CODE_ENDS).map(|(code, _)| code)
}

impl Persist for RecordDocument {
    fn tracking(&self) -> &Tracking {
        &self.tracking
    }

    fn tracking_mut(&mut self) -> &mut Tracking {
        &mut self.tracking
    }

    fn write(&self) -> Written {
        Written { title: self.title.clone(), body: write::record_text(&self.body), step: self.step() }
    }

    /// It has no history: what happened cannot be undone.
    fn step(&self) -> u64 {
        0
    }

    fn take_steps(&mut self) -> StepsChange {
        StepsChange::default()
    }

    fn forget_steps(&mut self) {}

    /// What either tab has noted is in the record.
    fn overtaken(&mut self, theirs: &StoredDocument, _: Steps, fresh: Fresh) -> News {
        let Some(stored) = Self::open(theirs, Vec::new()).filter(|_| theirs.is_ours()) else {
            self.tracking.hold_back();
            return News::not_ours(theirs);
        };
        self.adopt(stored);
        self.tracking.touch(fresh.now);
        News::RecordJoined
    }
}

impl Reopen for RecordDocument {
    fn open(stored: &StoredDocument, _: Steps) -> Option<Self> {
        let value = parse(&stored.body).ok()?;
        let root = JsonCursor { value: &value, path: "$".into() };
        check_head(&root).ok()?;
        let body = RecordBody::read(value.get("record")?)?;
        Some(Self { body, title: stored.meta.title.clone(), tracking: Tracking::of(stored) })
    }

    fn from_step(_: &DocId, _: &str, _: Timestamp) -> Option<Self> {
        None
    }
}
