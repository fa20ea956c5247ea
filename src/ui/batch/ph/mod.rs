//! The pH of the batch: what to do next, one thing at a time, and what was done so far.

mod log;
mod picture;
mod step;
mod tools;

use crate::ui::browser::{self, focus};
use crate::ui::desk::{Desk, FollowUp};
use crate::ui::dom::{El, View, dynamic, el, when};
use crate::ui::field::{button, quantity_field};
use hundred_parts::batch::{PhEvent, next_step};
use hundred_parts::desk::Action;
use hundred_parts::quantity::{Mass, Ph};
use hundred_parts::words::{self, FieldText, bench, page};
use leptos::prelude::*;
use tools::PhBench;

/// Where the focus goes after each step.
const STEP: &str = "ph-step";

/// The card.
pub(super) fn card(desk: Desk) -> El {
    let begun = move || desk.with(|open| open.state().ph_log.is_some());
    el("section")
        .class("card batch-ph no-print")
        .attr("aria-labelledby", "batch-ph-title")
        .child(el("h2").id("batch-ph-title").text(bench::PH_OF_BATCH))
        .child(dynamic(begun, move |begun| if *begun { running(desk) } else { begin(desk).into() }))
}

/// Notes what happened and goes on to what is next.
fn note(desk: Desk, event: PhEvent) {
    desk.act(Action::NotePh(browser::now(), event));
    focus(STEP.to_owned());
}

/// The mass of the weigh sheet and the target, with which a log begins.
fn start_of(desk: Desk) -> (Option<Mass>, Option<Ph>) {
    let mass = desk.masses(|masses| masses.weigh.as_ref().ok().map(|sheet| sheet.batch.mass));
    (mass.filter(|mass| *mass > Mass::ZERO), desk.with(|open| open.state().formula.about.target_ph.value()))
}

fn begin(desk: Desk) -> El {
    let start = move || match start_of(desk) {
        (Some(mass), Some(target)) => {
            desk.act(Action::BeginPh(mass, target));
            focus(STEP.to_owned());
        }
        _ => desk.end_undo_group(),
    };
    let ready = move || matches!(start_of(desk), (Some(_), Some(_)));
    let said = move || match start_of(desk) {
        (None, _) => bench::NEEDS_MASS.to_owned(),
        (_, None) => bench::NEEDS_TARGET.to_owned(),
        (Some(mass), Some(target)) => {
            let unit = desk.with(|open| open.state().plan.unit);
            bench::begin_with(&words::mass(mass, unit, desk.sign), target, desk.sign)
        }
    };
    let target = move || desk.with(|open| FieldText::of(&open.state().formula.about.target_ph, desk.sign));
    let set = move |text| {
        desk.act(Action::TargetPh(text));
    };
    el("div")
        .class("begin")
        .child(el("p").text(&words::portions::begin_intro(desk.sign)))
        .child(el("p").class("large").attr("role", "status").text_of(said))
        .child(el("div").class("fields").child(quantity_field(desk, "batch-target", page::TARGET_PH, "", target, set)))
        .child(button(bench::BEGIN).class("primary").disabled_if(move || !ready()).press(start))
}

fn running(desk: Desk) -> View {
    let Some(bench) = PhBench::new(desk) else { return View::nothing() };
    let known = bench.clone();
    // Only what bears on the next step: typing in the plan, or on a line's remark, must not reckon it anew.
    let of = move || desk.with(|open| (open.state().ph_log.clone(), open.state().formula.clone(), known.tools()));
    let with = bench.clone();
    let shown = dynamic(of, move |(log, formula, tools)| {
        let Some(log) = log else { return View::nothing() };
        let Some(tools) = tools else { return step::missing(bench::STRENGTH_MISSING, bench::STRENGTH_WHY).into() };
        match desk.now(|open| next_step(formula, open.shelf(), log, tools)) {
            Some(found) => {
                let drawn =
                    found.picture.as_ref().map(|found| picture::picture(desk, found, &with.name(&tools.titrant)));
                let next = step::step(&with, log, tools, &found);
                el("div").class("step-and-picture").child(next).child(drawn).into()
            }
            None => step::missing(bench::GONE, "").into(),
        }
    });
    View::from_iter([shown, bench.fields().into(), log::log(&bench).into(), otherwise(&bench).into()])
}

/// What else can be noted: a reading or a dose that was not asked for, or a new log.
fn otherwise(bench: &PhBench) -> El {
    let desk = bench.desk;
    let open = RwSignal::new(false);
    let anew = move || {
        if let (Some(mass), Some(target)) = start_of(desk) {
            desk.act(Action::BeginPh(mass, target));
            desk.say(bench::BEGUN_ANEW, Some(FollowUp::Undo));
            focus(STEP.to_owned());
        }
    };
    let kept = bench.clone();
    let inside = move || {
        let forms = step::other_forms(&kept);
        el("div").class("inside").child(forms).child(button(bench::BEGIN_ANEW).press(anew)).into()
    };
    crate::ui::field::folded(bench::ELSE)
        .class("otherwise")
        .child(when(move || open.get(), inside))
        .on("toggle", move |event| open.set(crate::ui::dom::opened(&event)))
}
