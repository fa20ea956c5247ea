//! Writing what is open, one write after the other, whatever the maker does meanwhile.

use super::{Bench, Commit, DocId, Echo, Fresh, Journal, Kept, Moment, Reopened, Slot, StoreError, Stored, keep};
use crate::facts::ShelfChange;
use std::cell::{Cell, RefCell};

/// What the writer needs of the page around it.
pub trait Room {
    /// The documents that are open.
    fn open_ids(&self) -> Vec<DocId>;
    /// Does something to an open document; nothing, if it is not open any more.
    fn on<T>(&self, id: &DocId, act: impl FnOnce(&mut dyn Stored) -> T) -> Option<T>;
    /// The clock.
    fn clock(&self) -> Moment;
    /// An id for a new document.
    fn new_id(&self) -> DocId;
    /// True once nothing may be written any more.
    fn stopped(&self) -> bool;
    /// Waits a moment for the write that is on its way.
    fn pause(&self) -> impl Future<Output = ()>;
    /// Says what came of it.
    fn tell(&self, news: News);
    /// The title for the copy of a formula that another tab changed too.
    fn copy_title(&self, title: &str) -> String;
}

/// What came of a write.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum News {
    /// The journal has it. `first`: for the first time.
    Saved {
        /// Which document.
        id: DocId,
        /// True if the journal did not know it.
        first: bool,
    },
    /// Another tab changed the formula too: what is here goes on as a copy.
    Copied,
    /// Another tab changed the shelf too: both were joined.
    ShelfJoined(Box<ShelfChange>),
    /// The browser has cleared the journal: what is open is written anew.
    Cleared,
    /// What the journal has cannot be read; nothing is written over it.
    Unreadable(Slot),
    /// Only the echo has it.
    OnlyEcho(StoreError),
    /// Nothing has it.
    Lost(StoreError),
}

/// Writes for one page.
#[derive(Debug, Default)]
pub struct Writer {
    busy: Cell<bool>,
    /// Writes that failed after their formula was put away; they are tried again with the next write.
    left: RefCell<Vec<Commit>>,
}

impl Writer {
    /// True if a formula that was put away is not in the journal yet.
    pub fn owes(&self) -> bool {
        !self.left.borrow().is_empty()
    }

    /// What was put away and is not in the journal yet.
    pub fn owed(&self) -> Vec<Slot> {
        self.left.borrow().iter().map(|commit| commit.slot.clone()).collect()
    }

    /// True while a write is on its way: what it holds is neither unsaved nor saved.
    pub fn is_writing(&self) -> bool {
        self.busy.get()
    }

    /// Writes whatever is not in the journal yet, after the write that is on its way. True if nothing is left to write.
    pub async fn write(&self, room: &impl Room, journal: &impl Journal, echo: &impl Echo) -> bool {
        while self.busy.get() {
            room.pause().await;
        }
        if room.stopped() {
            return false;
        }
        self.busy.set(true);
        for commit in self.left.take() {
            self.settle_left(room, journal, echo, commit).await;
        }
        // One that fails is not tried again at once, but keeps none of the others from being written.
        let mut failed = Vec::new();
        while let Some(id) = next(room, &failed) {
            if !self.write_one(room, journal, echo, &id).await {
                failed.push(id);
            }
        }
        self.busy.set(false);
        failed.is_empty() && !self.owes() && room.open_ids().iter().all(|id| !is_dirty(room, id))
    }

    /// A write of a formula that is no longer open.
    async fn settle_left(&self, room: &impl Room, journal: &impl Journal, echo: &impl Echo, commit: Commit) {
        match keep(journal, echo, &commit).await {
            Kept::Saved => saved(room, &commit),
            Kept::Conflict => {
                // Nobody is typing in it, so a copy of its last state is all there is to keep.
                let Some(mut bench) = Bench::open(&commit.slot, Vec::new()) else { return };
                let news = bench.overtaken(&commit.slot, Vec::new(), fresh(room, &commit.slot.head.title));
                room.tell(news);
                self.left.borrow_mut().extend(bench.take_commit());
            }
            Kept::OnlyEcho(error) => {
                room.tell(News::OnlyEcho(error));
                self.left.borrow_mut().push(commit);
            }
            Kept::Lost(error) => {
                room.tell(News::Lost(error));
                self.left.borrow_mut().push(commit);
            }
        }
    }

    /// Writes one open document until all of it is in the journal. False if that failed.
    async fn write_one(&self, room: &impl Room, journal: &impl Journal, echo: &impl Echo, id: &DocId) -> bool {
        while let Some(commit) = room.on(id, |document| document.take_commit()).flatten() {
            let kept = keep(journal, echo, &commit).await;
            // Another formula may have been opened meanwhile: then what came of this one says nothing about that.
            let open = room.on(id, |_| ()).is_some();
            let news = match kept {
                Kept::Saved => {
                    room.on(id, |document| document.arrived(commit.slot.head.rev));
                    saved(room, &commit);
                    continue;
                }
                _ if !open => {
                    self.left.borrow_mut().push(commit);
                    return true;
                }
                Kept::Conflict => match overtaken(room, journal, id).await {
                    Ok(()) => continue,
                    // The echo is no help: the journal has a copy as new as this one.
                    Err(error) => News::Lost(error),
                },
                Kept::OnlyEcho(error) => News::OnlyEcho(error),
                Kept::Lost(error) => News::Lost(error),
            };
            room.on(id, |document| document.not_written());
            room.tell(news);
            return false;
        }
        true
    }
}

fn is_dirty(room: &impl Room, id: &DocId) -> bool {
    room.on(id, |document| document.tracking().is_dirty()).unwrap_or(false)
}

/// The next open document that has something to write.
fn next(room: &impl Room, failed: &[DocId]) -> Option<DocId> {
    let wants = |id: &DocId| room.on(id, |document| document.tracking().wants_writing()).unwrap_or(false);
    room.open_ids().into_iter().find(|id| !failed.contains(id) && wants(id))
}

fn saved(room: &impl Room, commit: &Commit) {
    room.tell(News::Saved { id: commit.slot.head.id.clone(), first: commit.expected.is_none() });
}

fn fresh(room: &impl Room, title: &str) -> Fresh {
    Fresh { id: room.new_id(), title: room.copy_title(title), now: room.clock() }
}

/// The journal has another revision than this one was made from. What that means depends on whose it is.
async fn overtaken(room: &impl Room, journal: &impl Journal, id: &DocId) -> Result<(), StoreError> {
    let Some(theirs) = journal.read(id).await? else {
        // It was wiped: this one is all that is known.
        room.on(id, |document| document.rebase(None));
        room.tell(News::Cleared);
        return Ok(());
    };
    let ours = |document: &mut dyn Stored| {
        let known = theirs.is_whole() && document.tracking().knows(&theirs.head);
        if known {
            // A write of this tab of which the answer never came, or what was here before the page was opened again.
            document.rebase(Some(&theirs));
        }
        known
    };
    if room.on(id, ours).unwrap_or(true) {
        return Ok(());
    }
    let steps = journal.steps(id).await?;
    let title = room.on(id, |document| document.write().title).unwrap_or_default();
    let fresh = fresh(room, &title);
    if let Some(news) = room.on(id, |document| document.overtaken(&theirs, steps, fresh)) {
        room.tell(news);
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::store::now;
    use crate::desk::{
        Action, Cupboard, Document, Head, MemoryEcho, MemoryJournal, ShelfAction, Verdict, demo, newest,
    };
    use std::rc::Rc;

    struct TestRoom {
        bench: RefCell<Bench>,
        ids: Cell<u64>,
        news: RefCell<Vec<News>>,
        stopped: Cell<bool>,
    }

    impl TestRoom {
        fn new() -> Rc<Self> {
            let bench = Bench::new(DocId::random(1), demo(), Cupboard::default(), Moment::from_millis(0));
            Rc::new(Self {
                bench: RefCell::new(bench),
                ids: Cell::new(100),
                news: RefCell::default(),
                stopped: Cell::new(false),
            })
        }

        fn title(&self, title: &str) {
            self.bench.borrow_mut().act(Action::Title(title.to_owned()), Moment::from_millis(1));
        }

        fn open_another(&self) {
            let shelf = self.bench.borrow().cupboard().clone();
            *self.bench.borrow_mut() = Bench::new(DocId::random(2), Document::default(), shelf, Moment::from_millis(2));
        }
    }

    impl Room for Rc<TestRoom> {
        fn open_ids(&self) -> Vec<DocId> {
            self.bench.borrow().open_ids().to_vec()
        }
        fn on<T>(&self, id: &DocId, act: impl FnOnce(&mut dyn Stored) -> T) -> Option<T> {
            self.bench.borrow_mut().stored(id).map(act)
        }
        fn clock(&self) -> Moment {
            Moment::from_millis(5)
        }
        fn new_id(&self) -> DocId {
            self.ids.set(self.ids.get() + 1);
            DocId::random(self.ids.get())
        }
        fn stopped(&self) -> bool {
            self.stopped.get()
        }
        async fn pause(&self) {
            panic!("two writes at once")
        }
        fn tell(&self, news: News) {
            self.news.borrow_mut().push(news);
        }
        fn copy_title(&self, title: &str) -> String {
            format!("{title} (copy)")
        }
    }

    /// A journal in which something happens while a write is on its way, and writes fail when they are told to.
    #[derive(Default)]
    struct Meddled {
        inner: MemoryJournal,
        meanwhile: RefCell<Option<Box<dyn FnOnce()>>>,
        fails: Cell<bool>,
        /// The write is done, and the answer is lost.
        late: Cell<bool>,
    }

    impl Journal for Meddled {
        async fn heads(&self) -> Result<Vec<Head>, StoreError> {
            self.inner.heads().await
        }
        async fn read(&self, id: &DocId) -> Result<Option<Slot>, StoreError> {
            self.inner.read(id).await
        }
        async fn steps(&self, id: &DocId) -> Result<Vec<(u64, String)>, StoreError> {
            self.inner.steps(id).await
        }
        async fn commit(&self, commit: &Commit) -> Result<Verdict, StoreError> {
            if let Some(happens) = self.meanwhile.take() {
                happens();
            }
            if self.fails.get() {
                return Err(StoreError("full".into()));
            }
            let verdict = self.inner.commit(commit).await;
            if self.late.get() { Err(StoreError("no answer".into())) } else { verdict }
        }
        async fn commit_new(&self, commits: &[Commit]) -> Result<(), StoreError> {
            self.inner.commit_new(commits).await
        }
        async fn remove(&self, id: &DocId) -> Result<(), StoreError> {
            self.inner.remove(id).await
        }
        async fn note(&self, name: &str) -> Result<Option<String>, StoreError> {
            self.inner.note(name).await
        }
        async fn set_note(&self, name: &str, text: &str) -> Result<(), StoreError> {
            self.inner.set_note(name, text).await
        }
    }

    fn stored_title(journal: &Meddled, id: u64) -> Option<String> {
        now(journal.read(&DocId::random(id))).unwrap().map(|slot| slot.head.title)
    }

    #[test]
    fn write_is_settled_only_with_the_formula_that_it_was_of() {
        let (room, journal, echo, writer) =
            (TestRoom::new(), Meddled::default(), MemoryEcho::default(), Writer::default());
        room.title("First");
        let other = room.clone();
        *journal.meanwhile.borrow_mut() = Some(Box::new(move || other.open_another()));
        assert!(now(writer.write(&room, &journal, &echo)));
        assert_eq!(stored_title(&journal, 1).as_deref(), Some("First"));
        assert_eq!(stored_title(&journal, 2).as_deref(), Some(""));
        // Both were new to the journal, so a further write of the second must replace its first revision.
        room.title("Second");
        assert!(now(writer.write(&room, &journal, &echo)));
        assert_eq!(stored_title(&journal, 2).as_deref(), Some("Second"));
        assert!(!room.news.borrow().contains(&News::Copied));
    }

    #[test]
    fn write_that_fails_as_another_formula_is_opened_is_tried_again() {
        let (room, journal, echo, writer) =
            (TestRoom::new(), Meddled::default(), MemoryEcho::default(), Writer::default());
        room.title("First");
        let other = room.clone();
        *journal.meanwhile.borrow_mut() = Some(Box::new(move || other.open_another()));
        journal.fails.set(true);
        assert!(!now(writer.write(&room, &journal, &echo)));
        assert!(writer.owes());
        journal.fails.set(false);
        assert!(now(writer.write(&room, &journal, &echo)));
        assert_eq!(stored_title(&journal, 1).as_deref(), Some("First"));
        assert!(!writer.owes());
    }

    #[test]
    fn write_left_behind_that_another_tab_overtook_becomes_a_copy() {
        let (room, journal, echo, writer) =
            (TestRoom::new(), Meddled::default(), MemoryEcho::default(), Writer::default());
        room.title("First");
        let other = room.clone();
        *journal.meanwhile.borrow_mut() = Some(Box::new(move || other.open_another()));
        journal.fails.set(true);
        now(writer.write(&room, &journal, &echo));
        journal.fails.set(false);
        let mut tab = Bench::new(DocId::random(1), demo(), Cupboard::default(), Moment::from_millis(9));
        now(journal.commit(&tab.take_commit().unwrap())).unwrap();
        now(writer.write(&room, &journal, &echo));
        assert!(now(writer.write(&room, &journal, &echo)));
        assert_eq!(stored_title(&journal, 1), Some(demo().state.formula.about.title));
        assert_eq!(stored_title(&journal, 101).as_deref(), Some("First (copy)"));
    }

    #[test]
    fn write_of_a_formula_that_another_tab_changed_becomes_a_copy() {
        let (room, journal, echo, writer) =
            (TestRoom::new(), Meddled::default(), MemoryEcho::default(), Writer::default());
        now(writer.write(&room, &journal, &echo));
        let (slot, _) = now(newest(&journal, &echo, &DocId::random(1))).unwrap();
        let mut tab = Bench::open(&slot, Vec::new()).unwrap();
        tab.act(Action::Title("Theirs".into()), Moment::from_millis(3));
        now(journal.commit(&tab.take_commit().unwrap())).unwrap();
        room.title("Mine");
        assert!(now(writer.write(&room, &journal, &echo)));
        assert_eq!(stored_title(&journal, 1).as_deref(), Some("Theirs"));
        assert_eq!(stored_title(&journal, 101).as_deref(), Some("Mine (copy)"));
    }

    #[test]
    fn shelf_that_two_tabs_changed_is_joined() {
        let (room, journal, echo, writer) =
            (TestRoom::new(), Meddled::default(), MemoryEcho::default(), Writer::default());
        let mut tab = Bench::new(DocId::random(3), demo(), Cupboard::default(), Moment::from_millis(1));
        let at = Moment::from_millis(1);
        let theirs = tab.act_on_shelf(ShelfAction::Add("Plum oil".into()), at).unwrap();
        now(journal.commit(&tab.cupboard.take_commit().unwrap())).unwrap();
        let mine = room.bench.borrow_mut().act_on_shelf(ShelfAction::Add("Oat flour".into()), at).unwrap();
        assert!(now(writer.write(&room, &journal, &echo)));
        let slot = now(journal.read(&DocId::shelf())).unwrap().unwrap();
        let stored = crate::desk::stored_shelf(&slot).unwrap();
        assert!(stored.knows(&mine) && stored.knows(&theirs));
        let joined = |news: &News| matches!(news, News::ShelfJoined(change) if change.clashes().is_empty());
        assert!(room.news.borrow().iter().any(joined));
    }

    #[test]
    fn journal_that_was_wiped_takes_what_is_open_again_and_no_tab_is_blamed() {
        let (room, mut journal, echo, writer) =
            (TestRoom::new(), Meddled::default(), MemoryEcho::default(), Writer::default());
        room.bench.borrow_mut().act_on_shelf(ShelfAction::Add("Plum oil".into()), Moment::from_millis(1));
        assert!(now(writer.write(&room, &journal, &echo)));
        journal.inner = MemoryJournal::default();
        room.title("Second");
        room.bench.borrow_mut().act_on_shelf(ShelfAction::Add("Oat flour".into()), Moment::from_millis(1));
        assert!(now(writer.write(&room, &journal, &echo)));
        assert_eq!(stored_title(&journal, 1).as_deref(), Some("Second"));
        let slot = now(journal.read(&DocId::shelf())).unwrap().unwrap();
        assert_eq!(crate::desk::stored_shelf(&slot).unwrap().own_ids().count(), 2);
        assert!(!room.news.borrow().contains(&News::Copied) && room.news.borrow().contains(&News::Cleared));
    }

    #[test]
    fn write_that_arrived_without_an_answer_is_no_other_tabs() {
        let (room, journal, echo, writer) =
            (TestRoom::new(), Meddled::default(), MemoryEcho::default(), Writer::default());
        assert!(now(writer.write(&room, &journal, &echo)));
        room.title("Arrives late");
        journal.late.set(true);
        assert!(!now(writer.write(&room, &journal, &echo)));
        journal.late.set(false);
        room.title("Typed after it");
        assert!(now(writer.write(&room, &journal, &echo)));
        assert_eq!(stored_title(&journal, 1).as_deref(), Some("Typed after it"));
        assert!(!room.news.borrow().contains(&News::Copied));
    }

    #[test]
    fn shelf_that_cannot_be_read_is_never_written_over() {
        let (room, journal, echo, writer) =
            (TestRoom::new(), Meddled::default(), MemoryEcho::default(), Writer::default());
        let head = Head { id: DocId::shelf(), rev: 4, title: String::new(), changed: 0, binned: None, step: 0, crc: 7 };
        let bad = Slot::new(head, "half a shel".into());
        let steps = crate::desk::StepsChange::default();
        now(journal.commit(&Commit { expected: None, slot: bad.clone(), steps })).unwrap();
        room.bench.borrow_mut().act_on_shelf(ShelfAction::Add("Plum oil".into()), Moment::from_millis(1));
        for _ in 0..2 {
            assert!(!now(writer.write(&room, &journal, &echo)));
            assert_eq!(now(journal.read(&DocId::shelf())).unwrap().unwrap().body, bad.body);
        }
        assert!(room.news.borrow().contains(&News::Unreadable(bad)));
        assert!(stored_title(&journal, 1).is_some(), "the formula is written all the same");
        room.on(&DocId::shelf(), |shelf| shelf.release());
        now(writer.write(&room, &journal, &echo));
    }

    #[test]
    fn stopped_page_writes_nothing() {
        let (room, journal, echo, writer) =
            (TestRoom::new(), Meddled::default(), MemoryEcho::default(), Writer::default());
        room.stopped.set(true);
        assert!(!now(writer.write(&room, &journal, &echo)));
        assert_eq!(stored_title(&journal, 1), None);
    }

    #[test]
    fn full_store_keeps_the_change_for_the_next_write() {
        let (room, journal, echo, writer) =
            (TestRoom::new(), Meddled::default(), MemoryEcho::default(), Writer::default());
        journal.fails.set(true);
        echo.full.set(true);
        assert!(!now(writer.write(&room, &journal, &echo)));
        assert!(matches!(room.news.borrow().last(), Some(News::Lost(_))));
        journal.fails.set(false);
        echo.full.set(false);
        assert!(now(writer.write(&room, &journal, &echo)));
        assert!(stored_title(&journal, 1).is_some());
    }
}
