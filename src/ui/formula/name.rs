//! The name of a line, with a search over the shelf while typing.

use super::choice_name;
use super::line::moves;
use crate::ui::desk::use_desk;
use crate::ui::field::focus;
use hundred_parts::desk::Action;
use hundred_parts::facts::{IngredientId, search};
use hundred_parts::formula::{Choice, LineId};
use hundred_parts::words::page;
use leptos::prelude::*;

/// How many proposals are shown.
const MOST: usize = 8;

/// A text field with a list of proposals under it.
#[component]
pub(super) fn NameBox(id: LineId) -> impl IntoView {
    let desk = use_desk();
    let number = id.number();
    let open = RwSignal::new(false);
    let active = RwSignal::new(0usize);
    let choice = Memo::new(move |_| desk.with(|bench| bench.state().formula.line(id).map(|line| line.choice.clone())));
    let text = move || {
        desk.with(|bench| {
            choice.with(|choice| choice.as_ref().map(|choice| choice_name(choice, bench.shelf())).unwrap_or_default())
        })
    };
    let inci = move || {
        desk.with(|bench| {
            choice.with(|choice| bench.shelf().entry(choice.as_ref()?.id()?)?.inci().map(|inci| inci.value.to_owned()))
        })
    };
    let hits = Memo::new(move |_| {
        if !open.get() {
            return Vec::new();
        }
        choice.with(|choice| match choice {
            Some(Choice::Named(query)) if !query.trim().is_empty() => desk.with(|bench| {
                search(bench.shelf(), query, MOST)
                    .into_iter()
                    .filter_map(|hit| {
                        let entry = bench.shelf().entry(&hit.id)?;
                        Some((
                            hit.id,
                            entry.label().to_owned(),
                            entry.inci().map(|inci| inci.value.to_owned()).unwrap_or_default(),
                        ))
                    })
                    .collect()
            }),
            _ => Vec::new(),
        })
    });
    let choose = move |ingredient: IngredientId| {
        desk.act(Action::ChooseLine(id, ingredient));
        open.set(false);
        focus(format!("share-{number}"));
    };
    let keys = move |event: leptos::ev::KeyboardEvent| {
        if moves(desk, id, &event, "name") {
            return;
        }
        let count = hits.with(Vec::len);
        match event.key().as_str() {
            "ArrowDown" if count > 0 => active.update(|at| *at = (*at + 1) % count),
            "ArrowUp" if count > 0 => active.update(|at| *at = (*at + count - 1) % count),
            "Escape" => open.set(false),
            "Enter" => match hits.with(|hits| hits.get(active.get_untracked()).map(|hit| hit.0.clone())) {
                Some(ingredient) => choose(ingredient),
                None => focus(format!("share-{number}")),
            },
            _ => return,
        }
        event.prevent_default();
    };
    let typed = move |event| {
        desk.act(Action::NameLine(id, event_target_value(&event)));
        active.set(0);
        open.set(true);
    };
    let list = format!("names-{number}");
    view! {
        <span class="name">
            <input
                id=format!("name-{number}")
                type="text"
                role="combobox"
                autocomplete="off"
                maxlength="120"
                aria-label=page::INGREDIENT
                aria-autocomplete="list"
                aria-controls=list.clone()
                aria-expanded=move || (!hits.with(Vec::is_empty)).to_string()
                aria-activedescendant=move || (!hits.with(Vec::is_empty)).then(|| format!("names-{number}-{}", active.get()))
                prop:value=text
                on:input=typed
                on:keydown=keys
                on:blur=move |_| { open.set(false); desk.rest(); }
            />
            <span class="inci" lang="la">{inci}</span>
            <ul id=list role="listbox" aria-label=page::INGREDIENT class="hits" hidden=move || hits.with(Vec::is_empty)>
                {move || hits.get().into_iter().enumerate().map(|(n, (ingredient, label, inci))| view! {
                    // Pressing must not take the focus from the field before the choice is made.
                    <li id=format!("names-{number}-{n}") role="option" aria-selected=move || (active.get() == n).to_string()
                        on:pointerdown=move |event| { event.prevent_default(); choose(ingredient.clone()); }>
                        <span>{label}</span>
                        <small>{inci}</small>
                    </li>
                }).collect_view()}
            </ul>
        </span>
    }
}
