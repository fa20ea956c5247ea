//! At the stove: one thing to do at a time, its figure readable from an arm's length, the next action under the thumb.
//!
//! What is shown follows from the record of the batch alone, so that a page that was closed comes back to the very step. Only
//! which earlier step is looked at, and what is typed and not recorded yet, is the view's own; the latter is kept on the device.

mod alarm;
mod begin;
mod checks;
mod cool;
mod decide;
mod draft;
mod frame;
mod heat;
mod more;
mod pack;
mod scale;
mod steps;
mod weigh;

use super::browser;
use super::desk::Desk;
use super::dom::{El, View, dynamic, el};
use hundred_parts::batch::{AtStove, BatchRecord, Event, Making, Task};
use hundred_parts::desk::{BatchState, DocId};
use hundred_parts::quantity::Timestamp;
use hundred_parts::words::{batch_record, stove as words};
use leptos::prelude::*;
use std::sync::Arc;
use std::time::Duration;
use wasm_bindgen_futures::spawn_local;

/// The heading of what is to be done, which takes the focus when that changes.
const TASK: &str = "stove-task";

/// A batch that is made, with its record.
#[derive(Clone, PartialEq)]
struct MadeBatch {
    id: String,
    record: Arc<BatchRecord>,
    at: AtStove,
}

/// What is at hand in every view of the stove.
#[derive(Clone, Copy)]
struct Stove {
    desk: Desk,
    /// The batch. Worked out as it is read: what is shown, and what it is shown from, are never of two moments.
    seen: Memo<Seen>,
    /// The task that is looked at, where that is not the next one.
    looked_at: RwSignal<Option<usize>>,
    /// The clock, a second at a time.
    now: RwSignal<Timestamp>,
    /// What was chosen of what is rarely done.
    panel: RwSignal<Option<more::Panel>>,
    /// A scale that sends what it shows.
    scale: RwSignal<scale::ScaleState>,
}

impl Stove {
    /// Reads the batch, tracked.
    fn with<T>(self, read: impl FnOnce(&MadeBatch) -> T) -> Option<T> {
        self.seen.with(|seen| seen.made().map(read))
    }

    /// Reads it once.
    fn of<T>(self, read: impl FnOnce(&MadeBatch) -> T) -> Option<T> {
        self.seen.with_untracked(|seen| seen.made().map(read))
    }

    /// The place of the task that is shown.
    fn task(self) -> Option<usize> {
        let next = self.with(|made| made.at.making.next()).flatten();
        self.looked_at.get().or(next)
    }

    /// Records what happened. True if it is in the record.
    fn note(self, event: Event) -> bool {
        self.desk.note(event)
    }

    /// Goes on to what is next.
    fn go_on(self) {
        let after = self.looked_at.get_untracked().map(|at| at + 1);
        let next = self.of(|made| made.at.making.next()).flatten();
        // From an earlier step one goes through those after it, up to the one that is next.
        self.looked_at.set(after.filter(|at| next.is_some_and(|next| *at < next)));
        browser::focus_soon(TASK.to_owned());
    }

    /// Records that a step is done, and goes on.
    fn step_done(self, step: usize) {
        let known = self.of(|made| made.at.making.steps_done.iter().any(|(done, _)| *done == step));
        if known == Some(true) || self.note(Event::StepDone { step }) {
            self.go_on();
        }
    }
}

/// What the document has of the batch that is worked on.
#[derive(Clone, PartialEq)]
enum Seen {
    None,
    Closed(DocId),
    Made(Arc<MadeBatch>),
}

impl Seen {
    /// The batch; nothing before it was begun.
    fn made(&self) -> Option<&MadeBatch> {
        match self {
            Self::Made(made) => Some(made),
            Self::None | Self::Closed(_) => None,
        }
    }
}

/// What the place shows.
#[derive(Clone, PartialEq)]
enum Shown {
    Looking,
    Opening(DocId),
    Begin,
    Making,
    Over,
}

/// The place.
pub(super) fn place(desk: Desk) -> El {
    // Folded once for each change: a long record takes its time.
    let seen = Memo::new(move |_| {
        desk.with_batch(|open| match open.batch() {
            BatchState::Open(record) => {
                let id = open.open_record().map(|record| record.id().as_str().to_owned()).unwrap_or_default();
                let at = AtStove::of(&record);
                at.map_or(Seen::None, |at| Seen::Made(Arc::new(MadeBatch { id, record, at })))
            }
            BatchState::Closed(id) => Seen::Closed(id),
            _ => Seen::None,
        })
    });
    let stove = Stove {
        desk,
        seen,
        looked_at: RwSignal::new(None),
        now: RwSignal::new(browser::now()),
        panel: RwSignal::new(None),
        scale: RwSignal::new(scale::ScaleState::Without),
    };
    tick(stove);
    alarm::stay_awake();
    let shown = move || {
        seen.with(|seen| match seen {
            Seen::Closed(id) => Shown::Opening(id.clone()),
            Seen::Made(made) if made.at.making.is_over() => Shown::Over,
            Seen::Made(_) => Shown::Making,
            // What was stored may still tell of a batch.
            Seen::None if !desk.has_looked() => Shown::Looking,
            Seen::None => Shown::Begin,
        })
    };
    let name = el("h1").class("hidden").text(words::AT_STOVE);
    el("section").class("stove no-print").child(name).child(dynamic(shown, move |shown| match shown {
        Shown::Looking => looking().into(),
        Shown::Opening(id) => opening(stove, id),
        Shown::Begin => begin::begin(stove),
        Shown::Making => frame::frame(stove),
        Shown::Over => decide::over(stove),
    }))
}

/// Follows the clock while the view is there.
fn tick(stove: Stove) {
    set_timeout(
        move || {
            // Nothing once the view has gone.
            if stove.now.try_set(browser::now()).is_none() {
                tick(stove);
            }
        },
        Duration::from_secs(1),
    );
}

fn looking() -> El {
    el("p").attr("role", "status").text(batch_record::OPENING_RECORD)
}

/// Opens the record of the batch that was worked on; where it is not there, another one can be begun.
fn opening(stove: Stove, id: &DocId) -> View {
    let (missing, id) = (RwSignal::new(false), id.clone());
    spawn_local(async move {
        if !stove.desk.open_batch(id).await {
            missing.try_set(true);
        }
    });
    dynamic(
        move || missing.get(),
        move |missing| match missing {
            false => looking().into(),
            true => begin::begin(stove),
        },
    )
}

/// What a task shows: what is in the middle, and the action as wide as the screen.
struct TaskView {
    inside: View,
    action: View,
}

/// The view of a task.
fn task_view(stove: Stove, at: usize) -> TaskView {
    match stove.of(|made| made.at.making.tasks.get(at).copied()).flatten() {
        Some(Task::Weigh { line, .. }) => weigh::weigh(stove, at, line),
        Some(Task::Step(step)) => steps::step(stove, at, step),
        Some(Task::Decide) | None => decide::decide(stove),
    }
}

/// Whether the open batch is being made.
pub(super) fn is_making(desk: Desk) -> bool {
    desk.with_batch(|open| match open.batch() {
        BatchState::Open(record) => Making::of(&record).is_some_and(|making| !making.is_over()),
        _ => false,
    })
}

/// A headline, large, which takes the focus.
fn headline(text: &str) -> El {
    el("h2").id(TASK).attr("tabindex", "-1").text(text)
}
