//! Which kind of document opens what is stored under an id: above all kinds, which the trait they share does not know.

use super::{DocumentKind, OpenDocument, Persist, RecordDocument, Reopen, ShelfDocument, StoredDocument};

/// A stored document of whatever kind, without its history; `None` if it cannot be read.
pub(super) fn reopened(stored: &StoredDocument) -> Option<Box<dyn Persist>> {
    fn boxed<T: Reopen + 'static>(stored: &StoredDocument) -> Option<Box<dyn Persist>> {
        T::open(stored, Vec::new()).map(|document| Box::new(document) as Box<dyn Persist>)
    }
    match stored.meta.id.kind() {
        DocumentKind::Formula => boxed::<OpenDocument>(stored),
        DocumentKind::Shelf => boxed::<ShelfDocument>(stored),
        DocumentKind::Batch | DocumentKind::Study => boxed::<RecordDocument>(stored),
        DocumentKind::Unknown => None,
    }
}
