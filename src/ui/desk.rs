//! The one owner of signals: the open bench, the list of documents, and what is being said to the maker.

use super::browser::{self, IdbJournal, LocalEcho};
use hundred_parts::desk::{
    Action, Bench, Derived, DocId, Document, Echo, Head, Incoming, Journal, Kept, Made, Moment, Screen, ShelfAction,
    Slot, binned, demo, keep, newest, stored_shelf,
};
use hundred_parts::facts::{IngredientId, Shelf};
use hundred_parts::words::{DecimalSign, page};
use leptos::leptos_dom::helpers::TimeoutHandle;
use leptos::prelude::*;
use std::cell::Cell;
use std::rc::Rc;
use std::sync::Arc;
use std::time::Duration;
use wasm_bindgen_futures::spawn_local;

thread_local! {
    static STOPPED: Cell<bool> = const { Cell::new(false) };
}

/// From now on nothing is written: after a panic the state in memory cannot be trusted.
pub(crate) fn stop_writing() {
    STOPPED.with(|stopped| stopped.set(true));
}

/// How long typing may rest before it is written.
const REST: Duration = Duration::from_millis(300);

/// Whether the work is kept.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Saved {
    /// The journal has everything.
    Yes,
    /// A write is on its way.
    Soon,
    /// Something went wrong; the sentence says what.
    No(String),
}

/// Something said for a short while.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Toast {
    pub(crate) text: String,
    pub(crate) undo: bool,
}

/// What came from outside and waits for the maker's word.
#[derive(Clone)]
pub(crate) enum Arrival {
    /// Documents, to be looked at.
    Documents(Arc<Incoming>),
    /// Why there are none.
    Refused(String),
}

/// A handle to everything; cheap to copy.
#[derive(Clone, Copy)]
pub(crate) struct Desk {
    bench: RwSignal<Bench>,
    derived: Memo<Derived>,
    heads: RwSignal<Vec<Head>>,
    pub(crate) screen: RwSignal<Screen>,
    pub(crate) saved: RwSignal<Saved>,
    pub(crate) toast: RwSignal<Option<Toast>>,
    pub(crate) arrival: RwSignal<Option<Arrival>>,
    pub(crate) update: RwSignal<bool>,
    pub(crate) lit: RwSignal<Option<hundred_parts::formula::LineId>>,
    pub(crate) sign: DecimalSign,
    journal: StoredValue<Rc<IdbJournal>, LocalStorage>,
    timer: StoredValue<Option<TimeoutHandle>>,
    writing: StoredValue<bool>,
}

/// The desk of this page.
pub(crate) fn use_desk() -> Desk {
    expect_context()
}

fn first_document() -> Bench {
    let open = browser::preference("open").map(DocId::from);
    let shelf =
        LocalEcho.read(&DocId::shelf()).filter(Slot::is_whole).map(|slot| stored_shelf(&slot)).unwrap_or_default();
    open.and_then(|id| LocalEcho.read(&id))
        .filter(Slot::is_whole)
        .and_then(|slot| Bench::open(&slot, Vec::new(), shelf.clone()))
        .unwrap_or_else(|| Bench::new(browser::new_id(), demo(), shelf, browser::now()))
}

impl Desk {
    /// Opens the last document from the quick copy at once, then looks into the journal.
    pub(crate) fn start() -> Self {
        let bench = RwSignal::new(first_document());
        let derived = Memo::new(move |_| bench.with(Bench::derive));
        let desk = Self {
            bench,
            derived,
            heads: RwSignal::new(Vec::new()),
            screen: RwSignal::new(Screen::at(&browser::fragment())),
            saved: RwSignal::new(Saved::Soon),
            toast: RwSignal::new(None),
            arrival: RwSignal::new(None),
            update: RwSignal::new(false),
            lit: RwSignal::new(None),
            sign: browser::decimal_sign(),
            journal: StoredValue::new_local(Rc::new(IdbJournal::default())),
            timer: StoredValue::new(None),
            writing: StoredValue::new(false),
        };
        provide_context(desk);
        desk.listen();
        spawn_local(desk.look_into_the_journal());
        desk
    }

    fn listen(self) {
        browser::on_window("hashchange", move || self.read_address());
        browser::on_window("pagehide", move || self.write_now());
        browser::on_window("visibilitychange", move || {
            if browser::is_hidden() {
                self.write_now();
            }
        });
        browser::on_window("hp-update-ready", move || self.update.set(true));
        browser::on_window("hp-offline-ready", move || self.say(page::OFFLINE_READY, false));
        self.read_address();
    }

    /// Goes to the place that the address names, or opens what a link in it holds.
    fn read_address(self) {
        use hundred_parts::desk::{LinkProblem, decode};
        let fragment = browser::fragment();
        if fragment.is_empty() || fragment.starts_with("#/") {
            self.screen.set(Screen::at(&fragment));
            return;
        }
        let refused = |why: &str| Some(Arrival::Refused(format!("{}{why}", page::FROM_LINK_BAD)));
        self.arrival.set(match decode(&fragment) {
            Ok(incoming) => Some(Arrival::Documents(Arc::new(incoming))),
            Err(LinkProblem::NotALink) => None,
            Err(LinkProblem::Damaged) => refused(page::LINK_CUT),
            Err(LinkProblem::TooLong) => refused(page::LINK_TOO_LONG),
            Err(LinkProblem::Newer) => refused(page::LINK_NEWER),
            Err(LinkProblem::Unreadable(problem)) => refused(&problem.to_string()),
        });
        browser::replace_fragment(Screen::Formula.address());
        self.screen.set(Screen::Formula);
    }

    fn journal(self) -> Rc<IdbJournal> {
        self.journal.get_value()
    }

    /// The newest whole revision wins, unless the maker has begun to type meanwhile.
    async fn look_into_the_journal(self) {
        let journal = self.journal();
        if let Ok(Some(slot)) = journal.read(&DocId::shelf()).await
            && slot.is_whole()
        {
            self.bench.update(|bench| bench.adopt_shelf(stored_shelf(&slot), Some(slot.head.rev)));
        }
        let wanted = browser::preference("open").map(DocId::from);
        if let Some(id) = wanted {
            self.open_stored(id).await;
        }
        self.purge().await;
        self.refresh_heads().await;
        if self.bench.with_untracked(Bench::is_dirty) {
            self.write_soon(Duration::ZERO);
        } else {
            self.saved.set(Saved::Yes);
        }
    }

    async fn open_stored(self, id: DocId) {
        let journal = self.journal();
        let Some((slot, from_journal)) = newest(&*journal, &LocalEcho, &id).await else { return };
        if slot.head.binned.is_some() {
            return;
        }
        let steps = journal.steps(&id).await.unwrap_or_default();
        let (shelf, shelf_rev) = self.bench.with_untracked(|bench| (bench.shelf().clone(), bench.shelf_rev()));
        let Some(mut opened) = Bench::open(&slot, steps, shelf.clone()) else {
            self.say(page::DAMAGED, false);
            return;
        };
        opened.adopt_shelf(shelf, shelf_rev);
        if !from_journal {
            // The echo is ahead: the journal missed a write, so it is written again over what the journal has.
            let rev = journal.read(&id).await.ok().flatten().map(|slot| slot.head.rev);
            opened.rebase(rev);
        }
        // What was typed into another document while this one was read is kept before it is put away.
        while self.bench.with_untracked(|bench| bench.is_dirty() && *bench.id() != id && bench.is_stored()) {
            if !self.write().await {
                return;
            }
        }
        let typing = self.bench.with_untracked(|bench| bench.is_dirty() && *bench.id() == id);
        if !typing {
            self.bench.set(opened);
        }
        browser::set_preference("open", id.as_str());
    }

    async fn purge(self) {
        let journal = self.journal();
        for head in journal.heads().await.unwrap_or_default().iter().filter(|head| head.expired(browser::now())) {
            if journal.remove(&head.id).await.is_ok() {
                LocalEcho.remove(&head.id);
            }
        }
    }

    async fn refresh_heads(self) {
        if let Ok(mut heads) = self.journal().heads().await {
            heads.retain(|head| head.id.is_formula());
            heads.sort_by_key(|head| -head.changed);
            self.heads.set(heads);
        }
    }

    // What views read.

    /// Reads the open bench, tracked.
    pub(crate) fn with<T>(self, read: impl FnOnce(&Bench) -> T) -> T {
        self.bench.with(read)
    }

    /// Reads what follows from it, tracked.
    pub(crate) fn derived<T>(self, read: impl FnOnce(&Derived) -> T) -> T {
        self.derived.with(read)
    }

    /// Reads the list of documents, tracked.
    pub(crate) fn heads<T>(self, read: impl FnOnce(&[Head]) -> T) -> T {
        self.heads.with(|heads| read(heads))
    }

    // What views do.

    /// Makes a change.
    pub(crate) fn act(self, action: Action) -> Made {
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
        let id = self.bench.try_update(|bench| bench.act_on_shelf(action)).flatten();
        self.write_soon(REST);
        id
    }

    /// One step back.
    pub(crate) fn undo(self) {
        self.bench.update(|bench| {
            bench.undo(browser::now());
        });
        self.write_soon(REST);
    }

    /// One step forward.
    pub(crate) fn redo(self) {
        self.bench.update(|bench| {
            bench.redo(browser::now());
        });
        self.write_soon(REST);
    }

    /// Keeps a version of the formula.
    pub(crate) fn save_version(self) -> u32 {
        let number = self.bench.try_update(|bench| bench.save_version(browser::now())).unwrap_or(0);
        self.write_soon(Duration::ZERO);
        number
    }

    /// Says something for a short while.
    pub(crate) fn say(self, text: &str, undo: bool) {
        let toast = Toast { text: text.to_owned(), undo };
        self.toast.set(Some(toast.clone()));
        set_timeout(
            move || {
                if self.toast.with_untracked(|shown| shown.as_ref() == Some(&toast)) {
                    self.toast.set(None);
                }
            },
            Duration::from_secs(8),
        );
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
        let (shelf, rev) = self.bench.with_untracked(|bench| (bench.shelf().clone(), bench.shelf_rev()));
        let mut bench = Bench::new(browser::new_id(), document, shelf.clone(), browser::now());
        bench.adopt_shelf(shelf, rev);
        browser::set_preference("open", bench.id().as_str());
        self.bench.set(bench);
        self.write().await
    }

    /// Puts a document into the bin, or takes it out.
    pub(crate) fn bin(self, id: DocId, into: bool) {
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
            let current = self.bench.with_untracked(|bench| bench.id().clone());
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
        let mut documents = Vec::new();
        for head in journal
            .heads()
            .await
            .unwrap_or_default()
            .into_iter()
            .filter(|head| head.id.is_formula() && head.binned.is_none())
        {
            if let Ok(Some(slot)) = journal.read(&head.id).await {
                documents
                    .extend(Bench::open(&slot, Vec::new(), Shelf::default()).map(|bench| bench.document().clone()));
            }
        }
        documents
    }

    /// Adds what came from outside: shelf entries that are not here yet, and every document as a new one.
    pub(crate) fn take(self, incoming: &Incoming) {
        self.bench.update(|bench| bench.take_shelf(&incoming.shelf));
        let documents = incoming.documents.clone();
        spawn_local(async move {
            for document in documents {
                if !self.add_and_write(document).await {
                    break;
                }
            }
        });
    }

    // Writing.

    fn write_soon(self, after: Duration) {
        if self.bench.with_untracked(Bench::is_dirty) {
            self.saved.set(Saved::Soon);
        }
        self.timer.update_value(|timer| {
            if let Some(timer) = timer.take() {
                timer.clear();
            }
            *timer = set_timeout_with_handle(move || self.write_now(), after).ok();
        });
    }

    fn write_now(self) {
        spawn_local(async move {
            self.write().await;
        });
    }

    /// Writes whatever is not in the journal yet, after any write that is on its way. True if nothing is left to write.
    pub(crate) async fn write(self) -> bool {
        while self.writing.get_value() {
            browser::pause(Duration::from_millis(20)).await;
        }
        if STOPPED.with(Cell::get) {
            return false;
        }
        self.writing.set_value(true);
        let journal = self.journal();
        let now = browser::now();
        if let Some(commit) = self.bench.try_update_untracked(|bench| bench.take_shelf_commit(now)).flatten() {
            let kept = keep(&*journal, &LocalEcho, &commit).await;
            let rev = (kept == Kept::Saved).then_some(commit.slot.head.rev);
            self.bench.update_untracked(|bench| bench.shelf_written(rev));
        }
        while let Some(commit) = self.bench.try_update_untracked(Bench::take_commit).flatten() {
            let kept = keep(&*journal, &LocalEcho, &commit).await;
            let known = commit.expected.is_some();
            if !self.bench.with_untracked(|bench| *bench.id() == commit.slot.head.id) {
                // Another formula was opened meanwhile: what came of this one says nothing about that.
                continue;
            }
            if self.settle(kept, commit.slot.head.rev, now) {
                browser::set_preference("open", commit.slot.head.id.as_str());
                if !known {
                    self.refresh_heads().await;
                }
            } else {
                break;
            }
        }
        self.writing.set_value(false);
        !self.bench.with_untracked(Bench::is_dirty)
    }

    /// True if writing may go on.
    fn settle(self, kept: Kept, rev: u64, now: Moment) -> bool {
        match kept {
            Kept::Saved => {
                self.bench.update_untracked(|bench| bench.written(rev));
                self.saved.set(Saved::Yes);
                self.heads.update(|heads| {
                    let (id, title) = self
                        .bench
                        .with_untracked(|bench| (bench.id().clone(), bench.state().formula.about.title.clone()));
                    if let Some(head) = heads.iter_mut().find(|head| head.id == id) {
                        head.title = title;
                    }
                });
                true
            }
            Kept::Conflict => {
                self.bench.update(|bench| {
                    let title = format!("{}{}", bench.state().formula.about.title, page::OTHER_COPY);
                    bench.split_off(browser::new_id(), title, now);
                });
                self.say(page::CONFLICT, false);
                true
            }
            Kept::OnlyEcho(error) => {
                self.bench.update_untracked(Bench::not_written);
                self.saved.set(Saved::No(format!("{} ({})", page::ONLY_ECHO, error.0)));
                false
            }
            Kept::Lost(error) => {
                self.bench.update_untracked(Bench::not_written);
                self.saved.set(Saved::No(format!("{}{}", page::NOT_SAVED, error.0)));
                false
            }
        }
    }
}
