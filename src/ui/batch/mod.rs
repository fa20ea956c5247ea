//! The batch: how much, on which scale, the weigh sheet, the lye of a soap, and the setting of its pH.

mod lye;
mod ph;
mod plan;
mod sheet;
mod ticks;

use super::bar;
use super::browser::go_to;
use super::desk::Desk;
use super::dom::{El, View, el};
use super::field::button;
use hundred_parts::desk::Weighed;
use hundred_parts::words::plan as words;
use leptos::prelude::{RwSignal, With};
use ticks::Ticks;

/// The place.
pub(super) fn place(desk: Desk) -> El {
    let ticks = Ticks::new(desk);
    let printed_at = RwSignal::new(String::new());
    el("div")
        .class("batch")
        .child(plan::plan(desk))
        .child(sheet::sheet(desk, ticks, printed_at))
        .child(lye::card(desk))
        .child(ph::card(desk))
        .child(of_batch(desk, ticks, printed_at))
}

/// The bar: how much of it is weighed, the sheet on paper, and what comes after weighing.
fn of_batch(desk: Desk, ticks: Ticks, printed_at: RwSignal<String>) -> El {
    let all = move || desk.masses(|masses| masses.weigh.as_ref().map_or(0, |sheet| sheet.lines.len()));
    let none = move || all() == 0;
    let done = el("p")
        .class("total")
        .attr("role", "status")
        .hidden_if(none)
        .child(el("strong").text_of(move || words::count(ticks.kept.with(Weighed::count), all())))
        .text(" ")
        .child(el("span").class("whole").text(words::WEIGHED));
    let print = button(words::PRINT).class("ways").disabled_if(none).press(move || sheet::print(desk, printed_at));
    let ph = button(words::SET_PH).class("primary").press(|| go_to("batch-ph-title"));
    bar::bar(View::from_iter([done, el("span").class("makes"), print, ph]))
}
