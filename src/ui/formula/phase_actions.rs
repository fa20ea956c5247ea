//! What can be done with the phase in hand.

use super::phase::of;
use crate::ui::browser::focus;
use crate::ui::desk::{Desk, FollowUp};
use crate::ui::dom::{El, el};
use crate::ui::field::{button, quantity_field};
use hundred_parts::desk::Action;
use hundred_parts::formula::PhaseId;
use hundred_parts::words::{FieldText, page};

/// The row of actions.
pub(in crate::ui) fn actions(desk: Desk, id: PhaseId) -> El {
    let heat = move || of(desk, id, |phase| FieldText::of(&phase.heat, desk.sign)).unwrap_or_default();
    let set_heat = move |text| {
        desk.act(Action::HeatPhase(id, text));
    };
    let go = move |down: bool| {
        let place = desk.now(|open| open.state().formula.phases().iter().position(|phase| phase.id == id).unwrap_or(0));
        desk.act(Action::MovePhase(id, if down { place + 1 } else { place.saturating_sub(1) }));
        focus(format!("phase-{}", id.number()));
    };
    let remove = move || {
        desk.act(Action::RemovePhase(id));
        desk.say(page::REMOVED_PHASE, Some(FollowUp::Undo));
        focus("work".to_owned());
    };
    el("div")
        .class("acts")
        .attr("role", "group")
        .attr("aria-label", page::PHASE_ACTIONS)
        .child(quantity_field(desk, &format!("heat-{}", id.number()), page::HEAT, page::CELSIUS, heat, set_heat))
        .child(button(page::PHASE_UP).press(move || go(false)))
        .child(button(page::PHASE_DOWN).press(move || go(true)))
        .child(button(page::REMOVE_PHASE).press(remove))
}
