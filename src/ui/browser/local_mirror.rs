//! The quick copy in local storage, and the maker's preferences.

use super::may_write;
use gloo_storage::{LocalStorage, Storage};
use hundred_parts::desk::{DocId, LocalMirror, StoreError, StoredDocument};

/// How the keys of formulas in local storage begin; the id follows.
const PREFIX: &str = "hp.doc.";

/// Local storage, where there is one: a browser that keeps nothing for a page gives none, or refuses to say.
fn local() -> Option<web_sys::Storage> {
    web_sys::window()?.local_storage().ok().flatten()
}

/// The storage of this tab alone, like [`local`].
fn session() -> Option<web_sys::Storage> {
    web_sys::window()?.session_storage().ok().flatten()
}

/// True where there is no local storage.
pub(super) fn is_missing() -> bool {
    local().is_none()
}

fn key(id: &DocId) -> String {
    format!("{PREFIX}{}", id.as_str())
}

/// Local storage.
#[derive(Clone, Copy)]
pub(crate) struct LocalStorageMirror;

impl LocalMirror for LocalStorageMirror {
    fn read(&self, id: &DocId) -> Option<StoredDocument> {
        // gloo's own function ends the program where there is no storage.
        local()?;
        LocalStorage::get(key(id)).ok()
    }

    fn write(&self, stored: &StoredDocument) -> Result<(), StoreError> {
        may_write()?;
        local().ok_or_else(|| StoreError("no local storage".to_owned()))?;
        LocalStorage::set(key(&stored.meta.id), stored).map_err(|error| StoreError(error.to_string()))
    }

    fn remove(&self, id: &DocId) {
        if let Some(storage) = local().filter(|_| may_write().is_ok()) {
            let _ = storage.remove_item(&key(id));
        }
    }

    fn ids(&self) -> Vec<DocId> {
        let Some(storage) = local() else { return Vec::new() };
        let keys = (0..storage.length().unwrap_or(0)).filter_map(|n| storage.key(n).ok().flatten());
        keys.filter_map(|key| Some(DocId::from(key.strip_prefix(PREFIX)?.to_owned()))).collect()
    }
}

/// A preference that was kept, if any.
pub(crate) fn preference(name: &str) -> Option<String> {
    local()?.get_item(&format!("hp.{name}")).ok().flatten()
}

/// Keeps a preference; a browser that refuses only forgets it.
pub(crate) fn set_preference(name: &str, value: &str) {
    if let Some(storage) = local().filter(|_| may_write().is_ok()) {
        let _ = storage.set_item(&format!("hp.{name}"), value);
    }
}

/// Forgets a preference.
pub(crate) fn forget_preference(name: &str) {
    if let Some(storage) = local().filter(|_| may_write().is_ok()) {
        let _ = storage.remove_item(&format!("hp.{name}"));
    }
}

/// Forgets all preferences whose names begin so.
pub(crate) fn forget_preferences(beginning: &str) {
    let Some(storage) = local().filter(|_| may_write().is_ok()) else { return };
    let names = (0..storage.length().unwrap_or(0)).filter_map(|place| storage.key(place).ok().flatten());
    let beginning = format!("hp.{beginning}");
    // What is removed moves the places of the others.
    let names: Vec<String> = names.filter(|name| name.starts_with(&beginning)).collect();
    for name in names {
        let _ = storage.remove_item(&name);
    }
}

/// The formula that was open in this tab.
pub(crate) fn open_here() -> Option<String> {
    session()?.get_item("hp.open").ok().flatten()
}

/// Notes which formula is open, in this tab and for the next one.
pub(crate) fn set_open_id(id: &str) {
    if let Some(storage) = session().filter(|_| may_write().is_ok()) {
        let _ = storage.set_item("hp.open", id);
    }
    set_preference("open", id);
}
