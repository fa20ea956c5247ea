//! The bar above the places: where things stand, and the one thing to do next.

use super::browser;
use super::desk::Desk;
use super::dom::{El, View, el};
use super::formula;
use hundred_parts::desk::Screen;
use hundred_parts::words::{ledger, page};

/// The bar.
pub(super) fn bar(parts: impl Into<View>) -> El {
    el("div").class("bar no-print").child(parts)
}

/// Of the formula: its sum, what was found, what it makes, and on to weighing.
pub(super) fn of_formula(desk: Desk) -> El {
    let jars = move || desk.with(|open| ledger::jars(&open.state().plan, desk.sign));
    let mass = move || desk.masses(|masses| desk.with(|open| ledger::batch(masses, open.state(), desk.sign)));
    let size = move |_| {
        let field = desk.now(|open| ledger::size_field(open.state().plan.basis).key());
        browser::focus_soon(format!("plan-{field}"));
    };
    let batch = || el("a").attr("href", Screen::Batch.address());
    let makes = batch()
        .class("makes")
        .child(el("span").class("hidden").text(page::HOW_MUCH))
        .text(" ")
        .child(el("span").text_of(jars))
        .text(" ")
        .child(el("strong").text_of(mass))
        .on("click", size);
    bar(View::from_iter([
        formula::total(desk),
        formula::jump(desk),
        makes,
        batch().id("weigh-go").class("go").text(ledger::WEIGH),
    ]))
}
