//! A phase as a card.

use super::line::LineRow;
use crate::ui::desk::{Desk, use_desk};
use crate::ui::field::{QuantityField, focus};
use hundred_parts::desk::{Action, Made};
use hundred_parts::formula::{PhaseId, PhaseKind};
use hundred_parts::words::{self, page};
use leptos::prelude::*;

/// Adds a line to a phase and puts the focus on it.
pub(super) fn add_line(desk: Desk, phase: PhaseId, at: usize) {
    if let Made::Line(id) = desk.act(Action::AddLine(phase, at)) {
        focus(format!("name-{}", id.number()));
    }
}

/// The card.
#[component]
pub(super) fn PhaseCard(id: PhaseId) -> impl IntoView {
    let desk = use_desk();
    let sign = desk.sign;
    let number = id.number();
    let kind = move || desk.with(|bench| bench.state().formula.phase(id).map_or(PhaseKind::Other, |phase| phase.kind));
    let name =
        move || desk.with(|bench| bench.state().formula.phase(id).map(|phase| phase.name.clone()).unwrap_or_default());
    let heat = Signal::derive(move || {
        desk.with(|bench| bench.state().formula.phase(id).map(|phase| phase.heat.clone()).unwrap_or_default())
    });
    let lines = Memo::new(move |_| {
        desk.with(|bench| {
            bench
                .state()
                .formula
                .phase(id)
                .map(|phase| phase.lines.iter().map(|line| line.id).collect::<Vec<_>>())
                .unwrap_or_default()
        })
    });
    let total = move || {
        desk.derived(|derived| {
            let total = derived.sheet.totals.phases.iter().find(|total| total.phase == id);
            total.map(|total| {
                format!(
                    "{}{}",
                    words::with_unit(total.share, "%", sign),
                    if total.complete { "" } else { page::SO_FAR }
                )
            })
        })
    };
    let place =
        move || desk.with(|bench| bench.state().formula.phases().iter().position(|phase| phase.id == id).unwrap_or(0));
    let remove = move |_| {
        desk.act(Action::RemovePhase(id));
        desk.say(page::REMOVED_PHASE, true);
    };
    view! {
        <section class="card phase" data-kind=move || kind().key() aria-label=name>
            <div class="phase-head">
                <span class="swatch" aria-hidden="true"></span>
                <label class="hidden" for=format!("phase-{number}")>{page::PHASE_NAME}</label>
                <input id=format!("phase-{number}") class="phase-name" type="text" maxlength="120" autocomplete="off" prop:value=name
                    on:input=move |event| { desk.act(Action::NamePhase(id, event_target_value(&event))); } on:blur=move |_| desk.rest() />
                <strong class="phase-total">{total}</strong>
                <details class="menu">
                    <summary aria-label=move || format!("{} {}", page::ABOUT, name())>"\u{22ef}"</summary>
                    <div>
                        <QuantityField id=format!("heat-{number}") label=page::HEAT unit=page::CELSIUS value=heat set=Callback::new(move |text| { desk.act(Action::HeatPhase(id, text)); }) />
                        <button type="button" on:click=move |_| { desk.act(Action::MovePhase(id, place().saturating_sub(1))); }>{page::PHASE_UP}</button>
                        <button type="button" on:click=move |_| { desk.act(Action::MovePhase(id, place() + 1)); }>{page::PHASE_DOWN}</button>
                        <button type="button" on:click=remove>{page::REMOVE_PHASE}</button>
                    </div>
                </details>
            </div>
            <Show when=move || lines.with(Vec::is_empty)>
                <p class="empty">{page::EMPTY_PHASE}</p>
            </Show>
            <For each=move || lines.get() key=|line| *line let:line>
                <LineRow id=line />
            </For>
            <button type="button" class="add-line" on:click=move |_| add_line(desk, id, usize::MAX)>"+ " {page::ADD_LINE}</button>
        </section>
    }
}
