//! Before a batch: its code, who makes it, and how much it will be.

use super::{Stove, headline};
use crate::ui::batch::{take_ticks_over, ticked_lines};
use crate::ui::browser;
use crate::ui::desk::Desk;
use crate::ui::dom::{El, LOCAL, View, dynamic, el, ticked, typed};
use crate::ui::field::{button, folded, text_input};
use hundred_parts::batch::{BatchCode, CodePattern, CodeProblem, GivenCodes};
use hundred_parts::desk::{Screen, code_in_title};
use hundred_parts::words::{batch_code, ledger, page, plan, stove as words};
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

/// The codes that were given on this device.
const CODES: &str = "batch-codes";
/// The pattern that codes are made by.
const PATTERN: &str = "batch-code-pattern";
/// Who made the last batch.
const MAKER: &str = "batch-maker";

/// What a batch begins with.
pub(super) fn begin(stove: Stove) -> View {
    let desk = stove.desk;
    let ready = move || desk.masses(|masses| masses.weigh.is_ok());
    dynamic(ready, move |ready| if *ready { ask(stove).into() } else { nothing() })
}

fn nothing() -> View {
    el("div")
        .class("stove-frame")
        .child(
            el("div")
                .class("stove-task")
                .child(headline(words::NOTHING_TO_MAKE))
                .child(el("p").text(words::NOTHING_WHY)),
        )
        .child(el("footer").class("stove-go").child(leave()))
        .into()
}

fn leave() -> El {
    el("a").class("back").attr("href", Screen::Batch.address()).text(words::BACK)
}

fn ask(stove: Stove) -> El {
    let desk = stove.desk;
    let codes = RwSignal::new(given(stove));
    let code = RwSignal::new(codes.with_untracked(proposed));
    look_for_more(stove, codes, code);
    let maker = RwSignal::new(browser::preference(MAKER).unwrap_or_default());
    let wrong = move || match BatchCode::read(&code.get()) {
        Err(CodeProblem::Empty) => Some(batch_code::CODE_MISSING),
        Err(_) => Some(batch_code::CODE_WRONG),
        Ok(read) => codes.with(|codes| codes.holds(&read)).then_some(batch_code::CODE_TAKEN),
    };
    let take_over = RwSignal::new(false);
    let begin = move || {
        let by = maker.get_untracked().trim().to_owned();
        let Ok(given_now) = BatchCode::read(&code.get_untracked()) else { return };
        if untrack(wrong).is_none() && desk.begin_making(given_now.as_str().to_owned(), by.clone()) {
            codes.update(|codes| codes.add(&given_now));
            browser::set_preference(CODES, &codes.with_untracked(GivenCodes::text));
            browser::set_preference(MAKER, &by);
            if take_over.get_untracked() {
                take_ticks_over(desk);
            }
            browser::focus_soon(super::TASK.to_owned());
        }
    };
    let title = move || desk.with(|open| open.state().formula.about.title.clone());
    let mass = move || desk.masses(|masses| desk.with(|open| ledger::batch(masses, open.state(), desk.sign)));
    let jars = move || desk.with(|open| ledger::jars(&open.state().plan, desk.sign));
    let note = el("span")
        .id("stove-code-note")
        .class("note-of-field")
        .attr("aria-live", "polite")
        .text_of(move || wrong().unwrap_or_default().to_owned());
    let field = |id: &str, label: &str, text: RwSignal<String>| {
        let input = text_input(desk, id)
            .attr("maxlength", "60")
            .value_of(move || text.get())
            .on("input", move |event| text.set(typed(&event)));
        el("div").class("field").child(el("label").attr("for", id).text(label)).child(input)
    };
    let fields = el("div").class("fields").child(field("stove-code", batch_code::CODE, code).child(note)).child(field(
        "stove-maker",
        words::MAKER,
        maker,
    ));
    let inside = el("div")
        .class("stove-task")
        .child(headline("").text_of(title))
        .child(el("p").class("figure").child(el("strong").text_of(mass)))
        .child(el("p").class("small").text_of(jars))
        .child(fields)
        .child(ticks(desk, take_over))
        .child(pattern(desk, codes, code))
        .child(el("p").class("small").text(page::PRINT_CARE));
    let go = button(words::BEGIN).class("primary").disabled_if(move || wrong().is_some()).press(begin);
    el("div").class("stove-frame").child(inside).child(el("footer").class("stove-go").child(leave()).child(go))
}

/// What is ticked on the weigh sheet may be weighed for this batch, or for one before: only the maker knows.
fn ticks(desk: Desk, take_over: RwSignal<bool>) -> View {
    dynamic(
        move || ticked_lines(desk),
        move |count| {
            if *count == 0 {
                return View::nothing();
            }
            let tick = el("input")
                .attr("type", "checkbox")
                .checked_of(move || take_over.get())
                .on("change", move |event| take_over.set(ticked(&event)));
            el("label").class("tick").child(tick).text(" ").text(&plan::take_ticks_over(*count)).into()
        },
    )
}

/// The pattern that codes are made by, folded away; another one proposes another code at once.
fn pattern(desk: Desk, codes: RwSignal<GivenCodes>, code: RwSignal<String>) -> El {
    let text = RwSignal::new(browser::preference(PATTERN).unwrap_or_else(|| CodePattern::DEFAULT.to_owned()));
    let set = move |event: web_sys::Event| {
        text.set(typed(&event));
        if CodePattern::read(&text.get_untracked()).is_ok() {
            browser::set_preference(PATTERN, text.get_untracked().trim());
            code.set(codes.with_untracked(proposed));
        }
    };
    let problem = move || CodePattern::read(&text.get()).err();
    let input = text_input(desk, "stove-pattern")
        .flag(LOCAL)
        .attr("maxlength", "60")
        .attr("aria-describedby", "stove-pattern-note")
        .attr_of("aria-invalid", move || Some(problem().is_some().to_string()))
        .value_of(move || text.get())
        .on("input", set);
    let note = el("p")
        .id("stove-pattern-note")
        .class("small")
        .attr("aria-live", "polite")
        .text_of(move || batch_code::pattern_note(problem().as_ref()));
    let inside = el("div")
        .class("field")
        .child(el("label").attr("for", "stove-pattern").text(batch_code::PATTERN_FIELD))
        .child(input);
    folded(batch_code::PATTERN).class("fields").child(inside).child(note)
}

/// The codes that were given: those that the device has noted, and that of the last batch, of which a browser that died may have
/// kept no note.
fn given(stove: Stove) -> GivenCodes {
    let mut given = GivenCodes::read(&browser::preference(CODES).unwrap_or_default());
    let last = stove.of(|made| made.at.making.code.clone()).and_then(|code| BatchCode::read(&code).ok());
    last.iter().for_each(|code| given.add(code));
    given
}

/// Adds those of the records that the stores have, and proposes another code where the proposed one is among them.
fn look_for_more(stove: Stove, codes: RwSignal<GivenCodes>, code: RwSignal<String>) {
    spawn_local(async move {
        let metas = stove.desk.batch_metas().await;
        let before = code.try_get_untracked();
        let is_proposed = before.is_some() && before == codes.try_with_untracked(proposed);
        codes.try_update(|codes| {
            let stored = metas.iter().filter_map(|meta| BatchCode::read(code_in_title(&meta.title)?).ok());
            stored.for_each(|code| codes.add(&code));
        });
        if is_proposed && let Some(next) = codes.try_with_untracked(proposed) {
            code.try_set(next);
        }
    });
}

/// The next code by the maker's pattern.
fn proposed(codes: &GivenCodes) -> String {
    let pattern = browser::preference(PATTERN);
    let code = browser::today().and_then(|day| codes.next(pattern.as_deref(), day));
    code.map(|code| code.as_str().to_owned()).unwrap_or_default()
}
