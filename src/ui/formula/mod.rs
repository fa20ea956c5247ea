//! The formula: a ledger of its phases and lines, the hundred square, the benches and the findings beside it.

mod about;
mod answer;
mod drag;
mod findings;
mod formulas;
mod growing;
mod in_hand;
mod line;
mod line_actions;
mod name;
mod pass_on;
mod phase;
mod phase_actions;
mod square;
mod start;
mod versions;

use super::bar;
use super::browser;
use super::desk::Desk;
use super::dom::{El, View, each, effect, el, when};
use super::field::button;
use super::lazy::{self, LazyView};
use hundred_parts::desk::{Action, is_demo};
use hundred_parts::formula::{PhaseId, PhaseKind};
use hundred_parts::words::{self, ledger, page};
use leptos::prelude::*;

pub(super) use about::further_fields;
pub(super) use findings::{findings, jump};
pub(super) use formulas::{inside as formulas, more};
pub(super) use line::RowSignal;
pub(super) use line_actions::{actions as line_actions, leave_name};
pub(super) use pass_on::pass_on;
pub(super) use phase_actions::actions as phase_actions;
pub(super) use square::{patterned, patterns};
pub(super) use start::start_from;
pub(super) use versions::versions;

/// The preference that the worked example was touched.
const HINT: &str = "hint";

/// The benches, and where there is room the findings: beside the lines, or below them on a phone.
pub(super) fn beside(desk: Desk) -> View {
    let narrow = move || desk.formula_page.narrow.get();
    View::from_iter([super::benches::rows(desk).into(), when(move || !narrow(), move || findings(desk).into())])
}

/// The place.
pub(super) fn place(desk: Desk) -> El {
    let empty = move || desk.with(|open| open.state().formula.phases().is_empty());
    let rows = line::RowSignals::new(desk);
    let narrow = move || desk.formula_page.narrow.get();
    let ledger = el("section")
        .class("ledger")
        .attr("aria-label", page::FORMULA_LINES)
        .child(heads(desk))
        .child(when(empty, move || start(desk).into()))
        .child(each(move || growing::phases(desk), move |number| phase::card(desk, &rows, PhaseId::of(number))))
        .child(add_phase(desk));
    let lines = el("div")
        .class("lines")
        .child(when(narrow, move || square::strip(desk).into()))
        .child(ledger)
        .child(el("p").class("keys").text(page::LINE_KEYS));
    let whole = move || growing::is_whole(desk);
    let square = when(whole, move || square::hundred_square(desk).into());
    let beside = el("aside").class("beside").child(square).child(lazy::part(desk, LazyView::Beside));
    let list = move || {
        let aside = el("aside").class("formulas no-print").attr("aria-label", page::FORMULAS);
        aside.child(lazy::part(desk, LazyView::Formulas)).into()
    };
    // Only where there is room for it; else it opens over the page.
    let list = when(move || desk.formula_page.wide.get(), list);
    el("div")
        .class("formula")
        .class_if("growing", move || !whole())
        .child(list)
        .child(lines)
        .child(beside)
        .child(bar::of_formula(desk))
}

/// The heads of the columns. On the worked example the first one says what to try, until a line was touched.
fn heads(desk: Desk) -> El {
    let unit = move || desk.with(|open| page::masses_in(open.state().plan.unit).to_owned());
    let untouched = RwSignal::new(browser::preference(HINT).is_none());
    let touched = move || {
        if untouched.get_untracked() && desk.formula_page.hand.get().is_some() {
            browser::set_preference(HINT, "closed");
            untouched.set(false);
        }
    };
    effect(Box::new(touched));
    let tried = move || untouched.get() && desk.with(|open| is_demo(&open.state().formula.about.title));
    let first = move || if tried() { ledger::HINT } else { page::INGREDIENT }.to_owned();
    el("div")
        .class("heads")
        .child(el("span").class_if("hint", tried).text_of(first))
        .child(el("span").attr("aria-hidden", "true").text(ledger::PERCENT_HEAD))
        .child(el("span").attr("aria-hidden", "true").text_of(unit))
}

fn start(desk: Desk) -> El {
    let start = move || {
        for kind in [PhaseKind::Water, PhaseKind::Oil, PhaseKind::CoolDown] {
            desk.act(Action::AddPhase(kind, page::phase_kind(kind).to_owned()));
        }
        // A name can be typed at once.
        if let Some(first) = desk.now(|open| open.state().formula.phases().first().map(|phase| phase.id)) {
            phase::add_line(desk, first, 0);
        }
    };
    el("section")
        .class("empty")
        .child(el("p").text(page::EMPTY_FORMULA))
        .child(button(page::START_PHASES).class("primary").press(start))
}

/// A further phase, of a kind.
fn add_phase(desk: Desk) -> El {
    let add = |kind: &PhaseKind| {
        let kind = *kind;
        let name = page::phase_kind(kind);
        button("+ ").text(name).press(move || {
            desk.act(Action::AddPhase(kind, name.to_owned()));
        })
    };
    let kinds = el("div").class("actions").child(PhaseKind::ALL.iter().map(add).collect::<View>());
    el("details").class("add-phase").child(el("summary").text("+ ").text(ledger::ADD_PHASE)).child(kinds)
}

/// The total as text, and what is missing or too much.
pub(super) fn total(desk: Desk) -> El {
    let text = move || desk.masses(|masses| words::total_text(&masses.totals, desk.sign));
    let whole = move || desk.masses(|masses| masses.totals.is_whole() && masses.totals.complete());
    el("p")
        .class("total")
        .class_if("wrong", move || desk.masses(|masses| !masses.totals.is_whole()))
        .attr("role", "status")
        .child(el("span").class("hidden").text(page::TOTAL))
        .text(" ")
        .child(el("strong").text_of(text))
        .child(el("span").class("whole").hidden_if(move || !whole()).text(" ").text(ledger::WHOLE))
}
