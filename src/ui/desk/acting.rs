//! What views do.

use super::opening::Asked;
use super::{Desk, FollowUp, browser};
use crate::ui::browser::LocalEcho;
use hundred_parts::desk::{
    Action, Bench, Binned, DocId, Document, Echo, Journal, Made, Opened, Reopened, Screen, ShelfAction, open_document,
    put_into_bin,
};
use hundred_parts::facts::IngredientId;
use hundred_parts::words::{keeping, page};
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
        let made = self.bench.try_update(|bench| bench.act(action, browser::now())).unwrap_or(Made::Nothing);
        self.write_soon(REST);
        made
    }

    /// Ends typing in a field.
    pub(crate) fn rest(self) {
        let changed = self.bench.try_update_untracked(|bench| bench.rest(browser::now()));
        if changed == Some(true) {
            self.bench.notify();
            self.write_soon(REST);
        }
    }

    /// Changes the shelf.
    pub(crate) fn act_on_shelf(self, action: ShelfAction) -> Option<IngredientId> {
        if self.refused() {
            return None;
        }
        if self.now(|bench| action.is_too_much(bench.shelf())) {
            self.say(keeping::SHELF_FULL, None);
            return None;
        }
        let id = self.bench.try_update(|bench| bench.act_on_shelf(action, browser::now())).flatten();
        self.write_soon(REST);
        id
    }

    /// One step back: of the shelf while that is shown, else of the formula.
    pub(crate) fn undo(self) {
        if self.refused() {
            return;
        }
        let shelf = self.screen.get_untracked() == Screen::Shelf;
        self.bench.update(|bench| {
            if shelf {
                bench.undo_shelf(browser::now());
            } else {
                bench.undo(browser::now());
            }
        });
        self.write_soon(REST);
    }

    /// One step forward, like [`Self::undo`].
    pub(crate) fn redo(self) {
        if self.refused() {
            return;
        }
        let shelf = self.screen.get_untracked() == Screen::Shelf;
        self.bench.update(|bench| {
            if shelf {
                bench.redo_shelf(browser::now());
            } else {
                bench.redo(browser::now());
            }
        });
        self.write_soon(REST);
    }

    /// Whether there is a step back and one forward.
    pub(crate) fn can_go(self) -> (bool, bool) {
        let shelf = self.screen.get() == Screen::Shelf;
        self.with(|bench| match shelf {
            true => (bench.can_undo_shelf(), bench.can_redo_shelf()),
            false => (bench.can_undo(), bench.can_redo()),
        })
    }

    /// Keeps a version of the formula.
    pub(crate) fn save_version(self) -> u32 {
        if self.refused() {
            return 0;
        }
        let number = self.bench.try_update(|bench| bench.save_version(browser::now())).unwrap_or(0);
        self.write_soon(Duration::ZERO);
        number
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
        let cupboard = self.now(|bench| bench.cupboard().clone());
        let bench = Bench::new(browser::new_id(), document, cupboard, browser::now());
        self.note_open(bench.id());
        self.bench.set(bench);
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
            match put_into_bin(&*self.journal(), &LocalEcho, &id, into.then(browser::now)).await {
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
                Binned::Missing => self.say(keeping::NOT_HERE, None),
                Binned::Lost(damaged) => {
                    self.found_unreadable(page::LOST, damaged).await;
                }
                Binned::Conflict => self.say(keeping::BIN_CONFLICT, None),
                Binned::Failed(error) => self.say(&format!("{}{}", keeping::BIN_FAILED, error.0), None),
            }
            self.refresh_heads().await;
            if !moved {
                return;
            }
            let current = self.now(|bench| bench.id().clone());
            if into && current == id {
                let next = self.heads.with_untracked(|heads| {
                    heads.iter().find(|head| head.binned.is_none()).map(|head| head.id.clone())
                });
                match next {
                    Some(next) => {
                        self.open_stored(next, Asked::ByTheMaker).await;
                    }
                    None => self.add(Document::default()),
                }
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
        let (mut ids, mut all) = match journal.heads().await {
            Ok(heads) => (heads.into_iter().filter(|head| head.binned.is_none()).map(|head| head.id).collect(), true),
            Err(_) => (LocalEcho.ids(), false),
        };
        let (open, document) = self.now(|bench| (bench.id().clone(), bench.document().clone()));
        ids.retain(|id: &DocId| id.is_formula() && *id != open);
        let mut documents = vec![document];
        for slot in self.writer.get_value().owed().into_iter().filter(|slot| slot.head.id != open) {
            ids.retain(|id| *id != slot.head.id);
            documents.extend(Bench::open(&slot, Vec::new()).map(|bench| bench.document().clone()));
        }
        for id in ids {
            match open_document::<Bench>(&*journal, &LocalEcho, &id).await {
                Opened::Whole(bench) | Opened::Rescued(bench, _) => documents.push(bench.document().clone()),
                Opened::Missing | Opened::Binned => {}
                // Not in the file: said, so that nobody takes it for a copy of everything.
                Opened::Newer(slot) => {
                    all = false;
                    self.read_only(Some(slot));
                }
                Opened::Lost(slot) => {
                    all = false;
                    self.found_unreadable(page::LOST, slot).await;
                }
            }
        }
        (documents, all)
    }
}
