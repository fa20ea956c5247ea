//! Writes that something happens to on their way.

use super::*;
use crate::desk::store::now;
use crate::desk::{
    Action, CommitOutcome, Document, DocumentMeta, MemoryJournal, MemoryMirror, OpenDocument, Reopen, ShelfAction,
    ShelfDocument, demo, newest,
};
use std::rc::Rc;

struct TestRoom {
    open: RefCell<OpenDocument>,
    ids: Cell<u64>,
    news: RefCell<Vec<News>>,
    stopped: Cell<bool>,
}

impl TestRoom {
    fn new() -> Rc<Self> {
        let open = OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), Timestamp::from_millis(0));
        Rc::new(Self {
            open: RefCell::new(open),
            ids: Cell::new(100),
            news: RefCell::default(),
            stopped: Cell::new(false),
        })
    }

    fn title(&self, title: &str) {
        self.open.borrow_mut().act(Action::Title(title.to_owned()), Timestamp::from_millis(1));
    }

    fn open_another(&self) {
        let shelf = self.open.borrow().shelf_document().clone();
        *self.open.borrow_mut() =
            OpenDocument::new(DocId::random(2), Document::default(), shelf, Timestamp::from_millis(2));
    }
}

impl WriterHost for Rc<TestRoom> {
    fn open_ids(&self) -> Vec<DocId> {
        self.open.borrow().open_ids()
    }
    fn on<T>(&self, id: &DocId, act: impl FnOnce(&mut dyn Persist) -> T) -> Option<T> {
        self.open.borrow_mut().stored(id).map(act)
    }
    fn clock(&self) -> Timestamp {
        Timestamp::from_millis(5)
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
    async fn metas(&self) -> Result<Vec<DocumentMeta>, StoreError> {
        self.inner.metas().await
    }
    async fn read(&self, id: &DocId) -> Result<Option<StoredDocument>, StoreError> {
        self.inner.read(id).await
    }
    async fn steps(&self, id: &DocId) -> Result<Vec<(u64, String)>, StoreError> {
        self.inner.steps(id).await
    }
    async fn commit(&self, commit: &Commit) -> Result<CommitOutcome, StoreError> {
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
    now(journal.read(&DocId::random(id))).unwrap().map(|stored| stored.meta.title)
}

#[test]
fn write_is_settled_only_with_the_formula_that_it_was_of() {
    let (room, journal, mirror, writer) =
        (TestRoom::new(), Meddled::default(), MemoryMirror::default(), Writer::default());
    room.title("First");
    let other = room.clone();
    *journal.meanwhile.borrow_mut() = Some(Box::new(move || other.open_another()));
    assert!(now(writer.write(&room, &journal, &mirror)));
    assert_eq!(stored_title(&journal, 1).as_deref(), Some("First"));
    assert_eq!(stored_title(&journal, 2).as_deref(), Some(""));
    // Both were new to the journal, so a further write of the second must replace its first revision.
    room.title("Second");
    assert!(now(writer.write(&room, &journal, &mirror)));
    assert_eq!(stored_title(&journal, 2).as_deref(), Some("Second"));
    assert!(!room.news.borrow().contains(&News::Copied));
}

#[test]
fn write_that_fails_as_another_formula_is_opened_is_tried_again() {
    let (room, journal, mirror, writer) =
        (TestRoom::new(), Meddled::default(), MemoryMirror::default(), Writer::default());
    room.title("First");
    let other = room.clone();
    *journal.meanwhile.borrow_mut() = Some(Box::new(move || other.open_another()));
    journal.fails.set(true);
    assert!(!now(writer.write(&room, &journal, &mirror)));
    assert!(writer.owes());
    journal.fails.set(false);
    assert!(now(writer.write(&room, &journal, &mirror)));
    assert_eq!(stored_title(&journal, 1).as_deref(), Some("First"));
    assert!(!writer.owes());
}

#[test]
fn write_left_behind_that_another_tab_overtook_becomes_a_copy() {
    let (room, journal, mirror, writer) =
        (TestRoom::new(), Meddled::default(), MemoryMirror::default(), Writer::default());
    room.title("First");
    let other = room.clone();
    *journal.meanwhile.borrow_mut() = Some(Box::new(move || other.open_another()));
    journal.fails.set(true);
    now(writer.write(&room, &journal, &mirror));
    journal.fails.set(false);
    let mut tab = OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), Timestamp::from_millis(9));
    now(journal.commit(&tab.take_commit().unwrap())).unwrap();
    now(writer.write(&room, &journal, &mirror));
    assert!(now(writer.write(&room, &journal, &mirror)));
    assert_eq!(stored_title(&journal, 1), Some(demo().state.formula.about.title));
    assert_eq!(stored_title(&journal, 101).as_deref(), Some("First (copy)"));
}

#[test]
fn write_of_a_formula_that_another_tab_changed_becomes_a_copy() {
    let (room, journal, mirror, writer) =
        (TestRoom::new(), Meddled::default(), MemoryMirror::default(), Writer::default());
    now(writer.write(&room, &journal, &mirror));
    let (stored, _) = now(newest(&journal, &mirror, &DocId::random(1))).unwrap();
    let mut tab = OpenDocument::open(&stored, Vec::new()).unwrap();
    tab.act(Action::Title("Theirs".into()), Timestamp::from_millis(3));
    now(journal.commit(&tab.take_commit().unwrap())).unwrap();
    room.title("Mine");
    assert!(now(writer.write(&room, &journal, &mirror)));
    assert_eq!(stored_title(&journal, 1).as_deref(), Some("Theirs"));
    assert_eq!(stored_title(&journal, 101).as_deref(), Some("Mine (copy)"));
}

#[test]
fn shelf_that_two_tabs_changed_is_joined() {
    let (room, journal, mirror, writer) =
        (TestRoom::new(), Meddled::default(), MemoryMirror::default(), Writer::default());
    let mut tab = OpenDocument::new(DocId::random(3), demo(), ShelfDocument::default(), Timestamp::from_millis(1));
    let at = Timestamp::from_millis(1);
    let theirs = tab.act_on_shelf(ShelfAction::Add("Plum oil".into()), at).unwrap();
    now(journal.commit(&tab.shelf_document.take_commit().unwrap())).unwrap();
    let mine = room.open.borrow_mut().act_on_shelf(ShelfAction::Add("Oat flour".into()), at).unwrap();
    assert!(now(writer.write(&room, &journal, &mirror)));
    let stored = now(journal.read(&DocId::shelf())).unwrap().unwrap();
    let stored = crate::desk::stored_shelf(&stored).unwrap();
    assert!(stored.knows(&mine) && stored.knows(&theirs));
    let joined = |news: &News| matches!(news, News::ShelfJoined(change) if change.clashes().is_empty());
    assert!(room.news.borrow().iter().any(joined));
}

#[test]
fn journal_that_was_wiped_takes_what_is_open_again_and_no_tab_is_blamed() {
    let (room, mut journal, mirror, writer) =
        (TestRoom::new(), Meddled::default(), MemoryMirror::default(), Writer::default());
    room.open.borrow_mut().act_on_shelf(ShelfAction::Add("Plum oil".into()), Timestamp::from_millis(1));
    assert!(now(writer.write(&room, &journal, &mirror)));
    journal.inner = MemoryJournal::default();
    room.title("Second");
    room.open.borrow_mut().act_on_shelf(ShelfAction::Add("Oat flour".into()), Timestamp::from_millis(1));
    assert!(now(writer.write(&room, &journal, &mirror)));
    assert_eq!(stored_title(&journal, 1).as_deref(), Some("Second"));
    let stored = now(journal.read(&DocId::shelf())).unwrap().unwrap();
    assert_eq!(crate::desk::stored_shelf(&stored).unwrap().own_ids().count(), 2);
    assert!(!room.news.borrow().contains(&News::Copied) && room.news.borrow().contains(&News::Cleared));
}

#[test]
fn write_that_arrived_without_an_answer_is_no_other_tabs() {
    let (room, journal, mirror, writer) =
        (TestRoom::new(), Meddled::default(), MemoryMirror::default(), Writer::default());
    assert!(now(writer.write(&room, &journal, &mirror)));
    room.title("Arrives late");
    journal.late.set(true);
    assert!(!now(writer.write(&room, &journal, &mirror)));
    journal.late.set(false);
    room.title("Typed after it");
    assert!(now(writer.write(&room, &journal, &mirror)));
    assert_eq!(stored_title(&journal, 1).as_deref(), Some("Typed after it"));
    assert!(!room.news.borrow().contains(&News::Copied));
}

#[test]
fn shelf_that_cannot_be_read_is_never_written_over() {
    let (room, journal, mirror, writer) =
        (TestRoom::new(), Meddled::default(), MemoryMirror::default(), Writer::default());
    let meta = DocumentMeta {
        id: DocId::shelf(),
        revision: 4,
        title: String::new(),
        changed: 0,
        binned: None,
        step: 0,
        crc: 7,
    };
    let bad = StoredDocument::new(meta, "half a shel".into());
    let steps = crate::desk::StepsChange::default();
    now(journal.commit(&Commit { expected: None, stored: bad.clone(), steps })).unwrap();
    room.open.borrow_mut().act_on_shelf(ShelfAction::Add("Plum oil".into()), Timestamp::from_millis(1));
    for _ in 0..2 {
        assert!(!now(writer.write(&room, &journal, &mirror)));
        assert_eq!(now(journal.read(&DocId::shelf())).unwrap().unwrap().body, bad.body);
    }
    assert!(room.news.borrow().contains(&News::Unreadable(bad)));
    assert!(stored_title(&journal, 1).is_some(), "the formula is written all the same");
    room.on(&DocId::shelf(), |shelf| shelf.release());
    now(writer.write(&room, &journal, &mirror));
}

#[test]
fn stopped_page_writes_nothing() {
    let (room, journal, mirror, writer) =
        (TestRoom::new(), Meddled::default(), MemoryMirror::default(), Writer::default());
    room.stopped.set(true);
    assert!(!now(writer.write(&room, &journal, &mirror)));
    assert_eq!(stored_title(&journal, 1), None);
}

#[test]
fn full_store_keeps_the_change_for_the_next_write() {
    let (room, journal, mirror, writer) =
        (TestRoom::new(), Meddled::default(), MemoryMirror::default(), Writer::default());
    journal.fails.set(true);
    mirror.full.set(true);
    assert!(!now(writer.write(&room, &journal, &mirror)));
    assert!(matches!(room.news.borrow().last(), Some(News::Lost(_))));
    journal.fails.set(false);
    mirror.full.set(false);
    assert!(now(writer.write(&room, &journal, &mirror)));
    assert!(stored_title(&journal, 1).is_some());
}
