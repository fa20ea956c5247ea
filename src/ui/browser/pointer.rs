//! Dragging: what the builder of elements does not do.

use wasm_bindgen::JsCast;
use web_sys::{Element, Event, PointerEvent};

/// How near to the edge of the window dragging scrolls, in CSS pixels; the bars at top and bottom are inside.
const EDGE: f64 = 130.0;
/// By how much, for each movement of the pointer.
const STEP: f64 = 14.0;

/// All further events of this pointer go to the element that it went down on.
pub(crate) fn hold_pointer(event: &Event) {
    let pointer: &PointerEvent = event.unchecked_ref();
    event.prevent_default();
    if let Some(element) = event.target().and_then(|target| target.dyn_into::<Element>().ok()) {
        let _ = element.set_pointer_capture(pointer.pointer_id());
    }
}

/// Scrolls if the pointer is near the upper or lower edge of the window.
pub(crate) fn scroll_at_edge(event: &Event) {
    let pointer: &PointerEvent = event.unchecked_ref();
    let Some(window) = web_sys::window() else { return };
    let Some(height) = window.inner_height().ok().and_then(|height| height.as_f64()) else { return };
    let y = f64::from(pointer.client_y());
    if y < EDGE / 2.0 {
        window.scroll_by_with_x_and_y(0.0, -STEP);
    } else if y > height - EDGE {
        window.scroll_by_with_x_and_y(0.0, STEP);
    }
}
