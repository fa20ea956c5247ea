//! How much is to be made, and on which scale.

use crate::ui::desk::use_desk;
use crate::ui::field::{PickField, QuantityField};
use crate::ui::formula::choice_name;
use hundred_parts::desk::Action;
use hundred_parts::formula::LineId;
use hundred_parts::quantity::{Mass, MassUnit, Quantity, Typed};
use hundred_parts::sheet::{Basis, Fill, Plan, PlanField, STEPS};
use hundred_parts::words::{self, page};
use leptos::prelude::*;

/// The card.
#[component]
pub(super) fn PlanCard() -> impl IntoView {
    let desk = use_desk();
    let basis = move || desk.with(|bench| bench.state().plan.basis);
    let unit = Signal::derive(move || desk.with(|bench| bench.state().plan.unit));
    let step = Signal::derive(move || desk.with(|bench| bench.state().plan.step_value().unwrap_or(Mass::ZERO)));
    let steps = STEPS.iter().map(|step| (*step, words::with_unit(*step, "g", desk.sign))).collect::<Vec<_>>();
    let units =
        [MassUnit::Gram, MassUnit::Kilogram, MassUnit::Ounce].map(|unit| (unit, words::unit(unit).to_owned())).to_vec();
    view! {
        <section class="card plan no-print" aria-labelledby="how-much">
            <h2 id="how-much">{page::HOW_MUCH}</h2>
            <fieldset class="choices">
                <legend class="hidden">{page::HOW_MUCH}</legend>
                {Basis::ALL.into_iter().map(|pick| view! {
                    <label><input type="radio" name="basis" prop:checked=move || basis() == pick on:change=move |_| { desk.act(Action::Basis(pick)); } /> {page::basis(pick)}</label>
                }).collect_view()}
            </fieldset>
            <div class="fields">
                {move || match basis() {
                    Basis::Jars => view! { <Jars /> }.into_any(),
                    Basis::Mass => view! { <Text field=PlanField::Mass label=page::BATCH_MASS unit="g" read=|plan| plan.mass.clone() /> }.into_any(),
                    Basis::InHand => view! { <InHand /> }.into_any(),
                    Basis::Vessel => view! {
                        <Text field=PlanField::Vessel label=page::VESSEL unit="mL" read=|plan| plan.vessel.clone() />
                        <Text field=PlanField::HeadRoom label=page::HEAD_ROOM unit="%" read=|plan| plan.head_room.clone() />
                        <Text field=PlanField::Density label=page::DENSITY unit="g/mL" read=|plan| plan.density.clone() />
                    }.into_any(),
                }}
            </div>
            <h2>{page::SCALE}</h2>
            <div class="fields">
                <PickField id="step".to_owned() label=page::STEP options=steps value=step set=Callback::new(move |step: Mass| { desk.act(Action::PlanText(PlanField::Step, Typed::of(step).text().to_owned())); }) />
                <Text field=PlanField::Tolerance label=page::TOLERANCE unit="%" read=|plan| plan.tolerance.clone() />
                <PickField id="unit".to_owned() label=page::SHOW_IN options=units value=unit set=Callback::new(move |unit| { desk.act(Action::Unit(unit)); }) />
            </div>
        </section>
    }
}

/// A field of the plan.
#[component]
fn Text<T: Quantity + Send + Sync + 'static>(
    field: PlanField,
    label: &'static str,
    unit: &'static str,
    read: fn(&Plan) -> Typed<T>,
) -> impl IntoView {
    let desk = use_desk();
    let value = Signal::derive(move || desk.with(|bench| read(&bench.state().plan)));
    view! { <QuantityField id=format!("plan-{field:?}").to_lowercase() label unit value set=Callback::new(move |text| { desk.act(Action::PlanText(field, text)); }) /> }
}

#[component]
fn Jars() -> impl IntoView {
    let desk = use_desk();
    let by_volume = Memo::new(move |_| desk.with(|bench| matches!(bench.state().plan.fill, Fill::Volume(_))));
    let options = vec![(false, page::BY_MASS.to_owned()), (true, page::BY_VOLUME.to_owned())];
    view! {
        <Text field=PlanField::Jars label=page::JARS unit="" read=|plan| plan.jars.clone() />
        {move || if by_volume.get() {
            view! {
                <Text field=PlanField::Fill label=page::FILL unit="mL" read=|plan| match &plan.fill { Fill::Volume(volume) => volume.clone(), Fill::Mass(_) => Typed::default() } />
                <Text field=PlanField::Density label=page::DENSITY unit="g/mL" read=|plan| plan.density.clone() />
            }.into_any()
        } else {
            view! { <Text field=PlanField::Fill label=page::FILL unit="g" read=|plan| match &plan.fill { Fill::Mass(mass) => mass.clone(), Fill::Volume(_) => Typed::default() } /> }.into_any()
        }}
        <PickField id="fill-by".to_owned() label=page::SHOW_FILL options value=by_volume.into() set=Callback::new(move |volume| { desk.act(Action::FillByVolume(volume)); }) />
        <Text field=PlanField::Loss label=page::LOSS unit="%" read=|plan| plan.loss.clone() />
    }
}

#[component]
fn InHand() -> impl IntoView {
    let desk = use_desk();
    let lines = Memo::new(move |_| {
        desk.with(|bench| {
            let formula = &bench.state().formula;
            formula
                .lines()
                .filter(|(_, line)| !line.is_blank())
                .map(|(_, line)| (line.id, choice_name(&line.choice, bench.shelf())))
                .collect::<Vec<_>>()
        })
    });
    view! { {move || lines.get().into_iter().map(|(id, name)| view! { <Hand id name /> }).collect_view()} }
}

#[component]
fn Hand(id: LineId, name: String) -> impl IntoView {
    let desk = use_desk();
    let value = Signal::derive(move || {
        desk.with(|bench| {
            bench
                .state()
                .plan
                .in_hand
                .iter()
                .find(|hand| hand.line == id)
                .map(|hand| hand.mass.clone())
                .unwrap_or_default()
        })
    });
    let allows = move || {
        desk.derived(|derived| {
            let hand = &derived.sheet.weigh.as_ref().ok()?.batch.hand;
            let at = hand.iter().position(|hand| hand.line == id)?;
            let allows = words::mass(hand[at].allows, desk.with(|bench| bench.state().plan.unit), desk.sign);
            Some(format!(
                "{}{allows}{}",
                page::ALLOWS,
                if at == 0 { format!(" \u{2013} {}", page::RUNS_OUT) } else { String::new() }
            ))
        })
    };
    view! {
        <div>
            <QuantityField id=format!("hand-{}", id.number()) label=name unit="g" value set=Callback::new(move |text| { desk.act(Action::Hand(id, text)); }) />
            <span class="small">{allows}</span>
        </div>
    }
}
