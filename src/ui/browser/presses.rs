//! Presses: what waits until one has ended, and what must not move under it.

use leptos::prelude::{set_timeout, window_event_listener};
use std::cell::{Cell, RefCell};
use std::time::Duration;
use web_sys::Element;

thread_local! {
    static PRESSED: Cell<bool> = const { Cell::new(false) };
    static AFTER: RefCell<Vec<Box<dyn FnOnce()>>> = const { RefCell::new(Vec::new()) };
}

/// Longer than a touch lasts that becomes a click.
const PRESS: Duration = Duration::from_millis(700);

/// Listens to presses, for as long as the page lives: see [`after_press`].
pub(crate) fn follow_presses() {
    window_event_listener(leptos::ev::pointerdown, |_| PRESSED.set(true));
    window_event_listener(leptos::ev::click, |_| press_ended());
    window_event_listener(leptos::ev::pointercancel, |_| press_ended());
}

fn press_ended() {
    PRESSED.set(false);
    // Not in the middle of the click itself: who hears it later must find the page as it was.
    set_timeout(|| AFTER.take().into_iter().for_each(|call| call()), Duration::ZERO);
}

/// Calls back once no button or finger is down: what moves under one is missed by it.
pub(crate) fn after_press(call: impl FnOnce() + 'static) {
    if !PRESSED.get() {
        call();
        return;
    }
    AFTER.with_borrow_mut(|after| after.push(Box::new(call)));
    // A press that never becomes a click.
    set_timeout(
        || {
            if AFTER.with_borrow(|after| !after.is_empty()) {
                press_ended();
            }
        },
        PRESS,
    );
}

/// Scrolls so that an element stands where it stood, `top` pixels below the upper edge, once what follows has happened.
pub(crate) fn hold_in_place(element: Element, top: f64) {
    wasm_bindgen_futures::spawn_local(async move {
        let moved = element.get_bounding_client_rect().top() - top;
        if let Some(window) = web_sys::window().filter(|_| moved.abs() > 0.5) {
            window.scroll_by_with_x_and_y(0.0, moved);
        }
    });
}
