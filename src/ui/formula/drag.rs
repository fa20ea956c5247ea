//! Moving a line by its handle: with a finger, a pen or a mouse. Buttons and keys do the same.

use crate::ui::browser;
use crate::ui::desk::Desk;
use crate::ui::dom::{El, dragged_to, el};
use hundred_parts::desk::Action;
use hundred_parts::formula::LineId;
use hundred_parts::words::page;
use leptos::prelude::*;

/// The handle. It takes no focus: who uses keys moves lines with Alt and the arrows.
pub(super) fn handle(desk: Desk, id: LineId) -> El {
    let held = RwSignal::new(false);
    let over = move |event: web_sys::Event| {
        if !held.get_untracked() {
            return;
        }
        event.prevent_default();
        browser::scroll_at_edge(&event);
        let place = dragged_to(&event).and_then(|(number, side)| {
            let known = desk.now(|open| open.state().formula.line(LineId::of(number)).map(|line| line.id));
            known.filter(|line| *line != id).map(|line| (line, side))
        });
        if desk.formula_page.drop.get_untracked() != place {
            desk.formula_page.drop.set(place);
        }
    };
    let let_go = move |drops: bool| {
        if !held.get_untracked() {
            return;
        }
        held.set(false);
        if let Some((at, side)) = desk.formula_page.drop.get_untracked().filter(|_| drops) {
            desk.act(Action::DropLine(id, at, side));
        }
        desk.formula_page.drop.set(None);
    };
    el("span")
        .class("handle")
        .attr("title", page::DRAG)
        .attr("aria-hidden", "true")
        .text("\u{2807}")
        .on("pointerdown", move |event| {
            browser::hold_pointer(&event);
            held.set(true);
        })
        .on("pointermove", over)
        .on("pointerup", move |_| let_go(true))
        .on("pointercancel", move |_| let_go(false))
}
