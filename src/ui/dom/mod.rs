//! The page's own way of making elements: a thin builder over the DOM, driven by Leptos' signals.
//!
//! Why not the `view!` macro: it makes a type for every tree, and the page of three places came to 322 kB (Brotli) that
//! way, against a limit of 250. Here nothing is generic below the closures, so a new view costs what it says. Everything
//! is built by `createElement` and text nodes: no text of the maker's can become markup.
//!
//! [`El`] builds one element, [`dynamic`] shows what depends on a value, [`each`] shows a list that changes.

mod el;
mod event;
mod region;
#[cfg(test)]
mod tests;

pub(super) use el::{El, el, svg};
pub(super) use event::{
    LOCAL, chosen, close_menu, dragged_to, in_local_field, is_enter, key, left, opened, show_whole, ticked, typed,
};
pub(super) use region::{dynamic, each, when};

use leptos::prelude::{RenderEffect, RwSignal, Set, WithUntracked, document, on_cleanup, untrack};
use wasm_bindgen::JsCast;
use web_sys::Node;

/// Something that can stand in the page: an element, text, or a fragment of several.
pub(super) struct View(Node);

impl View {
    /// Nothing.
    pub(super) fn nothing() -> Self {
        Self(document().create_document_fragment().unchecked_into())
    }

    /// The node.
    pub(super) fn node(&self) -> &Node {
        &self.0
    }

    /// Puts it at the end of an element.
    pub(super) fn put_into(&self, parent: &Node) {
        let _ = parent.append_child(&self.0);
    }
}

impl From<El> for View {
    fn from(element: El) -> Self {
        Self(element.into_node())
    }
}

impl From<&str> for View {
    fn from(text: &str) -> Self {
        Self(document().create_text_node(text).unchecked_into())
    }
}

impl From<String> for View {
    fn from(text: String) -> Self {
        Self::from(text.as_str())
    }
}

impl<T: Into<View>> From<Option<T>> for View {
    fn from(view: Option<T>) -> Self {
        view.map_or_else(Self::nothing, Into::into)
    }
}

impl<T: Into<View>> FromIterator<T> for View {
    fn from_iter<I: IntoIterator<Item = T>>(views: I) -> Self {
        let all = Self::nothing();
        views.into_iter().for_each(|view| view.into().put_into(&all.0));
        all
    }
}

/// Runs now, and again whenever a signal that it read has changed, until the owner is cleaned up.
pub(super) fn effect(mut run: Box<dyn FnMut()>) {
    let effect = RenderEffect::new(move |_: Option<()>| run());
    on_cleanup(move || drop(effect));
}

/// A value that depends on signals, as a signal that only changes when the value does. Unlike a memo it is there even
/// while nobody looks, and costs a few hundred bytes.
pub(super) fn follow<T: Clone + PartialEq + Send + Sync + 'static>(value: impl Fn() -> T + 'static) -> RwSignal<T> {
    let signal = RwSignal::new(untrack(&value));
    effect(Box::new(move || {
        let now = value();
        if signal.with_untracked(|before| *before != now) {
            signal.set(now);
        }
    }));
    signal
}
