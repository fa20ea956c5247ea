//! What views do.

use super::opening::Asked;
use super::{Desk, FollowUp, LazyTask, browser};
use crate::ui::browser::LocalStorageMirror;
use hundred_parts::desk::{
    Action, Binned, DocId, Document, Journal, LocalMirror, Made, OpenDocument, Opened, Reopen, ShelfAction,
    open_document, put_into_bin,
};
use hundred_parts::facts::IngredientId;
use hundred_parts::words::{page, storage_notices};
use leptos::prelude::*;
use std::time::Duration;
use wasm_bindgen_futures::spawn_local;

/// How long typing may rest before it is written.
const REST: Duration = Duration::from_millis(300);

impl Desk {
    /// Makes a change.
    pub(crate) fn act(self, action: Action) -> Made {
        if self.refused() {
            return Made::Nothing;
        }
        let made = self.open.try_update(|open| open.act(action, browser::now())).unwrap_or(Made::Nothing);
        self.write_soon(REST);
        made
    }

    /// Ends typing in a field.
    pub(crate) fn end_undo_group(self) {
        let changed = self.open.try_update_untracked(|open| open.end_undo_group(browser::now()));
        if changed == Some(true) {
            self.open.notify();
            self.write_soon(REST);
        }
    }

    /// Changes the shelf.
    pub(crate) fn act_on_shelf(self, action: ShelfAction) -> Option<IngredientId> {
        if self.refused() {
            return None;
        }
        if self.now(|open| action.is_too_much(open.shelf())) {
            self.say(storage_notices::SHELF_FULL, None);
            return None;
        }
        let id = self.open.try_update(|open| open.act_on_shelf(action, browser::now())).flatten();
        self.write_soon(REST);
        id
    }

    /// Adds an ingredient of the maker's own; lines that were typed by its name are linked to it.
    pub(crate) fn add_to_shelf(self, name: &str) -> Option<IngredientId> {
        let id = self.act_on_shelf(ShelfAction::Add(name.trim().to_owned()))?;
        for line in self.now(|open| open.state().formula.lines_named(name)) {
            self.act(Action::ChooseLine(line, id.clone()));
        }
        Some(id)
    }

    /// One step back in the history of what is shown.
    pub(crate) fn undo(self) {
        if self.refused() {
            return;
        }
        let target = self.screen.get_untracked().undo_target();
        self.open.update(|open| open.undo_in(target, browser::now()));
        self.write_soon(REST);
    }

    /// One step forward, like [`Self::undo`].
    pub(crate) fn redo(self) {
        if self.refused() {
            return;
        }
        let target = self.screen.get_untracked().undo_target();
        self.open.update(|open| open.redo_in(target, browser::now()));
        self.write_soon(REST);
    }

    /// Whether there is a step back and one forward.
    pub(crate) fn can_go(self) -> (bool, bool) {
        let target = self.screen.get().undo_target();
        self.with(|open| open.can_step_in(target))
    }

    /// Keeps a version of the formula.
    pub(crate) fn save_version(self) -> u32 {
        if self.refused() {
            return 0;
        }
        let number = self.open.try_update(|open| open.save_version(browser::now())).unwrap_or(0);
        self.write_soon(Duration::ZERO);
        number
    }

    /// Gives a kept version of the formula a name.
    pub(crate) fn name_version(self, number: u32, name: String) {
        if !self.refused() {
            self.open.update(|open| open.name_version(number, name, browser::now()));
            self.write_soon(REST);
        }
    }

    /// Opens a document as the current one, after the one before is written.
    pub(crate) fn open(self, id: DocId) {
        spawn_local(async move {
            self.open_stored(id, Asked::ByTheMaker).await;
        });
    }

    /// Adds a document and opens it.
    pub(crate) fn add(self, document: Document) {
        if self.refused() {
            return;
        }
        spawn_local(async move {
            self.add_and_write(document).await;
        });
    }

    /// Whether the document is in the journal, if it could be opened: what was open before is kept first, or stays open.
    async fn add_and_write(self, document: Document) -> Option<bool> {
        if !self.put_away().await {
            return None;
        }
        // Nothing waits from here on, so nothing can be typed in between.
        let shelf_document = self.now(|open| open.shelf_document().clone());
        let nameless = document.state.formula.about.title.is_empty();
        let open = OpenDocument::new(browser::new_id(), document, shelf_document, browser::now());
        self.note_open(open.id());
        self.open.set(open);
        if nameless {
            // A name comes first; and whatever had the focus belonged to what was open before.
            browser::focus("title".to_owned());
        }
        Some(self.write().await)
    }

    /// Puts a document into the bin, or takes it out.
    pub(crate) fn bin(self, id: DocId, into: bool) {
        if self.refused() {
            return;
        }
        spawn_local(async move {
            if !self.put_away().await {
                return;
            }
            let mut moved = false;
            match put_into_bin(&*self.journal(), &LocalStorageMirror, &id, into.then(browser::now)).await {
                Binned::Done(damaged) => {
                    moved = true;
                    browser::tell_tabs(id.as_str());
                    if let Some(damaged) = damaged {
                        self.found_unreadable(page::RESCUED, damaged).await;
                    }
                    if into {
                        self.say(page::BINNED, Some(FollowUp::Restore(id.clone())));
                    }
                }
                Binned::Missing => self.say(storage_notices::NOT_HERE, None),
                Binned::Lost(damaged) => {
                    self.found_unreadable(page::LOST, damaged).await;
                }
                Binned::Conflict => self.say(storage_notices::BIN_CONFLICT, None),
                Binned::Failed(error) => self.say(&format!("{}{}", storage_notices::BIN_FAILED, error.0), None),
            }
            self.refresh_metas().await;
            if !moved {
                return;
            }
            let current = self.now(|open| open.id().clone());
            if into && current == id {
                let next = self.metas.with_untracked(|metas| {
                    metas.iter().find(|meta| meta.binned.is_none()).map(|meta| meta.id.clone())
                });
                match next {
                    Some(next) => {
                        self.open_stored(next, Asked::ByTheMaker).await;
                    }
                    None => self.add(Document::default()),
                }
            } else if !id.is_formula() {
                // A study: it opens again, or is closed.
                self.ask_lazy(LazyTask::Batch(id));
            } else if !into {
                self.open_stored(id, Asked::ByTheMaker).await;
            }
        });
    }

    /// Every document, read one by one, for an export of everything, and whether that is everything. What is on screen
    /// stands in the place of its stored copy: it may be all there is where nothing can be stored.
    pub(crate) async fn all_documents(self) -> (Vec<Document>, bool) {
        self.write().await;
        let journal = self.journal();
        let (mut ids, mut all) = match journal.metas().await {
            Ok(metas) => (metas.into_iter().filter(|meta| meta.binned.is_none()).map(|meta| meta.id).collect(), true),
            Err(_) => (LocalStorageMirror.ids(), false),
        };
        let shown = self.now(Clone::clone);
        let open = shown.id().clone();
        ids.retain(|id: &DocId| id.is_formula() && *id != open);
        let mut found = vec![shown];
        let owed = self.saving.writer.get_value().owed().into_iter().filter(|stored| stored.meta.id.is_formula());
        for stored in owed.filter(|stored| stored.meta.id != open) {
            ids.retain(|id| *id != stored.meta.id);
            found.extend(OpenDocument::open(&stored, Vec::new()));
        }
        for id in ids {
            match open_document::<OpenDocument>(&*journal, &LocalStorageMirror, &id).await {
                Opened::Whole(open) | Opened::Rescued(open, _) => found.push(open),
                Opened::Missing | Opened::Binned => {}
                // Not in the file: said, so that nobody takes it for a copy of everything.
                Opened::Newer(stored) => {
                    all = false;
                    self.read_only(Some(stored));
                }
                Opened::Lost(stored) => {
                    all = false;
                    self.found_unreadable(page::LOST, stored).await;
                }
            }
        }
        let mut documents = Vec::with_capacity(found.len());
        for open in found {
            let (document, whole) = self.with_records(&open).await;
            documents.push(document);
            all &= whole;
        }
        (documents, all)
    }
}
