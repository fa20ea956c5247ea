//! A photograph over the page, with what came before and after it under the same condition.

use super::Shots;
use crate::ui::browser;
use crate::ui::desk::Desk;
use crate::ui::dom::{El, LOCAL, View, dynamic, el, follow};
use crate::ui::field::{button, folded, text_field, unfolding};
use hundred_parts::batch::study::StudyPhotograph;
use hundred_parts::words::{photographs as words, proof};
use leptos::prelude::*;

/// The photographs under the condition of this one, and its place among them.
fn row(desk: Desk, short: u64) -> Option<(Vec<StudyPhotograph>, usize)> {
    let study = desk.with(|open| open.study())?.ok()?;
    study.photographs_by_condition().into_iter().find_map(|(_, row)| {
        let place = row.iter().position(|one| one.photograph.id.short() == short)?;
        Some((row, place))
    })
}

/// What stands at its head.
pub(in crate::ui) fn title(desk: Desk, short: u64) -> String {
    let condition = untrack(|| row(desk, short)).and_then(|(row, place)| row.get(place).map(|one| one.pull.condition));
    condition.map_or_else(|| words::TITLE.to_owned(), |kind| format!("{}: {}", words::TITLE, proof::condition(kind)))
}

/// What stands below that.
pub(in crate::ui) fn over(desk: Desk, short: u64) -> View {
    let (now, shots) = (RwSignal::new(short), Shots::new());
    let found = follow(move || row(desk, now.get()));
    let shown = dynamic(
        move || found.get(),
        move |found| {
            let Some((row, place)) = found else { return el("p").text(words::GONE).into() };
            let Some(one) = row.get(*place) else { return View::nothing() };
            shots.ask(desk, core::iter::once(one.photograph.id));
            large(desk, shots, one, (*place, row.len())).into()
        },
    );
    let step = move |label: &str, id: &str, by: isize| {
        let to = move || {
            let (row, place) = found.get()?;
            row.get(place.checked_add_signed(by)?).map(|one| one.photograph.id.short())
        };
        let go = move || {
            if let Some(to) = untrack(to) {
                now.set(to);
            }
        };
        button(label).id(id).disabled_if(move || to().is_none()).press(go)
    };
    let steps = el("div")
        .class("actions shot-steps")
        .child(step(words::EARLIER, "photograph-earlier", -1))
        .child(step(words::LATER, "photograph-later", 1));
    View::from_iter([steps.into(), shown])
}

fn large(desk: Desk, shots: Shots, of: &StudyPhotograph, (place, all): (usize, usize)) -> El {
    let photograph = &of.photograph;
    let about = [
        words::short(of),
        words::place_of(place + 1, all),
        words::size(photograph.width, photograph.height, photograph.bytes),
    ];
    let id = photograph.id;
    let lacks = dynamic(
        move || shots.found.with(|found| found.get(&id).cloned()),
        |shot| match shot {
            Some(super::Shot::Missing) => el("p").text(words::NOT_HERE_TEXT).into(),
            Some(super::Shot::Damaged) => el("p").text(words::DAMAGED_TEXT).into(),
            _ => View::nothing(),
        },
    );
    let struck = of.struck.as_deref().map(|reason| el("p").text(&words::crossed_out(reason)));
    let strike = of.struck.is_none().then(|| strike(desk, of.clone()));
    el("figure")
        .class("shot-large")
        .child(shots.image(of))
        .child(
            el("figcaption")
                .child(el("strong").text(&words::caption(of)))
                .child(el("p").class("small").text(&about.join(" \u{b7} ")))
                .child(lacks)
                .child(struck),
        )
        .child(strike)
}

/// It is crossed out with a reason, like any other entry.
fn strike(desk: Desk, of: StudyPhotograph) -> El {
    unfolding(folded(words::CROSS_OUT), move || {
        let reason = RwSignal::new(String::new());
        let of = of.clone();
        let cross = move || {
            let why = reason.get_untracked().trim().to_owned();
            if why.is_empty() {
                desk.say(words::WHY, None);
            } else if desk.strike_photograph(&of, why) {
                desk.say(words::CROSSED_OUT, None);
                browser::focus(crate::ui::desk::OVERLAY_TITLE.to_owned());
            }
        };
        el("div")
            .class("fields")
            .child(
                text_field(desk, "photograph-why", words::WHY, move || reason.get(), move |text| reason.set(text))
                    .flag(LOCAL),
            )
            .child(el("p").class("small wide").text(words::CROSS_OUT_HINT))
            .child(button(words::CROSS_OUT).press(cross))
    })
}
