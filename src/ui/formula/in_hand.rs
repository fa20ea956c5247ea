//! What is in hand: the line or phase that was touched last shows under it what can be done with it.

use crate::ui::browser;
use crate::ui::desk::{Desk, Touched};
use leptos::prelude::{GetUntracked, Set};
use wasm_bindgen::JsCast;
use web_sys::{Element, Event};

/// Takes something into the hand as the focus comes into it. What stood under the one before goes, so all below moves up:
/// not before a press has ended, and the page is scrolled so that what was touched stays where it is.
pub(super) fn take(desk: Desk, event: &Event, what: Touched) {
    if desk.formula_page.hand.get_untracked() == Some(what) {
        return;
    }
    let touched = event.current_target().and_then(|target| target.dyn_into::<Element>().ok());
    browser::after_press(move || {
        let Some(touched) = touched else { return };
        let before = touched.get_bounding_client_rect().top();
        desk.formula_page.hand.set(Some(what));
        browser::hold_in_place(touched, before);
    });
}
