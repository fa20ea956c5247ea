//! Going through the fields with a finger and the keys that a tablet shows: a touch selects a number, Enter goes to the next
//! field, and the key says so.
//!
//! One place for all fields: each is looked at as the focus comes into it, since what is next depends on what is folded away
//! at that moment. Where Enter does something of its own, the field or the form around it says which word the key is to have
//! in [`ENTER`], and hears the key itself.

use super::browser::focus_on;
use super::dom::key;
use leptos::prelude::{document, window_event_listener};
use std::cell::Cell;
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::{Element, Event, HtmlInputElement};

/// The word for the key where Enter does something of its own: a value of `enterkeyhint`.
pub(super) const ENTER: &str = "data-enter";

/// What is typed into, in the order of the page.
const FIELDS: &str = "#work input[type=text]:not([disabled]), #work input[type=search]:not([disabled]), \
                      #work textarea:not([disabled]):not([readonly])";

/// Listens for as long as the page lives.
pub(super) fn listen() {
    window_event_listener(leptos::ev::focusin, |event| name_the_key(event.as_ref()));
    window_event_listener(leptos::ev::keydown, |event| go_on(event.as_ref()));
    let came_from_outside = Rc::new(Cell::new(false));
    let comes = came_from_outside.clone();
    let down = move |event: &Event| comes.set(number_of(event).is_some_and(|field| !has_focus(&field)));
    let click = move |event: &Event| {
        if came_from_outside.take() {
            number_of(event).iter().filter(|field| !has_selection(field)).for_each(HtmlInputElement::select);
        }
    };
    window_event_listener(leptos::ev::pointerdown, move |event| down(event.as_ref()));
    window_event_listener(leptos::ev::click, move |event| click(event.as_ref()));
}

fn input_of(event: &Event) -> Option<HtmlInputElement> {
    event.target()?.dyn_into().ok()
}

/// The field for a number that an event came to.
fn number_of(event: &Event) -> Option<HtmlInputElement> {
    input_of(event).filter(|field| field.get_attribute("inputmode").as_deref() == Some("decimal"))
}

fn has_focus(field: &Element) -> bool {
    document().active_element().as_ref() == Some(field)
}

/// True if a part of the text was selected by dragging over it.
fn has_selection(field: &HtmlInputElement) -> bool {
    field.selection_start().ok().flatten() != field.selection_end().ok().flatten()
}

/// Lets the key for Enter say what it does in this field.
fn name_the_key(event: &Event) {
    let Some(field) = input_of(event).filter(is_typed_into) else { return };
    let own = field.closest(&format!("[{ENTER}]")).ok().flatten().and_then(|around| around.get_attribute(ENTER));
    let word = match own {
        Some(own) => own,
        None if field.type_() == "search" => "search".to_owned(),
        None => if next(&field).is_some() { "next" } else { "done" }.to_owned(),
    };
    let _ = field.set_attribute("enterkeyhint", &word);
}

fn is_typed_into(field: &HtmlInputElement) -> bool {
    matches!(field.type_().as_str(), "text" | "search")
}

/// Enter in a field that does nothing of its own with it.
fn go_on(event: &Event) {
    let pressed = key(event);
    if pressed.key() != "Enter" || pressed.is_composing() || event.default_prevented() {
        return;
    }
    let plain =
        |field: &HtmlInputElement| field.type_() == "text" && matches!(field.closest(&format!("[{ENTER}]")), Ok(None));
    let Some(field) = input_of(event).filter(plain) else { return };
    event.prevent_default();
    match next(&field) {
        Some(next) => focus_on(&next),
        None => {
            let _ = field.blur();
        }
    }
}

/// The field after this one that can be seen.
fn next(field: &Element) -> Option<Element> {
    let fields = document().query_selector_all(FIELDS).ok()?;
    let all = (0..fields.length()).filter_map(|n| fields.get(n)?.dyn_into::<Element>().ok());
    all.skip_while(|other| other != field).skip(1).find(is_open)
}

/// True if nothing hides it and it is not folded away.
fn is_open(field: &Element) -> bool {
    let folded = field.closest("details:not([open]), [hidden]").ok().flatten().is_some();
    !folded && field.get_bounding_client_rect().width() > 0.0
}
