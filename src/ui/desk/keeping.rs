//! Exports, the browser's promise, and copies that could not be read.

use super::{Desk, browser};
use hundred_parts::desk::{Backups, Slot};
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

/// A stored copy that could not be opened, or not whole.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Unreadable {
    /// What to say about it.
    pub(crate) why: &'static str,
    /// It, as it is.
    pub(crate) slot: Slot,
}

impl Desk {
    /// Shows a copy that could not be read, and keeps its bytes from being written over.
    pub(super) fn found_unreadable(self, why: &'static str, slot: Slot) {
        browser::keep_damaged(&slot);
        self.unreadable.set(Some(Unreadable { why, slot }));
    }

    /// One more save; with the first one the browser is asked to keep what is stored.
    pub(super) fn counted(self) {
        self.keep_count(self.backup.get_untracked().saved(browser::now()));
        if self.promised.get_untracked().is_none() {
            spawn_local(async move { self.promised.set(browser::ask_to_persist().await) });
        }
    }

    /// Everything was exported just now.
    pub(crate) fn backed_up(self) {
        self.keep_count(Backups::exported(browser::now()));
    }

    /// Not now.
    pub(crate) fn back_up_later(self) {
        self.keep_count(self.backup.get_untracked().later());
    }

    /// True if it is time for an export.
    pub(crate) fn backup_due(self) -> bool {
        self.backup.get().due(browser::now())
    }

    fn keep_count(self, backups: Backups) {
        browser::set_preference("backups", &backups.write());
        self.backup.set(backups);
    }
}
