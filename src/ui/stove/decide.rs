//! The end of a batch: what came out of it, how it looks and smells, and what becomes of it.

use super::checks::Checks;
use super::draft::{Draft, forget_all};
use super::{Stove, TaskView, headline};
use crate::ui::browser;
use crate::ui::dom::{El, View, dynamic, el};
use crate::ui::field::button;
use hundred_parts::batch::{BatchStage, CHECKS_TO_DECIDE, Decision, Event, reconcile};
use hundred_parts::desk::Screen;
use hundred_parts::words::stove as words;
use leptos::prelude::*;

/// What is decided.
pub(super) fn decide(stove: Stove) -> TaskView {
    let maker = stove.of(|made| made.at.making.maker.clone()).unwrap_or_default();
    let by = Draft::beginning(stove, "by", &maker);
    let checks = Checks::new(stove, &CHECKS_TO_DECIDE);
    let fields = checks.fields().into_iter().collect::<View>();
    let decide = move |decision: Decision| {
        checks.record();
        let by = by.now().trim().to_owned();
        if stove.note(Event::Decided { decision, by, remark: String::new() }) {
            browser::focus_soon(super::TASK.to_owned());
        }
    };
    let others = [(words::WAIT, Decision::Waiting), (words::REJECT, Decision::Rejected)];
    let to_others = decide.clone();
    let other = |(text, decision): (&str, Decision)| {
        let decide = to_others.clone();
        button(text).press(move || decide(decision))
    };
    let inside = el("div")
        .class("deciding")
        .child(headline(words::WHAT_CAME_OUT))
        .child(came_out(stove))
        .child(el("div").class("fields").child(fields).child(by.words("stove-by", words::DECIDED_BY, || ())))
        .child(el("p").class("small").text(words::DECIDE_WHY))
        .child(el("p").class("actions").child(others.into_iter().map(other).collect::<View>()));
    let release = button(words::RELEASE).class("primary").press(move || decide(Decision::Released));
    TaskView { inside: inside.into(), action: release.into() }
}

/// Yield, and what is not accounted for.
fn came_out(stove: Stove) -> View {
    let found = move || stove.with(|made| reconcile(&made.at.flows(&made.record)));
    dynamic(found, move |found| {
        let Some(found) = found else { return View::nothing() };
        let (share, rest) = words::yielded(found, stove.desk.sign);
        View::from_iter([
            el("p").class("figure").child(el("strong").text(&share)).child(el("span").text(words::YIELD)),
            el("p").class("small").text(&rest),
        ])
    })
}

/// A batch that is over.
pub(super) fn over(stove: Stove) -> View {
    forget_all(stove);
    let ended = stove.of(|made| {
        let text = match made.at.making.stage {
            BatchStage::Decided(decision) => words::decision(decision),
            BatchStage::Abandoned | BatchStage::Making => words::GIVEN_UP,
        };
        words::ended(&made.at.making.code, text)
    });
    let another = RwSignal::new(false);
    dynamic(
        move || another.get(),
        move |another_one| {
            if *another_one {
                return super::begin::begin(stove);
            }
            ending(stove, &ended.clone().unwrap_or_default(), another).into()
        },
    )
}

fn ending(stove: Stove, ended: &str, another: RwSignal<bool>) -> El {
    let inside = el("div").class("stove-task").child(headline(ended)).child(came_out(stove));
    let leave = el("a").class("primary").attr("href", Screen::Batch.address()).text(words::TO_BATCH);
    let again = button(words::ANOTHER).class("back").press(move || another.set(true));
    el("div").class("stove-frame").child(inside).child(el("footer").class("stove-go").child(again).child(leave))
}
