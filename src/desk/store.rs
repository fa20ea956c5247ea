//! Where documents are kept: a journal that compares and sets revisions, and a local mirror that can be read at once.
//!
//! The page gives both a browser to stand on; the twins in memory here are for tests, and behave the same.

use super::{DocId, StepsChange, crc32};
use crate::facts::fold;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use std::cell::RefCell;
use std::collections::BTreeMap;

/// What a list shows of a document without reading it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Value")]
pub struct DocumentMeta {
    /// Its id.
    pub id: DocId,
    /// Counts every write.
    #[serde(rename = "rev")]
    pub revision: u64,
    /// Its title.
    pub title: String,
    /// When it was last changed, in milliseconds since 1970.
    pub changed: i64,
    /// When it was put into the bin, if it is there.
    pub binned: Option<i64>,
    /// The number of the current step of its history.
    pub step: u64,
    /// CRC-32 of all of the above and the body.
    pub crc: u32,
}

/// What is stored is no document, or none of this form.
const NO_DOCUMENT: &str = "no stored document";

// By way of a value: a reader of its own for each type would be six kilobytes of the first part of the program.
impl TryFrom<Value> for DocumentMeta {
    type Error = &'static str;

    fn try_from(value: Value) -> Result<Self, Self::Error> {
        Self::of(&value).ok_or(NO_DOCUMENT)
    }
}

impl TryFrom<Value> for StoredDocument {
    type Error = &'static str;

    fn try_from(mut value: Value) -> Result<Self, Self::Error> {
        let meta = value.get("head").and_then(DocumentMeta::of).ok_or(NO_DOCUMENT)?;
        // Taken out, since it may be megabytes.
        let Some(Value::String(body)) = value.get_mut("body").map(Value::take) else { return Err(NO_DOCUMENT) };
        let sums = value.get("rests_on").map_or(Some(&[][..]), |sums| sums.as_array().map(Vec::as_slice));
        let mut rests_on = Vec::new();
        for sum in sums.ok_or(NO_DOCUMENT)? {
            rests_on.push(number(sum).ok_or(NO_DOCUMENT)?);
        }
        Ok(Self { meta, body, rests_on })
    }
}

/// A checksum, if it is one.
fn number(value: &Value) -> Option<u32> {
    u32::try_from(value.as_u64()?).ok()
}

impl DocumentMeta {
    fn of(value: &Value) -> Option<Self> {
        let binned = value.get("binned").filter(|binned| !binned.is_null());
        Some(Self {
            id: DocId::from(value.get("id")?.as_str()?.to_owned()),
            revision: value.get("rev")?.as_u64()?,
            title: value.get("title")?.as_str()?.to_owned(),
            changed: value.get("changed")?.as_i64()?,
            binned: match binned {
                Some(binned) => Some(binned.as_i64()?),
                None => None,
            },
            step: value.get("step")?.as_u64()?,
            crc: number(value.get("crc")?)?,
        })
    }

    /// From the text that is stored under an id. One that cannot be read, or that names another id, gives one that
    /// no checksum fits: the document then counts as damaged, not as missing.
    pub fn stored(id: &DocId, text: &str) -> Self {
        let damaged =
            || Self { revision: 0, title: String::new(), changed: 0, binned: None, step: 0, crc: 0, id: id.clone() };
        let meta = serde_json::from_str(text).unwrap_or_else(|_| damaged());
        Self { id: id.clone(), ..meta }
    }
}

/// The documents, in or out of the bin, that have a text in their title; accents and case do not count.
pub fn find_documents<'a>(metas: &'a [DocumentMeta], query: &str, binned: bool) -> Vec<&'a DocumentMeta> {
    let wanted = fold(query);
    let wanted = wanted.trim();
    let fits = |meta: &&DocumentMeta| {
        meta.binned.is_some() == binned && (wanted.is_empty() || fold(&meta.title).contains(wanted))
    };
    metas.iter().filter(fits).collect()
}

/// A stored document.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Value")]
pub struct StoredDocument {
    /// About it.
    #[serde(rename = "head")]
    pub meta: DocumentMeta,
    /// It, in the open format.
    pub body: String,
    /// Of a copy in the local mirror that is ahead of the journal: checksums of the copies that it goes on from. Over any other
    /// copy of the journal it does not win. Copies of earlier releases have none.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub rests_on: Vec<u32>,
}

impl StoredDocument {
    /// A document and what a list shows of it.
    pub fn new(meta: DocumentMeta, body: String) -> Self {
        Self { meta, body, rests_on: Vec::new() }
    }

    /// Whether this copy of the local mirror is newer than the journal's.
    pub fn is_ahead_of(&self, journal: &Self) -> bool {
        self.meta.revision > journal.meta.revision
            && (self.rests_on.is_empty() || self.rests_on.contains(&journal.meta.crc) || !journal.is_whole())
    }

    /// Puts the checksum right.
    #[must_use]
    pub fn sealed(mut self) -> Self {
        self.meta.crc = self.sum();
        self
    }

    /// True if a newer version of the program wrote it.
    pub fn is_newer(&self) -> bool {
        super::read::is_newer(&self.body)
    }

    /// True if it is whole, and all that stands in it is known to this version of the program.
    pub fn is_ours(&self) -> bool {
        self.is_whole() && !self.is_newer()
    }

    /// True if nothing of it was damaged.
    pub fn is_whole(&self) -> bool {
        self.meta.crc == self.sum()
    }

    fn sum(&self) -> u32 {
        let DocumentMeta { id, revision, title, changed, binned, step, .. } = &self.meta;
        let binned = binned.map_or_else(|| "None".to_owned(), |binned| format!("Some({binned})"));
        crc32(format!("{}\n{revision}\n{title}\n{changed}\n{binned}\n{step}\n{}", id.as_str(), self.body).as_bytes())
    }
}

/// One write: the document, the revision that it replaces (`None`: there is none yet), and the history that goes with it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Commit {
    /// The revision that this one was made from.
    pub expected: Option<u64>,
    /// What to store.
    pub stored: StoredDocument,
    /// What of the history to store.
    pub steps: StepsChange,
}

/// What came of a write that was carried out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CommitOutcome {
    /// It is in the journal.
    Written,
    /// Somebody else wrote first; nothing was changed.
    Conflict,
}

/// A write or read that failed, in the browser's own words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StoreError(pub String);

/// The durable store. Each call is one transaction.
pub trait Journal {
    /// What a list shows of all documents.
    fn metas(&self) -> impl Future<Output = Result<Vec<DocumentMeta>, StoreError>>;
    /// A document.
    fn read(&self, id: &DocId) -> impl Future<Output = Result<Option<StoredDocument>, StoreError>>;
    /// The steps of a document's history, in order.
    fn steps(&self, id: &DocId) -> impl Future<Output = Result<Vec<(u64, String)>, StoreError>>;
    /// Compares the stored revision with the expected one and writes only if they agree.
    fn commit(&self, commit: &Commit) -> impl Future<Output = Result<CommitOutcome, StoreError>>;
    /// Writes new documents, all of them or none.
    fn commit_new(&self, commits: &[Commit]) -> impl Future<Output = Result<(), StoreError>>;
    /// Removes a document and its history.
    fn remove(&self, id: &DocId) -> impl Future<Output = Result<(), StoreError>>;
    /// A JSON text that is no document: which one is open, or a damaged copy.
    fn note(&self, name: &str) -> impl Future<Output = Result<Option<String>, StoreError>>;
    /// Keeps such a text.
    fn set_note(&self, name: &str, text: &str) -> impl Future<Output = Result<(), StoreError>>;
}

/// The quick second copy.
pub trait LocalMirror {
    /// A document, if it is there and readable.
    fn read(&self, id: &DocId) -> Option<StoredDocument>;
    /// Keeps a copy.
    ///
    /// # Errors
    /// If there is no room.
    fn write(&self, stored: &StoredDocument) -> Result<(), StoreError>;
    /// Removes a copy.
    fn remove(&self, id: &DocId);
    /// The ids of all copies.
    fn ids(&self) -> Vec<DocId>;
}

/// A journal in memory.
#[derive(Debug, Default)]
pub struct MemoryJournal {
    stored_documents: RefCell<BTreeMap<DocId, StoredDocument>>,
    steps: RefCell<BTreeMap<(DocId, u64), String>>,
    notes: RefCell<BTreeMap<String, String>>,
}

impl Journal for MemoryJournal {
    async fn metas(&self) -> Result<Vec<DocumentMeta>, StoreError> {
        Ok(self.stored_documents.borrow().values().map(|stored| stored.meta.clone()).collect())
    }

    async fn read(&self, id: &DocId) -> Result<Option<StoredDocument>, StoreError> {
        Ok(self.stored_documents.borrow().get(id).cloned())
    }

    async fn steps(&self, id: &DocId) -> Result<Vec<(u64, String)>, StoreError> {
        Ok(self
            .steps
            .borrow()
            .iter()
            .filter(|((doc, _), _)| doc == id)
            .map(|((_, n), text)| (*n, text.clone()))
            .collect())
    }

    async fn commit(&self, commit: &Commit) -> Result<CommitOutcome, StoreError> {
        let id = &commit.stored.meta.id;
        if self.stored_documents.borrow().get(id).map(|stored| stored.meta.revision) != commit.expected {
            return Ok(CommitOutcome::Conflict);
        }
        self.stored_documents.borrow_mut().insert(id.clone(), commit.stored.clone());
        let mut steps = self.steps.borrow_mut();
        steps.retain(|(doc, n), _| doc != id || (commit.steps.first..=commit.steps.last).contains(n));
        steps.extend(commit.steps.put.iter().map(|(n, text)| ((id.clone(), *n), text.clone())));
        Ok(CommitOutcome::Written)
    }

    async fn commit_new(&self, commits: &[Commit]) -> Result<(), StoreError> {
        if commits.iter().any(|commit| self.stored_documents.borrow().contains_key(&commit.stored.meta.id)) {
            return Err(StoreError("an id that is taken".to_owned()));
        }
        for commit in commits {
            self.commit(commit).await?;
        }
        Ok(())
    }

    async fn remove(&self, id: &DocId) -> Result<(), StoreError> {
        self.stored_documents.borrow_mut().remove(id);
        self.steps.borrow_mut().retain(|(doc, _), _| doc != id);
        Ok(())
    }

    async fn note(&self, name: &str) -> Result<Option<String>, StoreError> {
        Ok(self.notes.borrow().get(name).cloned())
    }

    async fn set_note(&self, name: &str, text: &str) -> Result<(), StoreError> {
        self.notes.borrow_mut().insert(name.to_owned(), text.to_owned());
        Ok(())
    }
}

/// A local mirror in memory.
#[derive(Debug, Default)]
pub struct MemoryMirror {
    stored_documents: RefCell<BTreeMap<DocId, StoredDocument>>,
    /// True: every write fails as if there were no room.
    pub full: std::cell::Cell<bool>,
}

impl LocalMirror for MemoryMirror {
    fn read(&self, id: &DocId) -> Option<StoredDocument> {
        self.stored_documents.borrow().get(id).cloned()
    }

    fn write(&self, stored: &StoredDocument) -> Result<(), StoreError> {
        if self.full.get() {
            return Err(StoreError("no room".to_owned()));
        }
        self.stored_documents.borrow_mut().insert(stored.meta.id.clone(), stored.clone());
        Ok(())
    }

    fn remove(&self, id: &DocId) {
        self.stored_documents.borrow_mut().remove(id);
    }

    fn ids(&self) -> Vec<DocId> {
        self.stored_documents.borrow().keys().cloned().collect()
    }
}

/// In-memory fakes never return Pending, so one poll is enough.
#[cfg(test)]
pub(super) fn now<T>(future: impl Future<Output = T>) -> T {
    use core::task::{Context, Poll, Waker};
    match core::pin::pin!(future).poll(&mut Context::from_waker(Waker::noop())) {
        Poll::Ready(value) => value,
        Poll::Pending => panic!("a twin in memory waited"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn head_that_cannot_be_read_is_damaged_and_not_missing() {
        let id = DocId::random(7);
        let meta =
            DocumentMeta { id: id.clone(), revision: 3, title: "T".into(), changed: 1, binned: None, step: 2, crc: 0 };
        let whole = StoredDocument::new(meta, "{}".into()).sealed();
        let text = serde_json::to_string(&whole.meta).unwrap();
        assert_eq!(DocumentMeta::stored(&id, &text), whole.meta);
        for n in 0..text.len() {
            let mut bytes = text.clone().into_bytes();
            bytes[n] ^= 1;
            let Ok(flipped) = String::from_utf8(bytes) else { continue };
            let meta = DocumentMeta::stored(&id, &flipped);
            // A letter of a name that serde does not know is left out of the reading, and so of the checksum too.
            let same = StoredDocument::new(meta.clone(), whole.body.clone());
            assert!(!same.is_whole() || meta == whole.meta, "byte {n}: {flipped}");
            assert_eq!(meta.id, id);
        }
    }
}
