//! The list of formulas: search, new, duplicate, bin.

use crate::ui::browser;
use crate::ui::desk::Desk;
use crate::ui::dom::{El, LOCAL, View, dynamic, el, typed, when};
use crate::ui::field::{button, folded, text_input, unfolding};
use hundred_parts::desk::{DocId, Document, find_documents, title_with};
use hundred_parts::words::page;
use leptos::prelude::*;

/// How many rows are drawn at once; a search finds the others.
const MOST: usize = 50;

/// The card: open where there is room for it beside the formula.
pub(super) fn formulas(desk: Desk) -> El {
    let card = unfolding(folded(page::FORMULAS).class("card formulas"), move || inside(desk));
    if browser::is_wide() { card.flag("open") } else { card }
}

fn inside(desk: Desk) -> El {
    let query = RwSignal::new(String::new());
    let found = move |binned: bool| -> Vec<(DocId, String)> {
        query.with(|query| {
            desk.metas(|metas| {
                let found = find_documents(metas, query, binned).into_iter().take(MOST);
                found.map(|meta| (meta.id.clone(), meta.title.clone())).collect()
            })
        })
    };
    let duplicate = move || {
        desk.add(desk.now(|open| {
            let title = title_with(&open.state().formula.about.title, page::COPY);
            open.document().duplicate(title)
        }));
    };
    let open = move |(id, title): &(DocId, String)| {
        let (here, id) = (id.clone(), id.clone());
        let current = move || desk.with(|open| *open.id() == here).then(|| "true".to_owned());
        let title = if title.trim().is_empty() { page::UNTITLED } else { title };
        el("li").child(button(title).attr_of("aria-current", current).press(move || desk.open(id.clone())))
    };
    let binned = move |(id, title): &(DocId, String)| {
        let id = id.clone();
        el("li").text(title).text(" ").child(button(page::RESTORE).press(move || desk.bin(id.clone(), false)))
    };
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
        .child(
            el("div")
                .class("actions")
                .child(button(page::NEW_FORMULA).press(move || desk.add(Document::default())))
                .child(button(page::DUPLICATE).press(duplicate))
                .child(button(page::TO_BIN).press(move || desk.bin(desk.now(|open| open.id().clone()), true))),
        )
        .child(bin)
}
