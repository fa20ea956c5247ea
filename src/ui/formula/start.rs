//! A new formula: empty, or from one that is there, by skin and climate.

use crate::ui::desk::Desk;
use crate::ui::dom::{El, View, dynamic, el};
use crate::ui::field::{button, pick_one};
use hundred_parts::desk::{Climate, Document, Skin, StartingPoint, suited};
use hundred_parts::words::starting_points as words;
use leptos::prelude::*;

/// What to start from.
pub(in crate::ui) fn start_from(desk: Desk) -> View {
    let skin = RwSignal::new(Skin::Normal);
    let climate = RwSignal::new(Climate::Temperate);
    let begin = move |document: Document| {
        desk.close_overlay();
        desk.add(document);
    };
    let empty = card(words::EMPTY, words::EMPTY_WHY, None, move || begin(Document::default()));
    let point = move |point: &StartingPoint| {
        let (document, title) = (point.document.clone(), &point.document.state.formula.about.title);
        card(title, &point.why, Some(words::suits(point)), move || begin(document.clone()))
    };
    let list = dynamic(
        move || (skin.get(), climate.get()),
        move |(skin, climate)| suited(*skin, *climate).iter().map(point).collect::<View>(),
    );
    View::from_iter([
        empty,
        el("h3").text(words::START_FROM),
        el("p").class("small").text(words::INTRO),
        asked(skin, climate),
        el("p").class("small").text(words::BEST_FIRST),
        el("div").class("starts").child(list),
    ])
}

/// For whom, and where.
fn asked(skin: RwSignal<Skin>, climate: RwSignal<Climate>) -> El {
    let (of_skin, of_climate) = (move || skin.get(), move || climate.get());
    el("div")
        .class("fields")
        .child(pick_one("start-skin", words::WHICH_SKIN, Skin::ALL, words::skin, of_skin, move |of| skin.set(of)))
        .child(pick_one("start-climate", words::WHICH_CLIMATE, Climate::ALL, words::climate, of_climate, move |of| {
            climate.set(of);
        }))
}

/// One of them, with its own button.
fn card(title: &str, why: &str, suits: Option<String>, begin: impl Fn() + 'static) -> El {
    let start = button(words::START_WITH_THIS).attr("aria-label", &format!("{}: {title}", words::START_WITH_THIS));
    el("section")
        .class("offer start")
        .child(el("strong").text(title))
        .child(el("p").text(why))
        .child(suits.map(|suits| el("p").class("small").text(&suits)))
        .child(start.press(begin))
}
