//! What views do.

use super::{Desk, browser};
use crate::ui::browser::LocalEcho;
use hundred_parts::desk::{
    Action, Bench, Cupboard, DocId, Document, Incoming, Journal, Kept, Made, Opened, Screen, ShelfAction, binned, keep,
    open_document,
};
use hundred_parts::facts::IngredientId;
use hundred_parts::words::page;
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
        self.bench.update_untracked(Bench::rest);
    }

    /// Changes the shelf.
    pub(crate) fn act_on_shelf(self, action: ShelfAction) -> Option<IngredientId> {
        if self.refused() {
            return None;
        }
        let id = self.bench.try_update(|bench| bench.act_on_shelf(action)).flatten();
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
                bench.undo_shelf();
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
                bench.redo_shelf();
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
            self.write().await;
            self.open_stored(id).await;
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

    /// True if the document is open now; what was open before is kept first, or stays open.
    async fn add_and_write(self, document: Document) -> bool {
        if !self.write().await {
            return false;
        }
        // Nothing waits from here on, so nothing can be typed in between.
        let cupboard = self.now(|bench| bench.cupboard().clone());
        let bench = Bench::new(browser::new_id(), document, cupboard, browser::now());
        browser::set_open_id(bench.id().as_str());
        self.bench.set(bench);
        self.write().await
    }

    /// Puts a document into the bin, or takes it out.
    pub(crate) fn bin(self, id: DocId, into: bool) {
        if self.refused() {
            return;
        }
        spawn_local(async move {
            self.write().await;
            let journal = self.journal();
            if let Ok(Some(slot)) = journal.read(&id).await {
                let commit = binned(&slot, into.then(browser::now));
                if keep(&*journal, &LocalEcho, &commit).await == Kept::Saved && into {
                    self.say(page::BINNED, false);
                }
            }
            self.refresh_heads().await;
            let current = self.now(|bench| bench.id().clone());
            if into && current == id {
                let next = self.heads.with_untracked(|heads| {
                    heads.iter().find(|head| head.binned.is_none()).map(|head| head.id.clone())
                });
                match next {
                    Some(next) => self.open_stored(next).await,
                    None => self.add(Document::default()),
                }
            } else if !into {
                self.open_stored(id).await;
            }
        });
    }

    /// Every document, read one by one, for an export of everything.
    pub(crate) async fn all_documents(self) -> Vec<Document> {
        self.write().await;
        let journal = self.journal();
        let heads = journal.heads().await.unwrap_or_default();
        let mut documents = Vec::new();
        for head in heads.into_iter().filter(|head| head.id.is_formula() && head.binned.is_none()) {
            match open_document(&*journal, &LocalEcho, &head.id, Cupboard::default()).await {
                Opened::Whole(bench) | Opened::Rescued { bench, .. } => documents.push(bench.document().clone()),
                Opened::Missing | Opened::Binned => {}
                // Not in the file: said, so that nobody takes it for a copy of everything.
                Opened::Newer(slot) => self.read_only(Some(slot)),
                Opened::Lost(slot) => self.found_unreadable(page::LOST, slot),
            }
        }
        documents
    }

    /// Adds what came from outside: shelf entries that are not here yet, and every document as a new one.
    pub(crate) fn take(self, incoming: &Incoming) {
        if self.refused() {
            return;
        }
        self.bench.update(|bench| bench.take_shelf(&incoming.shelf));
        let documents = incoming.documents.clone();
        spawn_local(async move {
            if documents.is_empty() {
                self.write().await;
            }
            for document in documents {
                if !self.add_and_write(document).await {
                    break;
                }
            }
        });
    }
}
