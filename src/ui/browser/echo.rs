//! The quick copy in local storage, and the maker's preferences.

use super::may_write;
use gloo_storage::{LocalStorage, SessionStorage, Storage};
use hundred_parts::desk::{DocId, Echo, Slot, StoreError};

/// How the keys of formulas in local storage begin; the id follows.
const PREFIX: &str = "hp.doc.";

fn key(id: &DocId) -> String {
    format!("{PREFIX}{}", id.as_str())
}

/// Local storage.
#[derive(Clone, Copy)]
pub(crate) struct LocalEcho;

impl Echo for LocalEcho {
    fn read(&self, id: &DocId) -> Option<Slot> {
        LocalStorage::get(key(id)).ok()
    }

    fn write(&self, slot: &Slot) -> Result<(), StoreError> {
        may_write()?;
        LocalStorage::set(key(&slot.head.id), slot).map_err(|error| StoreError(error.to_string()))
    }

    fn remove(&self, id: &DocId) {
        if may_write().is_ok() {
            LocalStorage::delete(key(id));
        }
    }

    fn ids(&self) -> Vec<DocId> {
        let storage = LocalStorage::raw();
        let keys = (0..storage.length().unwrap_or(0)).filter_map(|n| storage.key(n).ok().flatten());
        keys.filter_map(|key| Some(DocId::from(key.strip_prefix(PREFIX)?.to_owned()))).collect()
    }
}

/// A preference that was kept, if any.
pub(crate) fn preference(name: &str) -> Option<String> {
    LocalStorage::raw().get_item(&format!("hp.{name}")).ok().flatten()
}

/// Keeps a preference; a browser that refuses only forgets it.
pub(crate) fn set_preference(name: &str, value: &str) {
    if may_write().is_err() {
        return;
    }
    let _ = LocalStorage::raw().set_item(&format!("hp.{name}"), value);
}

/// The formula that was open: in this tab, else in the one that was used last.
pub(crate) fn open_id() -> Option<String> {
    SessionStorage::raw().get_item("hp.open").ok().flatten().or_else(|| preference("open"))
}

/// Notes which formula is open.
pub(crate) fn set_open_id(id: &str) {
    if may_write().is_ok() {
        let _ = SessionStorage::raw().set_item("hp.open", id);
    }
    set_preference("open", id);
}

/// Keeps the bytes of a damaged copy beside everything else, under `hp.bad.` and its id.
pub(crate) fn keep_damaged(slot: &Slot) {
    if may_write().is_err() {
        return;
    }
    let _ = LocalStorage::set(format!("hp.bad.{}", slot.head.id.as_str()), slot);
}
