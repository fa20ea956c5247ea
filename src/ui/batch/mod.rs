//! The batch: how much, on which scale, the weigh sheet, the lye of a soap, and the setting of its pH.

mod cost;
mod lye;
mod method;
mod method_step;
mod ph;
mod plan;
mod sheet;
mod shopping;
mod ticks;

pub(super) use cost::money_field;
pub(super) use ph::inside as ph_of_batch;

use super::desk::Desk;
use super::dom::{El, View, el};
use super::field::button;
use super::{bar, records, stove};
use hundred_parts::desk::Screen;
use hundred_parts::words::{plan as words, stove as at_stove};
use leptos::prelude::RwSignal;
pub(super) use method::method;
use ticks::Ticks;
pub(super) use ticks::{put_back as put_ticks_back, take_over as take_ticks_over, ticked_lines};

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
        .child(shopping::card(desk))
        .child(cost::card(desk))
        .child(records::ways(desk))
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
        .child(el("strong").text_of(move || words::count(ticks.count(), all())))
        .text(" ")
        .child(el("span").class("whole").text(words::WEIGHED));
    let print = button(words::PRINT).class("ways").disabled_if(none).press(move || sheet::print(desk, printed_at));
    let go = el("a")
        .id("stove-go")
        .class("go")
        .attr("href", Screen::Stove.address())
        .text_of(move || if stove::is_making(desk) { at_stove::CONTINUE } else { at_stove::START }.to_owned());
    bar::bar(View::from_iter([done, el("span").class("makes"), print, go]))
}
