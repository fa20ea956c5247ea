//! The formula: phases as cards, the hundred square and the findings beside them.

mod about;
mod answer;
mod drag;
mod findings;
mod formulas;
mod line;
mod menu;
mod name;
mod pass_on;
mod phase;
mod square;
mod versions;

use super::browser;
use super::desk::Desk;
use super::dom::{El, View, each, el, when};
use super::field::button;
use super::lazy::{self, LazyView};
use hundred_parts::desk::{Action, is_demo};
use hundred_parts::formula::{PhaseId, PhaseKind};
use hundred_parts::words::{self, page};
use leptos::prelude::*;

pub(super) use about::further_fields;
pub(super) use line::RowSignal;
pub(super) use menu::inside as line_menu;
pub(super) use square::patterns;

/// The oil phase, the chemistry, the annexes and the findings: beside the lines, where there is room.
pub(super) fn beside(desk: Desk) -> View {
    View::from_iter([
        super::oils::phase(desk).into(),
        super::chemistry::cards(desk),
        super::annexes::card(desk).into(),
        findings::findings(desk).into(),
    ])
}

/// Kept versions, and passing the formula on: below the lines.
pub(super) fn below(desk: Desk) -> View {
    View::from_iter([versions::versions(desk), pass_on::pass_on(desk)])
}

/// The phases by their numbers, in order.
fn phases(desk: Desk) -> Vec<u32> {
    desk.with(|open| open.state().formula.phases().iter().map(|phase| phase.id.number()).collect())
}

/// The place.
pub(super) fn place(desk: Desk) -> El {
    let phases = move || phases(desk);
    let add = |kind: &PhaseKind| {
        let kind = *kind;
        let name = page::phase_kind(kind);
        button("+ ").text(name).press(move || {
            desk.act(Action::AddPhase(kind, name.to_owned()));
        })
    };
    let rows = line::RowSignals::new(desk);
    let square_open = RwSignal::new(false);
    let narrow = move || desk.formula_page.narrow.get();
    let lines = el("div")
        .class("lines")
        .child(hint(desk))
        .child(about::about(desk))
        .child(when(narrow, move || square::strip(desk, square_open).into()))
        .child(when(move || narrow() && square_open.get(), move || square::hundred_square(desk).into()))
        .child(el("p").class("keys").text(page::LINE_KEYS))
        .child(when(move || phases().is_empty(), move || start(desk).into()))
        .child(each(phases, move |number| phase::card(desk, &rows, PhaseId::of(number))))
        .child(el("div").class("add-phase").child(PhaseKind::ALL.iter().map(add).collect::<View>()))
        .child(total(desk))
        .child(lazy::part(desk, LazyView::Below));
    let beside = el("aside")
        .class("beside")
        .child(lazy::part(desk, LazyView::Swap))
        .child(when(move || !narrow(), move || square::hundred_square(desk).into()))
        .child(lazy::part(desk, LazyView::Beside));
    el("div").class("formula").child(formulas::formulas(desk)).child(lines).child(beside)
}

/// What the worked example is for; beside any other formula it would say what is not so.
fn hint(desk: Desk) -> View {
    let shown = RwSignal::new(browser::preference("hint").is_none());
    let close = move || {
        browser::set_preference("hint", "closed");
        shown.set(false);
    };
    when(
        move || shown.get() && desk.with(|open| is_demo(&open.state().formula.about.title)),
        move || {
            el("section")
                .class("card hint")
                .child(el("p").text(page::HINT))
                .child(button(page::HINT_CLOSE).press(close))
                .into()
        },
    )
}

fn start(desk: Desk) -> El {
    let start = move || {
        for kind in [PhaseKind::Water, PhaseKind::Oil, PhaseKind::CoolDown] {
            desk.act(Action::AddPhase(kind, page::phase_kind(kind).to_owned()));
        }
    };
    el("section")
        .class("card empty")
        .child(el("p").text(page::EMPTY_FORMULA))
        .child(button(page::START_PHASES).class("primary").press(start))
}

/// The total and how many findings there are, always in sight.
fn total(desk: Desk) -> El {
    let text = move || desk.masses(|masses| words::total_text(&masses.totals, desk.sign));
    let wrong = move || desk.masses(|masses| !masses.totals.is_whole());
    let sum =
        el("p").attr("role", "status").child(el("span").text(page::TOTAL)).text(" ").child(el("strong").text_of(text));
    el("div").class("total").class_if("wrong", wrong).child(sum).child(findings::jump(desk))
}
