//! The chemistry bench beside the formula: folded cards whose first line already tells the result.

mod emulsifier;
mod ph;
mod preservation;

use super::desk::Desk;
use super::dom::{El, View, dynamic, el, opened, when};
use hundred_parts::desk::{Derived, OpenDocument};
use hundred_parts::formula::LineId;
use hundred_parts::rules::Grade;
use hundred_parts::words;
use leptos::prelude::*;

/// The cards.
pub(super) fn cards(desk: Desk) -> View {
    [ph::card(desk), preservation::card(desk), emulsifier::card(desk)].into_iter().collect()
}

/// Reads what there is and what follows from it, tracked: the second follows every change of the first.
pub(super) fn read<T>(desk: Desk, read: impl Fn(&OpenDocument, &Derived) -> T) -> T {
    desk.derived(|derived| desk.now(|bench| read(bench, derived)))
}

/// What the lines of the open formula are called.
pub(super) fn names(bench: &OpenDocument) -> impl Fn(LineId) -> String + '_ {
    |id| {
        let line = bench.state().formula.line(id);
        line.map(|line| words::choice_name(&line.choice, bench.shelf())).unwrap_or_default()
    }
}

/// A folded card. The line beside its title is kept up to date; what is in it is made when it is opened, and let go of
/// when it is closed.
pub(super) fn folded_card(
    id: &str,
    title: &str,
    result: impl Fn() -> (Grade, String) + 'static,
    inside: impl Fn() -> View + 'static,
) -> El {
    let open = RwSignal::new(false);
    let line = dynamic(result, |(grade, text)| {
        el("span").class("result grade").attr("data-grade", grade.key()).text(text).into()
    });
    el("details")
        .class("card bench")
        .id(id)
        .child(el("summary").child(el("h2").text(title)).child(line))
        .child(when(move || open.get(), move || el("div").class("inside").child(inside()).into()))
        .on("toggle", move |event| open.set(opened(&event)))
}
