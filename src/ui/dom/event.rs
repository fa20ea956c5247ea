//! What an event says.

use hundred_parts::desk::clean;
use hundred_parts::formula::DropSide;
use leptos::prelude::{document, request_animation_frame};
use std::borrow::Cow;
use wasm_bindgen::JsCast;
use web_sys::{
    Element, Event, FocusEvent, HtmlElement, HtmlInputElement, HtmlSelectElement, HtmlTextAreaElement, KeyboardEvent,
    PointerEvent, ScrollIntoViewOptions, ScrollLogicalPosition,
};

/// The text in the field that it came from. What no text may hold is taken out of the field too: else that would show
/// something that is not kept.
pub(crate) fn typed(event: &Event) -> String {
    let Some(target) = event.target() else { return String::new() };
    if let Some(input) = target.dyn_ref::<HtmlInputElement>() {
        cleaned(input.value(), |text| input.set_value(text))
    } else if let Some(area) = target.dyn_ref::<HtmlTextAreaElement>() {
        cleaned(area.value(), |text| area.set_value(text))
    } else {
        target.dyn_ref::<HtmlSelectElement>().map(HtmlSelectElement::value).unwrap_or_default()
    }
}

fn cleaned(text: String, show: impl FnOnce(&str)) -> String {
    match clean(&text) {
        Cow::Borrowed(_) => text,
        Cow::Owned(clean) => {
            show(&clean);
            clean
        }
    }
}

/// Whether the box that it came from is ticked.
pub(crate) fn ticked(event: &Event) -> bool {
    event.target().and_then(|target| target.dyn_into::<HtmlInputElement>().ok()).is_some_and(|input| input.checked())
}

/// Whether the folded part that it came from is open now.
pub(crate) fn opened(event: &Event) -> bool {
    event.target().and_then(|target| target.dyn_into::<Element>().ok()).is_some_and(|part| part.has_attribute("open"))
}

/// True if it came from a button that does something, and not only changes the text of the field beside it.
pub(crate) fn chosen(event: &Event) -> bool {
    let from = event.target().and_then(|target| target.dyn_into::<Element>().ok());
    from.is_some_and(|from| matches!(from.closest("button:not(.field *)"), Ok(Some(_))))
}

/// True if the focus went from inside the menu to something outside it.
pub(crate) fn left(event: &Event) -> bool {
    let focus: &FocusEvent = event.unchecked_ref();
    let to = focus.related_target().and_then(|target| target.dyn_into::<Element>().ok());
    let from = event.target().and_then(|target| target.dyn_into::<Element>().ok());
    let menu = from.and_then(|from| from.closest("details").ok().flatten());
    // Where nothing takes the focus, as under a finger on some tablets, it stays.
    to.zip(menu).is_some_and(|(to, menu)| !menu.contains(Some(&to)))
}

/// Scrolls as far as needed to show what it opened: all of it, above the bars at the foot of the page.
pub(crate) fn show_whole(event: &Event) {
    let fold = event.target().and_then(|target| target.dyn_into::<Element>().ok());
    // What is in it is made right after this.
    request_animation_frame(move || {
        if let Some(inside) = fold.and_then(|fold| fold.last_element_child()) {
            let options = ScrollIntoViewOptions::new();
            options.set_block(ScrollLogicalPosition::Nearest);
            inside.scroll_into_view_with_scroll_into_view_options(&options);
        }
    });
}

/// Closes the menu that it came from. A focus that was in it goes to what opens it; whatever was chosen may move it on.
pub(crate) fn close_menu(event: &Event) {
    let from = event.target().and_then(|target| target.dyn_into::<Element>().ok());
    let Some(menu) = from.and_then(|from| from.closest("details").ok().flatten()) else { return };
    let inside = document().active_element().is_some_and(|focused| menu.contains(Some(&focused)));
    let _ = menu.remove_attribute("open");
    let summary = menu.query_selector("summary").ok().flatten().and_then(|part| part.dyn_into::<HtmlElement>().ok());
    if let Some(summary) = summary.filter(|_| inside) {
        let _ = summary.focus();
    }
}

/// Marks a field, or what is around several, whose texts are no part of the formula or the shelf: undoing there is the
/// browser's.
pub(crate) const LOCAL: &str = "data-local";

/// True if it came from such a field.
pub(crate) fn in_local_field(event: &Event) -> bool {
    let from = event.target().and_then(|target| target.dyn_into::<Element>().ok());
    from.is_some_and(|from| matches!(from.closest("input[data-local], [data-local] input"), Ok(Some(_))))
}

/// The event of a key.
pub(crate) fn key(event: &Event) -> &KeyboardEvent {
    event.unchecked_ref()
}

/// True for Enter in an input, which there means: done.
pub(crate) fn is_enter(event: &Event) -> bool {
    let in_input = event.target().is_some_and(|target| target.has_type::<HtmlInputElement>());
    in_input && key(event).key() == "Enter"
}

/// The attribute `data-line` of the row that the pointer is over, and the side of the row that it is nearer to.
pub(crate) fn dragged_to(event: &Event) -> Option<(u32, DropSide)> {
    let pointer: &PointerEvent = event.unchecked_ref();
    let (x, y) = (pointer.client_x(), pointer.client_y());
    let under = document().element_from_point(x as f32, y as f32)?;
    let row = under.closest("[data-line]").ok().flatten()?;
    let number = row.get_attribute("data-line")?.parse().ok()?;
    let place = row.get_bounding_client_rect();
    let below = f64::from(y) > place.top() + place.height() / 2.0;
    Some((number, if below { DropSide::After } else { DropSide::Before }))
}
