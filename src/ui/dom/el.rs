//! One element.

use super::{View, effect};
use leptos::prelude::{document, on_cleanup, untrack};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;
use std::sync::atomic::Ordering::Relaxed;
use wasm_bindgen::prelude::*;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Element, Event, HtmlInputElement, HtmlSelectElement, HtmlTextAreaElement, Node};

const SVG: &str = "http://www.w3.org/2000/svg";

/// An element that is being built; each method gives it back.
#[derive(Clone)]
pub(crate) struct El(Element);

/// An HTML element.
pub(crate) fn el(tag: &str) -> El {
    El(document().create_element(tag).unwrap_throw())
}

/// An SVG element.
pub(crate) fn svg(tag: &str) -> El {
    El(document().create_element_ns(Some(SVG), tag).unwrap_throw())
}

/// What changes an attribute: `None` removes it.
type Text = Box<dyn Fn() -> Option<String>>;

impl El {
    pub(super) fn into_node(self) -> Node {
        self.0.into()
    }

    /// The element itself.
    pub(crate) fn element(&self) -> &Element {
        &self.0
    }

    /// Puts another element at its end.
    pub(crate) fn append(&self, child: &Self) {
        let _ = self.0.append_child(&child.0);
    }

    /// Takes it out of the page.
    pub(crate) fn remove(&self) {
        self.0.remove();
    }

    /// Gives it a class, or takes it away.
    pub(crate) fn set_class(&self, name: &str, holds: bool) {
        let _ = self.0.class_list().toggle_with_force(name, holds);
    }

    /// Sets an attribute.
    pub(crate) fn attr(self, name: &str, value: &str) -> Self {
        let _ = self.0.set_attribute(name, value);
        self
    }

    /// Sets a boolean attribute.
    pub(crate) fn flag(self, name: &str) -> Self {
        self.attr(name, "")
    }

    /// Sets the class.
    pub(crate) fn class(self, names: &str) -> Self {
        self.attr("class", names)
    }

    /// Sets the id.
    pub(crate) fn id(self, id: &str) -> Self {
        self.attr("id", id)
    }

    /// Adds something at the end.
    pub(crate) fn child(self, view: impl Into<View>) -> Self {
        view.into().put_into(&self.0);
        self
    }

    /// Adds text.
    pub(crate) fn text(self, text: &str) -> Self {
        self.child(text)
    }

    /// Keeps an attribute at a value that depends on signals; `None` removes it.
    pub(crate) fn attr_of(self, name: &'static str, value: impl Fn() -> Option<String> + 'static) -> Self {
        follow_attribute(self.0.clone(), name, Box::new(value));
        self
    }

    /// Gives it a class while something holds.
    pub(crate) fn class_if(self, name: &'static str, holds: impl Fn() -> bool + 'static) -> Self {
        let element = self.clone();
        effect(Box::new(move || element.set_class(name, holds())));
        self
    }

    /// Hides it while something holds.
    pub(crate) fn hidden_if(self, holds: impl Fn() -> bool + 'static) -> Self {
        self.attr_of("hidden", move || holds().then(String::new))
    }

    /// Disables it while something holds.
    pub(crate) fn disabled_if(self, holds: impl Fn() -> bool + 'static) -> Self {
        self.attr_of("disabled", move || holds().then(String::new))
    }

    /// Adds text that depends on signals.
    pub(crate) fn text_of(self, text: impl Fn() -> String + 'static) -> Self {
        follow_text(&self.0, Box::new(text));
        self
    }

    /// Keeps what stands in a field at a text that depends on signals. The caret stays where it is as long as the text
    /// is the same.
    pub(crate) fn value_of(self, value: impl Fn() -> String + 'static) -> Self {
        follow_value(self.0.clone(), Box::new(value));
        self
    }

    /// Keeps a tick at what depends on signals.
    pub(crate) fn checked_of(self, holds: impl Fn() -> bool + 'static) -> Self {
        let input: HtmlInputElement = self.0.clone().unchecked_into();
        effect(Box::new(move || input.set_checked(holds())));
        self
    }

    /// Calls back on an event, for as long as the view lives that it was made for.
    pub(crate) fn on(self, event: &str, call: impl Fn(Event) + 'static) -> Self {
        listen(&self.0, event, Box::new(call));
        self
    }

    /// Calls back when it is pressed, by pointer or key.
    pub(crate) fn press(self, call: impl Fn() + 'static) -> Self {
        self.on("click", move |_| call())
    }
}

fn follow_attribute(element: Element, name: &'static str, value: Text) {
    let mut before = None;
    effect(Box::new(move || {
        let now = value();
        if now != before {
            let _ = match &now {
                Some(text) => element.set_attribute(name, text),
                None => element.remove_attribute(name),
            };
            before = now;
        }
    }));
}

fn follow_text(parent: &Element, text: Box<dyn Fn() -> String>) {
    let node = document().create_text_node("");
    let _ = parent.append_child(&node);
    let mut before = String::new();
    effect(Box::new(move || {
        let now = text();
        if now != before {
            node.set_data(&now);
            before = now;
        }
    }));
}

fn follow_value(element: Element, value: Box<dyn Fn() -> String>) {
    effect(Box::new(move || {
        let now = value();
        // Inputs, text areas and lists have a `value` each, in classes of their own.
        if let Some(input) = element.dyn_ref::<HtmlInputElement>() {
            if input.value() != now {
                input.set_value(&now);
            }
        } else if let Some(area) = element.dyn_ref::<HtmlTextAreaElement>() {
            if area.value() != now {
                area.set_value(&now);
            }
        } else if let Some(list) = element.dyn_ref::<HtmlSelectElement>()
            && list.value() != now
        {
            list.set_value(&now);
        }
    }));
}

/// A listener ends with its owner: the browser may still send events to an element that is gone or going, and the signals
/// that the call reads are gone by then.
fn listen(element: &Element, event: &str, call: Box<dyn Fn(Event)>) {
    let alive = Arc::new(AtomicBool::new(true));
    let ends = alive.clone();
    on_cleanup(move || ends.store(false, Relaxed));
    let while_alive = move |event| {
        if alive.load(Relaxed) {
            // Some events come in the middle of an effect that moves elements: it must not follow what is read here.
            untrack(|| call(event));
        }
    };
    // Handed over to the browser, which lets go of it with the element.
    let call: JsValue = Closure::<dyn Fn(Event)>::new(while_alive).into_js_value();
    let _ = element.add_event_listener_with_callback(event, call.unchecked_ref());
}
