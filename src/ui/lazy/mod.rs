//! The second part of the program: all but the lines of a formula and their masses. It is fetched once these stand in the
//! page, so that a maker on a slow line can begin to write after half of the download.
//!
//! Everything that only [`run`] leads to is in the second file; the release splits them there ([`entry`]). Whoever calls a
//! view of it from elsewhere moves that view into the first file: the sizes that `cargo task build` prints tell.

mod entry;

use super::desk::Desk;
use super::dom::{El, View, dynamic, el};
use super::field::button;
use super::formula::RowSignal;
use super::{arrival, batch, formula, oils, papers, shelf, shortcuts, storage_notices};
use hundred_parts::facts::ShelfChange;
use hundred_parts::formula::LineId;
use hundred_parts::words::{self, page};
use leptos::prelude::*;
use std::future::Future;
use std::pin::pin;
use std::task::{Context, Poll, Waker};

/// Whether the second part is there.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum LazyState {
    /// On its way.
    Coming,
    /// There.
    Here,
    /// It could not be fetched.
    Missing,
}

/// Something that the second part shows.
#[derive(Clone)]
pub(super) enum LazyView {
    /// What stands above the work: what came in, reminders.
    Above,
    /// Above that: the list of keys, while it is open.
    Keys(RwSignal<bool>),
    /// Beside the lines: the swap of an oil.
    Swap,
    /// Beside the lines: oil phase, chemistry, findings.
    Beside,
    /// Below the lines: versions, passing on.
    Below,
    /// What a formula is for: under its title.
    About,
    /// The menu of a line.
    LineMenu(LineId, RowSignal),
    /// A place.
    Shelf,
    /// A place.
    Batch,
    /// A place.
    Papers,
}

/// What the second part is asked for.
pub(super) enum Request {
    /// Build a view.
    Show(LazyView),
    /// Work out all that follows from the formula.
    Recompute,
    /// Look at what a link holds.
    Link(String),
    /// Say what another tab has changed of the shelf.
    ShelfChange(Box<ShelfChange>),
    /// Empty the bin of what was there for long enough, and bring back what only the quick copies have.
    Tidy,
}

/// Root of the lazy chunk. Call it only through [`entry`], or the splitter pulls it into the first chunk.
fn run(desk: Desk, errand: Request) -> View {
    match errand {
        Request::Show(part) => show(desk, part),
        Request::Recompute => {
            desk.recompute();
            View::nothing()
        }
        Request::Link(fragment) => {
            desk.open_link(&fragment);
            View::nothing()
        }
        Request::ShelfChange(change) => {
            if let Some(text) = words::storage_notices::shelf_change(&change) {
                desk.say(&text, None);
            }
            View::nothing()
        }
        Request::Tidy => {
            desk.tidy();
            View::nothing()
        }
    }
}

fn show(desk: Desk, part: LazyView) -> View {
    match part {
        LazyView::Above => View::from_iter([arrival::card(desk), storage_notices::cards(desk)]),
        LazyView::Keys(open) => shortcuts::list(open),
        LazyView::Swap => oils::swap(desk),
        LazyView::Beside => formula::beside(desk),
        LazyView::Below => formula::below(desk),
        LazyView::About => formula::further_fields(desk).into(),
        LazyView::LineMenu(id, row) => formula::line_menu(desk, id, row).into(),
        LazyView::Shelf => shelf::place(desk).into(),
        LazyView::Batch => batch::place(desk).into(),
        LazyView::Papers => papers::place(desk).into(),
    }
}

/// Sends a request to the lazy chunk, if it has been fetched.
pub(super) fn send(desk: Desk, errand: Request) -> Option<View> {
    if desk.lazy.get_untracked() != LazyState::Here {
        return None;
    }
    // What is there answers at once.
    match pin!(entry::enter(desk, errand)).poll(&mut Context::from_waker(Waker::noop())) {
        Poll::Ready(Ok(view)) => Some(view),
        _ => None,
    }
}

/// Shows something of the second part as soon as that is there.
pub(super) fn part(desk: Desk, part: LazyView) -> View {
    let place = matches!(part, LazyView::Shelf | LazyView::Batch | LazyView::Papers);
    dynamic(
        move || desk.lazy.get(),
        move |lazy| match lazy {
            LazyState::Here => send(desk, Request::Show(part.clone())).into(),
            LazyState::Coming if place => el("p").class("card empty").attr("role", "status").text(page::COMING).into(),
            LazyState::Missing if place || matches!(part, LazyView::Beside) => missing(desk).into(),
            LazyState::Coming | LazyState::Missing => View::nothing(),
        },
    )
}

fn missing(desk: Desk) -> El {
    el("section")
        .class("card")
        .attr("role", "alert")
        .child(el("p").text(page::PART_MISSING))
        .child(button(page::TRY_AGAIN).class("primary").press(move || desk.fetch_later()))
}

/// Fetches the second part. False if it did not come, or not whole.
pub(super) async fn fetch() -> bool {
    entry::fetch().await.is_ok()
}
