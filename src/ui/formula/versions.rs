//! Kept versions, and one of them beside what is now.

use super::choice_name;
use crate::ui::browser;
use crate::ui::desk::use_desk;
use hundred_parts::desk::{Action, State};
use hundred_parts::formula::{Change, compare};
use hundred_parts::quantity::{Percent, Quantity};
use hundred_parts::words::{self, page};
use leptos::prelude::*;

#[component]
pub(super) fn Versions() -> impl IntoView {
    let desk = use_desk();
    let compared = RwSignal::new(None::<u32>);
    let list = move || {
        desk.with(|bench| {
            bench.document().versions.iter().rev().map(|version| (version.number, version.saved)).collect::<Vec<_>>()
        })
    };
    let save = move |_| {
        let number = desk.save_version();
        desk.say(&format!("{}{number}.", page::VERSION_SAVED), false);
    };
    let back = move |number: u32| {
        let older = desk.with(|bench| {
            let version = bench.document().versions.iter().find(|version| version.number == number)?.clone();
            Some(State { formula: version.formula.clone(), plan: bench.state().plan.clone() })
        });
        if let Some(older) = older {
            desk.act(Action::Restore(Box::new(older)));
        }
    };
    view! {
        <details class="card versions">
            <summary>{page::VERSIONS}</summary>
            <button type="button" on:click=save>{page::SAVE_VERSION}</button>
            <Show when=move || list().is_empty()><p>{page::NO_VERSIONS}</p></Show>
            <ul class="list">
                {move || list().into_iter().map(|(number, saved)| view! {
                    <li>
                        {format!("{number} \u{2013} {} ", browser::local_time(saved))}
                        <button type="button" on:click=move |_| compared.set(Some(number))>{page::COMPARE}</button>
                        <button type="button" on:click=move |_| back(number)>{page::BRING_BACK}</button>
                    </li>
                }).collect_view()}
            </ul>
            {move || compared.get().map(|number| view! { <Compared number /> })}
        </details>
    }
}

#[component]
fn Compared(number: u32) -> impl IntoView {
    let desk = use_desk();
    let rows = move || {
        desk.with(|bench| {
            let version = bench.document().versions.iter().find(|version| version.number == number)?;
            let rows = compare(&version.formula, &bench.state().formula);
            Some(rows.into_iter().map(|row| (choice_name(&row.choice, bench.shelf()), row)).collect::<Vec<_>>())
        })
        .unwrap_or_default()
    };
    let share = move |side: &Option<(String, Option<Percent>)>| {
        side.as_ref()
            .and_then(|(_, share)| *share)
            .map(|share| words::with_unit(share, "%", desk.sign))
            .unwrap_or_default()
    };
    let change = move |change: &Change| match change {
        Change::Added => page::ADDED.to_owned(),
        Change::Gone => page::GONE.to_owned(),
        Change::Same => page::SAME.to_owned(),
        Change::Changed { by, moved } => {
            let by = by
                .filter(|by| by.units() != 0)
                .map(|by| format!("{}{}", if by.units() > 0 { "+" } else { "" }, words::with_unit(by, "%", desk.sign)));
            [by, moved.then(|| page::MOVED.to_owned())].into_iter().flatten().collect::<Vec<_>>().join(", ")
        }
    };
    view! {
        <table class="compare">
            <thead><tr><th scope="col">{page::INGREDIENT}</th><th scope="col">{page::BEFORE}</th><th scope="col">{page::NOW}</th><th scope="col">{page::CHANGE}</th></tr></thead>
            <tbody>
                {move || rows().into_iter().map(|(name, row)| view! {
                    <tr><th scope="row">{name}</th><td>{share(&row.before)}</td><td>{share(&row.after)}</td><td>{change(&row.change)}</td></tr>
                }).collect_view()}
            </tbody>
        </table>
    }
}
