//! The records of batches of all formulas: their list, one that is read, and the seal. Only for the second part of the program.

use super::{Desk, browser};
use crate::ui::browser::LocalStorageMirror;
use hundred_parts::batch::EntryId;
use hundred_parts::desk::{
    BatchState, DocId, DocumentKind, DocumentMeta, Journal, LocalMirror, Opened, RecordDocument, StoredDocument,
    open_document, seal,
};
use hundred_parts::quantity::sort_by;

impl Desk {
    /// What the stores have of batches, the last one that something was noted of first: their records are not read for that.
    pub(crate) async fn batch_metas(self) -> Vec<DocumentMeta> {
        self.metas_of(DocumentKind::Batch).await
    }

    /// What the stores have of a kind, the last one changed first.
    pub(super) async fn metas_of(self, kind: DocumentKind) -> Vec<DocumentMeta> {
        let mut metas = self.journal().metas().await.unwrap_or_default();
        let unknown = |id: &DocId| metas.iter().all(|meta| meta.id != *id);
        let ids: Vec<DocId> = LocalStorageMirror.ids().into_iter().filter(unknown).collect();
        let copies = ids.iter().filter_map(|id| LocalStorageMirror.read(id));
        metas.extend(copies.filter(StoredDocument::is_whole).map(|stored| stored.meta));
        metas.retain(|meta| meta.id.kind() == kind && meta.binned.is_none());
        sort_by(&mut metas, |a, b| b.changed.cmp(&a.changed));
        metas
    }

    /// The record of a batch of any formula, to be read. The stored copy that is damaged is told of where it is opened to be
    /// gone on with.
    pub(crate) async fn read_record(self, id: &DocId) -> Option<RecordDocument> {
        match open_document::<RecordDocument>(&*self.journal(), &LocalStorageMirror, id).await {
            Opened::Whole(record) | Opened::Rescued(record, _) => Some(record),
            Opened::Missing | Opened::Binned | Opened::Newer(_) | Opened::Lost(_) => None,
        }
    }

    /// Whether a batch is the one that is worked on and only has to be opened.
    pub(crate) fn is_closed_batch(self, id: &DocId) -> bool {
        self.now(|open| matches!(open.batch(), BatchState::Closed(closed) if closed == *id))
    }

    /// Closes the record of the batch that is worked on. True if it has a new seal.
    pub(crate) fn seal_record(self) -> bool {
        let (id, at) = (EntryId::random(browser::random_bits()), browser::now());
        let event = self.now(|open| seal(open.open_record()?.body(), &id, at));
        event.is_some_and(|event| self.note_entry(hundred_parts::batch::BatchEntry { id, at, event }))
    }
}
