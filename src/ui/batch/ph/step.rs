//! The next step, large, and the fields that note what was done.

use super::tools::PhBench;
use super::{STEP, meter, note};
use crate::ui::benches::names;
use crate::ui::browser::{forget_preference, preference, set_preference};
use crate::ui::desk::Desk;
use crate::ui::dom::{El, LOCAL, View, el, is_enter, typed};
use crate::ui::entering::ENTER;
use crate::ui::field::{button, pick_field, quantity_field, text_input};
use hundred_parts::batch::dose::{Advice, Proposal};
use hundred_parts::batch::{Instrument, NextStep, PhEvent, PhLog, SAMPLING_METHODS, Tools, Vessel};
use hundred_parts::facts::{Hazard, IngredientId, hazard};
use hundred_parts::quantity::{Mass, Percent, Quantity, Typed};
use hundred_parts::report::{lot_at_hand, lots_of};
use hundred_parts::rules::Grade;
use hundred_parts::words::{self, FieldText, bench, dose, portions};
use leptos::prelude::*;
use std::rc::Rc;

/// Something that has to be said before there can be a next step.
pub(super) fn missing(headline: &str, why: &str) -> El {
    frame(bench::NEXT, headline, None).child(el("p").text(why))
}

fn frame(over: &str, headline: &str, grade: Option<Grade>) -> El {
    let title = el("h3").id(STEP).attr("tabindex", "-1").text(headline);
    let title = match grade {
        Some(grade) => title.class("headline grade").attr("data-grade", grade.key()),
        None => title.class("headline"),
    };
    el("section").class("next-step").attr("aria-labelledby", STEP).child(el("p").class("small").text(over)).child(title)
}

/// The step that is asked for next.
pub(super) fn step(bench: &PhBench, log: &PhLog, tools: &Tools, found: &NextStep) -> El {
    let sign = bench.desk.sign;
    let (advice, name) = (&found.advice, bench.name(&tools.titrant));
    let grade = match advice {
        Advice::Stop => Some(Grade::Fine),
        Advice::Passed(_) | Advice::Refuse(_) | Advice::Repeat(_) | Advice::CheckMeter(_) | Advice::Recalibrate(_) => {
            Some(Grade::Care)
        }
        Advice::Read(_) | Advice::TakeSample(_) | Advice::Add(_) => None,
    };
    let (over, headline) = (bench::to_reach(log.target, sign), dose::headline(advice, &name, sign));
    if matches!(advice, Advice::Passed(_)) && found.untouched {
        let framed = frame(&over, bench::OTHER_WAY, grade).child(el("p").text(bench::OTHER_WAY_WHY));
        return framed.child(reading(bench, STEP, fixed(Vessel::Batch), false));
    }
    let framed = frame(&over, &headline, grade);
    let said = |text: &str| el("p").text(text);
    match advice {
        Advice::Read(vessel) => {
            let wait = found.meter.unsteady.then(|| said(words::meter::WAIT));
            framed
                .child(wait)
                .child(reading(bench, STEP, fixed(*vessel), true))
                .child(said(dose::HOW_TO_READ).class("small"))
        }
        Advice::Repeat(vessel) => framed.child(said(&dose::advice(advice, &name, None, sign))).child(reading(
            bench,
            STEP,
            fixed(*vessel),
            true,
        )),
        Advice::TakeSample(mass) => {
            framed.child(said(&dose::advice(advice, &name, None, sign))).child(said(bench::NOT_BACK)).child(weighed(
                bench,
                STEP,
                (bench::TAKEN, bench::SAMPLE_TAKEN),
                Some(*mass),
                None,
                Rc::new(|mass| PhEvent::Sample { mass }),
            ))
        }
        Advice::Add(proposal) => dosing(bench, framed, (log, tools), proposal, found),
        Advice::CheckMeter(_) => framed
            .child(said(&dose::advice(advice, &name, None, sign)))
            .child(meter::without(bench.desk))
            .child(meter::check(bench.desk, found.meter.last.is_none())),
        Advice::Recalibrate(_) => {
            framed.child(said(&dose::advice(advice, &name, None, sign))).child(meter::check(bench.desk, false))
        }
        Advice::Stop | Advice::Passed(_) | Advice::Refuse(_) => framed
            .child(said(&dose::advice(advice, &name, None, sign)))
            .child(left_open(bench, found))
            .child(reading(bench, STEP, fixed(Vessel::Batch), false)),
    }
}

/// Between which ends a batch lies that is there, and what that means for its preservatives.
fn left_open(bench: &PhBench, found: &NextStep) -> View {
    let Some(ends) = &found.ends else { return View::nothing() };
    let said = bench.desk.now(|open| words::meter::ends(ends, &names(open), bench.desk.sign));
    said.into_iter().map(|text| el("p").text(&text)).collect()
}

fn dosing(bench: &PhBench, framed: El, (log, tools): (&PhLog, &Tools), proposal: &Proposal, found: &NextStep) -> El {
    let sign = bench.desk.sign;
    let before = log.has_used(&tools.titrant, proposal.portion.strength);
    let stock = dose::stock(proposal, sign).map(|text| {
        let before = before.then(|| el("p").text(bench::MADE_BEFORE));
        el("div").class("stock").child(el("p").text(&text)).child(before)
    });
    let expected = found.expected.as_ref().map(|expected| dose::outcome(expected, sign));
    let provisos = dose::provisos(proposal, sign).into_iter().map(|text| el("p").class("small").text(&text));
    let (vessel, strength) = (proposal.vessel, proposal.portion.strength);
    framed
        .child(portions::portions(proposal, sign).map(|text| el("p").text(&text)))
        .child(stock)
        .child(expected.map(|text| el("p").class("large").text(&text)))
        .child(el("p").class("again").child(el("strong").text(dose::AGAIN)))
        .child(dose_form(bench, STEP, fixed(vessel), tools, strength, Some(proposal.portion.mass)))
        .child(el("p").class("caution").text(&dose::caution(hazard_of(bench, &tools.titrant))))
        .child(provisos.collect::<View>())
}

fn hazard_of(bench: &PhBench, id: &IngredientId) -> Option<&'static Hazard> {
    bench.desk.now(|open| open.shelf().entry(id)?.links().hazard.and_then(hazard))
}

/// In what something is done.
type In = Rc<dyn Fn() -> Vessel>;

fn fixed(vessel: Vessel) -> In {
    Rc::new(move || vessel)
}

/// Fields and the button that notes them; Enter in a field does the same.
pub(super) fn form(
    fields: El,
    label: &str,
    primary: bool,
    ready: impl Fn() -> bool + 'static,
    go: impl Fn() + 'static,
) -> El {
    form_of(fields, el("span").text(label), primary, ready, go)
}

fn form_of(fields: El, label: El, primary: bool, ready: impl Fn() -> bool + 'static, go: impl Fn() + 'static) -> El {
    let go: Rc<dyn Fn()> = Rc::new(go);
    let pressed = go.clone();
    let done = button("").child(label).disabled_if(move || !ready()).press(move || pressed());
    let done = if primary { done.class("primary") } else { done };
    let enter = move |event| {
        if is_enter(&event) {
            event.prevent_default();
            go();
        }
    };
    let form = el("div").flag(LOCAL).attr(ENTER, "done").class("form");
    form.child(fields.class("fields")).child(done).on("keydown", enter)
}

/// What was typed into a field before a reload, and not recorded.
pub(super) fn kept<Q: Quantity>(key: &str) -> Option<Typed<Q>> {
    preference(key).map(Typed::new)
}

/// Keeps what is typed until it is recorded.
fn keep<Q: Quantity + Send + Sync + 'static>(key: String, typed: RwSignal<Typed<Q>>) -> impl Fn(String) + 'static {
    move |text| {
        set_preference(&key, &text);
        typed.set(Typed::new(text));
    }
}

/// A reading.
fn reading(bench: &PhBench, id: &str, vessel: In, primary: bool) -> El {
    let (desk, instrument, way) = (bench.desk, bench.instrument, bench.way);
    let key = desk.typed_key(&format!("{id}-reading"));
    let typed = RwSignal::new(kept(&key).unwrap_or_default());
    let shown = move || typed.with(|typed| FieldText::of(typed, desk.sign));
    let field = quantity_field(desk, &format!("{id}-reading"), bench::READING, "", shown, keep(key.clone(), typed));
    let of_meter = move || instrument.get() == Instrument::Meter;
    let go = move |unchanged: bool| {
        let Some(ph) = typed.with_untracked(Typed::value) else { return };
        let Some((dilution, taken)) = SAMPLING_METHODS.get(way.get_untracked()).copied() else { return };
        let steady = untrack(of_meter).then_some(unchanged);
        forget_preference(&key);
        let instrument = instrument.get_untracked();
        note(desk, PhEvent::Read { vessel: vessel(), ph, instrument, dilution, taken, steady });
    };
    let go = Rc::new(go);
    let moving = go.clone();
    let ready = move || typed.with(|typed| typed.value().is_some());
    let fields = el("div").child(bench.reading_fields(id)).child(field.class("field wanted"));
    let label = move || if of_meter() { words::meter::STEADY } else { bench::NOTE_READING }.to_owned();
    let still = button(words::meter::MOVING)
        .class("large")
        .disabled_if(move || !ready())
        .hidden_if(move || !of_meter())
        .press(move || moving(false));
    form_of(fields, el("span").text_of(label), primary, ready, move || go(true)).child(still)
}

/// A mass that was weighed, and what it makes of it.
fn weighed(
    bench: &PhBench,
    id: &str,
    (label, done): (&str, &str),
    proposed: Option<Mass>,
    beside: Option<El>,
    event: Rc<dyn Fn(Mass) -> PhEvent>,
) -> El {
    let desk = bench.desk;
    let key = desk.typed_key(&format!("{id}-amount"));
    let typed = RwSignal::new(kept(&key).or(proposed.map(Typed::of)).unwrap_or_default());
    let shown = move || typed.with(|typed| FieldText::of(typed, desk.sign));
    let field = quantity_field(desk, &format!("{id}-amount"), label, "g", shown, keep(key.clone(), typed));
    let value = |typed: &Typed<Mass>| typed.value().filter(|mass| *mass > Mass::ZERO);
    let go = move || {
        if let Some(mass) = typed.with_untracked(value) {
            forget_preference(&key);
            note(desk, event(mass));
        }
    };
    form(
        el("div").child(field.class("field wanted")).child(beside),
        done,
        proposed.is_some(),
        move || typed.with(value).is_some(),
        go,
    )
}

/// A dose.
fn dose_form(bench: &PhBench, id: &str, vessel: In, tools: &Tools, strength: Percent, proposed: Option<Mass>) -> El {
    let (titrant, step) = (tools.titrant.clone(), tools.step);
    let done = if proposed.is_some() { bench::DONE } else { bench::NOTE_DOSE };
    let desk = bench.desk;
    let (key, first) = (desk.typed_key(&format!("{id}-lot.{}", titrant.as_str())), {
        let before = untrack(|| bench.setting()).and_then(|setting| setting.log.last_lot(&titrant).map(str::to_owned));
        before.unwrap_or_else(|| desk.now(|open| lot_at_hand(open, &titrant)))
    });
    let lot = RwSignal::new(preference(&key).unwrap_or(first));
    let field = lot_field(desk, &format!("{id}-lot"), &titrant, lot, key.clone());
    let event = move |mass| {
        forget_preference(&key);
        let lot = lot.with_untracked(|lot| lot.trim().to_owned());
        PhEvent::Dose { vessel: vessel(), titrant: titrant.clone(), strength, mass, step, lot }
    };
    weighed(bench, id, (bench::I_ADDED, done), proposed, Some(field), Rc::new(event))
}

/// The lot that a dose is made from, with those of the shelf to choose from.
fn lot_field(desk: Desk, element: &str, titrant: &IngredientId, lot: RwSignal<String>, key: String) -> El {
    let offered = desk.now(|open| lots_of(open, titrant));
    let list = format!("{element}-offered");
    let input = text_input(desk, element)
        .attr("maxlength", "200")
        .attr("list", &list)
        .flag(LOCAL)
        .value_of(move || lot.get())
        .on("input", move |event| {
            let text = typed(&event);
            set_preference(&key, &text);
            lot.set(text);
        });
    let option = |text: &String| el("option").attr("value", text);
    el("div")
        .class("field")
        .child(el("label").attr("for", element).text(bench::DOSE_LOT))
        .child(input)
        .child(el("datalist").id(&list).child(offered.iter().map(option).collect::<View>()))
}

/// What can be noted without being asked for.
pub(super) fn other_forms(bench: &PhBench) -> View {
    let at = RwSignal::new(Vessel::Batch);
    let has_side = untrack(|| bench.setting()).is_some_and(|setting| setting.log.has_side());
    let vessels: &'static [Vessel] = if has_side { &[Vessel::Batch, Vessel::Side] } else { &[Vessel::Batch] };
    let names = vessels.iter().map(|vessel| dose::vessel(*vessel).to_owned());
    let place = move || vessels.iter().position(|vessel| *vessel == at.get()).unwrap_or(0);
    let pick = pick_field("else-in", bench::IN_WHAT, names, place, move |n| {
        at.set(vessels.get(n).copied().unwrap_or(Vessel::Batch));
    });
    let vessel: In = Rc::new(move || at.get_untracked());
    let tools = untrack(|| bench.tools());
    let dose = tools.map(|tools| dose_form(bench, "else", vessel.clone(), &tools, tools.strength, None));
    let what = untrack(|| bench.tools())
        .map(|tools| el("p").text(&dose::substance(tools.strength, &bench.name(&tools.titrant), bench.desk.sign)));
    View::from_iter([View::from(pick), reading(bench, "else", vessel, false).into(), what.into(), dose.into()])
}
