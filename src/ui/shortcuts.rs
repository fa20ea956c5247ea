//! The list of keys: opened by `?` or from the menu.

use super::desk::{Desk, Overlay};
use super::dom::{El, View, el, key};
use hundred_parts::words::keys;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, Event};

/// Whether a key was meant for what is open over the page: `?` anywhere but in a text, Escape while something is open.
pub(super) fn heard(desk: Desk, event: &Event) -> bool {
    let in_text = || {
        let target = event.target().and_then(|target| target.dyn_into::<Element>().ok());
        // Into a tick or a choice nobody writes.
        let fields = "input:not([type=checkbox], [type=radio]), textarea, select";
        target.is_some_and(|target| target.closest(fields).ok().flatten().is_some())
    };
    let shown = desk.overlay.get_untracked();
    match key(event).key().as_str() {
        "?" if !in_text() && shown == Some(Overlay::Keys) => desk.ask_cover(None),
        "?" if !in_text() => desk.ask_cover(Some(Overlay::Keys)),
        "Escape" if shown.is_some() => desk.ask_cover(None),
        _ => return false,
    }
    true
}

/// The list.
pub(super) fn list() -> El {
    let row =
        |(key, does): (&str, &str)| el("div").child(el("dt").child(el("kbd").text(key))).child(el("dd").text(does));
    el("div")
        .class("shortcuts")
        .child(el("p").text(keys::INTRO))
        .child(el("dl").child(keys::KEYS.into_iter().map(row).collect::<View>()))
}
