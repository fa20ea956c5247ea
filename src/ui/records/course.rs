//! What happened, as a line with times: what departs from the plan stands out, with its reason.

use super::correct::{Correcting, form};
use crate::ui::browser::{focus, minutes_ahead};
use crate::ui::desk::Desk;
use crate::ui::dom::{El, View, el};
use crate::ui::field::button;
use hundred_parts::facts::IngredientId;
use hundred_parts::paper::{CourseEntry, RecordFacts, Tone};
use hundred_parts::words::{bench, clock, course, record as words};
use leptos::prelude::*;

/// The id of its heading, to which the focus goes.
pub(super) const TITLE: &str = "record-course";

/// The line. `day` is told where it is another one than that of the entry before.
pub(super) fn line(desk: Desk, facts: &RecordFacts, correcting: Correcting) -> El {
    let mut day = clock::day(facts.began, minutes_ahead);
    let mut rows = Vec::new();
    let known = if correcting.open.get() { &facts.entries } else { &facts.course };
    for entry in known {
        let today = clock::day(entry.at, minutes_ahead);
        if today != day {
            rows.push(el("li").class("day").text(&today));
            day = today;
        }
        rows.push(row(desk, facts, entry, correcting));
    }
    let title = el("h3").id(TITLE).class("hidden").attr("tabindex", "-1").text(words::COURSE);
    el("section").class("course").child(title).child(el("ol").child(rows.into_iter().collect::<View>()))
}

fn row(desk: Desk, facts: &RecordFacts, entry: &CourseEntry, correcting: Correcting) -> El {
    let name = |id: &IngredientId| desk.now(|open| bench::substance(id.as_str(), open.shelf()));
    let (what, more) = course::entry(entry, facts, &name, desk.sign);
    let tone = match entry.tone {
        Tone::Plain => "plain",
        Tone::Fine => "fine",
        Tone::Care => "care",
    };
    let head = |text: &str| if entry.struck.is_some() { el("s").text(text) } else { el("strong").text(text) };
    let line = |text: &str| (!text.is_empty()).then(|| el("p").text(text));
    let struck = entry.struck.as_deref().map(hundred_parts::words::batch_record::struck);
    let said = el("div")
        .child(head(&what))
        .child(line(&more))
        .child(struck.map(|struck| el("p").class("struck").text(&struck)))
        .child(entry.after_seal.then(|| el("p").class("after").text(course::AFTER_SEAL)));
    let item = el("li")
        .attr("data-tone", tone)
        .child(el("time").attr("datetime", &entry.at.text()).text(&clock::time_of_day(entry.at, minutes_ahead)))
        .child(el("span").class("point").attr("aria-hidden", "true"))
        .child(said);
    if !correcting.open.get() || entry.struck.is_some() || !entry.event.can_be_struck() {
        return item;
    }
    if correcting.asked.with(|asked| asked.as_ref() == Some(&entry.id)) {
        return item.child(form(desk, entry, correcting));
    }
    let id = entry.id.clone();
    let ask = move || {
        correcting.asked.set(Some(id.clone()));
        focus(super::correct::WHY.to_owned());
    };
    item.child(button(words::CORRECT_THIS).attr("aria-label", &words::correct_label(&what)).press(ask))
}
