//! Writing what is on the bench, one write after the other, whatever the maker does meanwhile.

use super::{Bench, Commit, Cupboard, DocId, Echo, Journal, Kept, Moment, Slot, StoreError, keep};
use std::cell::{Cell, RefCell};

/// What the writer needs of the page around it.
pub trait Room {
    /// The open bench.
    fn on_bench<T>(&self, act: impl FnOnce(&mut Bench) -> T) -> T;
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
    /// The journal has the shelf.
    ShelfSaved,
    /// Another tab changed the formula too: what is here goes on as a copy.
    Copied,
    /// Another tab changed the shelf too: both were joined.
    ShelfJoined,
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
        let done = self.write_left(room, journal, echo).await
            & self.write_shelf(room, journal, echo).await
            & self.write_formula(room, journal, echo).await;
        self.busy.set(false);
        done && !self.owes() && !room.on_bench(|bench| bench.is_dirty())
    }

    async fn write_left(&self, room: &impl Room, journal: &impl Journal, echo: &impl Echo) -> bool {
        let left = self.left.take();
        for commit in left {
            self.settle_left(room, journal, echo, commit).await;
        }
        !self.owes()
    }

    /// A write of a formula that is no longer on the bench.
    async fn settle_left(&self, room: &impl Room, journal: &impl Journal, echo: &impl Echo, commit: Commit) {
        match keep(journal, echo, &commit).await {
            Kept::Saved => self.saved(room, &commit),
            Kept::Conflict => {
                // Nobody is typing in it, so a copy of its last state is all there is to keep.
                let Some(mut bench) = Bench::open(&commit.slot, Vec::new(), Cupboard::default()) else { return };
                let title = room.copy_title(&commit.slot.head.title);
                bench.split_off(room.new_id(), title, room.clock());
                room.tell(News::Copied);
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

    fn saved(&self, room: &impl Room, commit: &Commit) {
        room.tell(News::Saved { id: commit.slot.head.id.clone(), first: commit.expected.is_none() });
    }

    async fn write_shelf(&self, room: &impl Room, journal: &impl Journal, echo: &impl Echo) -> bool {
        let now = room.clock();
        while let Some(commit) = room.on_bench(|bench| bench.take_shelf_commit(now)) {
            match keep(journal, echo, &commit).await {
                Kept::Saved => {
                    room.on_bench(|bench| bench.shelf_written(commit.slot.head.rev));
                    room.tell(News::ShelfSaved);
                }
                Kept::Conflict => match journal.read(&DocId::shelf()).await {
                    Ok(Some(stored)) => {
                        room.on_bench(|bench| bench.join_shelf(&stored));
                        room.tell(News::ShelfJoined);
                    }
                    // It was wiped, or cannot be read now: this shelf is all that is known.
                    Ok(None) => room.on_bench(|bench| bench.shelf_forgotten()),
                    // The echo is no help: the journal has a copy as new as this one.
                    Err(error) => return self.shelf_failed(room, News::Lost(error)),
                },
                Kept::OnlyEcho(error) => return self.shelf_failed(room, News::OnlyEcho(error)),
                Kept::Lost(error) => return self.shelf_failed(room, News::Lost(error)),
            }
        }
        true
    }

    fn shelf_failed(&self, room: &impl Room, news: News) -> bool {
        room.on_bench(|bench| bench.shelf_not_written());
        room.tell(news);
        false
    }

    async fn write_formula(&self, room: &impl Room, journal: &impl Journal, echo: &impl Echo) -> bool {
        while let Some(commit) = room.on_bench(|bench| bench.take_commit()) {
            let kept = keep(journal, echo, &commit).await;
            let id = &commit.slot.head.id;
            // Another formula may have been opened meanwhile: then what came of this one says nothing about that.
            let open = room.on_bench(|bench| bench.id() == id);
            match kept {
                Kept::Saved => {
                    if open {
                        room.on_bench(|bench| bench.written(commit.slot.head.rev));
                    }
                    self.saved(room, &commit);
                }
                _ if !open => self.left.borrow_mut().push(commit),
                Kept::Conflict => {
                    let (now, new) = (room.clock(), room.new_id());
                    let title = room.copy_title(&commit.slot.head.title);
                    room.on_bench(|bench| bench.split_off(new, title, now));
                    room.tell(News::Copied);
                }
                Kept::OnlyEcho(error) => return self.formula_failed(room, News::OnlyEcho(error)),
                Kept::Lost(error) => return self.formula_failed(room, News::Lost(error)),
            }
        }
        true
    }

    fn formula_failed(&self, room: &impl Room, news: News) -> bool {
        room.on_bench(Bench::not_written);
        room.tell(news);
        false
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::store::now;
    use crate::desk::{Action, Document, Head, MemoryEcho, MemoryJournal, ShelfAction, Verdict, demo, newest};
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
        fn on_bench<T>(&self, act: impl FnOnce(&mut Bench) -> T) -> T {
            act(&mut self.bench.borrow_mut())
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
            if self.fails.get() { Err(StoreError("full".into())) } else { self.inner.commit(commit).await }
        }
        async fn remove(&self, id: &DocId) -> Result<(), StoreError> {
            self.inner.remove(id).await
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
        let mut tab = Bench::open(&slot, Vec::new(), Cupboard::default()).unwrap();
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
        let theirs = tab.act_on_shelf(ShelfAction::Add("Plum oil".into())).unwrap();
        now(journal.commit(&tab.take_shelf_commit(Moment::from_millis(1)).unwrap())).unwrap();
        let mine = room.on_bench(|bench| bench.act_on_shelf(ShelfAction::Add("Oat flour".into()))).unwrap();
        assert!(now(writer.write(&room, &journal, &echo)));
        let slot = now(journal.read(&DocId::shelf())).unwrap().unwrap();
        let stored = crate::desk::stored_shelf(&slot).unwrap();
        assert!(stored.knows(&mine) && stored.knows(&theirs));
        assert!(room.news.borrow().contains(&News::ShelfJoined));
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
