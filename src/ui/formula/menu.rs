//! What else can be done with a line.

use crate::ui::desk::Desk;
use crate::ui::dom::{El, View, el, slot, typed};
use crate::ui::field::{button, text_input};
use hundred_parts::desk::Action;
use hundred_parts::formula::{LineId, PhaseId};
use hundred_parts::words::page;

/// The menu, folded behind three points.
pub(super) fn menu(desk: Desk, id: LineId) -> El {
    let act = move |action: Action| {
        move || {
            desk.act(action.clone());
        }
    };
    let others = move || {
        desk.with(|bench| {
            let formula = &bench.state().formula;
            let here = formula.place_of(id).map(|(phase, _)| phase);
            let others = formula.phases().iter().filter(|phase| Some(phase.id) != here);
            others.map(|phase| (phase.id, phase.name.clone())).collect::<Vec<_>>()
        })
    };
    let to = move |(phase, name): &(PhaseId, String)| {
        button(page::MOVE_TO).text(name).press(act(Action::MoveLine(id, *phase, usize::MAX)))
    };
    let remark = move || desk.with(|bench| bench.state().formula.line(id).map(|line| line.note.clone()));
    let element = format!("note-{}", id.number());
    let note = text_input(desk, &element).attr("maxlength", "2000").value_of(move || remark().unwrap_or_default()).on(
        "input",
        move |event| {
            desk.act(Action::NoteLine(id, typed(&event)));
        },
    );
    let remove = move || {
        desk.act(Action::RemoveLine(id));
        desk.say(page::REMOVED_LINE, true);
    };
    let inside = el("div")
        .child(button(page::FILL_UP).press(act(Action::FillUp(id))))
        .child(button(page::MOVE_UP).press(act(Action::NudgeLine(id, false))))
        .child(button(page::MOVE_DOWN).press(act(Action::NudgeLine(id, true))))
        .child(slot(others, move |others| others.iter().map(to).collect::<View>()))
        .child(el("label").attr("for", &element).text(page::NOTE))
        .child(note)
        .child(button(page::REMOVE).press(remove));
    let summary = el("summary").attr("aria-label", page::LINE_MENU).text("\u{22ef}");
    el("details").class("menu").child(summary).child(inside)
}
