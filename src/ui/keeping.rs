//! What the maker should know about where the work is kept: reminders, damaged copies, and the promise of the browser.

use super::browser;
use super::desk::{Desk, Unreadable};
use super::dom::{El, View, el, slot, when};
use super::field::button;
use hundred_parts::desk::collection_text;
use hundred_parts::words::page;
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

/// Puts everything into a file, and notes that it was.
pub(super) fn export_all(desk: Desk) {
    spawn_local(async move {
        let documents = desk.all_documents().await;
        let text = desk.now(|bench| collection_text(documents.iter(), bench.shelf()));
        browser::download("all-formulas.hundred-parts.json", "application/json", &text);
        desk.backed_up();
    });
}

/// The cards above the work, each only when it has something to say.
pub(super) fn cards(desk: Desk) -> View {
    let unreadable = slot(
        move || desk.unreadable.get(),
        move |found| View::from(found.as_ref().map(|found| unreadable(desk, found))),
    );
    let remind = when(move || desk.backup_due(), move || reminder(desk).into());
    let install = when(move || desk.in_a_tab_of_ios.get(), move || install_card(desk).into());
    [unreadable, remind, install].into_iter().collect()
}

fn card(role: &str, title: &str, text: &str) -> El {
    el("section")
        .class("card arrival no-print")
        .attr("role", role)
        .child(el("h2").text(title))
        .child(el("p").text(text))
}

fn unreadable(desk: Desk, found: &Unreadable) -> El {
    let slot = found.slot.clone();
    let download = move || {
        browser::download("damaged.hundred-parts.json", "application/json", &slot.body);
    };
    let actions = el("div")
        .class("actions")
        .child(button(page::DOWNLOAD_AS_IT_IS).class("primary").press(download))
        .child(button(page::CLOSE).press(move || desk.unreadable.set(None)));
    let title = format!("{}{}", page::ABOUT_STORED, found.slot.head.title);
    card("alert", &title, found.why).child(actions)
}

fn reminder(desk: Desk) -> El {
    let actions = el("div")
        .class("actions")
        .child(button(page::EXPORT_ALL).class("primary").press(move || export_all(desk)))
        .child(button(page::LATER).press(move || desk.back_up_later()));
    card("status", page::BACKUP_TITLE, page::BACKUP_TEXT).child(actions)
}

fn install_card(desk: Desk) -> El {
    let close = move || {
        browser::set_preference("ios", "closed");
        desk.in_a_tab_of_ios.set(false);
    };
    let actions = el("div")
        .class("actions")
        .child(button(page::EXPORT_ALL).class("primary").press(move || export_all(desk)))
        .child(button(page::CLOSE).press(close));
    card("status", page::INSTALL_TITLE, page::INSTALL_TEXT).child(actions)
}

/// Where the work is kept, as it is: the browser's promise and the last export.
pub(super) fn promise(desk: Desk) -> El {
    let text = move || {
        let promise = match desk.promised.get() {
            Some(true) => page::PROMISED,
            Some(false) => page::NOT_PROMISED,
            None => page::PROMISE_UNKNOWN,
        };
        match desk.backup.get().last {
            Some(last) => format!("{promise} {}{}.", page::LAST_EXPORT, browser::local_time(last)),
            None => format!("{promise} {}", page::NO_EXPORT),
        }
    };
    el("p").class("small").text_of(text)
}
