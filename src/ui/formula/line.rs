//! One line of a phase: name, percent, grams, and what can be done with it.

use super::choice_name;
use super::name::NameBox;
use super::phase::add_line;
use crate::ui::desk::{Desk, use_desk};
use crate::ui::field::{Note, focus};
use hundred_parts::desk::Action;
use hundred_parts::formula::{LineId, Share};
use hundred_parts::quantity::Typed;
use hundred_parts::words::{self, page};
use leptos::prelude::*;

/// Goes to the share of the next line of the formula, or makes a new line after the last one of the phase.
fn next_line(desk: Desk, id: LineId) {
    let next = desk.with(|bench| {
        let (phase, index) = bench.state().formula.place_of(id)?;
        let line = bench.state().formula.phase(phase)?.lines.get(index + 1).map(|line| line.id);
        Some((phase, index, line))
    });
    match next {
        Some((_, _, Some(line))) => focus(format!("name-{}", line.number())),
        Some((phase, index, None)) => add_line(desk, phase, index + 1),
        None => {}
    }
}

/// Goes to the same field of the line above or below.
fn neighbour(desk: Desk, id: LineId, down: bool) {
    let found = desk.with(|bench| {
        let ids: Vec<LineId> = bench.state().formula.lines().map(|(_, line)| line.id).collect();
        let at = ids.iter().position(|line| *line == id)?;
        let to = if down { at.checked_add(1) } else { at.checked_sub(1) };
        ids.get(to?).copied()
    });
    if let Some(line) = found {
        focus(format!("share-{}", line.number()));
    }
}

/// Keys that move a line: Alt with an arrow. True if the key was one.
pub(super) fn moves(desk: Desk, id: LineId, event: &leptos::ev::KeyboardEvent, field: &str) -> bool {
    let down = match event.key().as_str() {
        "ArrowDown" => true,
        "ArrowUp" => false,
        _ => return false,
    };
    if !event.alt_key() {
        return false;
    }
    event.prevent_default();
    if event.shift_key() {
        desk.to_next_phase(id, down)
    } else {
        desk.nudge(id, down)
    }
    focus(format!("{field}-{}", id.number()));
    true
}

/// The row.
#[component]
pub(super) fn LineRow(id: LineId) -> impl IntoView {
    let desk = use_desk();
    let number = id.number();
    let mark = move || {
        desk.derived(|derived| {
            derived.findings.iter().find(|finding| finding.lines.contains(&id)).map(|finding| finding.grade)
        })
    };
    let grams = move || {
        desk.derived(|derived| {
            let row = derived.sheet.weigh.as_ref().ok()?.line(id)?;
            Some(words::mass(row.mass, desk.with(|bench| bench.state().plan.unit), desk.sign))
        })
    };
    view! {
        <div class="line" class:lit=move || desk.lit.get() == Some(id) on:focusin=move |_| desk.lit.set(Some(id)) on:pointerenter=move |_| desk.lit.set(Some(id))>
            <NameBox id />
            <ShareBox id />
            <span class="grams">{grams}</span>
            <span class="mark" data-grade=move || mark().map(|grade| grade.key())>
                {move || mark().map(page::grade)}
            </span>
            <LineMenu id />
            <span class="row-note" id=format!("row-note-{number}")>{move || desk.with(|bench| bench.state().formula.line(id).map(|line| line.note.clone()))}</span>
        </div>
    }
}

#[component]
fn ShareBox(id: LineId) -> impl IntoView {
    let desk = use_desk();
    let number = id.number();
    let share = Memo::new(move |_| desk.with(|bench| bench.state().formula.line(id).map(|line| line.share.clone())));
    let fills = move || share.with(|share| matches!(share, Some(Share::FillUp)));
    let typed = Signal::derive(move || {
        share.with(|share| share.as_ref().and_then(|share| share.typed().cloned()).unwrap_or_default())
    });
    let set = Callback::new(move |text| {
        desk.act(Action::ShareLine(id, text));
    });
    let text = move || if fills() { rest_text(desk, id) } else { typed.with(|typed| typed.text().to_owned()) };
    let keys = move |event: leptos::ev::KeyboardEvent| {
        if moves(desk, id, &event, "share") {
            return;
        }
        match event.key().as_str() {
            "Enter" => next_line(desk, id),
            "ArrowDown" => neighbour(desk, id, true),
            "ArrowUp" => neighbour(desk, id, false),
            _ => return,
        }
        event.prevent_default();
    };
    let name = move || {
        desk.with(|bench| {
            bench.state().formula.line(id).map(|line| choice_name(&line.choice, bench.shelf())).unwrap_or_default()
        })
    };
    view! {
        <span class="share">
            <span class="with-unit">
                <input
                    id=format!("share-{number}")
                    class="number"
                    type="text"
                    inputmode="decimal"
                    autocomplete="off"
                    enterkeyhint="next"
                    maxlength="60"
                    aria-label=move || format!("{} {}", page::PERCENT, name())
                    aria-describedby=format!("share-note-{number}")
                    aria-invalid=move || typed.with(Typed::is_unread).to_string()
                    prop:value=text
                    on:input=move |event| set.run(event_target_value(&event))
                    on:keydown=keys
                    on:blur=move |_| desk.rest()
                />
                <span class="unit">"%"</span>
            </span>
            <Show when=fills><span class="fills">{page::FILLS_UP}</span></Show>
            <Note id=format!("share-note-{number}") value=typed set />
        </span>
    }
}

/// What the fill-up line comes to, as shown in its field.
fn rest_text(desk: Desk, id: LineId) -> String {
    use hundred_parts::quantity::Quantity;
    desk.derived(|derived| {
        derived.sheet.totals.share_of(id).map(|share| words::number(&share.canonical(), desk.sign)).unwrap_or_default()
    })
}

#[component]
fn LineMenu(id: LineId) -> impl IntoView {
    let desk = use_desk();
    let number = id.number();
    let phases = move || {
        desk.with(|bench| {
            let here = bench.state().formula.place_of(id).map(|(phase, _)| phase);
            bench
                .state()
                .formula
                .phases()
                .iter()
                .filter(|phase| Some(phase.id) != here)
                .map(|phase| (phase.id, phase.name.clone()))
                .collect::<Vec<_>>()
        })
    };
    let note =
        move || desk.with(|bench| bench.state().formula.line(id).map(|line| line.note.clone()).unwrap_or_default());
    let remove = move |_| {
        desk.act(Action::RemoveLine(id));
        desk.say(page::REMOVED_LINE, true);
    };
    view! {
        <details class="menu">
            <summary aria-label=page::LINE_MENU>"\u{22ef}"</summary>
            <div>
                <button type="button" on:click=move |_| { desk.act(Action::FillUp(id)); }>{page::FILL_UP}</button>
                <button type="button" on:click=move |_| desk.nudge(id, false)>{page::MOVE_UP}</button>
                <button type="button" on:click=move |_| desk.nudge(id, true)>{page::MOVE_DOWN}</button>
                {move || phases().into_iter().map(|(phase, name)| view! {
                    <button type="button" on:click=move |_| { desk.act(Action::MoveLine(id, phase, usize::MAX)); }>{page::MOVE_TO}{name}</button>
                }).collect_view()}
                <label for=format!("note-{number}")>{page::NOTE}</label>
                <input id=format!("note-{number}") type="text" maxlength="2000" autocomplete="off" prop:value=note
                    on:input=move |event| { desk.act(Action::NoteLine(id, event_target_value(&event))); } on:blur=move |_| desk.rest() />
                <button type="button" on:click=remove>{page::REMOVE}</button>
            </div>
        </details>
    }
}

impl Desk {
    /// A line one place up or down.
    fn nudge(self, id: LineId, down: bool) {
        self.act(Action::NudgeLine(id, down));
    }

    /// A line to the end of the phase before or the start of the one after.
    fn to_next_phase(self, id: LineId, down: bool) {
        let to = self.with(|bench| {
            let formula = &bench.state().formula;
            let (here, _) = formula.place_of(id)?;
            let at = formula.phases().iter().position(|phase| phase.id == here)?;
            let to = if down { at.checked_add(1) } else { at.checked_sub(1) };
            formula.phases().get(to?).map(|phase| phase.id)
        });
        if let Some(phase) = to {
            self.act(Action::MoveLine(id, phase, if down { 0 } else { usize::MAX }));
        }
    }
}
