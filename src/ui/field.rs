//! Fields: text in, text out; what could not be read is said below.

use super::browser;
use super::desk::use_desk;
use hundred_parts::quantity::{Quantity, Reading, Typed};
use hundred_parts::words;
use leptos::prelude::*;

/// A field for a quantity. `problem` names why its text could not be read; an ambiguous text gets its two answers as
/// buttons.
#[component]
pub(super) fn QuantityField<T: Quantity + Send + Sync + 'static>(
    /// The element's id; the label and the message hang on it.
    id: String,
    /// What it is.
    #[prop(into)]
    label: String,
    /// The unit beside it.
    #[prop(into)]
    unit: String,
    /// What is typed in it.
    value: Signal<Typed<T>>,
    /// Called with the new text.
    set: Callback<String>,
) -> impl IntoView {
    let desk = use_desk();
    let note = format!("{id}-note");
    let described = note.clone();
    view! {
        <div class="field">
            <label for=id.clone()>{label}</label>
            <span class="with-unit">
                <input
                    id=id
                    type="text"
                    inputmode="decimal"
                    autocomplete="off"
                    enterkeyhint="next"
                    maxlength="60"
                    class="number"
                    aria-describedby=described
                    aria-invalid=move || value.with(Typed::is_unread).to_string()
                    prop:value=move || value.with(|typed| typed.text().to_owned())
                    on:input=move |event| set.run(event_target_value(&event))
                    on:blur=move |_| desk.rest()
                />
                <span class="unit">{unit}</span>
            </span>
            <Note id=note value set />
        </div>
    }
}

/// What is wrong with a typed quantity, or the question about it.
#[component]
pub(super) fn Note<T: Quantity + Send + Sync + 'static>(
    id: String,
    value: Signal<Typed<T>>,
    set: Callback<String>,
) -> impl IntoView {
    let sign = use_desk().sign;
    view! {
        <span id=id class="note-of-field" aria-live="polite">
            {move || match value.with(|typed| typed.reading().clone()) {
                Reading::Empty | Reading::Value(_) => ().into_any(),
                Reading::Unread(problem) => value.with(|typed| words::problem(typed.text(), T::KIND, &problem)).into_any(),
                Reading::Ambiguous { decimal, thousands } => {
                    let (question, first, second) = words::ambiguous(decimal, thousands, sign);
                    view! {
                        {question}
                        <button type="button" on:click=move |_| set.run(Typed::of(decimal).text().to_owned())>{first}</button>
                        <button type="button" on:click=move |_| set.run(Typed::of(thousands).text().to_owned())>{second}</button>
                    }
                        .into_any()
                }
            }}
        </span>
    }
}

/// A field for plain text.
#[component]
pub(super) fn TextField(
    id: String,
    #[prop(into)] label: String,
    value: Signal<String>,
    set: Callback<String>,
) -> impl IntoView {
    let desk = use_desk();
    view! {
        <div class="field">
            <label for=id.clone()>{label}</label>
            <input
                id=id
                type="text"
                autocomplete="off"
                maxlength="200"
                prop:value=move || value.get()
                on:input=move |event| set.run(event_target_value(&event))
                on:blur=move |_| desk.rest()
            />
        </div>
    }
}

/// A choice of one out of a few.
#[component]
pub(super) fn PickField<T: Copy + PartialEq + Send + Sync + 'static>(
    id: String,
    #[prop(into)] label: String,
    options: Vec<(T, String)>,
    value: Signal<T>,
    set: Callback<T>,
) -> impl IntoView {
    let picks: Vec<T> = options.iter().map(|(pick, _)| *pick).collect();
    let pick = move |event| {
        let chosen = event_target_value(&event).parse().ok().and_then(|n: usize| picks.get(n).copied());
        if let Some(chosen) = chosen {
            set.run(chosen);
        }
    };
    view! {
        <div class="field">
            <label for=id.clone()>{label}</label>
            <select id=id on:change=pick>
                {options
                    .into_iter()
                    .enumerate()
                    .map(|(n, (option, text))| view! { <option value=n.to_string() prop:selected=move || value.get() == option>{text}</option> })
                    .collect_view()}
            </select>
        </div>
    }
}

/// The id of an element and the focus on it.
pub(super) fn focus(id: impl Into<String>) {
    browser::focus(id.into());
}
