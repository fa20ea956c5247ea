//! The formula: phases as cards, the hundred square and the findings beside them.

mod about;
mod findings;
mod formulas;
mod line;
mod name;
mod pass_on;
mod phase;
mod square;
mod versions;

use super::browser;
use super::desk::use_desk;
use hundred_parts::desk::Action;
use hundred_parts::facts::Shelf;
use hundred_parts::formula::{Choice, Line, PhaseKind, Share};
use hundred_parts::sheet::Balance;
use hundred_parts::words::{self, page};
use leptos::prelude::*;

/// Name and share of a line as one text, for previews.
pub(super) fn line_text(line: &Line, shelf: &Shelf) -> String {
    let share = match &line.share {
        Share::FillUp => page::FILLS_UP.to_owned(),
        Share::Typed(typed) => format!("{}\u{2009}%", typed.text()),
    };
    format!("{} {share}", choice_name(&line.choice, shelf))
}

/// The name of what a line is made of.
pub(super) fn choice_name(choice: &Choice, shelf: &Shelf) -> String {
    match choice {
        Choice::Named(name) => name.clone(),
        Choice::Known(id) => shelf.entry(id).map_or_else(|| id.as_str().to_owned(), |entry| entry.label().to_owned()),
    }
}

/// The place.
#[component]
pub(super) fn FormulaPlace() -> impl IntoView {
    let desk = use_desk();
    let phases = Memo::new(move |_| {
        desk.with(|bench| bench.state().formula.phases().iter().map(|phase| phase.id).collect::<Vec<_>>())
    });
    view! {
        <div class="formula">
            <formulas::Formulas />
            <div class="lines">
                <Hint />
                <about::About />
                <square::Strip />
                <p class="keys">{page::LINE_KEYS}</p>
                <Show when=move || phases.with(Vec::is_empty)>
                    <Start />
                </Show>
                <For each=move || phases.get() key=|id| *id let:id>
                    <phase::PhaseCard id />
                </For>
                <div class="add-phase">
                    {PhaseKind::ALL
                        .iter()
                        .map(|kind| {
                            let kind = *kind;
                            let name = page::phase_kind(kind);
                            view! { <button type="button" on:click=move |_| { desk.act(Action::AddPhase(kind, name.to_owned())); }>"+ " {name}</button> }
                        })
                        .collect_view()}
                </div>
                <Total />
                <versions::Versions />
                <pass_on::PassOn />
            </div>
            <aside class="beside">
                <square::HundredSquare />
                <findings::Findings />
            </aside>
        </div>
    }
}

#[component]
fn Hint() -> impl IntoView {
    let shown = RwSignal::new(browser::preference("hint").is_none());
    let close = move |_| {
        browser::set_preference("hint", "closed");
        shown.set(false);
    };
    view! {
        <Show when=move || shown.get()>
            <section class="card hint">
                <p>{page::HINT}</p>
                <button type="button" on:click=close>{page::HINT_CLOSE}</button>
            </section>
        </Show>
    }
}

#[component]
fn Start() -> impl IntoView {
    let desk = use_desk();
    let start = move |_| {
        for kind in [PhaseKind::Water, PhaseKind::Oil, PhaseKind::CoolDown] {
            desk.act(Action::AddPhase(kind, page::phase_kind(kind).to_owned()));
        }
    };
    view! {
        <section class="card empty">
            <p>{page::EMPTY_FORMULA}</p>
            <button type="button" class="primary" on:click=start>{page::START_PHASES}</button>
        </section>
    }
}

/// The total, always in sight.
#[component]
fn Total() -> impl IntoView {
    let desk = use_desk();
    let sign = desk.sign;
    let text = move || {
        desk.derived(|derived| {
            let totals = &derived.sheet.totals;
            let total = words::with_unit(totals.total, "%", sign);
            match totals.balance {
                _ if !totals.complete() => format!("{total}{}", page::SO_FAR),
                Balance::Whole => total,
                Balance::Short(by) => format!("{total} \u{2013} {} short", words::with_unit(by, "%", sign)),
                Balance::Over(by) => format!("{total} \u{2013} {} over", words::with_unit(by, "%", sign)),
            }
        })
    };
    let wrong = move || desk.derived(|derived| derived.sheet.totals.balance != Balance::Whole);
    view! {
        <p class="total" class:wrong=wrong role="status">
            <span>{page::TOTAL}</span>
            <strong>{text}</strong>
        </p>
    }
}
