//! The second part of the program: all but the lines of a formula and their masses. It is fetched once these stand in the
//! page, so that a maker on a slow line can begin to write after half of the download.
//!
//! Everything that only [`run`] leads to is in the second file; the release splits them there ([`door`]). Whoever calls a
//! view of it from elsewhere moves that view into the first file: the sizes that `cargo task build` prints tell.

mod door;

use super::desk::Desk;
use super::dom::{El, View, el, slot};
use super::field::button;
use super::formula::Row;
use super::{arrival, batch, formula, keeping, oils, papers, shelf, shortcuts};
use hundred_parts::facts::ShelfChange;
use hundred_parts::formula::LineId;
use hundred_parts::words::{self, page};
use leptos::prelude::*;
use std::future::Future;
use std::pin::pin;
use std::task::{Context, Poll, Waker};

/// Whether the second part is there.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Later {
    /// On its way.
    Coming,
    /// There.
    Here,
    /// It could not be fetched.
    Missing,
}

/// Something that the second part shows.
#[derive(Clone)]
pub(super) enum Part {
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
    LineMenu(LineId, Row),
    /// A place.
    Shelf,
    /// A place.
    Batch,
    /// A place.
    Papers,
}

/// What the second part is asked for.
pub(super) enum Errand {
    /// Build a view.
    Show(Part),
    /// Work out all that follows from the formula.
    Settle,
    /// Look at what a link holds.
    Link(String),
    /// Say what another tab has changed of the shelf.
    ShelfChange(Box<ShelfChange>),
    /// Empty the bin of what was there for long enough, and bring back what only the quick copies have.
    Tidy,
}

/// Only the door leads here.
fn run(desk: Desk, errand: Errand) -> View {
    match errand {
        Errand::Show(part) => show(desk, part),
        Errand::Settle => {
            desk.settle();
            View::nothing()
        }
        Errand::Link(fragment) => {
            desk.open_link(&fragment);
            View::nothing()
        }
        Errand::ShelfChange(change) => {
            if let Some(text) = words::keeping::shelf_change(&change) {
                desk.say(&text, None);
            }
            View::nothing()
        }
        Errand::Tidy => {
            desk.tidy();
            View::nothing()
        }
    }
}

fn show(desk: Desk, part: Part) -> View {
    match part {
        Part::Above => View::from_iter([arrival::card(desk), keeping::cards(desk)]),
        Part::Keys(open) => shortcuts::list(open),
        Part::Swap => oils::swap(desk),
        Part::Beside => formula::beside(desk),
        Part::Below => formula::below(desk),
        Part::About => formula::about_rest(desk).into(),
        Part::LineMenu(id, row) => formula::line_menu(desk, id, row).into(),
        Part::Shelf => shelf::place(desk).into(),
        Part::Batch => batch::place(desk).into(),
        Part::Papers => papers::place(desk).into(),
    }
}

/// Sends the second part on an errand, if it is there.
pub(super) fn send(desk: Desk, errand: Errand) -> Option<View> {
    if desk.later.get_untracked() != Later::Here {
        return None;
    }
    // What is there answers at once.
    match pin!(door::enter(desk, errand)).poll(&mut Context::from_waker(Waker::noop())) {
        Poll::Ready(Ok(view)) => Some(view),
        _ => None,
    }
}

/// Shows something of the second part as soon as that is there.
pub(super) fn part(desk: Desk, part: Part) -> View {
    let place = matches!(part, Part::Shelf | Part::Batch | Part::Papers);
    slot(
        move || desk.later.get(),
        move |later| match later {
            Later::Here => send(desk, Errand::Show(part.clone())).into(),
            Later::Coming if place => el("p").class("card empty").attr("role", "status").text(page::COMING).into(),
            Later::Missing if place || matches!(part, Part::Beside) => missing(desk).into(),
            Later::Coming | Later::Missing => View::nothing(),
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
    door::fetch().await.is_ok()
}
