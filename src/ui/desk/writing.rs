//! Writing: when, and what the maker is told about it.

use super::{Desk, LazyTask, Saved, browser};
use crate::ui::browser::LocalStorageMirror;
use hundred_parts::desk::{DocId, DocumentKind, LocalMirror, News, OpenDocument, Persist, WriterHost, title_with};
use hundred_parts::quantity::Timestamp;
use hundred_parts::shelf::ShelfChange;
use hundred_parts::words::{batch_record, page, storage_notices};
use leptos::prelude::*;
use std::time::Duration;
use wasm_bindgen_futures::spawn_local;

/// How long after a failed write the next one is tried.
pub(super) const AGAIN: Duration = Duration::from_secs(5);
/// How many pauses the first write waits for the first look into the journal: five seconds.
const LOOKS: usize = 250;

impl Desk {
    pub(super) fn write_soon(self, after: Duration) {
        if self.now(OpenDocument::is_dirty) {
            self.saved.set(Saved::Soon);
        }
        self.saving.debounce.with_value(|debounce| debounce.ask(after, move || self.write_now()));
    }

    pub(super) fn write_now(self) {
        spawn_local(async move {
            self.first_look().await;
            self.write().await;
        });
    }

    /// Waits until the journal was looked into: what was typed meanwhile is to stand before the steps that are stored, not
    /// in their place. Not for ever: a journal that does not answer must not keep the local mirror from being written.
    async fn first_look(self) {
        for _ in 0..LOOKS {
            if self.saving.looked.get_untracked() {
                return;
            }
            self.pause().await;
        }
    }

    /// The page may be gone before the journal answers: what it may not have goes into the local mirror at once.
    pub(super) fn write_at_once(self) {
        if !browser::stopped() {
            for stored in self.now(OpenDocument::unsaved_snapshots) {
                // A full store: the journal may still be in time.
                let copied = LocalStorageMirror.write(&stored).is_ok();
                if copied && stored.meta.id.is_formula() {
                    browser::set_open_id(stored.meta.id.as_str());
                }
            }
        }
        self.write_now();
    }

    /// The program has ended: what was typed and is not in the journal yet goes into the quick copy, which wins when the
    /// page opens again. Nothing else of this instance is touched.
    pub(super) fn rescue(self) -> Option<browser::Rescued> {
        let words = self.open.try_with_untracked(OpenDocument::unsaved_snapshots)?;
        let kept = words.iter().all(|stored| LocalStorageMirror.write(stored).is_ok());
        (!words.is_empty()).then(|| browser::Rescued { kept, text: serde_json::to_string(&words).unwrap_or_default() })
    }

    /// Writes whatever is not in the journal yet. True if nothing is left to write.
    pub(crate) async fn write(self) -> bool {
        let (writer, journal) = (self.saving.writer.get_value(), self.journal());
        let done = writer.write(&self, &*journal, &LocalStorageMirror).await;
        // Where nothing was to be written nobody was asked: 'Saved' is the journal's word.
        let answered = self.saving.answered.get_value();
        if done && answered && self.saved.get_untracked() != Saved::Yes && !browser::stopped() {
            self.saved.set(Saved::Yes);
        }
        done
    }

    /// Writes before another document takes the open one's place, whatever is typed meanwhile. False if that failed: the
    /// open one stays then, and it is said. Where only the journal fails, the quick copy is enough to go on with: it is the
    /// newer one, and is written when the formula is opened again.
    pub(super) async fn put_away(self) -> bool {
        while !self.write().await {
            if browser::stopped() {
                return false;
            }
            if matches!(self.saved.get_untracked(), Saved::No(_)) {
                let words = self.now(OpenDocument::unsaved_snapshots);
                let copied = words.iter().all(|stored| LocalStorageMirror.write(stored).is_ok());
                if !copied {
                    self.say(storage_notices::STAYS_OPEN, None);
                }
                return copied;
            }
        }
        true
    }

    /// Says that nothing was kept, and tries again: room may have been made meanwhile.
    fn failed(self, why: String) {
        if self.journal().is_newer() {
            return self.read_only(None);
        }
        self.saved.set(Saved::No(why));
        // One write fails for the shelf and for the formula; it is tried again once.
        self.saving.again.update_value(|again| {
            if let Some(again) = again.take() {
                again.clear();
            }
            *again = set_timeout_with_handle(move || self.write_now(), AGAIN).ok();
        });
    }

    /// The title in the list follows what was written; a new document joins it.
    fn in_the_list(self, id: DocId, first: bool) {
        if first {
            spawn_local(self.refresh_metas());
            return;
        }
        let Some(title) = self.now(|open| (*open.id() == id).then(|| open.state().formula.about.title.clone())) else {
            return;
        };
        let changed = self.metas.with_untracked(|metas| metas.iter().any(|meta| meta.id == id && meta.title != title));
        if changed {
            self.metas.update(|metas| {
                metas.iter_mut().filter(|meta| meta.id == id).for_each(|meta| meta.title.clone_from(&title))
            });
        }
    }
}

impl Desk {
    /// Says which values another tab has changed too. The words for it are in the second part of the program.
    pub(super) fn tell_of_shelf(self, change: Box<ShelfChange>) {
        let joined = change.base.is_some();
        if !self.ask_lazy(LazyTask::ShelfChange(change)) && joined {
            self.say(page::SHELF_JOINED, None);
        }
    }
}

impl WriterHost for Desk {
    fn open_ids(&self) -> Vec<DocId> {
        self.now(OpenDocument::open_ids)
    }

    fn on<T>(&self, id: &DocId, act: impl FnOnce(&mut dyn Persist) -> T) -> Option<T> {
        // What the writer notes shows nowhere, except where it says so in the news.
        self.open.write_untracked().stored(id).map(act)
    }

    fn clock(&self) -> Timestamp {
        browser::now()
    }

    fn new_id(&self) -> DocId {
        browser::new_id()
    }

    fn stopped(&self) -> bool {
        browser::stopped()
    }

    async fn pause(&self) {
        browser::pause(Duration::from_millis(20)).await;
    }

    fn tell(&self, news: News) {
        match news {
            News::Saved { id, first } => {
                self.saving.answered.set_value(true);
                browser::tell_tabs(id.as_str());
                if id.is_formula() {
                    if self.now(|open| *open.id() == id) {
                        self.note_open(&id);
                    }
                    self.counted();
                    self.in_the_list(id, first);
                }
            }
            News::Copied => {
                self.open.notify();
                self.say(page::CONFLICT, None);
            }
            News::ShelfJoined(change) => {
                self.open.notify();
                self.tell_of_shelf(change);
            }
            News::RecordJoined => {
                self.open.notify();
                self.say(batch_record::RECORD_JOINED, None);
            }
            News::Cleared => {
                self.ask_lazy(LazyTask::Tidy);
                self.say(page::CLEARED, None);
            }
            News::Unreadable(stored) => {
                let this = *self;
                spawn_local(async move {
                    let lost = match stored.meta.id.kind() {
                        DocumentKind::Batch | DocumentKind::Study => batch_record::RECORD_LOST,
                        _ => page::SHELF_LOST,
                    };
                    this.found_unreadable(lost, stored).await;
                    this.hold();
                });
            }
            News::Newer(stored) => self.read_only(Some(stored)),
            News::OnlyMirror(error) => {
                browser::set_open_id(self.now(|open| open.id().clone()).as_str());
                self.failed(storage_notices::only_mirror(&error.0));
            }
            News::Lost(error) => self.failed(format!("{}{}", page::NOT_SAVED, error.0)),
        }
    }

    fn copy_title(&self, title: &str) -> String {
        title_with(title, page::OTHER_COPY)
    }
}
