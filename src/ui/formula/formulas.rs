//! The list of formulas: search, new, bin; and what can be done with the open one as a whole.

use crate::ui::browser;
use crate::ui::desk::{Desk, Overlay};
use crate::ui::dom::{El, LOCAL, View, dynamic, el, typed, when};
use crate::ui::field::{button, folded, text_input};
use hundred_parts::desk::{DocId, find_documents, title_with};
use hundred_parts::quantity::Timestamp;
use hundred_parts::words::page;
use leptos::prelude::*;

/// How many rows are drawn at once; a search finds the others.
const MOST: usize = 50;

/// The list, its search, and what is in the bin.
pub(in crate::ui) fn inside(desk: Desk) -> El {
    let query = RwSignal::new(String::new());
    let found = move |binned: bool| -> Vec<(DocId, String, i64)> {
        query.with(|query| {
            desk.metas(|metas| {
                let found = find_documents(metas, query, binned).into_iter().take(MOST);
                found.map(|meta| (meta.id.clone(), meta.title.clone(), meta.changed)).collect()
            })
        })
    };
    let open = move |(id, title, changed): &(DocId, String, i64)| {
        let (here, id) = (id.clone(), id.clone());
        let current = move || desk.with(|open| *open.id() == here).then(|| "true".to_owned());
        let title = if title.trim().is_empty() { page::UNTITLED } else { title };
        let changed = browser::day_of(Timestamp::from_millis(*changed)).map(|day| day.to_string()).unwrap_or_default();
        let go = move || {
            desk.close_overlay();
            desk.open(id.clone());
        };
        el("li").child(button(title).attr_of("aria-current", current).press(go).child(el("small").text(&changed)))
    };
    let binned = move |(id, title, _): &(DocId, String, i64)| {
        let id = id.clone();
        el("li").text(title).text(" ").child(button(page::RESTORE).press(move || desk.bin(id.clone(), false)))
    };
    let new = move || desk.show(Overlay::Start);
    let none = move || found(false).is_empty() && !query.with(String::is_empty);
    let search = text_input(desk, "find-formula")
        .flag(LOCAL)
        .attr("type", "search")
        .attr("placeholder", page::FIND_FORMULA)
        .attr("maxlength", "100")
        .value_of(move || query.get())
        .on("input", move |event| query.set(typed(&event)));
    let bin = dynamic(
        move || found(true),
        move |found| {
            let list = || el("ul").class("list").child(found.iter().map(binned).collect::<View>());
            View::from((!found.is_empty()).then(|| folded(page::BIN).child(list())))
        },
    );
    el("div")
        .class("inside")
        .child(el("label").class("hidden").attr("for", "find-formula").text(page::FIND_FORMULA))
        .child(search)
        .child(
            el("ul")
                .class("list")
                .child(dynamic(move || found(false), move |found| found.iter().map(open).collect::<View>())),
        )
        .child(when(none, || el("p").class("empty").text(page::NONE_FOUND).into()))
        .child(button("+ ").class("add").text(page::NEW_FORMULA).press(new))
        .child(bin)
}

/// What can be done with the open formula as a whole.
pub(in crate::ui) fn more(desk: Desk) -> View {
    let duplicate = move || {
        desk.add(desk.now(|open| {
            let title = title_with(&open.state().formula.about.title, page::COPY);
            open.document().duplicate(title)
        }));
    };
    View::from_iter([
        button(page::DUPLICATE).press(duplicate),
        button(page::TO_BIN).press(move || desk.bin(desk.now(|open| open.id().clone()), true)),
    ])
}
