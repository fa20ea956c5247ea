//! The papers: which one, what is written on it, what is missing, and how it will look.

mod draw;
mod lots;
mod texts;

use super::browser::{self, focus};
use super::desk::Desk;
use super::dom::{El, View, dynamic, el, when};
use super::field::{button, pick_field};
pub(super) use draw::paper as draw_paper;
use hundred_parts::desk::{BatchState, Screen};
use hundred_parts::formula::PaperField;
use hundred_parts::paper::{Gap, LABEL_FORMATS, Which, label_facts};
use hundred_parts::sheet::Open;
use hundred_parts::words::{self, page};
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

/// What is chosen here stays chosen on this device.
const WHICH: &str = "paper";
const FORMAT: &str = "label-sheet";

/// The place.
pub(super) fn place(desk: Desk) -> El {
    let which = RwSignal::new(Which::of(&browser::preference(WHICH).unwrap_or_default()));
    let chosen = browser::preference(FORMAT);
    let [first_format, ..] = LABEL_FORMATS;
    let format = LABEL_FORMATS.iter().position(|format| chosen.as_deref() == Some(format.key)).unwrap_or(0);
    let format = RwSignal::new(format);
    let printed = RwSignal::new(String::new());
    open_record(desk);
    let view =
        el("section").class("paper-view").attr("aria-label", page::PREVIEW).attr("tabindex", "0").child(dynamic(
            move || {
                let format = LABEL_FORMATS.get(format.get()).copied().unwrap_or(first_format);
                desk.derived(|derived| {
                    desk.with_batch(|open| {
                        words::paper_by_clock(which.get(), format, open, derived, browser::minutes_ahead)
                    })
                })
            },
            move |paper| match paper {
                Ok(paper) => {
                    browser::set_foot(&paper.foot);
                    draw::paper(paper, printed).into()
                }
                Err(why) => el("p").text(why).into(),
            },
        ));
    let about = el("p").class("small").text_of(move || words::about_paper(which.get()).to_owned());
    let beside = el("div")
        .class("paper-side no-print")
        .child(about)
        .child(when(move || which.get() != Which::Safety, move || missing(desk).into()))
        .child(lots::card(desk))
        .child(texts::card(desk, page::FOR_LABEL, PaperField::on_label))
        .child(when(
            move || which.get() == Which::Bundle,
            move || texts::card(desk, page::FOR_ASSESSOR, |field| !field.on_label()).into(),
        ));
    // On a phone one below the other: the paper stands between the choice of it and what it lacks.
    el("div").class("papers").child(choice(desk, which, format, printed)).child(view).child(beside)
}

/// Opens the record of the last batch, whose code and course stand on the papers.
fn open_record(desk: Desk) {
    let closed = desk.now(|open| match open.batch() {
        BatchState::Closed(id) => Some(Some(id)),
        BatchState::OldLog => Some(None),
        _ => None,
    });
    match closed {
        Some(Some(id)) => spawn_local(async move {
            desk.open_batch(id).await;
        }),
        Some(None) => spawn_local(desk.open_old_log()),
        None => {}
    }
}

fn choice(desk: Desk, which: RwSignal<Which>, format: RwSignal<usize>, printed: RwSignal<String>) -> El {
    let radio = move |pick: Which| {
        let radio = el("input")
            .attr("type", "radio")
            .attr("name", "paper")
            .attr("value", pick.key())
            .checked_of(move || which.get() == pick)
            .on("change", move |_| {
                browser::set_preference(WHICH, pick.key());
                which.set(pick);
            });
        el("label").child(radio).child(el("span").text(words::which_paper(pick)))
    };
    let formats = LABEL_FORMATS.iter().map(move |format| words::label_format(format, desk.sign)).collect::<Vec<_>>();
    let set_format = move |n: usize| {
        if let Some(known) = LABEL_FORMATS.get(n) {
            browser::set_preference(FORMAT, known.key);
            format.set(n);
        }
    };
    let print = move || {
        let number = desk.save_version();
        printed.set(format!("{} {number} \u{2013} {}", page::VERSION, browser::local_time(browser::now())));
        request_animation_frame(browser::print);
    };
    let sheet =
        move || pick_field("label-sheet", page::LABEL_SHEET, formats.clone(), move || format.get(), set_format).into();
    let print = button("").class("primary").text_of(move || words::print_paper(which.get()).to_owned()).press(print);
    el("section")
        .class("paper-side paper-choice no-print")
        .attr("aria-labelledby", "papers-title")
        .child(el("h2").id("papers-title").class("hidden").text(page::screen(Screen::Papers)))
        .child(
            el("fieldset")
                .class("seg")
                .child(el("legend").class("hidden").text(page::WHICH_PAPER))
                .child(Which::OFFERED.into_iter().map(radio).collect::<View>()),
        )
        .child(el("div").class("print-it").child(when(move || which.get() == Which::Label, sheet)).child(print))
}

/// The place where something is mended that no text of the papers mends.
fn mended_in(gap: &Gap) -> Screen {
    match gap {
        Gap::List(Open::NotWhole | Open::OffShelf(_)) | Gap::OpenStops(_) => Screen::Formula,
        _ => Screen::Shelf,
    }
}

/// What the label lacks; a press goes to the field for it.
fn missing(desk: Desk) -> El {
    let gaps = move || {
        desk.derived(|derived| {
            desk.with_batch(|open| {
                let label = label_facts(&open.state().formula, &derived.sheet, &derived.findings);
                label.with_batch(open.batch_on_label(browser::minutes_ahead)).gaps
            })
        })
    };
    let one = |gap: &Gap| {
        let text = words::gap(gap);
        let grade = if gap.is_open() { "unknown" } else { "care" };
        let row = el("li").attr("data-grade", grade).child(el("span").class("grade").attr("aria-hidden", "true"));
        match gap.field() {
            Some(field) => row.child(button(&text).class("link").press(move || focus(texts::id(field)))),
            None => row.child(el("a").attr("href", mended_in(gap).address()).text(&text)),
        }
    };
    let list = dynamic(gaps, move |gaps| {
        if gaps.is_empty() {
            return el("p").text(page::NOTHING_MISSING).into();
        }
        let list = |open: bool| {
            let rows: Vec<El> = gaps.iter().filter(|gap| gap.is_open() == open).map(one).collect();
            (!rows.is_empty()).then(|| el("ul").class("gaps").child(rows.into_iter().collect::<View>()))
        };
        let open = list(true);
        let meta = open.is_some().then(|| el("h3").text(page::NOT_KNOWN));
        [list(false), meta, open].into_iter().flatten().collect()
    });
    el("section")
        .class("card")
        .attr("aria-labelledby", "missing-title")
        .child(el("h2").id("missing-title").text(page::MISSING))
        .child(list)
}
