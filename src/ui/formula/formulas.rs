//! The list of formulas: search, new, duplicate, bin.

use crate::ui::browser;
use crate::ui::desk::use_desk;
use hundred_parts::desk::{Document, Head};
use hundred_parts::facts::fold;
use hundred_parts::words::page;
use leptos::prelude::*;

/// How many rows are drawn at once; a search finds the others.
const MOST: usize = 50;

#[component]
pub(super) fn Formulas() -> impl IntoView {
    let desk = use_desk();
    let query = RwSignal::new(String::new());
    let found = move |binned: bool| {
        let wanted = fold(&query.get());
        desk.heads(|heads| {
            let fits = |head: &&Head| {
                head.binned.is_some() == binned
                    && (wanted.trim().is_empty() || fold(&head.title).contains(wanted.trim()))
            };
            heads.iter().filter(fits).take(MOST).cloned().collect::<Vec<_>>()
        })
    };
    let duplicate = move |_| {
        let mut copy = desk.with(|bench| bench.document().clone());
        copy.state.formula.about.title.push_str(page::COPY);
        copy.versions.clear();
        desk.add(copy);
    };
    let bin = move |_| desk.bin(desk.with(|bench| bench.id().clone()), true);
    view! {
        <details class="card formulas" prop:open=browser::is_wide()>
            <summary>{page::FORMULAS}</summary>
            <label class="hidden" for="find-formula">{page::FIND_FORMULA}</label>
            <input id="find-formula" type="search" autocomplete="off" placeholder=page::FIND_FORMULA maxlength="100" prop:value=move || query.get() on:input=move |event| query.set(event_target_value(&event)) />
            <ul class="list">
                {move || found(false).into_iter().map(|head| {
                    let id = head.id.clone();
                    let current = move || desk.with(|bench| *bench.id() == id);
                    let id = head.id;
                    view! {
                        <li><button type="button" aria-current=move || current().then_some("true") on:click=move |_| desk.open(id.clone())>
                            {if head.title.trim().is_empty() { page::UNTITLED.to_owned() } else { head.title }}
                        </button></li>
                    }
                }).collect_view()}
            </ul>
            <Show when=move || found(false).is_empty() && !query.with(String::is_empty)><p class="empty">{page::NONE_FOUND}</p></Show>
            <div class="actions">
                <button type="button" on:click=move |_| desk.add(Document::default())>{page::NEW_FORMULA}</button>
                <button type="button" on:click=duplicate>{page::DUPLICATE}</button>
                <button type="button" on:click=bin>{page::TO_BIN}</button>
            </div>
            <Show when=move || desk.heads(|heads| heads.iter().any(|head| head.binned.is_some()))>
                <details>
                    <summary>{page::BIN}</summary>
                    <ul class="list">
                        {move || found(true).into_iter().map(|head| {
                            let id = head.id;
                            view! { <li>{head.title} <button type="button" on:click=move |_| desk.bin(id.clone(), false)>{page::RESTORE}</button></li> }
                        }).collect_view()}
                    </ul>
                </details>
            </Show>
        </details>
    }
}
