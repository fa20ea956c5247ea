//! The method, over the page: the steps in order. They are read until the maker takes them over, and then each is a field
//! that looks like the text it holds.

use super::method_step::{self, StepRow, adder};
use crate::ui::browser::focus;
use crate::ui::desk::{Desk, FollowUp};
use crate::ui::dom::{El, View, dynamic, each, el};
use crate::ui::field::button;
use hundred_parts::desk::{Action, MethodChange};
use hundred_parts::formula::{LineId, NewStep, before_packing};
use hundred_parts::sheet::asks_for_lye;
use hundred_parts::words::{choice_name, method as words};
use leptos::prelude::RwSignal;

/// The id of the first thing in it, for the focus.
const HEAD: &str = "method-head";

/// The steps.
pub(in crate::ui) fn method(desk: Desk) -> View {
    let is_own = move || desk.with(|open| !open.state().formula.method().is_empty());
    // The steps of another formula are none of this one.
    dynamic(
        move || (desk.with(|open| open.id().clone()), is_own()),
        move |(_, own)| if *own { own_method(desk) } else { first_method(desk) },
    )
}

/// The way to it from the batch.
pub(super) fn way(desk: Desk) -> El {
    button(words::TITLE).press(move || desk.show(crate::ui::desk::Overlay::Method))
}

/// The steps on the printed sheet.
pub(super) fn printed(desk: Desk) -> View {
    let lines = move || -> Vec<String> {
        let soap = is_soap(desk);
        desk.with(|open| {
            let steps = words::steps(&open.state().formula, open.shelf(), soap);
            steps.iter().map(|step| words::line(step, desk.sign)).collect()
        })
    };
    dynamic(lines, |lines| {
        let steps = lines.iter().map(|line| el("li").text(line)).collect::<View>();
        let list = el("ol").child(steps);
        el("section").class("print-only printed-method").child(el("h3").text(words::TITLE)).child(list).into()
    })
}

/// True for a soap: its lye is weighed, too.
fn is_soap(desk: Desk) -> bool {
    desk.with(|open| asks_for_lye(&open.state().formula, &open.state().lye))
}

/// A step as it is read: what it is called, what it says, the lines that it takes, its figures, and why.
type Read = (&'static str, String, String, String, String);

fn first_method(desk: Desk) -> View {
    let steps = move || -> Vec<Read> {
        let soap = is_soap(desk);
        desk.with(|open| {
            let (formula, shelf) = (&open.state().formula, open.shelf());
            let read = |step: NewStep| {
                let names = words::names_of(&step.lines, formula, shelf);
                let figures = words::figures(&step, desk.sign);
                (words::kind(step.kind), step.text, names, figures, step.why)
            };
            words::steps(formula, shelf, soap).into_iter().map(read).collect()
        })
    };
    dynamic(steps, move |steps| {
        if steps.is_empty() {
            return el("p").class("empty").text(words::NONE).into();
        }
        let take = move || {
            let soap = is_soap(desk);
            let steps = desk.now(|open| words::to_take_over(&open.state().formula, open.shelf(), soap));
            desk.act(Action::Method(MethodChange::Take(steps)));
            focus(HEAD.to_owned());
        };
        let head = el("div")
            .class("method-head")
            .child(el("p").class("small").text(words::FIRST))
            .child(button(words::CHANGE).id(HEAD).press(take));
        View::from_iter([head, el("ol").class("method").child(steps.iter().map(read_step).collect::<View>())])
    })
}

fn read_step((kind, text, names, figures, why): &Read) -> El {
    let small = |text: &str| (!text.is_empty()).then(|| el("p").class("small").text(text));
    let names = if names.is_empty() { String::new() } else { words::takes(names) };
    el("li")
        .class("step")
        .child(el("p").class("step-kind").child(el("strong").text(kind)).child(el("span").class("heat").text(figures)))
        .child(el("p").text(text))
        .child(small(&names))
        .child(small(why))
}

fn own_method(desk: Desk) -> View {
    let hand = RwSignal::new(None::<u32>);
    let back = move || {
        desk.act(Action::Method(MethodChange::Take(Vec::new())));
        desk.say(words::BACK_DONE, Some(FollowUp::Undo));
        focus(HEAD.to_owned());
    };
    let head = el("div")
        .class("method-head")
        .child(el("p").class("small").text(words::OWN))
        .child(button(words::BACK).id(HEAD).press(back));
    let keys =
        move || desk.with(|open| open.state().formula.method().iter().map(|step| step.id.number()).collect::<Vec<_>>());
    let steps = el("ol")
        .class("method own-method")
        .child(each(keys, move |key| method_step::step(desk, StepRow { key, hand })));
    let end = move || desk.now(|open| open.state().formula.method().len());
    let add = el("div").class("method-head").child(adder(desk, "method-add", end));
    View::from_iter([head.into(), left_out(desk), steps.into(), add.into()])
}

/// The lines that no step weighs, what becomes of them, and a step for them.
fn left_out(desk: Desk) -> View {
    let lines = move || -> Vec<(LineId, String)> {
        desk.with(|open| {
            let formula = &open.state().formula;
            let named = formula.unplanned().into_iter().filter_map(|id| Some((id, formula.line(id)?)));
            let named = named.filter(|(_, line)| !line.is_blank());
            named.map(|(id, line)| (id, choice_name(&line.choice, open.shelf()))).collect()
        })
    };
    let shown = move |lines: &Vec<(LineId, String)>| {
        if lines.is_empty() {
            return View::nothing();
        }
        let names: Vec<&str> = lines.iter().map(|(_, name)| name.as_str()).collect();
        let ids: Vec<LineId> = lines.iter().map(|(id, _)| *id).collect();
        let add = move || {
            let at = desk.now(|open| before_packing(open.state().formula.method().iter().map(|step| &step.step)));
            let step = words::not_planned(ids.clone());
            desk.act(Action::Method(MethodChange::Add(Box::new(step), at)));
            method_step::focus_at(desk, at);
        };
        let said = format!("{}{}.", words::NOT_WEIGHED, names.join(", "));
        el("div").class("caution").child(el("p").text(&said)).child(button(words::WEIGH_THEM).press(add)).into()
    };
    el("div").attr("aria-live", "polite").child(dynamic(lines, shown)).into()
}
