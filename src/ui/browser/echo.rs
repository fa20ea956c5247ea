//! The quick copy in local storage, and the maker's preferences.

use gloo_storage::{LocalStorage, Storage};
use hundred_parts::desk::{DocId, Echo, Slot, StoreError};

/// Keys of formulas in local storage: `hp.doc.` and the id.
fn key(id: &DocId) -> String {
    format!("hp.doc.{}", id.as_str())
}

/// Local storage.
#[derive(Clone, Copy)]
pub(crate) struct LocalEcho;

impl Echo for LocalEcho {
    fn read(&self, id: &DocId) -> Option<Slot> {
        LocalStorage::get(key(id)).ok()
    }

    fn write(&self, slot: &Slot) -> Result<(), StoreError> {
        LocalStorage::set(key(&slot.head.id), slot).map_err(|error| StoreError(error.to_string()))
    }

    fn remove(&self, id: &DocId) {
        LocalStorage::delete(key(id));
    }
}

/// A preference that was kept, if any.
pub(crate) fn preference(name: &str) -> Option<String> {
    LocalStorage::raw().get_item(&format!("hp.{name}")).ok().flatten()
}

/// Keeps a preference; a browser that refuses only forgets it.
pub(crate) fn set_preference(name: &str, value: &str) {
    let _ = LocalStorage::raw().set_item(&format!("hp.{name}"), value);
}

/// Keeps the bytes of a damaged copy beside everything else, under `hp.bad.` and its id.
pub(crate) fn keep_damaged(slot: &Slot) {
    let _ = LocalStorage::set(format!("hp.bad.{}", slot.head.id.as_str()), slot);
}
