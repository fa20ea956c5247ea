//! Starting, the address, and finding documents again.

use super::keeping::kept_count;
use super::{Arrival, Desk, Saved, browser};
use crate::ui::browser::{IdbJournal, LocalEcho};
use crate::ui::later::{self, Errand, Later};
use hundred_parts::desk::{
    Bench, Cupboard, DocId, Document, Echo, Head, Incoming, Journal, LinkProblem, Opened, Preview, Screen, Seen, Slot,
    Writer, decode, empty_bin, find_heads, newest, open_document, take_strays,
};
use hundred_parts::quantity::sort_by;
use hundred_parts::words::{keeping, page};
use leptos::prelude::*;
use std::rc::Rc;
use std::sync::Arc;
use std::time::Duration;
use wasm_bindgen_futures::spawn_local;

fn first_document() -> Bench {
    let whole = |id: &DocId| LocalEcho.read(id).filter(Slot::is_whole);
    let cupboard = whole(&DocId::shelf()).and_then(|slot| Cupboard::open(&slot, Vec::new())).unwrap_or_default();
    browser::open_id()
        .and_then(|id| whole(&DocId::from(id)))
        .and_then(|slot| Bench::open(&slot, Vec::new(), cupboard.clone()))
        .unwrap_or_else(|| Bench::example(browser::new_id(), cupboard, browser::now()))
}

impl Desk {
    /// Opens the last document from the quick copy at once, then looks into the journal.
    pub(crate) fn start() -> Self {
        let bench = RwSignal::new(first_document());
        let desk = Self {
            bench,
            masses: Memo::new(move |_| bench.with(Bench::masses)),
            derived: RwSignal::new(None),
            settling: RwSignal::new(true),
            later: RwSignal::new(Later::Coming),
            heads: RwSignal::new(Vec::new()),
            screen: RwSignal::new(Screen::at(&browser::fragment())),
            saved: RwSignal::new(Saved::Soon),
            toast: RwSignal::new(None),
            arrival: RwSignal::new(None),
            update: RwSignal::new(browser::root_says("data-update")),
            unreadable: RwSignal::new(None),
            backup: RwSignal::new(kept_count()),
            promised: RwSignal::new(None),
            in_a_tab_of_ios: RwSignal::new(browser::preference("ios").is_none() && browser::in_a_tab_of_ios()),
            lit: RwSignal::new(None),
            swap: RwSignal::new(None),
            drop: RwSignal::new(None),
            narrow: RwSignal::new(browser::is_narrow()),
            sign: browser::decimal_sign(),
            journal: StoredValue::new_local(Rc::new(IdbJournal::default())),
            writer: StoredValue::new_local(Rc::new(Writer::default())),
            rest: StoredValue::new_local(browser::Rest::default()),
            looked: StoredValue::new(false),
            again: StoredValue::new(None),
        };
        desk.listen();
        browser::offer_rescue(move || desk.rescue());
        desk.keep_settled();
        desk.fetch_later();
        spawn_local(async move {
            desk.look_into_the_journal().await;
            desk.looked.set_value(true);
        });
        spawn_local(async move { desk.promised.set(browser::persisted().await) });
        desk
    }

    fn listen(self) {
        browser::on_window("hashchange", move || self.read_address());
        browser::on_window("resize", move || {
            if self.narrow.get_untracked() != browser::is_narrow() {
                self.narrow.set(browser::is_narrow());
            }
        });
        browser::on_window("pagehide", move || self.write_at_once());
        browser::on_window("visibilitychange", move || {
            if browser::is_hidden() {
                self.write_at_once();
            }
        });
        browser::on_window("storage", move || self.backup.set(kept_count()));
        browser::on_window("hp-update-ready", move || self.update.set(true));
        browser::on_window("hp-offline-ready", move || self.say(page::OFFLINE_READY, false));
        browser::hear(move |id| spawn_local(self.another_tab_wrote(DocId::from(id))));
        self.read_address();
    }

    /// Goes to the place that the address names, or opens what a link in it holds.
    pub(super) fn read_address(self) {
        let fragment = browser::fragment();
        if fragment.is_empty() || fragment.starts_with("#/") {
            self.screen.set(Screen::at(&fragment));
        } else {
            // Until the second part of the program is there, the link stays in the address.
            later::send(self, Errand::Link(fragment));
        }
    }

    /// Shows what a link holds, and takes it out of the address. Only for the second part of the program.
    pub(crate) fn open_link(self, fragment: &str) {
        let refused = |why: &str| self.arrival.set(Some(Arrival::Refused(format!("{}{why}", page::FROM_LINK_BAD))));
        match decode(fragment) {
            Ok(incoming) => self.look_at(incoming),
            Err(LinkProblem::NotALink) => {}
            Err(LinkProblem::Damaged) => refused(page::LINK_CUT),
            Err(LinkProblem::TooLong) => refused(page::LINK_TOO_LONG),
            Err(LinkProblem::Newer) => refused(page::LINK_NEWER),
            Err(LinkProblem::Unreadable(problem)) => refused(&problem.to_string()),
        }
        browser::replace_fragment(Screen::Formula.address());
        self.screen.set(Screen::Formula);
    }

    /// Shows what came from outside beside what is here under the same titles.
    pub(crate) fn look_at(self, incoming: Incoming) {
        spawn_local(async move {
            let mine = self.of_titles(&incoming).await;
            let shelf = self.now(|bench| bench.shelf().clone());
            self.arrival.set(Some(Arrival::Documents(Arc::new(Preview::new(incoming, &mine, &shelf)))));
        });
    }

    /// The maker's documents that have a title of those that came in.
    async fn of_titles(self, incoming: &Incoming) -> Vec<Document> {
        let title = |document: &Document| document.state.formula.about.title.clone();
        let titles: Vec<String> = incoming.documents.iter().map(title).collect();
        let journal = self.journal();
        let mut mine = vec![self.now(|bench| bench.document().clone())];
        for head in journal.heads().await.unwrap_or_default() {
            let open = self.now(|bench| *bench.id() == head.id);
            if open || head.binned.is_some() || !titles.contains(&head.title) {
                continue;
            }
            if let Ok(Some(slot)) = journal.read(&head.id).await {
                let bench = Bench::open(&slot, Vec::new(), Cupboard::default());
                mine.extend(bench.map(|bench| bench.document().clone()));
            }
        }
        mine
    }

    /// The newest whole revision wins, unless the maker has begun to type meanwhile.
    async fn look_into_the_journal(self) {
        self.adopt_shelf().await;
        if self.journal().is_newer() {
            return self.read_only(None);
        }
        self.purge_and_list().await;
        // The preference is in local storage, which a browser that dies may lose: then the last changed formula opens.
        let last =
            || self.heads.with_untracked(|heads| find_heads(heads, "", false).first().map(|head| head.id.clone()));
        if let Some(id) = browser::open_id().map(DocId::from).or_else(last) {
            self.open_stored(id).await;
        }
        if browser::stopped() {
            // It says so already.
        } else if self.now(Bench::is_dirty) {
            self.write_soon(Duration::ZERO);
        } else {
            self.saved.set(Saved::Yes);
        }
    }

    async fn adopt_shelf(self) {
        let journal = self.journal();
        let id = DocId::shelf();
        let journal_has = journal.read(&id).await.ok().flatten();
        if let Some(stored) = journal_has.clone().filter(Slot::is_newer) {
            return self.read_only(Some(stored));
        }
        let found = newest(&*journal, &LocalEcho, &id).await;
        if let Some(damaged) = journal_has.clone().filter(|stored| !stored.is_whole()) {
            // The next change of the shelf is joined with what can be read of it.
            self.found_unreadable(page::SHELF_DAMAGED, damaged);
        }
        let Some((slot, journals)) = found else { return };
        let steps = journal.steps(&id).await.unwrap_or_default();
        let Some(cupboard) = Cupboard::open(&slot, steps) else {
            return self.found_unreadable(page::SHELF_DAMAGED, slot);
        };
        let cupboard = if journals { cupboard } else { cupboard.ahead_of(journal_has.as_ref()) };
        self.bench.update(|bench| bench.adopt_cupboard(cupboard));
        if !journals {
            self.write_soon(Duration::ZERO);
        }
    }

    /// Another tab wrote something: show it, unless it is being changed here too. Then the next write finds out.
    async fn another_tab_wrote(self, id: DocId) {
        if !id.is_formula() {
            self.adopt_shelf().await;
            return;
        }
        self.refresh_heads().await;
        if let Ok(Some(slot)) = self.journal().read(&id).await
            && slot.is_newer()
        {
            return self.read_only(Some(slot));
        }
        if self.now(|bench| *bench.id() == id && !bench.is_dirty()) {
            self.open_stored(id).await;
        }
    }

    pub(super) async fn open_stored(self, id: DocId) {
        let journal = self.journal();
        let (cupboard, seen) = self.now(|bench| (bench.cupboard().clone(), Seen::of(bench)));
        let opened = match open_document(&*journal, &LocalEcho, &id, cupboard).await {
            Opened::Missing | Opened::Binned => {
                if self.now(|bench| *bench.id() != id) {
                    self.say(keeping::NOT_HERE, false);
                }
                return self.refresh_heads().await;
            }
            Opened::Whole(bench) => bench,
            Opened::Rescued { bench, bad } => {
                self.found_unreadable(page::RESCUED, bad);
                bench
            }
            Opened::Newer(slot) => return self.read_only(Some(slot)),
            Opened::Lost(slot) => return self.found_unreadable(page::LOST, slot),
        };
        // What was typed into another document while this one was read is kept before it is put away.
        if self.now(|bench| *bench.id() != id && !bench.may_go()) && !self.put_away().await {
            return;
        }
        let writing = self.writer.get_value().is_writing();
        let (gives_way, cupboard) = self.now(|bench| (seen.gives_way(bench, &id, writing), bench.cupboard().clone()));
        if gives_way {
            // The shelf may have changed meanwhile too.
            self.bench.set(opened.beside(cupboard));
            browser::set_open_id(id.as_str());
        } else if !writing {
            self.bench.update(|bench| bench.remember(*opened));
        }
    }

    /// Reads the list of documents: without those that have been in the bin for too long, which go for good, and with those of
    /// which only the quick copy is left.
    async fn purge_and_list(self) {
        let journal = self.journal();
        let Ok(heads) = journal.heads().await else { return self.list(Vec::new()) };
        empty_bin(&*journal, &LocalEcho, &heads, browser::now()).await;
        take_strays(&*journal, &LocalEcho, &heads).await;
        self.refresh_heads().await;
    }

    pub(super) async fn refresh_heads(self) {
        if let Ok(heads) = self.journal().heads().await {
            self.list(heads);
        }
    }

    fn list(self, mut heads: Vec<Head>) {
        // What the journal could not take is in the quick copy alone.
        let unknown = |id: &DocId| heads.iter().all(|head| head.id != *id);
        let copies: Vec<_> = LocalEcho.ids().into_iter().filter(unknown).filter_map(|id| LocalEcho.read(&id)).collect();
        heads.extend(copies.into_iter().filter(Slot::is_whole).map(|slot| slot.head));
        heads.retain(|head| head.id.is_formula());
        sort_by(&mut heads, |a, b| b.changed.cmp(&a.changed));
        self.heads.set(heads);
    }
}
