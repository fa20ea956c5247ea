//! The shelf: known ingredients, their values with sources, and the maker's own.

use super::desk::use_desk;
use hundred_parts::desk::ShelfAction;
use hundred_parts::facts::{Field, IngredientId, Origin, search};
use hundred_parts::words::page;
use leptos::prelude::*;

/// How many rows are drawn at once; a search finds the others.
const MOST: usize = 60;

/// The place.
#[component]
pub(super) fn ShelfPlace() -> impl IntoView {
    let desk = use_desk();
    let query = RwSignal::new(String::new());
    let open = RwSignal::new(None::<IngredientId>);
    let own = RwSignal::new(String::new());
    let rows = Memo::new(move |_| {
        query.with(|query| {
            desk.with(|bench| {
                let shelf = bench.shelf();
                search(shelf, query, MOST)
                    .into_iter()
                    .filter_map(|hit| shelf.entry(&hit.id))
                    .map(|entry| {
                        (
                            entry.id().clone(),
                            entry.label().to_owned(),
                            entry.inci().map(|inci| inci.value.to_owned()).unwrap_or_default(),
                            entry.is_own(),
                        )
                    })
                    .collect::<Vec<_>>()
            })
        })
    });
    let add = move |_| {
        let name = own.get_untracked();
        if !name.trim().is_empty() {
            open.set(desk.act_on_shelf(ShelfAction::Add(name.trim().to_owned())));
            own.set(String::new());
            query.set(String::new());
        }
    };
    view! {
        <div class="shelf">
            <section class="card">
                <h2>{page::screen(hundred_parts::desk::Screen::Shelf)}</h2>
                <p>{page::SHELF_INTRO}</p>
                <div class="field">
                    <label for="search-shelf">{page::SEARCH_SHELF}</label>
                    <input id="search-shelf" type="search" autocomplete="off" maxlength="100" prop:value=move || query.get() on:input=move |event| query.set(event_target_value(&event)) />
                </div>
                <div class="field">
                    <label for="own-name">{page::OWN_INGREDIENT}</label>
                    <span class="with-unit">
                        <input id="own-name" type="text" autocomplete="off" maxlength="120" prop:value=move || own.get() on:input=move |event| own.set(event_target_value(&event)) />
                        <button type="button" on:click=add>{page::ADD}</button>
                    </span>
                </div>
                <Show when=move || rows.with(Vec::is_empty)><p class="empty">{page::NOTHING_ON_SHELF}</p></Show>
                <ul class="list">
                    {move || rows.get().into_iter().map(|(id, label, inci, is_own)| {
                        let here = id.clone();
                        view! {
                            <li><button type="button" aria-current=move || open.with(|open| open.as_ref() == Some(&here)).then_some("true") on:click=move |_| open.set(Some(id.clone()))>
                                <span>{label} {is_own.then(|| view! { <em>" " {page::YOURS}</em> })}</span>
                                <small lang="la">{inci}</small>
                            </button></li>
                        }
                    }).collect_view()}
                </ul>
            </section>
            {move || open.get().map(|id| view! { <Entry id close=Callback::new(move |()| open.set(None)) /> })}
        </div>
    }
}

/// One ingredient with every value; each can be typed over.
#[component]
fn Entry(id: IngredientId, close: Callback<()>) -> impl IntoView {
    let desk = use_desk();
    let wanted = id.clone();
    let entry = Signal::derive(move || desk.with(|bench| bench.shelf().entry(&wanted)));
    let title = move || entry.with(|entry| entry.as_ref().map(|entry| entry.label().to_owned()));
    let is_own = move || entry.with(|entry| entry.as_ref().is_some_and(|entry| entry.is_own()));
    let source = move || {
        entry.with(|entry| {
            entry
                .as_ref()
                .and_then(|entry| entry.source())
                .map(|(source, verification)| format!("{}{source} ({verification})", page::SOURCE))
        })
    };
    let removed = id.clone();
    let remove = move |_| {
        desk.act_on_shelf(ShelfAction::Remove(removed.clone()));
        close.run(());
    };
    view! {
        <section class="card entry" aria-labelledby="entry-title">
            <h2 id="entry-title">{title}</h2>
            <p class="small">{source}</p>
            <div class="fields">
                {Field::ALL.iter().map(|field| view! { <Value id=id.clone() field=*field entry /> }).collect_view()}
            </div>
            <div class="actions">
                <button type="button" on:click=move |_| close.run(())>{page::CLOSE}</button>
                <Show when=is_own><button type="button" on:click=remove.clone()>{page::REMOVE_OWN}</button></Show>
            </div>
        </section>
    }
}

#[component]
fn Value(id: IngredientId, field: Field, entry: Signal<Option<hundred_parts::facts::Ingredient>>) -> impl IntoView {
    let desk = use_desk();
    let element = format!("value-{}", field.key());
    let cell = move || entry.with(|entry| entry.as_ref().and_then(|entry| entry.cell(field).cloned()));
    let note = move || {
        entry.with(|entry| {
            let entry = entry.as_ref()?;
            match entry.cell(field)?.origin {
                Origin::Maker => {
                    let table = entry
                        .original(field)
                        .map(|cell| format!(" {}{}", page::TABLE_SAYS, cell.text))
                        .unwrap_or_default();
                    Some(format!("{}{table}", page::OVERRIDDEN))
                }
                Origin::Table { verified: false, .. } => Some(page::FROM_MEMORY.to_owned()),
                Origin::Table { .. } => None,
            }
        })
    };
    let set = move |event| {
        desk.act_on_shelf(ShelfAction::Set(id.clone(), field, event_target_value(&event)));
    };
    view! {
        <div class="field" class:own=move || cell().is_some_and(|cell| cell.origin == Origin::Maker)>
            <label for=element.clone()>{page::field(field)}</label>
            <input id=element type="text" autocomplete="off" maxlength="2000" prop:value=move || cell().map(|cell| cell.text.into_owned()).unwrap_or_default() on:input=set />
            <span class="note-of-field">{note}</span>
        </div>
    }
}
