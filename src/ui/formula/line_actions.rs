//! What can be done with the line in hand: it stands under the line.

use super::drag;
use super::line::RowSignal;
use super::phase::add_line;
use crate::ui::browser::focus;
use crate::ui::desk::{Desk, FollowUp};
use crate::ui::dom::{El, View, dynamic, el, typed, when};
use crate::ui::field::{button, text_input};
use hundred_parts::desk::Action;
use hundred_parts::formula::{Direction, LineId, PhaseId};
use hundred_parts::words::{ledger, page};
use leptos::prelude::{Get, GetUntracked, RwSignal, Set, With, WithUntracked};

/// The row of actions.
pub(in crate::ui) fn actions(desk: Desk, id: LineId, row: RowSignal) -> El {
    let act = move |action: Action| {
        move || {
            desk.act(action.clone());
            // A line that moves takes its button along, and the focus would stay behind.
            focus(format!("share-{}", id.number()));
        }
    };
    let remove = move || {
        let beside = desk.now(|open| open.state().formula.beside(id));
        desk.act(Action::RemoveLine(id));
        desk.say(page::REMOVED_LINE, Some(FollowUp::Undo));
        focus(beside.map_or_else(|| "work".to_owned(), |line| format!("name-{}", line.number())));
    };
    let element = format!("note-{}", id.number());
    let noting = RwSignal::new(row.with_untracked(|row| !row.remark.is_empty()));
    let note = {
        let element = element.clone();
        move || {
            noting.set(!noting.get_untracked());
            focus(element.clone());
        }
    };
    let chips = el("div")
        .class("acts")
        .attr("role", "group")
        .attr("aria-label", page::LINE_MENU)
        .child(drag::handle(desk, id))
        .child(crate::ui::oils::swap_button(desk, id))
        .child(button(page::NOTE).attr_of("aria-expanded", move || Some(noting.get().to_string())).press(note))
        .child(button(page::MOVE_UP).press(act(Action::NudgeLine(id, Direction::Up))))
        .child(button(page::MOVE_DOWN).press(act(Action::NudgeLine(id, Direction::Down))))
        .child(button(ledger::FILL_UP).press(act(Action::FillUp(id))))
        .child(other_phases(desk, id))
        .child(button(page::REMOVE).press(remove));
    el("div").child(chips).child(when(move || noting.get(), move || note_field(desk, id, &element, row).into()))
}

/// The way into each of the other phases.
fn other_phases(desk: Desk, id: LineId) -> View {
    let to = move |(phase, name): &(u32, String)| {
        let phase = PhaseId::of(*phase);
        button(page::MOVE_TO).text(name).press(move || {
            desk.act(Action::MoveLine(id, phase, usize::MAX));
            focus(format!("share-{}", id.number()));
        })
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
    dynamic(others, move |others| others.iter().map(to).collect::<View>())
}

fn note_field(desk: Desk, id: LineId, element: &str, row: RowSignal) -> El {
    let input = text_input(desk, element)
        .attr("maxlength", "2000")
        .value_of(move || row.with(|row| row.remark.clone()))
        .on("input", move |event| {
            desk.act(Action::NoteLine(id, typed(&event)));
        });
    el("div").class("note-of-line").child(el("label").attr("for", element).text(page::NOTE)).child(input)
}

/// Enter in a name that proposes nothing: on to the percent, unless the line is blank.
pub(in crate::ui) fn leave_name(desk: Desk, id: LineId) {
    if !leave_blank(desk, id) {
        focus(format!("share-{}", id.number()));
    }
}

/// Enter in a line that is still blank ends its phase: the line goes, and the next phase goes on, or what comes after all of
/// them. False if something was entered.
fn leave_blank(desk: Desk, id: LineId) -> bool {
    let blank = desk.now(|open| {
        let formula = &open.state().formula;
        let (here, _) = formula.place_of(id)?;
        let next = formula.phases().iter().skip_while(|phase| phase.id != here).nth(1);
        formula.line(id).filter(|line| line.is_blank())?;
        Some(next.map(|phase| (phase.id, phase.lines.first().map(|line| line.id))))
    });
    let Some(next) = blank else { return false };
    desk.act(Action::RemoveLine(id));
    match next {
        Some((_, Some(line))) => focus(format!("name-{}", line.number())),
        Some((phase, None)) => add_line(desk, phase, 0),
        None => focus("weigh-go".to_owned()),
    }
    true
}
