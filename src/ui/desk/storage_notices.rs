//! Exports, the browser's promise, and copies that could not be read.

use super::{Desk, Saved, browser};
use crate::ui::browser::LocalStorageMirror;
use hundred_parts::desk::{Backups, BinDays, DocId, Journal, StoredDocument, empty_bin, take_strays};
use hundred_parts::words::{page, storage_notices};
use leptos::prelude::*;
use std::time::Duration;
use wasm_bindgen_futures::spawn_local;

/// The preference that counts days of use for the bin.
const BIN: &str = "bin";

/// A stored copy that could not be opened, or not whole.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Unreadable {
    /// What to say about it.
    pub(crate) why: &'static str,
    /// It, as it is.
    pub(crate) stored: StoredDocument,
    /// Of a damaged one: whether its bytes lie in a place of their own, where nothing is written over them.
    pub(crate) kept: Option<bool>,
    /// Whether what is open waits for the maker's word before it is written in its place.
    pub(crate) held: bool,
}

/// As it is stored: another tab may have saved or exported since.
pub(super) fn kept_count() -> Backups {
    Backups::read(&browser::preference("backups").unwrap_or_default())
}

impl Desk {
    /// Removes for good what has been in the bin for long enough, which is said, and brings into the journal what only the
    /// quick copies have. Only for the second part of the program.
    pub(crate) fn tidy(self) {
        spawn_local(async move {
            let journal = self.journal();
            let Ok(metas) = journal.metas().await else { return };
            let days = BinDays::read(&browser::preference(BIN).unwrap_or_default()).used(browser::now(), &metas);
            browser::set_preference(BIN, &days.write());
            let over: Vec<DocId> =
                metas.iter().filter(|meta| days.over(&meta.id)).map(|meta| meta.id.clone()).collect();
            let named = self.named_by(&over).await;
            let removed = empty_bin(&*journal, &LocalStorageMirror, &metas, &days).await;
            if removed > 0 {
                self.say(&storage_notices::left_the_bin(removed), None);
            }
            if take_strays(&*journal, &LocalStorageMirror, &metas).await || removed > 0 {
                self.refresh_metas().await;
            }
            self.sweep_photographs(named).await;
        });
    }

    /// Shows a copy that could not be read, and puts its bytes aside. True if they are: then nothing is lost if something
    /// else is written in its place.
    pub(super) async fn found_unreadable(self, why: &'static str, stored: StoredDocument) -> bool {
        let name = format!("bad.{}.{}", stored.meta.id.as_str(), stored.meta.revision);
        let text = serde_json::to_string(&stored).unwrap_or_default();
        let kept = self.journal().set_note(&name, &text).await.is_ok();
        self.notices.unreadable.set(Some(Unreadable { why, stored, kept: Some(kept), held: false }));
        kept
    }

    /// What is open waits for the maker's word before it takes the place of the damaged copy that is shown.
    pub(super) fn hold(self) {
        self.notices.unreadable.update(|found| {
            if let Some(found) = found {
                found.held = true;
            }
        });
    }

    /// The maker wants what is open in the place of the damaged copy.
    pub(crate) fn write_in_its_place(self, id: &DocId) {
        self.open.update(|open| {
            if let Some(document) = open.stored(id) {
                document.release();
            }
        });
        self.notices.unreadable.set(None);
        self.write_soon(Duration::ZERO);
    }

    /// A newer version of the program has been at work here: from now on this tab writes nothing at all, and says so.
    pub(super) fn read_only(self, found: Option<StoredDocument>) {
        browser::stop_writing();
        self.saved.set(Saved::No(page::READ_ONLY.to_owned()));
        if let Some(stored) = found {
            self.notices.unreadable.set(Some(Unreadable { why: page::NEWER, stored, kept: None, held: false }));
        }
    }

    /// True if nothing may be changed; then it is said.
    pub(super) fn refused(self) -> bool {
        if browser::stopped() {
            self.say(page::READ_ONLY, None);
        }
        browser::stopped()
    }

    /// One more save; with the first one the browser is asked to keep what is stored.
    pub(super) fn counted(self) {
        self.keep_count(kept_count().saved(browser::now()));
        if self.notices.promised.get_untracked().is_none() {
            spawn_local(async move { self.notices.promised.set(browser::ask_to_persist().await) });
        }
    }

    /// Everything was exported just now.
    pub(crate) fn backed_up(self) {
        self.keep_count(Backups::exported(browser::now()));
    }

    /// Not now.
    pub(crate) fn back_up_later(self) {
        self.keep_count(kept_count().later());
    }

    /// True if it is time for an export.
    pub(crate) fn backup_due(self) -> bool {
        self.notices.backup.get().due(browser::now())
    }

    fn keep_count(self, backups: Backups) {
        browser::set_preference("backups", &backups.write());
        self.notices.backup.set(backups);
    }
}
