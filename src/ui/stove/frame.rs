//! What surrounds a task: where one is, how far it has come, the times that run, the way back and the next action.

use super::{Stove, alarm, more, task_view};
use crate::ui::browser;
use crate::ui::desk::Saved;
use crate::ui::dom::{El, View, dynamic, el};
use crate::ui::field::button;
use hundred_parts::batch::Timer;
use hundred_parts::desk::Screen;
use hundred_parts::quantity::Timestamp;
use hundred_parts::words::stove as words;
use leptos::prelude::*;

/// A batch that is being made.
pub(super) fn frame(stove: Stove) -> View {
    alarm::follow(stove);
    let left_hand = RwSignal::new(browser::preference("left-hand").is_some());
    let shown = move || (stove.task(), stove.panel.get());
    let body = dynamic(shown, move |(task, panel)| match (panel, task) {
        (Some(panel), _) => more::panel(stove, *panel),
        (None, Some(at)) => body(stove, *at),
        (None, None) => View::nothing(),
    });
    View::from(
        el("div")
            .class("stove-frame")
            .class_if("left-hand", move || left_hand.get())
            .child(head(stove, left_hand))
            .child(unsaved(stove))
            .child(progress(stove))
            .child(alarm::flash(stove))
            .child(body),
    )
}

fn body(stove: Stove, at: usize) -> View {
    let view = task_view(stove, at);
    let back = move || {
        stove.looked_at.set(at.checked_sub(1));
        browser::focus_soon(super::TASK.to_owned());
    };
    alarm::speak(stove, at);
    View::from_iter([
        el("div").class("stove-task").child(view.inside),
        el("footer")
            .class("stove-go")
            .child(button(words::BACK).class("back").disabled_if(move || at == 0).press(back))
            .child(view.action),
    ])
}

/// That something is not saved: the header that says so is not seen here.
fn unsaved(stove: Stove) -> View {
    dynamic(
        move || stove.desk.saved.get(),
        |saved| match saved {
            Saved::No(why) => el("p").class("saved trouble").attr("role", "alert").text(why).into(),
            Saved::Yes | Saved::Soon => View::nothing(),
        },
    )
}

fn head(stove: Stove, left_hand: RwSignal<bool>) -> El {
    let place = move || {
        let task = stove.task()?;
        stove.with(|made| made.at.making.tasks.get(task).map(|task| words::place(&made.at, *task))).flatten()
    };
    let where_now = el("p").class("where").child(dynamic(place, |place| match place {
        Some((first, then)) => {
            View::from_iter([View::from(el("strong").text(first)), View::from(" "), View::from(then.as_str())])
        }
        None => View::nothing(),
    }));
    let running = move || stove.with(|made| running(&made.at.making.timers, stove)).unwrap_or_default();
    let timers = el("div")
        .class("timers")
        .child(dynamic(running, move |timers| timers.iter().map(|timer| one_timer(stove, timer)).collect()));
    el("header")
        .class("stove-head")
        .child(
            el("a")
                .class("close")
                .attr("href", Screen::Batch.address())
                .attr("aria-label", words::LEAVE)
                .text("\u{d7}"),
        )
        .child(where_now)
        .child(timers)
        .child(more::menu_of(stove, left_hand))
}

/// The times of steps that are not done.
fn running(timers: &[Timer], stove: Stove) -> Vec<Timer> {
    let done = |timer: &Timer| stove.of(|made| made.at.making.steps_done.iter().any(|(step, _)| *step == timer.step));
    timers.iter().filter(|timer| done(timer) != Some(true)).cloned().collect()
}

fn one_timer(stove: Stove, timer: &Timer) -> El {
    let what = stove.of(|made| words::timer(&made.at, timer.step, stove.desk.sign)).unwrap_or_default();
    let (left, ended) = (timer.clone(), timer.clone());
    let is_over = move |now: Timestamp| ended.left_millis(now) == 0;
    el("p")
        .class("timer")
        .attr("role", "timer")
        .class_if("over", move || is_over(stove.now.get()))
        .child(el("strong").text_of(move || words::clock(left.left_millis(stove.now.get()))))
        .text(" ")
        .child(el("span").text(&what))
}

fn progress(stove: Stove) -> El {
    let parts = move || {
        let task = stove.task();
        stove.with(|made| (made.at.making.done.clone(), task)).unwrap_or_default()
    };
    let spoken = move || {
        let task = stove.task()?;
        stove.with(|made| words::progress(&made.at.making, task))
    };
    el("div").class("stove-progress").attr("role", "img").attr_of("aria-label", spoken).child(dynamic(
        parts,
        |(done, task)| {
            let part = |(place, done): (usize, &bool)| {
                let state = if Some(place) == *task {
                    "now"
                } else if *done {
                    "done"
                } else {
                    "open"
                };
                el("span").attr("data-state", state)
            };
            done.iter().enumerate().map(part).collect()
        },
    ))
}
