//! The one owner of signals: the open document, the list of documents, and what is being said to the maker.

mod acting;
mod batch;
mod growing;
mod importing;
mod lazy;
mod opening;
mod over;
mod photographs;
mod recomputing;
mod records;
mod storage_notices;
mod studies;
mod writing;

use super::browser::{self, IdbJournal};
use hundred_parts::desk::{Arrivals, Backups, Derived, DocId, DocumentMeta, OpenDocument, Preview, Screen, Writer};
use hundred_parts::formula::{DropSide, LineId, PhaseId};
use hundred_parts::sheet::Masses;
use hundred_parts::words::{DecimalSign, page};
use leptos::leptos_dom::helpers::TimeoutHandle;
use leptos::prelude::*;
use std::rc::Rc;
use std::sync::Arc;

pub(crate) use importing::Importing;
pub(crate) use lazy::{LazyChunk, LazyState, LazyTask, log_lost, materials_named, set_recogniser};
pub(crate) use opening::first_document;
pub(crate) use photographs::Stored;
pub(crate) use storage_notices::Unreadable;

/// The id of the heading of what is open over the page.
pub(crate) const OVERLAY_TITLE: &str = "overlay-title";

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
    pub(crate) then: Option<FollowUp>,
}

/// What can be done about something that was said.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum FollowUp {
    /// Take it back.
    Undo,
    /// Take it out of the bin again.
    Restore(DocId),
    /// Look at it.
    Open(DocId),
    /// Go on with this batch of the formula again.
    GoOnWith(DocId),
    /// Set the ticks of a weigh sheet again: where they are kept on this device, and behind a space which they were.
    Tick(String),
}

/// What came from outside and is before the maker.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum ArrivalShown {
    /// Documents, to be looked at.
    Documents(Arc<Preview>),
    /// Why there are none.
    Refused(String),
}

/// What came from outside.
#[derive(Default)]
pub(crate) struct CameIn {
    /// What is before the maker.
    pub(crate) shown: Option<ArrivalShown>,
    /// What came after it.
    pub(crate) behind: Arrivals,
}

/// What a maker works on in the ledger.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Touched {
    /// A line.
    Line(LineId),
    /// The head of a phase.
    Phase(PhaseId),
}

/// What opens over the page: at its right edge, and as large as the screen on a phone.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Overlay {
    /// The list of formulas.
    Formulas,
    /// What a new formula starts from.
    Start,
    /// What the formula is for.
    About,
    /// The steps by which it is made.
    Method,
    /// Its kept versions.
    Versions,
    /// Files, link and code.
    PassOn,
    /// The list of keys.
    Keys,
    /// The findings.
    Findings,
    /// The oil phase.
    Oils,
    /// The windows of pH.
    Ph,
    /// What the preservatives can do.
    Preservatives,
    /// What the oils ask of the emulsifiers.
    Emulsifier,
    /// What the annexes of the law say.
    Annexes,
    /// The batches of all formulas.
    Batches,
    /// The record of one of them.
    Record,
    /// A photograph of the study that is open, by the beginning of its digest.
    Photograph(u64),
    /// What can take the place of the oil of a line.
    Swap(LineId),
}

/// What only the page of the formula shows.
#[derive(Clone, Copy)]
pub(crate) struct FormulaPage {
    /// The line under the pointer or with the focus: its cells stand out in the hundred square.
    pub(crate) lit: RwSignal<Option<LineId>>,
    /// What is worked on, so that what can be done with it stands under it.
    pub(crate) hand: RwSignal<Option<Touched>>,
    /// So many lines may stand: they come a few at a time when the page opens.
    pub(crate) grown: RwSignal<usize>,
    /// Where a line that is being dragged would go: beside which line, and on which side.
    pub(crate) drop: RwSignal<Option<(LineId, DropSide)>>,
    /// True on a phone: one column, a strip of ticks instead of the square.
    pub(crate) narrow: RwSignal<bool>,
    /// True where the list of formulas stands beside the lines.
    pub(crate) wide: RwSignal<bool>,
}

impl FormulaPage {
    fn new() -> Self {
        Self {
            lit: RwSignal::new(None),
            hand: RwSignal::new(None),
            grown: RwSignal::new(0),
            drop: RwSignal::new(None),
            narrow: RwSignal::new(browser::is_narrow()),
            wide: RwSignal::new(browser::is_wide()),
        }
    }
}

/// What is to be said about storage.
#[derive(Clone, Copy)]
pub(crate) struct StorageSignals {
    /// True where the browser keeps nothing for this page.
    pub(crate) keeps_nothing: RwSignal<bool>,
    /// A stored copy that could not be read.
    pub(crate) unreadable: RwSignal<Option<Unreadable>>,
    /// Saves and exports.
    pub(crate) backup: RwSignal<Backups>,
    /// Whether the browser promised to keep what is stored; `None` until it was asked.
    pub(crate) promised: RwSignal<Option<bool>>,
    /// True in a tab of a phone or tablet that clears what is stored after a week without use.
    pub(crate) in_a_tab_of_ios: RwSignal<bool>,
}

impl StorageSignals {
    fn new() -> Self {
        Self {
            keeps_nothing: RwSignal::new(browser::keeps_nothing()),
            unreadable: RwSignal::new(None),
            backup: RwSignal::new(storage_notices::kept_count()),
            promised: RwSignal::new(None),
            in_a_tab_of_ios: RwSignal::new(browser::preference("ios").is_none() && browser::in_a_tab_of_ios()),
        }
    }
}

/// What the desk knows of its own writing.
#[derive(Clone, Copy)]
struct Saving {
    writer: StoredValue<Rc<Writer>, LocalStorage>,
    /// Writes once the maker rests.
    debounce: StoredValue<browser::Debounce, LocalStorage>,
    /// Whether the journal was looked into since the page was opened.
    looked: RwSignal<bool>,
    /// Whether the journal has answered since.
    answered: StoredValue<bool>,
    /// The formula that the journal was last told of as the open one.
    noted: StoredValue<Option<DocId>>,
    /// The next try after a write that failed.
    again: StoredValue<Option<TimeoutHandle>>,
}

impl Saving {
    fn new() -> Self {
        Self {
            writer: StoredValue::new_local(Rc::new(Writer::default())),
            debounce: StoredValue::new_local(browser::Debounce::default()),
            looked: RwSignal::new(false),
            answered: StoredValue::new(false),
            noted: StoredValue::new(None),
            again: StoredValue::new(None),
        }
    }
}

/// A handle to everything; cheap to copy.
#[derive(Clone, Copy)]
pub(crate) struct Desk {
    open: RwSignal<OpenDocument>,
    masses: Memo<Masses>,
    derived: RwSignal<Option<Derived>>,
    /// True while what follows from the last change is still to be worked out.
    pub(crate) recomputing: RwSignal<bool>,
    /// Whether the second part of the program is there.
    pub(in crate::ui) lazy: RwSignal<LazyState>,
    /// How it is reached.
    chunk: LazyChunk,
    metas: RwSignal<Vec<DocumentMeta>>,
    pub(crate) screen: RwSignal<Screen>,
    /// What is open over the page.
    pub(crate) overlay: RwSignal<Option<Overlay>>,
    /// The batch of which the record is shown or was shown last, and what it is called.
    pub(crate) shown_record: RwSignal<Option<(DocId, String)>>,
    pub(crate) saved: RwSignal<Saved>,
    pub(crate) toast: RwSignal<Option<Toast>>,
    /// What came from outside.
    pub(crate) came_in: RwSignal<CameIn>,
    /// Told when ticks of a weigh sheet were put back where they are kept.
    pub(crate) ticks_put_back: RwSignal<bool>,
    /// Told when something was noted in the record of the batch that is worked on.
    batch_noted: RwSignal<bool>,
    pub(crate) update: RwSignal<bool>,
    /// Told when a file has brought studies or photographs.
    pub(crate) studies_came: RwSignal<bool>,
    /// An import that is running.
    pub(crate) importing: RwSignal<Option<Importing>>,
    /// What only the page of the formula shows.
    pub(crate) formula_page: FormulaPage,
    /// What is to be said about storage.
    pub(crate) notices: StorageSignals,
    pub(crate) sign: DecimalSign,
    journal: StoredValue<Rc<IdbJournal>, LocalStorage>,
    saving: Saving,
}

impl Desk {
    fn journal(self) -> Rc<IdbJournal> {
        self.journal.get_value()
    }

    /// Reads the open document, tracked.
    pub(crate) fn with<T>(self, read: impl FnOnce(&OpenDocument) -> T) -> T {
        self.open.with(read)
    }

    /// Reads the open document, not tracked.
    pub(crate) fn now<T>(self, read: impl FnOnce(&OpenDocument) -> T) -> T {
        self.open.with_untracked(read)
    }

    /// Reads the list of documents, tracked.
    pub(crate) fn metas<T>(self, read: impl FnOnce(&[DocumentMeta]) -> T) -> T {
        self.metas.with(|metas| read(metas))
    }

    /// Says something for a short while. Where nothing may be written any more, nothing else is true.
    pub(crate) fn say(self, text: &str, then: Option<FollowUp>) {
        let (text, then) = if browser::stopped() { (page::READ_ONLY, None) } else { (text, then) };
        let toast = Toast { text: text.to_owned(), then };
        self.toast.set(Some(toast.clone()));
        set_timeout(
            move || {
                if self.toast.with_untracked(|shown| shown.as_ref() == Some(&toast)) {
                    self.toast.set(None);
                }
            },
            std::time::Duration::from_secs(8),
        );
    }
}
