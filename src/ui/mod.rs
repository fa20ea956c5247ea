//! The browser app: shows what the desk holds and sends it actions. No arithmetic, no decision about chemistry, money or
//! safety.

mod annexes;
mod arrival;
mod bar;
mod batch;
mod benches;
mod browser;
mod chemistry;
mod desk;
mod dom;
mod entering;
mod field;
mod formula;
mod lazy;
mod oils;
mod overlay;
mod papers;
mod proof;
mod records;
mod shelf;
mod shell;
mod shortcuts;
mod storage_notices;
mod stove;
#[cfg(test)]
mod tests;

use desk::Desk;
use hundred_parts::desk::OpenDocument;
use leptos::prelude::{Owner, mount_to, set_timeout};
use std::time::Duration;
use web_sys::HtmlElement;

/// Puts the app into the page.
pub(crate) fn start() {
    std::panic::set_hook(Box::new(|panic| {
        // The card first asks for what was typed and is not stored yet (`Desk::rescue`). Then nothing is written any more:
        // after a panic nothing of this instance can be trusted.
        browser::show_crash(&panic.to_string());
        browser::stop_writing();
    }));
    // A task each, so that the page answers between them.
    let open = desk::first_document();
    set_timeout(
        move || {
            if let Some(mount) = browser::element("app") {
                put_into(wasm_bindgen::JsCast::unchecked_into(mount), open);
            }
        },
        Duration::ZERO,
    );
}

/// Leptos owns what is followed and runs it; the elements are made by `dom`.
fn put_into(mount: HtmlElement, open: OpenDocument) {
    let holder = mount.clone();
    let start = move || {
        let desk = Desk::start(lazy::CHUNK, open);
        let owner = Owner::current().unwrap_or_default();
        let show = move || {
            holder.set_text_content(None);
            owner.with(|| shell::app(desk).put_into(&holder));
        };
        set_timeout(show, Duration::ZERO);
    };
    mount_to(mount, start).forget();
}
