//! The list of keys: opened by `?` or by its button.

use super::browser;
use super::dom::{El, View, el, key, when};
use super::field::button;
use hundred_parts::words::{keys, page};
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, Event};

const OPENER: &str = "shortcuts-open";
const CLOSER: &str = "shortcuts-close";

/// Opens or closes the list, with the focus where it is of use.
fn set(open: RwSignal<bool>, to: bool) {
    open.set(to);
    browser::focus(if to { CLOSER } else { OPENER }.to_owned());
}

/// Whether a key was meant for the list: `?` anywhere but in a text, Escape while it is open.
pub(super) fn heard(open: RwSignal<bool>, event: &Event) -> bool {
    let in_text = || {
        let target = event.target().and_then(|target| target.dyn_into::<Element>().ok());
        target.is_some_and(|target| target.closest("input, textarea, select").ok().flatten().is_some())
    };
    let shown = open.get_untracked();
    match key(event).key().as_str() {
        "?" if !in_text() => set(open, !shown),
        "Escape" if shown => set(open, false),
        _ => return false,
    }
    true
}

/// The button that opens it.
pub(super) fn opener(open: RwSignal<bool>) -> El {
    button("?")
        .id(OPENER)
        .class("keys-button")
        .attr("aria-label", keys::TITLE)
        .attr_of("aria-expanded", move || Some(open.get().to_string()))
        .press(move || set(open, !open.get_untracked()))
}

/// The list, while it is open.
pub(super) fn list(open: RwSignal<bool>) -> View {
    let row =
        |(key, does): (&str, &str)| el("div").child(el("dt").child(el("kbd").text(key))).child(el("dd").text(does));
    let card = move || {
        el("section")
            .class("card arrival shortcuts no-print")
            .attr("aria-labelledby", "shortcuts-title")
            .child(el("h2").id("shortcuts-title").text(keys::TITLE))
            .child(el("p").text(keys::INTRO))
            .child(el("dl").child(keys::KEYS.into_iter().map(row).collect::<View>()))
            .child(button(page::CLOSE).id(CLOSER).press(move || set(open, false)))
            .into()
    };
    when(move || open.get(), card)
}
