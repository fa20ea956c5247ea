//! The pH of the batch: what to do next, one thing at a time, and what was done so far.

mod log;
mod meter;
mod picture;
mod step;
mod tools;

use crate::ui::browser;
use crate::ui::desk::{Desk, FollowUp};
use crate::ui::dom::{El, View, dynamic, el, follow, when};
use crate::ui::field::{button, quantity_field};
use hundred_parts::batch::{Event, PhEvent, PhSetting, next_step};
use hundred_parts::desk::{Action, BatchState, DocId, OpenDocument};
use hundred_parts::quantity::{Mass, Ph, Timestamp};
use hundred_parts::words::{self, FieldText, batch_record, bench, page};
use leptos::prelude::*;
use tools::PhBench;
use wasm_bindgen_futures::spawn_local;

/// Where the focus goes after each step.
const STEP: &str = "ph-step";

/// What the card shows.
#[derive(Clone, PartialEq)]
enum Shown {
    Begin,
    OldLog,
    Opening(DocId),
    Running(DocId),
    Unreadable(String),
}

/// The card.
pub(super) fn card(desk: Desk) -> El {
    el("section")
        .class("card batch-ph no-print")
        .attr("aria-labelledby", "batch-ph-title")
        .child(el("h2").id("batch-ph-title").text(bench::PH_OF_BATCH))
        .child(inside(desk))
}

/// What is to be done about the pH of the batch, and what was done.
pub(in crate::ui) fn inside(desk: Desk) -> View {
    let batch = follow(move || desk.with_batch(OpenDocument::batch));
    let shown = move || match batch.get() {
        BatchState::OldLog => Shown::OldLog,
        BatchState::Closed(id) => Shown::Opening(id),
        BatchState::Unreadable(why) => Shown::Unreadable(why),
        BatchState::Open(record) if record.ph().is_some() => {
            desk.now(|open| open.open_record().map(|record| record.id().clone())).map_or(Shown::Begin, Shown::Running)
        }
        BatchState::Open(_) | BatchState::None => Shown::Begin,
    };
    dynamic(shown, move |shown| match shown {
        Shown::Begin => View::from_iter([begin(desk), earlier(desk)]),
        Shown::OldLog => {
            spawn_local(desk.open_old_log());
            View::nothing()
        }
        Shown::Opening(id) => opening(desk, id),
        Shown::Running(_) => running(desk, batch),
        Shown::Unreadable(why) => step::missing(batch_record::RECORD_UNREADABLE, why).into(),
    })
}

/// Opens the record of the batch; where it is not there, another one can be begun.
fn opening(desk: Desk, id: &DocId) -> View {
    let missing = RwSignal::new(false);
    let id = id.clone();
    spawn_local(async move {
        if !desk.open_batch(id).await {
            missing.try_set(true);
        }
    });
    let look = move || missing.get();
    View::from_iter([dynamic(look, move |missing| match missing {
        false => el("p").attr("role", "status").text(batch_record::OPENING_RECORD).into(),
        true => View::from_iter([
            step::missing(batch_record::RECORD_MISSING, batch_record::RECORD_MISSING_WHY),
            begin(desk),
            earlier(desk),
        ]),
    })])
}

/// Notes what happened and goes on to what is next.
fn note(desk: Desk, event: PhEvent) {
    if desk.note(Event::Ph(event)) {
        browser::focus_soon(STEP.to_owned());
    }
}

/// The mass of the weigh sheet and the target, with which a log begins.
fn start_of(desk: Desk) -> (Option<Mass>, Option<Ph>) {
    let mass = desk.masses(|masses| masses.weigh.as_ref().ok().map(|sheet| sheet.batch.mass));
    (mass.filter(|mass| *mass > Mass::ZERO), desk.with(|open| open.state().formula.about.target_ph.value()))
}

fn begin(desk: Desk) -> El {
    let start = move || match start_of(desk) {
        (Some(mass), Some(target)) => {
            if desk.begin_batch(mass, target) {
                browser::focus_soon(STEP.to_owned());
            }
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

fn running(desk: Desk, batch: RwSignal<BatchState>) -> View {
    let Some(bench) = PhBench::new(desk, batch) else { return View::nothing() };
    let known = bench.clone();
    // Only what bears on the next step: typing in the plan, or on a line's remark, must not reckon it anew.
    let of = move || (known.setting(), desk.with(|open| open.state().formula.clone()), known.tools());
    let with = bench.clone();
    let shown = dynamic(of, move |(setting, formula, tools)| {
        let Some(PhSetting { log, .. }) = setting else { return View::nothing() };
        let Some(tools) = tools else { return step::missing(bench::STRENGTH_MISSING, bench::STRENGTH_WHY).into() };
        match desk.now(|open| next_step(formula, open.shelf(), log, tools, browser::now())) {
            Some(found) => {
                let drawn =
                    found.picture.as_ref().map(|found| picture::picture(desk, found, &with.name(&tools.titrant)));
                let next = step::step(&with, log, tools, &found);
                let step = el("div").class("step-and-picture").child(next).child(drawn);
                View::from_iter([step.into(), meter::part(&with, &found)])
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
        let before = desk.now(|open| open.open_record().map(|record| record.id().clone()));
        if let (Some(mass), Some(target)) = start_of(desk)
            && desk.begin_batch(mass, target)
        {
            desk.say(batch_record::BEGUN_ANEW, before.map(FollowUp::GoOnWith));
            browser::focus_soon(STEP.to_owned());
        }
    };
    let kept = bench.clone();
    let inside = move || {
        let forms = step::other_forms(&kept);
        el("div")
            .class("inside")
            .child(forms)
            .child(button(batch_record::BEGIN_ANEW).press(anew))
            .child(earlier(desk))
            .into()
    };
    crate::ui::field::folded(bench::ELSE)
        .class("otherwise")
        .child(when(move || open.get(), inside))
        .on("toggle", move |event| open.set(crate::ui::dom::opened(&event)))
}

/// The logs before this one, to go on with.
fn earlier(desk: Desk) -> El {
    let row = move |(id, begun): &(DocId, Timestamp)| {
        let id = id.clone();
        el("li")
            .child(el("span").text(&browser::local_time(*begun)))
            .child(button(batch_record::GO_ON_WITH).press(move || desk.go_on_with(&id)))
    };
    let list = dynamic(
        move || desk.with_batch(OpenDocument::earlier_batches),
        move |batches| {
            if batches.is_empty() {
                return View::nothing();
            }
            let rows = batches.iter().map(row).collect::<View>();
            View::from_iter([el("h3").text(batch_record::EARLIER), el("ul").class("list ph-log").child(rows)])
        },
    );
    el("section").class("log").child(list)
}
