//! What else can be done with a line.

use super::line::RowSignal;
use crate::ui::browser::focus;
use crate::ui::desk::{Desk, FollowUp};
use crate::ui::dom::{El, View, dynamic, el, typed};
use crate::ui::field::{button, text_input};
use crate::ui::lazy::{self, LazyView};
use hundred_parts::desk::Action;
use hundred_parts::formula::{Direction, LineId, PhaseId};
use hundred_parts::words::page;
use leptos::prelude::With;

/// The menu of a line.
pub(super) fn menu(desk: Desk, id: LineId, row: RowSignal) -> El {
    crate::ui::field::menu(
        || page::LINE_MENU.to_owned(),
        move || el("div").child(lazy::part(desk, LazyView::LineMenu(id, row))),
    )
}

/// What the menu offers.
pub(in crate::ui) fn inside(desk: Desk, id: LineId, row: RowSignal) -> El {
    let act = move |action: Action| {
        move || {
            desk.act(action.clone());
        }
    };
    let to = move |(phase, name): &(u32, String)| {
        button(page::MOVE_TO).text(name).press(act(Action::MoveLine(id, PhaseId::of(*phase), usize::MAX)))
    };
    // The other phases, by number and name.
    let others = move || {
        desk.with(|open| {
            let formula = &open.state().formula;
            let here = formula.place_of(id).map(|(phase, _)| phase);
            let others = formula.phases().iter().filter(|phase| Some(phase.id) != here);
            others.map(|phase| (phase.id.number(), phase.name.clone())).collect::<Vec<_>>()
        })
    };
    let element = format!("note-{}", id.number());
    let note = text_input(desk, &element)
        .attr("maxlength", "2000")
        .value_of(move || row.with(|row| row.remark.clone()))
        .on("input", move |event| {
            desk.act(Action::NoteLine(id, typed(&event)));
        });
    let remove = move || {
        let beside = desk.now(|open| open.state().formula.beside(id));
        desk.act(Action::RemoveLine(id));
        desk.say(page::REMOVED_LINE, Some(FollowUp::Undo));
        focus(beside.map_or_else(|| "work".to_owned(), |line| format!("name-{}", line.number())));
    };
    el("div")
        .child(crate::ui::oils::swap_button(desk, id))
        .child(button(page::FILL_UP).press(act(Action::FillUp(id))))
        .child(button(page::MOVE_UP).press(act(Action::NudgeLine(id, Direction::Up))))
        .child(button(page::MOVE_DOWN).press(act(Action::NudgeLine(id, Direction::Down))))
        .child(dynamic(others, move |others| others.iter().map(to).collect::<View>()))
        .child(el("label").attr("for", &element).text(page::NOTE))
        .child(note)
        .child(button(page::REMOVE).press(remove))
}
