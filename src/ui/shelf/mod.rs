//! The shelf: what is in stock first, then what is known; an ingredient opens beside the list.

mod confirm;
mod entry;
mod list;
mod stock;
mod supplied;

use super::desk::Desk;
use super::dom::{El, dynamic, el};
use leptos::prelude::*;

/// The place: all ingredients, or the table of fats.
pub(super) fn place(desk: Desk) -> El {
    let fats = RwSignal::new(false);
    let shown = dynamic(
        move || fats.get(),
        move |shown| {
            if *shown { super::oils::table(desk, move || fats.set(false)) } else { list::ingredients(desk, fats) }
                .into()
        },
    );
    el("div").child(shown)
}
