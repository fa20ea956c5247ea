//! The browser app: shows what the desk holds and sends it actions. No arithmetic, no decision about chemistry, money or
//! safety.

#![allow(unreachable_pub, reason = "the component macro makes items that are only reached inside this module")]

mod batch;
mod browser;
mod desk;
mod field;
mod formula;
mod shelf;
mod shell;
#[cfg(test)]
mod tests;

use leptos::prelude::*;

/// Puts the app into the page.
pub(crate) fn start() {
    std::panic::set_hook(Box::new(|panic| {
        // After a panic nothing of this instance can be trusted: say so, and write nothing any more.
        desk::stop_writing();
        browser::show_crash(&panic.to_string());
    }));
    let Some(mount) = document().get_element_by_id("app") else { return };
    mount.set_text_content(None);
    mount_to(wasm_bindgen::JsCast::unchecked_into(mount), shell::App).forget();
}
