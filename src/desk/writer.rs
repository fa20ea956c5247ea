//! Writing what is open, one write after the other, whatever the maker does meanwhile.

use super::{
    Commit, DocId, Fresh, Journal, LocalMirror, Persist, SaveOutcome, StoreError, StoredDocument, reopened, save,
};
use crate::quantity::Timestamp;
use crate::shelf::ShelfChange;
use std::cell::{Cell, RefCell};

/// What the writer needs of the page around it.
pub trait WriterHost {
    /// The documents that are open.
    fn open_ids(&self) -> Vec<DocId>;
    /// Does something to an open document; nothing, if it is not open any more.
    fn on<T>(&self, id: &DocId, act: impl FnOnce(&mut dyn Persist) -> T) -> Option<T>;
    /// The clock.
    fn clock(&self) -> Timestamp;
    /// An id for a new document.
    fn new_id(&self) -> DocId;
    /// True once nothing may be written any more.
    fn stopped(&self) -> bool;
    /// Waits a moment for the write that is on its way.
    fn pause(&self) -> impl Future<Output = ()>;
    /// Says what came of it.
    fn tell(&self, news: News);
    /// The title for the copy of a formula that another tab changed too.
    fn copy_title(&self, title: &str) -> String;
}

/// What came of a write.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum News {
    /// The journal has it. `first`: for the first time.
    Saved {
        /// Which document.
        id: DocId,
        /// True if the journal did not know it.
        first: bool,
    },
    /// Another tab changed the formula too: what is here goes on as a copy.
    Copied,
    /// Another tab changed the shelf too: both were joined.
    ShelfJoined(Box<ShelfChange>),
    /// The browser has cleared the journal: what is open is written anew.
    Cleared,
    /// Another tab noted something of the batch too: the record has both.
    RecordJoined,
    /// What the journal has cannot be read; nothing is written over it.
    Unreadable(StoredDocument),
    /// A newer version of the program has written it: it must stay as it is.
    Newer(StoredDocument),
    /// Only the local mirror has it.
    OnlyMirror(StoreError),
    /// Nothing has it.
    Lost(StoreError),
}

impl News {
    /// Of what the journal has in the place of a document, and what nothing may be joined with or written over.
    pub(super) fn not_ours(stored: &StoredDocument) -> Self {
        if stored.is_newer() { Self::Newer(stored.clone()) } else { Self::Unreadable(stored.clone()) }
    }
}

/// Writes for one page.
#[derive(Debug, Default)]
pub struct Writer {
    busy: Cell<bool>,
    /// Writes that failed after their document was put away; they are tried again with the next write.
    pending: RefCell<Vec<Commit>>,
}

impl Writer {
    /// True if a formula that was put away is not in the journal yet.
    pub fn owes(&self) -> bool {
        !self.pending.borrow().is_empty()
    }

    /// What was put away and is not in the journal yet.
    pub fn owed(&self) -> Vec<StoredDocument> {
        self.pending.borrow().iter().map(|commit| commit.stored.clone()).collect()
    }

    /// True while a write is on its way: what it holds is neither unsaved nor saved.
    pub fn is_writing(&self) -> bool {
        self.busy.get()
    }

    /// Writes whatever is not in the journal yet, after the write that is on its way. True if nothing is left to write.
    pub async fn write(&self, room: &impl WriterHost, journal: &impl Journal, mirror: &impl LocalMirror) -> bool {
        while self.busy.get() {
            room.pause().await;
        }
        if room.stopped() {
            return false;
        }
        self.busy.set(true);
        for commit in self.pending.take() {
            self.retry_pending(room, journal, mirror, commit).await;
        }
        // One that fails is not tried again at once, but keeps none of the others from being written.
        let mut failed = Vec::new();
        while let Some(id) = next(room, &failed) {
            if !self.write_one(room, journal, mirror, &id).await {
                failed.push(id);
            }
        }
        self.busy.set(false);
        failed.is_empty() && !self.owes() && room.open_ids().iter().all(|id| !is_dirty(room, id))
    }

    /// A write of a document that is no longer open.
    async fn retry_pending(
        &self,
        room: &impl WriterHost,
        journal: &impl Journal,
        mirror: &impl LocalMirror,
        commit: Commit,
    ) {
        match save(journal, mirror, &commit).await {
            SaveOutcome::Saved => saved(room, &commit),
            SaveOutcome::Conflict => {
                let next = overtaken_after(room, journal, commit).await;
                self.pending.borrow_mut().extend(next);
            }
            SaveOutcome::OnlyMirror(error) => {
                room.tell(News::OnlyMirror(error));
                self.pending.borrow_mut().push(commit);
            }
            SaveOutcome::Lost(error) => {
                room.tell(News::Lost(error));
                self.pending.borrow_mut().push(commit);
            }
        }
    }

    /// Writes one open document until all of it is in the journal. False if that failed.
    async fn write_one(
        &self,
        room: &impl WriterHost,
        journal: &impl Journal,
        mirror: &impl LocalMirror,
        id: &DocId,
    ) -> bool {
        while let Some(commit) = room.on(id, |document| document.take_commit()).flatten() {
            let kept = save(journal, mirror, &commit).await;
            // Another formula may have been opened meanwhile: then what came of this one says nothing about that.
            let open = room.on(id, |_| ()).is_some();
            let news = match kept {
                SaveOutcome::Saved => {
                    room.on(id, |document| document.arrived(commit.stored.meta.revision));
                    saved(room, &commit);
                    continue;
                }
                _ if !open => {
                    self.pending.borrow_mut().push(commit);
                    return true;
                }
                SaveOutcome::Conflict => match overtaken(room, journal, id).await {
                    Ok(()) => continue,
                    // The local mirror is no help: the journal has a copy as new as this one.
                    Err(error) => News::Lost(error),
                },
                SaveOutcome::OnlyMirror(error) => News::OnlyMirror(error),
                SaveOutcome::Lost(error) => News::Lost(error),
            };
            room.on(id, |document| document.not_written());
            room.tell(news);
            return false;
        }
        true
    }
}

fn is_dirty(room: &impl WriterHost, id: &DocId) -> bool {
    room.on(id, |document| document.tracking().is_dirty()).unwrap_or(false)
}

/// The next open document that has something to write.
fn next(room: &impl WriterHost, failed: &[DocId]) -> Option<DocId> {
    let wants = |id: &DocId| room.on(id, |document| document.tracking().wants_writing()).unwrap_or(false);
    room.open_ids().into_iter().find(|id| !failed.contains(id) && wants(id))
}

fn saved(room: &impl WriterHost, commit: &Commit) {
    room.tell(News::Saved { id: commit.stored.meta.id.clone(), first: commit.expected.is_none() });
}

fn fresh(room: &impl WriterHost, title: &str) -> Fresh {
    Fresh { id: room.new_id(), title: room.copy_title(title), now: room.clock() }
}

/// Another tab wrote a document that is no longer open here: what is to be written instead, if anything. Nobody is typing in
/// it, so what its kind makes of its last state is all there is to keep.
async fn overtaken_after(room: &impl WriterHost, journal: &impl Journal, commit: Commit) -> Option<Commit> {
    let mut document = reopened(&commit.stored)?;
    match journal.read(&commit.stored.meta.id).await {
        Err(_) => return Some(commit),
        Ok(Some(theirs)) if theirs.meta.crc == commit.stored.meta.crc => {
            saved(room, &commit);
            return None;
        }
        Ok(Some(theirs)) => {
            let fresh = fresh(room, &commit.stored.meta.title);
            room.tell(document.overtaken(&theirs, Vec::new(), fresh));
        }
        Ok(None) => document.rebase(None),
    }
    document.take_commit()
}

/// The journal has another revision than this one was made from. What that means depends on whose it is.
async fn overtaken(room: &impl WriterHost, journal: &impl Journal, id: &DocId) -> Result<(), StoreError> {
    let Some(theirs) = journal.read(id).await? else {
        // It was wiped: this one is all that is known.
        room.on(id, |document| document.rebase(None));
        room.tell(News::Cleared);
        return Ok(());
    };
    let ours = |document: &mut dyn Persist| {
        let known = theirs.is_whole() && document.tracking().knows(&theirs.meta);
        if known {
            // A write of this tab of which the answer never came, or what was here before the page was opened again.
            document.rebase(Some(&theirs));
        }
        known
    };
    if room.on(id, ours).unwrap_or(true) {
        return Ok(());
    }
    let steps = journal.steps(id).await?;
    let title = room.on(id, |document| document.write().title).unwrap_or_default();
    let fresh = fresh(room, &title);
    if let Some(news) = room.on(id, |document| document.overtaken(&theirs, steps, fresh)) {
        room.tell(news);
    }
    Ok(())
}

#[cfg(test)]
mod tests;
