//! The second part of the program: all but the lines of a formula and their masses. It is fetched once these stand in the
//! page, so that a maker on a slow line can begin to write after half of the download.
//!
//! Everything that only [`run`] leads to is in the second file; the release splits them there ([`entry`]). Whoever calls a
//! view of it from elsewhere moves that view into the first file: the sizes that `cargo task build` prints tell.

mod entry;

use super::desk::{Desk, LazyChunk, LazyState, LazyTask, log_lost};
use super::dom::{El, View, dynamic, el};
use super::field::button;
use super::formula::RowSignal;
use super::{annexes, arrival, batch, formula, overlay, papers, proof, shelf, storage_notices};
use hundred_parts::formula::{LineId, PhaseId};
use hundred_parts::words::{self, page};
use leptos::prelude::*;
use std::future::Future;
use std::pin::pin;
use std::task::{Context, Poll, Waker};
use wasm_bindgen_futures::spawn_local;

/// Something that the second part shows.
#[derive(Clone)]
pub(super) enum LazyView {
    /// What stands above the work: what came in, reminders.
    Above,
    /// Whatever is open over the page.
    Overlay,
    /// The ways to what is rarely needed.
    More,
    /// Beside the lines: the benches and the findings.
    Beside,
    /// The list of formulas, where it stands beside them.
    Formulas,
    /// What can be done with a line.
    LineActions(LineId, RowSignal),
    /// What can be done with a phase.
    PhaseActions(PhaseId),
    /// A place.
    Shelf,
    /// A place.
    Batch,
    /// A place.
    Proof,
    /// A place.
    Papers,
    /// The making of a batch.
    Stove,
}

/// What the second part is asked for.
pub(super) enum Request {
    /// Build a view.
    Show(LazyView),
    /// Do something for the desk.
    Do(LazyTask),
}

/// What the desk is given to reach the second part.
pub(super) const CHUNK: LazyChunk =
    LazyChunk { fetch: || Box::pin(fetch()), run: |desk, task| send(desk, Request::Do(task)).is_some() };

/// Root of the lazy chunk. Call it only through [`entry`], or the splitter pulls it into the first chunk.
fn run(desk: Desk, request: Request) -> View {
    match request {
        Request::Show(part) => return show(desk, part),
        Request::Do(LazyTask::Recompute) => annexes::recompute(desk),
        Request::Do(LazyTask::Link(fragment)) => desk.open_link(&fragment),
        Request::Do(LazyTask::ShelfChange(change)) => {
            if let Some(text) = words::storage_notices::shelf_change(&change) {
                desk.say(&text, None);
            }
        }
        Request::Do(LazyTask::Batch(id)) => spawn_local(async move {
            desk.open_kept(id).await;
        }),
        Request::Do(LazyTask::Tick(kept)) => batch::put_ticks_back(desk, &kept),
        Request::Do(LazyTask::Cover(Some(overlay))) => desk.show(overlay),
        Request::Do(LazyTask::Cover(None)) => desk.close_overlay(),
        Request::Do(LazyTask::FollowHistory) => desk.follow_history(),
        Request::Do(LazyTask::LeaveName(line)) => formula::leave_name(desk, line),
        Request::Do(LazyTask::Tidy) => {
            desk.tidy();
            desk.tidy_history();
            annexes::fetch_later(desk);
        }
    }
    View::nothing()
}

fn show(desk: Desk, part: LazyView) -> View {
    match part {
        LazyView::Above => View::from_iter([arrival::card(desk), storage_notices::cards(desk)]),
        LazyView::Overlay => overlay::shown(desk),
        LazyView::More => overlay::more(desk).into(),
        LazyView::Beside => formula::beside(desk),
        LazyView::Formulas => formula::formulas(desk).into(),
        LazyView::LineActions(id, row) => formula::line_actions(desk, id, row).into(),
        LazyView::PhaseActions(id) => formula::phase_actions(desk, id).into(),
        LazyView::Shelf => shelf::place(desk).into(),
        LazyView::Batch => batch::place(desk).into(),
        LazyView::Proof => proof::place(desk).into(),
        LazyView::Papers => papers::place(desk).into(),
        LazyView::Stove => stove_part(desk),
    }
}

/// Sends a request to the lazy chunk, which must be there. Nothing if it could not run.
fn send(desk: Desk, request: Request) -> Option<View> {
    answer(entry::enter(desk, request))
}

/// What is there answers at once.
fn answer(asked: impl Future<Output = Result<View, entry::Missing>>) -> Option<View> {
    match pin!(asked).poll(&mut Context::from_waker(Waker::noop())) {
        Poll::Ready(Ok(view)) => Some(view),
        _ => None,
    }
}

fn show_or_log(desk: Desk, part: LazyView) -> Option<View> {
    let view = send(desk, Request::Show(part));
    if view.is_none() {
        log_lost("a view");
    }
    view
}

/// Shows something of the second part as soon as that is there.
pub(super) fn part(desk: Desk, part: LazyView) -> View {
    let place =
        matches!(part, LazyView::Shelf | LazyView::Batch | LazyView::Proof | LazyView::Papers | LazyView::Stove);
    dynamic(
        move || desk.lazy.get(),
        move |lazy| match lazy {
            LazyState::Here => show_or_log(desk, part.clone()).into(),
            LazyState::Coming if place => coming().into(),
            LazyState::Missing if place || matches!(part, LazyView::Beside) => {
                missing(move || desk.fetch_lazy_chunk()).into()
            }
            LazyState::Coming | LazyState::Missing => View::nothing(),
        },
    )
}

/// The stove, a part of its own that comes when it is first asked for.
fn stove_part(desk: Desk) -> View {
    let state = RwSignal::new(LazyState::Coming);
    let fetch = move || {
        state.set(LazyState::Coming);
        spawn_local(async move {
            let come = if entry::fetch_stove().await.is_ok() { LazyState::Here } else { LazyState::Missing };
            // Nothing once the place was left.
            state.try_set(come);
        });
    };
    fetch();
    dynamic(
        move || state.get(),
        move |state| match state {
            LazyState::Coming => coming().into(),
            LazyState::Missing => missing(fetch).into(),
            LazyState::Here => {
                let view = answer(entry::enter_stove(desk));
                if view.is_none() {
                    log_lost("the stove");
                }
                view.into()
            }
        },
    )
}

fn coming() -> El {
    el("p").class("card empty").attr("role", "status").text(page::COMING)
}

fn missing(again: impl Fn() + 'static) -> El {
    el("section")
        .class("card")
        .attr("role", "alert")
        .child(el("p").text(page::PART_MISSING))
        .child(button(page::TRY_AGAIN).class("primary").press(again))
}

/// Fetches the second part. False if it did not come, or not whole.
async fn fetch() -> bool {
    entry::fetch().await.is_ok()
}
