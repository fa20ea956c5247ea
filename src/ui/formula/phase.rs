//! A phase of the ledger: its head with its sums, and its lines.

use super::line::{self, RowSignals};
use super::square::patterned;
use super::{growing, in_hand};
use crate::ui::browser::focus;
use crate::ui::desk::{Desk, Touched};
use crate::ui::dom::{El, View, dynamic, each, el, svg, typed, when};
use crate::ui::field::{button, fixed_size_text, text_input};
use crate::ui::lazy::{self, LazyView};
use hundred_parts::desk::{Action, Made};
use hundred_parts::formula::{LineId, Phase, PhaseId, PhaseKind};
use hundred_parts::quantity::Quantity;
use hundred_parts::sheet::PhaseTotal;
use hundred_parts::words::{self, ledger, page};
use leptos::prelude::Get;

/// Adds a line to a phase and puts the focus on it.
pub(super) fn add_line(desk: Desk, phase: PhaseId, at: usize) {
    match desk.act(Action::AddLine(phase, at)) {
        Made::Line(id) => focus(format!("name-{}", id.number())),
        _ => desk.say(page::NO_MORE_LINES, None),
    }
}

/// The phase.
pub(super) fn card(desk: Desk, rows: &RowSignals, id: PhaseId) -> El {
    let rows = rows.clone();
    let kind = move || of(desk, id, |phase| phase.kind).unwrap_or(PhaseKind::Other);
    let lines = move || growing::lines(desk, id);
    let in_hand = move || desk.formula_page.hand.get() == Some(Touched::Phase(id));
    el("section")
        .class("phase")
        .attr_of("data-kind", move || Some(kind().key().to_owned()))
        .attr_of("aria-label", move || Some(name_of(desk, id)))
        .child(dynamic(kind, band))
        .child(head(desk, id))
        .child(when(in_hand, move || el("div").child(lazy::part(desk, LazyView::PhaseActions(id))).into()))
        .child(when(move || lines().is_empty(), || el("p").class("empty").text(page::EMPTY_PHASE).into()))
        .child(each(lines, move |number| line::row(desk, &rows, LineId::of(number))))
}

/// The pattern of a phase along its whole height.
fn band(kind: &PhaseKind) -> View {
    let whole = |rect: El| rect.attr("width", "100%").attr("height", "100%");
    svg("svg").class("band").attr("aria-hidden", "true").child(patterned(*kind, whole)).into()
}

fn head(desk: Desk, id: PhaseId) -> El {
    let number = id.number();
    let name = text_input(desk, &format!("phase-{number}"))
        .class("phase-name")
        .attr("maxlength", "120")
        .value_of(move || name_of(desk, id))
        .on("input", move |event| {
            desk.act(Action::NamePhase(id, typed(&event)));
        });
    let heat = move || of(desk, id, |phase| ledger::heat(&phase.heat, desk.sign)).unwrap_or_default();
    let label = el("label").class("hidden").attr("for", &format!("phase-{number}")).text(page::PHASE_NAME);
    let title = el("span").class("phase-title").child(label).child(name).child(el("span").class("heat").text_of(heat));
    let add = button("+")
        .class("add-line")
        .attr_of("aria-label", move || Some(format!("{}: {}", page::ADD_LINE, name_of(desk, id))))
        .press(move || add_line(desk, id, usize::MAX));
    let take = move |event| in_hand::take(desk, &event, Touched::Phase(id));
    el("div").class("phase-head").on("focusin", take).child(title).child(sums(desk, id)).child(add)
}

/// The sum of its percents, on the decimal sign of the column, and what it weighs.
fn sums(desk: Desk, id: PhaseId) -> View {
    let total = move || desk.masses(|masses| masses.totals.of_phase(id));
    let sum = move || {
        let text = |total: PhaseTotal| words::number(&total.share.canonical(), desk.sign);
        total().map(text).unwrap_or_default()
    };
    let padding = move || {
        let places =
            desk.masses(|masses| desk.with(|open| ledger::column_places(masses, &open.state().formula, desk.sign)));
        ledger::padding(&sum(), places, desk.sign)
    };
    let so_far = el("small").text(page::SO_FAR).hidden_if(move || total().is_none_or(|total| total.complete));
    let mass = move || desk.masses(|masses| desk.with(|open| ledger::phase_mass(masses, id, open.state(), desk.sign)));
    View::from_iter([
        el("strong").class("phase-total").child(fixed_size_text(sum).child(ghost(padding))).child(so_far),
        el("strong").class("phase-mass").child(fixed_size_text(mass)),
    ])
}

/// Digits that take their room and are not seen.
pub(super) fn ghost(text: impl Fn() -> String + 'static) -> El {
    el("i").class("ghost").attr("aria-hidden", "true").text_of(text)
}

fn name_of(desk: Desk, id: PhaseId) -> String {
    of(desk, id, |phase| phase.name.clone()).unwrap_or_default()
}

pub(super) fn of<T>(desk: Desk, id: PhaseId, read: impl FnOnce(&Phase) -> T) -> Option<T> {
    desk.with(|open| open.state().formula.phase(id).map(read))
}
