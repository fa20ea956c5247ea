//! Starting, the address, and finding documents again.

use super::storage_notices::kept_count;
use super::writing::AGAIN;
use super::{CameIn, Desk, FormulaPage, LazyChunk, LazyState, LazyTask, Saved, Saving, StorageSignals, browser};
use crate::ui::browser::{IdbJournal, LocalStorageMirror};
use hundred_parts::desk::{
    Arrival, DocId, DocumentKind, DocumentMeta, Journal, LinkProblem, LoadGuard, LocalMirror, OpenDocument, Opened,
    Persist, Reopen, Screen, ShelfDocument, StoredDocument, decode, find_documents, open_document,
};
use hundred_parts::quantity::sort_by;
use hundred_parts::words::{page, storage_notices};
use leptos::prelude::*;
use std::rc::Rc;
use std::time::Duration;
use wasm_bindgen_futures::spawn_local;

/// The document that was open last, from the quick copy; on a first visit the worked example.
pub(crate) fn first_document() -> OpenDocument {
    let whole = |id: &DocId| LocalStorageMirror.read(id).filter(StoredDocument::is_whole);
    let shelf_document =
        whole(&DocId::shelf()).and_then(|stored| ShelfDocument::open(&stored, Vec::new())).unwrap_or_default();
    let last = browser::open_here().or_else(|| browser::preference("open")).map(DocId::from);
    match last.and_then(|id| whole(&id)).and_then(|stored| OpenDocument::open(&stored, Vec::new())) {
        Some(open) => open.beside(shelf_document),
        None => OpenDocument::example(browser::new_id(), shelf_document, browser::now()),
    }
}

/// The note of the journal that names the open formula: local storage may lose the last seconds when a browser dies.
const OPEN: &str = "open";

/// Why a formula is opened.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Asked {
    /// It was chosen: if it is not there, that is said, and what was open is put away for it.
    ByTheMaker,
    /// The page wants to show it: not in the place of something that was typed, and without a word if it is not there.
    ByThePage,
}

impl Desk {
    /// Shows a document at once, then looks into the journal.
    pub(crate) fn start(chunk: LazyChunk, open: OpenDocument) -> Self {
        let open = RwSignal::new(open);
        let desk = Self {
            open,
            masses: Memo::new(move |_| open.with(OpenDocument::masses)),
            derived: RwSignal::new(None),
            recomputing: RwSignal::new(true),
            lazy: RwSignal::new(LazyState::Coming),
            chunk,
            metas: RwSignal::new(Vec::new()),
            screen: RwSignal::new(Screen::at(&browser::fragment())),
            overlay: RwSignal::new(None),
            shown_record: RwSignal::new(None),
            saved: RwSignal::new(Saved::Soon),
            toast: RwSignal::new(None),
            came_in: RwSignal::new(CameIn::default()),
            ticks_put_back: RwSignal::new(false),
            batch_noted: RwSignal::new(false),
            update: RwSignal::new(browser::root_says("data-update")),
            studies_came: RwSignal::new(false),
            importing: RwSignal::new(None),
            formula_page: FormulaPage::new(),
            notices: StorageSignals::new(),
            sign: browser::decimal_sign(),
            journal: StoredValue::new_local(Rc::new(IdbJournal::default())),
            saving: Saving::new(),
        };
        desk.listen();
        browser::offer_rescue(move || desk.rescue());
        desk.keep_recomputed();
        desk.let_lines_in();
        spawn_local(async move {
            desk.look_into_the_journal().await;
            desk.saving.looked.set(true);
        });
        spawn_local(async move { desk.notices.promised.set(browser::persisted().await) });
        desk
    }

    fn listen(self) {
        let follow = move || {
            self.ask_lazy(LazyTask::FollowHistory);
        };
        browser::on_window("popstate", follow);
        browser::on_window("hashchange", move || {
            follow();
            self.read_address();
        });
        browser::on_window("resize", move || {
            for (known, now) in
                [(self.formula_page.narrow, browser::is_narrow()), (self.formula_page.wide, browser::is_wide())]
            {
                if known.get_untracked() != now {
                    known.set(now);
                }
            }
        });
        browser::on_window("pagehide", move || self.write_at_once());
        browser::on_window("visibilitychange", move || {
            if browser::is_hidden() {
                self.write_at_once();
            }
        });
        browser::on_window("storage", move || self.notices.backup.set(kept_count()));
        browser::on_window("hp-update-ready", move || self.update.set(true));
        browser::on_window("hp-offline-ready", move || self.say(page::OFFLINE_READY, None));
        // A page that the browser had put aside whole comes back as it was, and another tab may have written since.
        browser::on_return(move || {
            spawn_local(async move {
                self.adopt_shelf().await;
                self.another_tab_wrote(self.now(|open| open.id().clone())).await;
            });
        });
        browser::hear(move |id| spawn_local(self.another_tab_wrote(DocId::from(id))));
        self.read_address();
    }

    /// Goes to the place that the address names, or opens what a link in it holds.
    pub(super) fn read_address(self) {
        let fragment = browser::fragment();
        if fragment.is_empty() || fragment.starts_with("#/") {
            let (from, to) = (self.screen.get_untracked(), Screen::at(&fragment));
            if from == to {
                return;
            }
            // Each place keeps how far it was scrolled, and begins at its top.
            browser::note_scroll(from.address());
            self.screen.set(to);
            browser::scroll_back(to.address());
        } else {
            // Until the second part of the program is there, the link stays in the address.
            self.ask_lazy(LazyTask::Link(fragment));
        }
    }

    /// Shows what a link holds, and takes it out of the address. Only for the second part of the program.
    pub(crate) fn open_link(self, fragment: &str) {
        let refused = |why: &str| self.take_up(Arrival::Refused(format!("{}{why}", page::FROM_LINK_BAD)));
        match decode(fragment) {
            Ok(incoming) => self.take_up(Arrival::Documents(incoming)),
            Err(LinkProblem::NotALink) => {}
            Err(LinkProblem::Damaged) => refused(page::LINK_CUT),
            Err(LinkProblem::TooLong) => refused(page::LINK_TOO_LONG),
            Err(LinkProblem::Newer) => refused(page::LINK_NEWER),
            Err(LinkProblem::Unreadable(problem)) => refused(&problem.to_string()),
        }
        browser::replace_fragment(Screen::Formula.address());
        self.screen.set(Screen::Formula);
    }

    /// The newest whole revision wins, unless the maker has begun to type meanwhile.
    async fn look_into_the_journal(self) {
        self.adopt_shelf().await;
        if self.journal().is_newer() {
            return self.read_only(None);
        }
        self.refresh_metas().await;
        self.open_last().await;
        if browser::stopped() {
            // It says so already.
        } else if !self.saving.answered.get_value() {
            self.saved.set(Saved::No(page::ONLY_MIRROR.to_owned()));
            set_timeout(move || spawn_local(self.look_into_the_journal()), AGAIN);
        } else if self.now(OpenDocument::is_dirty) {
            self.write_soon(Duration::ZERO);
        } else {
            self.saved.set(Saved::Yes);
        }
    }

    /// Opens the formula that was open last: in this tab, else in any, else the one that was changed last.
    async fn open_last(self) {
        let noted = self.journal().note(OPEN).await.ok().flatten();
        let noted = noted.and_then(|text| serde_json::from_str(&text).ok());
        let last = || {
            self.metas.with_untracked(|metas| {
                find_documents(metas, "", false).first().map(|meta| meta.id.as_str().to_owned())
            })
        };
        let asked = [browser::open_here(), noted, browser::preference("open"), last()];
        for id in asked.into_iter().flatten() {
            if self.open_stored(DocId::from(id), Asked::ByThePage).await {
                return;
            }
        }
    }

    /// Notes which formula is open.
    pub(super) fn note_open(self, id: &DocId) {
        browser::set_open_id(id.as_str());
        if self.saving.noted.get_value().as_ref() == Some(id) {
            return;
        }
        self.saving.noted.set_value(Some(id.clone()));
        let (journal, text) = (self.journal(), serde_json::json!(id.as_str()).to_string());
        // If it fails, the quick copy of it is there all the same.
        spawn_local(async move {
            let _ = journal.set_note(OPEN, &text).await;
        });
    }

    /// Puts the stored shelf in the place of the one that is open, unless that was changed meanwhile.
    async fn adopt_shelf(self) {
        let id = DocId::shelf();
        let guard = self.now(|open| LoadGuard::of(open.shelf_document()));
        let mut stored = match open_document::<ShelfDocument>(&*self.journal(), &LocalStorageMirror, &id).await {
            Opened::Missing | Opened::Binned => return,
            Opened::Newer(stored) => return self.read_only(Some(stored)),
            Opened::Whole(shelf_document) => shelf_document,
            Opened::Rescued(mut shelf_document, bad) => {
                if !self.found_unreadable(page::SHELF_DAMAGED, bad).await {
                    shelf_document.tracking_mut().hold();
                }
                shelf_document
            }
            Opened::Lost(bad) => {
                let shelf_document = ShelfDocument::instead_of(&bad);
                self.found_unreadable(page::SHELF_LOST, bad).await;
                shelf_document
            }
        };
        if stored.tracking().is_held() {
            self.hold();
        }
        let writing = self.saving.writer.get_value().is_writing();
        let gives_way = self.now(|open| guard.gives_way(open.shelf_document(), &id, writing));
        if !gives_way && writing {
            return;
        }
        if self.now(|open| open.shelf_document().tracking().is_held()) && !gives_way {
            stored.tracking_mut().hold();
        }
        let changed = self.open.try_update(|open| open.adopt_shelf(stored, gives_way)).flatten();
        if let Some(changed) = changed {
            self.tell_of_shelf(Box::new(changed));
        }
        if self.now(|open| open.shelf_document().is_dirty()) {
            self.write_soon(Duration::ZERO);
        }
    }

    /// Another tab wrote something: show it, unless it is being changed here too. Then the next write finds out.
    async fn another_tab_wrote(self, id: DocId) {
        match id.kind() {
            DocumentKind::Formula => {}
            DocumentKind::Shelf => return self.adopt_shelf().await,
            DocumentKind::Batch | DocumentKind::Study => {
                if self.now(|open| open.is_open_record(&id)) {
                    self.ask_lazy(LazyTask::Batch(id));
                }
                return;
            }
            DocumentKind::Unknown => return,
        }
        self.refresh_metas().await;
        if let Ok(Some(stored)) = self.journal().read(&id).await
            && stored.is_newer()
        {
            return self.read_only(Some(stored));
        }
        if self.now(|open| *open.id() == id && !open.is_dirty()) {
            self.open_stored(id, Asked::ByThePage).await;
        }
    }

    /// Opens a stored formula. False if there is none of this id.
    pub(super) async fn open_stored(self, id: DocId, asked: Asked) -> bool {
        let journal = self.journal();
        let guard = self.now(LoadGuard::of);
        let opened = match open_document::<OpenDocument>(&*journal, &LocalStorageMirror, &id).await {
            found @ (Opened::Missing | Opened::Binned) => {
                if asked == Asked::ByTheMaker && self.now(|open| *open.id() != id) {
                    let binned = matches!(found, Opened::Binned);
                    self.say(if binned { storage_notices::IN_THE_BIN } else { storage_notices::NOT_HERE }, None);
                }
                self.refresh_metas().await;
                return false;
            }
            Opened::Whole(open) => open,
            Opened::Rescued(mut open, bad) => {
                if !self.found_unreadable(page::RESCUED, bad).await {
                    open.tracking_mut().hold();
                    self.hold();
                }
                open
            }
            Opened::Newer(stored) => {
                self.read_only(Some(stored));
                return true;
            }
            Opened::Lost(stored) => {
                self.found_unreadable(page::LOST, stored).await;
                return true;
            }
        };
        // What was typed into another document while this one was read is kept before it is put away.
        if self.now(|open| *open.id() != id && !open.may_go()) && (asked == Asked::ByThePage || !self.put_away().await)
        {
            return true;
        }
        let writing = self.saving.writer.get_value().is_writing();
        let (gives_way, shelf_document) =
            self.now(|open| (guard.gives_way(open, &id, writing), open.shelf_document().clone()));
        if gives_way {
            // The shelf may have changed meanwhile too.
            self.open.set(opened.beside(shelf_document));
            self.note_open(&id);
        } else if !writing {
            self.open.update(|open| open.remember(opened));
        }
        true
    }

    pub(super) async fn refresh_metas(self) {
        // What a journal that does not answer has is unknown, but what the quick copies have is there.
        let metas = self.journal().metas().await;
        if metas.is_ok() {
            self.saving.answered.set_value(true);
        }
        if metas.is_ok() || self.metas.with_untracked(Vec::is_empty) {
            self.list(metas.unwrap_or_default());
        }
    }

    fn list(self, mut metas: Vec<DocumentMeta>) {
        // What the journal could not take is in the quick copy alone.
        let unknown = |id: &DocId| metas.iter().all(|meta| meta.id != *id);
        let copies: Vec<_> = LocalStorageMirror
            .ids()
            .into_iter()
            .filter(unknown)
            .filter_map(|id| LocalStorageMirror.read(&id))
            .collect();
        metas.extend(copies.into_iter().filter(StoredDocument::is_whole).map(|stored| stored.meta));
        metas.retain(|meta| meta.id.is_formula());
        sort_by(&mut metas, |a, b| b.changed.cmp(&a.changed));
        self.metas.set(metas);
    }
}
