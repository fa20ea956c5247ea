//! A step that is not weighing: what to do, why, and what is measured or waited for on the way.

use super::checks::Checks;
use super::{Stove, TaskView, cool, headline, heat, pack};
use crate::ui::batch::ph_of_batch;
use crate::ui::browser;
use crate::ui::dom::{El, View, dynamic, el};
use crate::ui::field::button;
use hundred_parts::batch::{Event, FrozenStep, Pot};
use hundred_parts::formula::StepKind;
use hundred_parts::words::stove as words;
use leptos::prelude::*;

/// A step.
pub(super) fn step(stove: Stove, at: usize, place: usize) -> TaskView {
    let Some(step) = stove.of(|made| made.at.step(place).cloned()).flatten() else {
        return TaskView { inside: View::nothing(), action: View::nothing() };
    };
    let measured = match step.kind {
        StepKind::Heat => heat::readings(stove, &[Pot::Water, Pot::Oil], step.temperature).into(),
        StepKind::Hold | StepKind::Blend => timer(stove, place, &step),
        StepKind::Join => gap(stove),
        StepKind::Cool => cool::cooling(stove, step.temperature),
        StepKind::Add => lines(stove, &step).into(),
        StepKind::SetPh => ph_of_batch(stove.desk),
        StepKind::Pack => pack::packs(stove),
        _ => View::nothing(),
    };
    let checks = Checks::new(stove, stove.of(|made| made.at.checks(place)).unwrap_or_default());
    let inside = el("div")
        .class("step")
        .attr("data-kind", step.kind.key())
        .child(said(&step))
        .child(measured)
        .child(checks.shown());
    TaskView { inside: inside.into(), action: action(stove, at, place, step, checks).into() }
}

fn said(step: &FrozenStep) -> View {
    let stirring = (!step.stirring.is_empty()).then(|| el("p").class("stirring").text(&step.stirring));
    View::from_iter([headline(&step.text).into(), View::from(stirring), el("p").class("why").text(&step.why).into()])
}

/// The button that says that the step is done, and what comes next.
fn action(stove: Stove, at: usize, place: usize, step: FrozenStep, checks: Checks) -> El {
    let sign = stove.desk.sign;
    let (kind, temperature) = (step.kind, step.temperature);
    let done = move || {
        let ph_is_set = stove.with(|made| made.at.ph_is_set(&made.record)).unwrap_or_default();
        words::done(kind, temperature, ph_is_set, sign)
    };
    let then = stove.of(|made| words::next(&made.at, at, sign)).unwrap_or_default();
    let press = move || {
        checks.record();
        if let Some((step, minutes)) = stove.of(|made| made.at.time_after(place)).flatten() {
            stove.note(Event::TimerStarted { step, minutes });
        }
        stove.step_done(place);
    };
    button("").class("primary").child(el("span").text_of(done)).child(el("small").text(&then)).press(press)
}

/// The time of a step, large; it starts with a press where it did not start by itself.
fn timer(stove: Stove, place: usize, step: &FrozenStep) -> View {
    let Some(minutes) = step.minutes else { return View::nothing() };
    let start = move || {
        stove.note(Event::TimerStarted { step: place, minutes });
        browser::ask_for_notices();
    };
    let timer = move || stove.with(|made| made.at.making.timer(place).cloned()).flatten();
    dynamic(timer, move |timer| match timer {
        None => View::from_iter([
            el("p").class("figure").child(el("strong").text(&words::clock(minutes.millis()))).into(),
            View::from(button(words::START_TIMER).class("large").press(start)),
        ]),
        Some(timer) => {
            let (left, over) = (timer.clone(), timer.clone());
            el("p")
                .class("figure")
                .class_if("over", move || over.left_millis(stove.now.get()) == 0)
                .child(el("strong").text_of(move || words::clock(left.left_millis(stove.now.get()))))
                .into()
        }
    })
}

/// How far apart both pots are when they are joined.
fn gap(stove: Stove) -> View {
    let gap = move || stove.with(|made| made.at.gap()).flatten();
    let said = dynamic(gap, move |gap| {
        let Some(gap) = gap else { return View::nothing() };
        let verdict = if gap.fits() { "within" } else { "off" };
        el("p").class("large judged").attr("data-verdict", verdict).text(&words::gap(*gap, stove.desk.sign)).into()
    });
    View::from_iter([said, heat::readings(stove, &[Pot::Water, Pot::Oil], None).into()])
}

/// What goes in, as it was weighed.
fn lines(stove: Stove, step: &FrozenStep) -> El {
    let row = |line: &usize| {
        let text = stove.of(|made| {
            let (name, weighed) = (made.at.from.lines.get(*line)?, made.at.making.lines.get(*line)?);
            let mass = weighed.weighed.as_ref().map_or(weighed.target, |weighed| weighed.mass);
            Some((name.name.clone(), words::grams(mass, stove.desk.sign)))
        });
        let (name, mass) = text.flatten().unwrap_or_default();
        el("li").child(el("span").text(&name)).child(el("strong").text(&mass))
    };
    el("ul").class("goes-in").child(step.lines.iter().map(row).collect::<View>())
}
