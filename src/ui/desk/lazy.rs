//! The lazy chunk as the desk knows it: whether it is there, and what it is asked to do. What runs in it stands above the
//! desk (`ui/lazy`), which hands its two functions over at the start.

use super::{Desk, Overlay};
use hundred_parts::desk::DocId;
use hundred_parts::formula::LineId;
use hundred_parts::shelf::ShelfChange;
use leptos::prelude::{GetUntracked, Set};
use std::cell::Cell;
use std::future::Future;
use std::pin::Pin;
use web_sys::console;

/// Whether the lazy chunk is there.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum LazyState {
    /// On its way.
    Coming,
    /// There.
    Here,
    /// It could not be fetched.
    Missing,
}

/// What the desk asks of the lazy chunk.
pub(crate) enum LazyTask {
    /// Work out all that follows from the formula.
    Recompute,
    /// Look at what a link holds.
    Link(String),
    /// Say what another tab has changed of the shelf.
    ShelfChange(Box<ShelfChange>),
    /// Another tab has noted something of this batch: look at its record.
    Batch(DocId),
    /// Set the ticks of a weigh sheet again.
    Tick(String),
    /// Open something over the page, or close what is open.
    Cover(Option<Overlay>),
    /// Another entry of the browser's history was come to.
    FollowHistory,
    /// Enter in the name of a line that proposes nothing.
    LeaveName(LineId),
    /// Empty the bin of what was there for long enough, and bring back what only the quick copies have.
    Tidy,
}

impl LazyTask {
    fn name(&self) -> &'static str {
        match self {
            Self::Recompute => "recompute",
            Self::Link(_) => "link",
            Self::ShelfChange(_) => "shelf change",
            Self::Batch(_) => "batch",
            Self::Tick(_) => "ticks",
            Self::Cover(_) | Self::FollowHistory => "overlay",
            Self::LeaveName(_) => "line",
            Self::Tidy => "tidy",
        }
    }
}

/// How the lazy chunk is reached.
#[derive(Clone, Copy)]
pub(crate) struct LazyChunk {
    /// Fetches it. False if it did not come, or not whole.
    pub(crate) fetch: fn() -> Pin<Box<dyn Future<Output = bool>>>,
    /// Runs a task in it. False if it could not run.
    pub(crate) run: fn(Desk, LazyTask) -> bool,
}

thread_local! {
    /// The recogniser of names, once its tables are there.
    static RECOGNISER: Cell<Option<Recogniser>> = const { Cell::new(None) };
}

/// Tells which rows of the table of ingredients a text may name.
type Recogniser = fn(&str) -> Vec<&'static str>;

/// Hands over the recogniser, which is in the second part: its tables are there. Were it plain that there is only this one,
/// the compiler would call it by name, and so take it into the first part.
pub(crate) fn set_recogniser(recogniser: Recogniser) {
    RECOGNISER.set(Some(core::hint::black_box(recogniser)));
}

/// The rows of the table of ingredients that a text may name; none before the recogniser is there.
pub(crate) fn materials_named(text: &str) -> Vec<&'static str> {
    RECOGNISER.get().map(|recogniser| recogniser(text)).unwrap_or_default()
}

impl Desk {
    /// Has the lazy chunk do something. False if it did not: what is asked for before it has come is asked for again as it
    /// comes (`fetch_lazy_chunk`); that a task cannot run is an error in the log.
    pub(crate) fn ask_lazy(self, task: LazyTask) -> bool {
        let name = task.name();
        let ran = match self.lazy.get_untracked() {
            LazyState::Coming => return false,
            LazyState::Here => (self.chunk.run)(self, task),
            LazyState::Missing => false,
        };
        if !ran {
            log_lost(name);
        }
        ran
    }
}

impl Desk {
    /// Opens something over the page, or closes what is open. What stands in the first part of the program asks here: before
    /// the second one has come, whatever is to open waits for that.
    pub(crate) fn ask_cover(self, overlay: Option<Overlay>) {
        if !self.ask_lazy(LazyTask::Cover(overlay)) && self.lazy.get_untracked() == LazyState::Coming {
            self.overlay.set(overlay);
        }
    }
}

/// Notes in the console that the lazy chunk did not do something.
pub(crate) fn log_lost(what: &str) {
    console::error_1(&["the lazy chunk could not run: ", what].concat().into());
}
