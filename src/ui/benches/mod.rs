//! The benches: four pictures with a sentence each, beside the ledger. A touch opens the one that it belongs to.

pub(super) mod drawing;
mod pictures;
mod scale;

use super::desk::{Desk, Overlay};
use super::dom::{El, View, dynamic, el};
use hundred_parts::desk::{Derived, OpenDocument};
use hundred_parts::formula::LineId;
use hundred_parts::rules::Grade;
use hundred_parts::words;

/// The four.
pub(super) fn rows(desk: Desk) -> El {
    el("section").class("benches").child(super::oils::bench(desk)).child(super::chemistry::benches(desk))
}

/// Reads what there is and what follows from it, tracked: the second follows every change of the first.
pub(super) fn read<T>(desk: Desk, read: impl Fn(&OpenDocument, &Derived) -> T) -> T {
    desk.derived(|derived| desk.now(|open| read(open, derived)))
}

/// What the lines of the open formula are called.
pub(super) fn names(open: &OpenDocument) -> impl Fn(LineId) -> String + '_ {
    |id| {
        let line = open.state().formula.line(id);
        line.map(|line| words::choice_name(&line.choice, open.shelf())).unwrap_or_default()
    }
}

/// One of them: its title, its picture, and its result as a sentence with how grave that is.
pub(super) fn bench(
    desk: Desk,
    overlay: Overlay,
    (id, title): (&str, &str),
    picture: impl Into<View>,
    result: impl Fn() -> (Grade, String) + 'static,
) -> El {
    let said = dynamic(result, |(grade, text)| {
        el("span").class("result grade").attr("data-grade", grade.key()).text(text).into()
    });
    el("button")
        .attr("type", "button")
        .class("bench")
        .id(id)
        .attr("aria-haspopup", "dialog")
        .child(el("strong").text(title))
        .child(picture)
        .child(said)
        .press(move || desk.show(overlay))
}

pub(super) use pictures::{emulsifier, oils, ph, preservatives};
pub(super) use scale::scale;
