//! A phase as a card.

use super::line::{self, RowSignals};
use crate::ui::browser::focus;
use crate::ui::desk::{Desk, FollowUp};
use crate::ui::dom::{El, each, el, typed, when};
use crate::ui::field::{button, fixed_size_text, quantity_field, text_input};
use hundred_parts::desk::{Action, Made};
use hundred_parts::formula::{LineId, Phase, PhaseId, PhaseKind};
use hundred_parts::words::{self, FieldText, page};

/// Adds a line to a phase and puts the focus on it.
pub(super) fn add_line(desk: Desk, phase: PhaseId, at: usize) {
    match desk.act(Action::AddLine(phase, at)) {
        Made::Line(id) => focus(format!("name-{}", id.number())),
        _ => desk.say(page::NO_MORE_LINES, None),
    }
}

/// The card.
pub(super) fn card(desk: Desk, rows: &RowSignals, id: PhaseId) -> El {
    let (number, rows) = (id.number(), rows.clone());
    let kind = move || of(desk, id, |phase| phase.kind).unwrap_or(PhaseKind::Other);
    let name = move || of(desk, id, |phase| phase.name.clone()).unwrap_or_default();
    let lines = move || -> Vec<u32> {
        of(desk, id, |phase| phase.lines.iter().map(|line| line.id.number()).collect()).unwrap_or_default()
    };
    let total = move || desk.masses(|masses| masses.totals.of_phase(id));
    let sum = move || total().map(|total| words::phase_total_text(&total, desk.sign)).unwrap_or_default();
    let so_far = el("small").text(page::SO_FAR).hidden_if(move || total().is_none_or(|total| total.complete));
    let field = text_input(desk, &format!("phase-{number}"))
        .class("phase-name")
        .attr("maxlength", "120")
        .value_of(name)
        .on("input", move |event| {
            desk.act(Action::NamePhase(id, typed(&event)));
        });
    let head = el("div")
        .class("phase-head")
        .child(el("span").class("swatch").attr("aria-hidden", "true"))
        .child(el("label").class("hidden").attr("for", &format!("phase-{number}")).text(page::PHASE_NAME))
        .child(field)
        .child(el("strong").class("phase-total").child(fixed_size_text(sum)).child(so_far))
        .child(menu(desk, id));
    el("section")
        .class("card phase")
        .attr_of("data-kind", move || Some(kind().key().to_owned()))
        .attr_of("aria-label", move || Some(name()))
        .child(head)
        .child(when(move || lines().is_empty(), || el("p").class("empty").text(page::EMPTY_PHASE).into()))
        .child(each(lines, move |number| line::row(desk, &rows, LineId::of(number))))
        .child(button("+ ").class("add-line").text(page::ADD_LINE).press(move || add_line(desk, id, usize::MAX)))
}

fn of<T>(desk: Desk, id: PhaseId, read: impl FnOnce(&Phase) -> T) -> Option<T> {
    desk.with(|open| open.state().formula.phase(id).map(read))
}

fn menu(desk: Desk, id: PhaseId) -> El {
    let name = move || of(desk, id, |phase| phase.name.clone()).unwrap_or_default();
    crate::ui::field::menu(move || format!("{} {}", page::ABOUT, name()), move || inside(desk, id))
}

fn inside(desk: Desk, id: PhaseId) -> El {
    let heat = move || of(desk, id, |phase| FieldText::of(&phase.heat, desk.sign)).unwrap_or_default();
    let set_heat = move |text| {
        desk.act(Action::HeatPhase(id, text));
    };
    let go = move |down: bool| {
        let place = desk.now(|open| open.state().formula.phases().iter().position(|phase| phase.id == id).unwrap_or(0));
        desk.act(Action::MovePhase(id, if down { place + 1 } else { place.saturating_sub(1) }));
    };
    let remove = move || {
        desk.act(Action::RemovePhase(id));
        desk.say(page::REMOVED_PHASE, Some(FollowUp::Undo));
        focus("work".to_owned());
    };
    el("div")
        .child(quantity_field(desk, &format!("heat-{}", id.number()), page::HEAT, page::CELSIUS, heat, set_heat))
        .child(button(page::PHASE_UP).press(move || go(false)))
        .child(button(page::PHASE_DOWN).press(move || go(true)))
        .child(button(page::REMOVE_PHASE).press(remove))
}
