//! The batches of all formulas: a list with a search, and the record of one of them.

mod correct;
mod course;
mod fills;
mod list;
mod trace;
mod used;
mod view;

use super::desk::{Desk, Overlay};
use super::dom::{El, View, dynamic, el};
use super::field::button;
pub(super) use fills::picture;
use hundred_parts::desk::{DocId, RecordDocument};
use hundred_parts::words::record as words;
use leptos::prelude::*;
pub(super) use list::list;
pub(super) use trace::show_lot;
pub(super) use used::Used;
pub(super) use view::record;

/// What the record is called that is shown.
pub(super) fn title(desk: Desk) -> String {
    desk.shown_record.get_untracked().map_or_else(|| words::RECORD.to_owned(), |(_, title)| title)
}

/// Shows the record of a batch.
fn show(desk: Desk, id: DocId, title: String) {
    desk.shown_record.set(Some((id, title)));
    desk.show(Overlay::Record);
}

/// The ways there in the place where batches are made: the record of the batch that is worked on, and all others.
pub(super) fn ways(desk: Desk) -> El {
    let current = move || {
        desk.with_batch(|open| {
            let title = open.open_record().map_or(open.state().formula.about.title.as_str(), RecordDocument::title);
            Some((open.batch_id()?.clone(), title.to_owned()))
        })
    };
    let to_record = dynamic(current, move |current| {
        let Some((id, title)) = current.clone() else { return View::nothing() };
        button(words::RECORD).press(move || show(desk, id.clone(), title.clone())).into()
    });
    el("section")
        .class("actions batches no-print")
        .child(to_record)
        .child(button(words::BATCHES).press(move || desk.show(Overlay::Batches)))
}
