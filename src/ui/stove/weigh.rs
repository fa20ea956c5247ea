//! One line at a time: what is to go onto the scale, what the scale shows, and what to do where that is off.

use super::draft::Draft;
use super::{Stove, TaskView, headline, scale};
use crate::ui::browser;
use crate::ui::dom::{El, View, dynamic, effect, el, svg};
use crate::ui::field::button;
use hundred_parts::batch::{
    Event, MassSource, Rescale, Task, WeighIn, WeighRemedy, WeighVerdict, is_past, weigh_remedies,
};
use hundred_parts::quantity::{Day, Mass, Quantity};
use hundred_parts::report::{lot_keeps_until, lots_to_choose};
use hundred_parts::words::stove as words;
use leptos::prelude::*;

/// The field of the day up to which a lot is good.
const EXPIRY: &str = "stove-expiry";

/// The line that is weighed, and the texts of its fields.
#[derive(Clone, Copy)]
struct Weighing {
    stove: Stove,
    at: usize,
    line: usize,
    actual: Draft,
    lot: Draft,
    /// The day up to which the lot is good.
    expiry: Draft,
    /// True while that is typed by half.
    half_a_day: RwSignal<bool>,
    why: Draft,
    /// What was taken from a scale that sends it.
    taken: RwSignal<Option<Mass>>,
    /// True once something is to be done about a weighing that is off.
    off: RwSignal<bool>,
}

/// A line.
pub(super) fn weigh(stove: Stove, at: usize, line: usize) -> TaskView {
    let known = stove.of(|made| made.at.lot_of(line)).unwrap_or_default();
    let (name, weighed) = stove
        .of(|made| {
            let name = made.at.from.lines.get(line).map(|line| line.name.clone()).unwrap_or_default();
            (name, made.at.making.lines.get(line).is_some_and(|line| line.weighed.is_some()))
        })
        .unwrap_or_default();
    // What was noted of a line stays as it was noted.
    let on_shelf =
        move |lot: &str| stove.desk.now(|open| lot_keeps_until(open, &name, lot)).map_or_else(String::new, Day::text);
    let noted = known.expiry.map(Day::text).unwrap_or_default();
    let expiry = if weighed { noted } else { on_shelf(&known.name) };
    let weighing = Weighing {
        stove,
        at,
        line,
        actual: Draft::new(stove, &format!("line-{line}")),
        lot: Draft::beginning(stove, &format!("lot-{line}"), &known.name),
        expiry: Draft::beginning(stove, &format!("expiry-{line}"), &expiry),
        why: Draft::new(stove, &format!("why-{line}")),
        half_a_day: RwSignal::new(false),
        taken: RwSignal::new(None),
        off: RwSignal::new(false),
    };
    follow_lot(weighing, RwSignal::new(expiry), on_shelf);
    let inside = el("div").child(dynamic(
        move || weighing.off.get(),
        move |off| {
            if *off { remedies(weighing).into() } else { ask(weighing).into() }
        },
    ));
    let action = dynamic(
        move || weighing.off.get(),
        move |off| {
            if *off { View::nothing() } else { next(weighing).into() }
        },
    );
    TaskView { inside: inside.into(), action }
}

/// The day up to which a lot is good comes with the lot that is chosen, as long as nobody types another one.
fn follow_lot(weighing: Weighing, given: RwSignal<String>, on_shelf: impl Fn(&str) -> String + 'static) {
    let first = weighing.lot.now();
    let last = RwSignal::new(first);
    effect(Box::new(move || {
        let lot = weighing.lot.get();
        if last.with_untracked(|last| *last == lot) {
            return;
        }
        last.set(lot.clone());
        let (typed, day) = (weighing.expiry.now(), on_shelf(&lot));
        if typed.is_empty() || given.with_untracked(|given| *given == typed) {
            weighing.expiry.set(day.clone());
            given.set(day);
        }
    }));
}

impl Weighing {
    fn target(self) -> Mass {
        self.stove
            .with(|made| made.at.making.lines.get(self.line).map(|line| line.target))
            .flatten()
            .unwrap_or_default()
    }

    /// How what is typed stands to the target, tracked; nothing while nothing is.
    fn judged(self) -> Option<WeighIn> {
        let actual: Mass = self.actual.value()?;
        self.stove.with(|made| made.at.judge(self.line, actual)).flatten()
    }

    /// How far off the line may be, tracked.
    fn allowed(self) -> Option<Mass> {
        self.stove.with(|made| made.at.allowed(self.line)).flatten()
    }

    fn name(self) -> String {
        self.stove
            .of(|made| made.at.from.lines.get(self.line).map(|line| line.name.clone()))
            .flatten()
            .unwrap_or_default()
    }

    /// Records what went in.
    fn record(self, actual: Mass, source: MassSource, kept: bool) -> bool {
        let (line, lot) = (self.line, self.lot.now().trim().to_owned());
        let expiry = untrack(move || self.expiry.day_typed());
        let noted = self.stove.note(Event::Weighed { line, actual, source, lot, expiry, kept });
        if noted {
            self.actual.clear();
            self.off.set(false);
        }
        noted
    }

    /// What was to go in, on the maker's word, or what was typed if it is within its limits; else what to do about it.
    fn weighed(self) {
        // Half a day is no day, and the field tells nobody what stands in it.
        self.half_a_day.set(browser::is_half_typed(EXPIRY));
        if self.half_a_day.get_untracked() {
            browser::focus(EXPIRY.to_owned());
            return;
        }
        let done = match (self.actual.value_now::<Mass>(), untrack(move || self.judged())) {
            (Some(actual), Some(found)) if found.verdict == WeighVerdict::Within => {
                self.record(actual, scale::source(self.taken, actual), false)
            }
            (Some(_), Some(_)) => {
                self.off.set(true);
                browser::focus(super::TASK.to_owned());
                false
            }
            _ if self.actual.now().trim().is_empty() => {
                self.already_in() || self.record(untrack(move || self.target()), MassSource::Ticked, false)
            }
            // What cannot be read says so below its field.
            _ => {
                browser::focus("stove-weighed".to_owned());
                false
            }
        };
        if done {
            self.stove.go_on();
        }
    }

    /// What was weighed before, and is only looked at again, stays.
    fn already_in(self) -> bool {
        self.stove.of(|made| made.at.making.done.get(self.at).copied().unwrap_or_default()) == Some(true)
    }
}

fn ask(weighing: Weighing) -> El {
    let (stove, sign) = (weighing.stove, weighing.stove.desk.sign);
    let frozen = stove.of(|made| made.at.from.lines.get(weighing.line).cloned()).flatten();
    let (name, inci) = frozen.map(|line| (line.name, line.inci)).unwrap_or_default();
    let before = move || {
        let line = stove.with(|made| made.at.making.lines.get(weighing.line).cloned()).flatten()?;
        line.weighed.map(|weighed| words::before(weighed.mass, line.target, sign))
    };
    let target = move || hundred_parts::words::number(&weighing.target().canonical(), sign);
    let in_all = move || {
        let task = stove.with(|made| made.at.making.tasks.get(weighing.at).map(|task| made.at.making.in_vessel(*task)));
        words::in_vessel(task.flatten().unwrap_or_default(), sign)
    };
    let vessel = el("p").class("vessel").child(dynamic(in_all, |(before, mass, after)| {
        View::from_iter([View::from(before.as_str()), el("strong").text(mass).into(), View::from(after.as_str())])
    }));
    let judged = el("p")
        .class("judged")
        .attr("role", "status")
        .attr_of("data-verdict", move || weighing.judged().map(|found| verdict(found.verdict).to_owned()))
        .text_of(move || weighing.judged().map(|found| words::judged(&found, sign)).unwrap_or_default());
    let text = stove.of(|made| match made.at.making.tasks.get(weighing.at) {
        Some(Task::Weigh { step, .. }) => made.at.step(*step).map(|step| (step.text.clone(), step.why.clone())),
        _ => None,
    });
    let (text, why) = text.flatten().unwrap_or_default();
    let lots = stove.desk.now(|open| lots_to_choose(open, &name));
    let passed = el("p").class("passed").attr("role", "status").text_of(move || match weighing.expiry.day_typed() {
        Some(day) if browser::today().is_some_and(|today| is_past(day, today)) => words::lot_has_passed(day),
        None if weighing.half_a_day.get() => words::HALF_A_DAY.to_owned(),
        _ => String::new(),
    });
    el("div")
        .class("weighing")
        .child(headline(&name))
        .child((!inci.is_empty()).then(|| el("p").class("inci").attr("lang", "la").text(&inci)))
        .child(el("p").class("figure").child(el("strong").text_of(target)).child(el("span").text("g")))
        .child(el("p").class("small").text_of(move || before().unwrap_or_default()))
        .child(vessel)
        .child(strip(weighing))
        .child(scale::shown(stove, weighing.at, move || weighing.allowed(), weighing.actual, weighing.taken))
        .child(
            el("div")
                .class("weighed")
                .child(weighing.actual.number::<Mass>("stove-weighed", words::WEIGHED, "g", move || weighing.weighed()))
                .child(judged)
                .child(weighing.lot.chosen("stove-lot", words::LOT, &lots, move || weighing.weighed()))
                .child(weighing.expiry.day(EXPIRY, words::GOOD_UNTIL, move || weighing.weighed()))
                .child(passed),
        )
        .child(el("p").class("small").text(&text))
        .child(el("p").class("small why").text(&why))
}

const fn verdict(verdict: WeighVerdict) -> &'static str {
    match verdict {
        WeighVerdict::Within => "within",
        WeighVerdict::Over | WeighVerdict::Under => "off",
    }
}

/// Half of what the strip shows beside the target, in units of what is allowed.
const REACH: i64 = 10;
/// Half of its length in the drawing.
const HALF: i64 = 300;

/// What the scale shows beside its target, as far as the strip reaches.
fn strip(weighing: Weighing) -> El {
    let place = move || {
        let found = weighing.judged()?;
        let allowed = found.allowed.units().max(1);
        Some((found.difference.units().saturating_mul(HALF) / allowed.saturating_mul(REACH)).clamp(-HALF, HALF))
    };
    let within = HALF / REACH;
    let shape = |x: i64, width: i64, class: &str| {
        svg("rect")
            .class(class)
            .attr("x", &x.to_string())
            .attr("y", "12")
            .attr("width", &width.to_string())
            .attr("height", "12")
            .attr("rx", "6")
    };
    let dot = svg("circle")
        .attr("cy", "18")
        .attr("r", "10")
        .attr_of("cx", move || place().map(|place| (HALF + place).to_string()))
        .attr_of("visibility", move || place().is_none().then(|| "hidden".to_owned()));
    let mark = svg("line").attr("x1", "300").attr("x2", "300").attr("y1", "0").attr("y2", "36");
    svg("svg")
        .class("scale-strip")
        .attr("viewBox", "0 0 600 36")
        .attr("aria-hidden", "true")
        .child(shape(0, HALF * 2, "track"))
        .child(shape(HALF - within, within * 2, "within"))
        .child(mark)
        .child(dot)
}

fn next(weighing: Weighing) -> El {
    let stove = weighing.stove;
    let text = move || stove.with(|made| words::next(&made.at, weighing.at, stove.desk.sign)).unwrap_or_default();
    button("").class("primary").text_of(text).press(move || weighing.weighed())
}

/// What can be done about a weighing that is off, with its numbers.
fn remedies(weighing: Weighing) -> El {
    let (stove, sign) = (weighing.stove, weighing.stove.desk.sign);
    let Some((actual, found)) = weighing.actual.value_now::<Mass>().zip(untrack(move || weighing.judged())) else {
        return el("div");
    };
    let ways = stove.of(|made| {
        let mut lines = made.at.lines();
        if let Some(line) = lines.get_mut(weighing.line) {
            line.actual = Some(actual);
        }
        let scale = made.at.scale();
        weigh_remedies(made.at.making.batch, scale.step, scale.tolerance, &lines, weighing.line)
    });
    let way = |way: WeighRemedy| remedy(weighing, actual, &found, way);
    let what = words::off(&weighing.name(), &found, untrack(move || weighing.target()), sign);
    el("div")
        .class("remedies")
        .child(headline(&what))
        .child(weighing.why.words("stove-why", words::WHY, || ()))
        .child(el("ul").child(ways.unwrap_or_default().into_iter().map(way).collect::<View>()))
}

fn remedy(weighing: Weighing, actual: Mass, found: &WeighIn, way: WeighRemedy) -> El {
    let (stove, sign) = (weighing.stove, weighing.stove.desk.sign);
    let again = move || {
        weighing.off.set(false);
        browser::focus("stove-weighed".to_owned());
    };
    let row = |press: El, why: &str| el("li").child(press).child(el("p").class("small").text(why));
    let what = words::off(&weighing.name(), found, untrack(move || weighing.target()), sign);
    match way {
        WeighRemedy::Add(mass) => {
            row(button(words::TAKE_OUT).class("primary").press(again), &words::add_more(mass, sign))
        }
        WeighRemedy::TakeOut(_) => row(button(words::TAKE_OUT).press(again), words::TAKE_OUT_WHY),
        WeighRemedy::Rescale(scaled) => {
            let why = rescale_why(stove, &scaled);
            let batch = scaled.batch;
            let make = move || {
                let reason = weighing.why.now();
                let decision = words::decided_rescaled(batch, &reason, sign);
                let noted = weighing.record(actual, scale::source(weighing.taken, actual), false)
                    && stove.note(Event::Deviation { what: what.clone(), decision })
                    && stove.note(Event::Rescaled { batch, reason });
                if noted {
                    weighing.why.clear();
                    stove.looked_at.set(None);
                    browser::focus_soon(super::TASK.to_owned());
                }
            };
            row(button(&words::rescale(batch, sign)).class("primary").press(make), &why)
        }
        WeighRemedy::Deviation => {
            let keep = move || {
                let decision = words::with_reason(words::KEPT, &weighing.why.now());
                let noted = weighing.record(actual, scale::source(weighing.taken, actual), true)
                    && stove.note(Event::Deviation { what: what.clone(), decision });
                if noted {
                    weighing.why.clear();
                    stove.go_on();
                }
            };
            row(button(words::KEEP).press(keep), words::KEEP_WHY)
        }
        WeighRemedy::StartAgain => {
            let give_up = move || {
                let reason = words::with_reason(&what, &weighing.why.now());
                stove.note(Event::Abandoned { reason });
            };
            row(button(words::START_AGAIN).press(give_up), words::START_AGAIN_WHY)
        }
    }
}

fn rescale_why(stove: Stove, scaled: &Rescale) -> String {
    let name = |line: usize| stove.of(|made| made.at.from.lines.get(line).map(|line| line.name.clone())).flatten();
    let more: Vec<(String, Mass)> = scaled.more.iter().filter_map(|(line, mass)| Some((name(*line)?, *mass))).collect();
    words::rescale_why(&more, scaled.rest.len(), stove.desk.sign)
}
