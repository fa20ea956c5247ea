//! The frame: title bar, the bar of places, what is said, what arrived.

use super::browser;
use super::desk::{Arrival, Desk, Saved, use_desk};
use super::{batch, formula, shelf};
use hundred_parts::desk::Screen;
use hundred_parts::words::page;
use leptos::prelude::*;

/// The whole app.
#[component]
pub(super) fn App() -> impl IntoView {
    let desk = Desk::start();
    let keys = window_event_listener(leptos::ev::keydown, move |event| {
        let command = event.ctrl_key() || event.meta_key();
        match event.key().to_lowercase().as_str() {
            "z" if command && !event.shift_key() => desk.undo(),
            "z" if command => desk.redo(),
            "y" if command => desk.redo(),
            _ => return,
        }
        event.prevent_default();
    });
    on_cleanup(move || keys.remove());
    view! {
        <a class="skip" href="#work">{page::SKIP}</a>
        <Top />
        <Places />
        <div id="work" class="work" tabindex="-1">
            <Arrived />
            {move || match desk.screen.get() {
                Screen::Formula => view! { <formula::FormulaPlace /> }.into_any(),
                Screen::Shelf => view! { <shelf::ShelfPlace /> }.into_any(),
                Screen::Batch => view! { <batch::BatchPlace /> }.into_any(),
            }}
        </div>
        <Said />
    }
}

#[component]
fn Top() -> impl IntoView {
    let desk = use_desk();
    let title = move || {
        desk.with(|bench| {
            let title = bench.state().formula.about.title.trim();
            if title.is_empty() { page::UNTITLED.to_owned() } else { title.to_owned() }
        })
    };
    let saved = move || match desk.saved.get() {
        Saved::Yes => page::SAVED.to_owned(),
        Saved::Soon => page::SAVING.to_owned(),
        Saved::No(why) => why,
    };
    view! {
        <header class="top no-print">
            <h1>{title}</h1>
            <span class="saved" role="status" class:trouble=move || matches!(desk.saved.get(), Saved::No(_))>{saved}</span>
            <span class="tools">
                <button type="button" on:click=move |_| desk.undo() prop:disabled=move || !desk.with(|bench| bench.can_undo())>{page::UNDO}</button>
                <button type="button" on:click=move |_| desk.redo() prop:disabled=move || !desk.with(|bench| bench.can_redo())>{page::REDO}</button>
            </span>
        </header>
    }
}

#[component]
fn Places() -> impl IntoView {
    let desk = use_desk();
    view! {
        <nav class="places no-print" aria-label=page::PLACES>
            {Screen::ALL
                .into_iter()
                .map(|screen| {
                    view! {
                        <a href=screen.address() aria-current=move || (desk.screen.get() == screen).then_some("page")>
                            {page::screen(screen)}
                        </a>
                    }
                })
                .collect_view()}
        </nav>
    }
}

#[component]
fn Said() -> impl IntoView {
    let desk = use_desk();
    view! {
        <div class="said no-print" role="status">
            {move || desk.toast.get().map(|toast| view! {
                <p class="toast">
                    {toast.text}
                    {toast.undo.then(|| view! { <button type="button" on:click=move |_| { desk.undo(); desk.toast.set(None); }>{page::UNDO}</button> })}
                </p>
            })}
            {move || desk.update.get().then(|| view! {
                <p class="toast">
                    {page::UPDATE_READY}
                    <button
                        type="button"
                        on:click=move |_| leptos::task::spawn_local(async move {
                            desk.write().await;
                            if desk.saved.get_untracked() == Saved::Yes {
                                browser::take_update();
                            }
                        })
                    >
                        {page::TAKE_UPDATE}
                    </button>
                    <button type="button" on:click=move |_| desk.update.set(false)>{page::LATER}</button>
                </p>
            })}
        </div>
    }
}

/// What came in by a link or a file, to be looked at before anything of it is kept.
#[component]
fn Arrived() -> impl IntoView {
    let desk = use_desk();
    let leave = move || desk.arrival.set(None);
    move || {
        desk.arrival.get().map(|arrival| match arrival {
            Arrival::Refused(why) => view! {
                <section class="card arrival no-print" role="alert">
                    <p>{why}</p>
                    <button type="button" on:click=move |_| leave()>{page::CLOSE}</button>
                </section>
            }
            .into_any(),
            Arrival::Documents(incoming) => {
                let rows = incoming
                    .documents
                    .iter()
                    .map(|document| {
                        let formula = &document.state.formula;
                        let title = formula.about.title.clone();
                        let known = desk.heads(|heads| heads.iter().any(|head| head.title == title));
                        view! {
                            <li>
                                <strong>{title}</strong>
                                {format!(" \u{2013} {}{}, {}", formula.lines().count(), page::LINES, if known { page::SAME_TITLE } else { page::NEW_HERE })}
                                <ul>
                                    {formula
                                        .lines()
                                        .take(60)
                                        .map(|(_, line)| view! { <li>{formula::line_text(line, &incoming.shelf)}</li> })
                                        .collect_view()}
                                </ul>
                            </li>
                        }
                    })
                    .collect_view();
                let taken = incoming.clone();
                view! {
                    <section class="card arrival no-print" aria-labelledby="arrival-title">
                        <h2 id="arrival-title">{page::INCOMING}</h2>
                        <p>{page::INCOMING_TEXT}</p>
                        <ul>{rows}</ul>
                        <button type="button" class="primary" on:click=move |_| { desk.take(&taken); leave(); }>{page::ADD_THESE}</button>
                        <button type="button" on:click=move |_| leave()>{page::LEAVE}</button>
                    </section>
                }
                .into_any()
            }
        })
    }
}
