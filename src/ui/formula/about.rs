//! Title and purpose of the formula.

use crate::ui::desk::use_desk;
use crate::ui::field::{PickField, QuantityField, TextField};
use hundred_parts::desk::Action;
use hundred_parts::formula::{Area, Audience, Pack, Use};
use hundred_parts::words::page;
use leptos::prelude::*;

fn options<T: Copy>(all: &[T], name: impl Fn(T) -> &'static str) -> Vec<(T, String)> {
    all.iter().map(|value| (*value, name(*value).to_owned())).collect()
}

/// Title, and the rest folded away.
#[component]
pub(super) fn About() -> impl IntoView {
    let desk = use_desk();
    let title = Signal::derive(move || desk.with(|bench| bench.state().formula.about.title.clone()));
    let purpose = Signal::derive(move || desk.with(|bench| bench.state().formula.about.purpose));
    let area = Signal::derive(move || desk.with(|bench| bench.state().formula.about.area));
    let audience = Signal::derive(move || desk.with(|bench| bench.state().formula.about.audience));
    let pack = Signal::derive(move || desk.with(|bench| bench.state().formula.about.pack));
    let ph = Signal::derive(move || desk.with(|bench| bench.state().formula.about.target_ph.clone()));
    let notes = move || desk.with(|bench| bench.state().formula.about.notes.clone());
    view! {
        <section class="about">
            <TextField id="title".to_owned() label=page::TITLE value=title set=Callback::new(move |text| { desk.act(Action::Title(text)); }) />
            <details>
                <summary>{page::ABOUT}</summary>
                <div class="fields">
                    <PickField id="use".to_owned() label=page::USE options=options(Use::ALL, page::purpose) value=purpose set=Callback::new(move |pick| { desk.act(Action::Purpose(pick)); }) />
                    <PickField id="area".to_owned() label=page::AREA options=options(Area::ALL, page::area) value=area set=Callback::new(move |pick| { desk.act(Action::Area(pick)); }) />
                    <PickField id="audience".to_owned() label=page::AUDIENCE options=options(Audience::ALL, page::audience) value=audience set=Callback::new(move |pick| { desk.act(Action::Audience(pick)); }) />
                    <PickField id="pack".to_owned() label=page::PACK options=options(Pack::ALL, page::pack) value=pack set=Callback::new(move |pick| { desk.act(Action::Pack(pick)); }) />
                    <QuantityField id="target-ph".to_owned() label=page::TARGET_PH unit="" value=ph set=Callback::new(move |text| { desk.act(Action::TargetPh(text)); }) />
                </div>
                <label for="notes">{page::NOTES}</label>
                <textarea id="notes" rows="3" maxlength="20000" prop:value=notes on:input=move |event| { desk.act(Action::Notes(event_target_value(&event))); } on:blur=move |_| desk.rest()></textarea>
            </details>
        </section>
    }
}
