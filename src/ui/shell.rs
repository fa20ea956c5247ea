//! The frame: title bar, the bar of places, what is said.

use super::browser;
use super::desk::{Desk, FollowUp, LazyTask, Overlay, Saved};
use super::dom::{El, View, dynamic, el, in_local_field, key, typed};
use super::field::{button, menu, text_input};
use super::lazy::{self, LazyView};
use super::{entering, formula, shortcuts};
use hundred_parts::desk::{Action, Screen};
use hundred_parts::words::{self, batch_record, ledger, page};
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

/// The whole app.
pub(super) fn app(desk: Desk) -> View {
    entering::listen();
    browser::follow_presses();
    let keys = window_event_listener(leptos::ev::keydown, move |event| {
        let event = event.as_ref();
        if shortcuts::heard(desk, event) {
            event.prevent_default();
            return;
        }
        let key = key(event);
        if (!key.ctrl_key() && !key.meta_key()) || in_local_field(event) {
            return;
        }
        match key.key().to_ascii_lowercase().as_str() {
            "z" if !key.shift_key() => desk.undo(),
            "z" | "y" => desk.redo(),
            _ => return,
        }
        event.prevent_default();
    });
    // Where nothing may be written, a field that takes text all the same would promise what is not kept.
    let typing = window_event_listener(leptos::ev::beforeinput, move |event| {
        if browser::stopped() && !in_local_field(event.as_ref()) {
            event.prevent_default();
            desk.say(page::READ_ONLY, None);
        }
    });
    on_cleanup(move || {
        keys.remove();
        typing.remove();
    });
    // Whoever asks for it, the page or the browser's own menu.
    let stamp = move || {
        let time = browser::local_time(browser::now());
        match desk.shown_record.get_untracked() {
            Some((_, title)) if desk.overlay.get_untracked() == Some(Overlay::Record) => {
                words::stamp_with(&title, &time)
            }
            _ => desk.now(|open| words::stamp(open, &time)),
        }
    };
    browser::on_window("beforeprint", move || browser::set_stamp(&stamp()));
    let place = dynamic(
        move || desk.screen.get(),
        move |screen| match screen {
            Screen::Formula => formula::place(desk).into(),
            Screen::Shelf => lazy::part(desk, LazyView::Shelf),
            Screen::Batch => lazy::part(desk, LazyView::Batch),
            Screen::Proof => lazy::part(desk, LazyView::Proof),
            Screen::Papers => lazy::part(desk, LazyView::Papers),
            Screen::Stove => lazy::part(desk, LazyView::Stove),
        },
    );
    let covered = move || desk.overlay.get().map(|_| String::new());
    let work = el("div")
        .id("work")
        .class("work")
        .attr("tabindex", "-1")
        .attr_of("inert", covered)
        .class_if("at-stove", move || desk.screen.get() == Screen::Stove)
        .child(lazy::part(desk, LazyView::Above))
        .child(place);
    View::from_iter([
        el("a").class("skip").attr("href", "#work").text(page::SKIP).into(),
        View::from(top(desk).attr_of("inert", covered)),
        work.into(),
        places(desk).attr_of("inert", covered).into(),
        lazy::part(desk, LazyView::Overlay),
        said(desk).into(),
        formula::patterns().into(),
    ])
}

/// The title, and what is always at hand.
fn top(desk: Desk) -> El {
    let saved = move || match desk.saved.get() {
        Saved::Yes => page::SAVED.to_owned(),
        Saved::Soon => page::SAVING.to_owned(),
        Saved::No(why) => why,
    };
    let status = el("span")
        .class("saved")
        .attr("role", "status")
        .class_if("trouble", move || matches!(desk.saved.get(), Saved::No(_)))
        .child(el("span").text_of(saved));
    el("header").class("top no-print").child(title(desk)).child(status).child(tools(desk))
}

/// The title, edited where it stands, the way to the other formulas, and what the product is.
fn title(desk: Desk) -> El {
    let title = text_input(desk, "title")
        .attr("maxlength", "200")
        .attr("aria-label", page::TITLE)
        .attr("placeholder", page::UNTITLED)
        .value_of(move || desk.with(|open| open.state().formula.about.title.clone()))
        .on("input", move |event| {
            desk.act(Action::Title(typed(&event)));
        });
    // Where the list stands beside the lines, it is gone to.
    let list = move || match desk.formula_page.wide.get_untracked() && desk.screen.get_untracked() == Screen::Formula {
        true => browser::focus("find-formula".to_owned()),
        false => desk.ask_cover(Some(Overlay::Formulas)),
    };
    let formulas = button("").id("formulas-open").class("quiet unfolds").attr("aria-label", page::FORMULAS).press(list);
    let about = button("")
        .id("about-open")
        .attr("aria-haspopup", "dialog")
        .press(move || desk.ask_cover(Some(Overlay::About)))
        .class("about")
        .attr_of("aria-label", move || Some(format!("{}: {}", page::ABOUT, about(desk))))
        .text_of(move || about(desk));
    el("div").class("title").child(el("h1").child(title)).child(formulas).child(about)
}

fn tools(desk: Desk) -> El {
    let sign = |text: &str, sign: &str| button("").attr("data-sign", sign).child(el("span").class("hidden").text(text));
    el("span")
        .class("tools")
        .child(sign(page::UNDO, "undo").press(move || desk.undo()).disabled_if(move || !desk.can_go().0))
        .child(sign(page::REDO, "redo").press(move || desk.redo()).disabled_if(move || !desk.can_go().1))
        .child(menu(|| ledger::MORE.to_owned(), move || el("div").child(lazy::part(desk, LazyView::More))))
}

fn about(desk: Desk) -> String {
    desk.with(|open| ledger::about_line(&open.state().formula.about))
}

fn places(desk: Desk) -> El {
    let link = |screen: Screen| {
        el("a")
            .attr("href", screen.address())
            .attr_of("aria-current", move || (desk.screen.get() == screen).then(|| "page".to_owned()))
            .attr("data-place", screen.address().trim_start_matches("#/"))
            .child(el("span").text(page::screen(screen)))
    };
    el("nav")
        .class("places no-print")
        .attr("aria-label", page::PLACES)
        .child(Screen::ALL.into_iter().map(link).collect::<View>())
}

fn said(desk: Desk) -> El {
    let toast = move |toast: &Option<super::desk::Toast>| {
        let Some(toast) = toast else { return View::nothing() };
        let then = toast.then.clone().map(|then| {
            let label = match then {
                FollowUp::Undo | FollowUp::Restore(_) | FollowUp::Tick(_) => page::UNDO,
                FollowUp::Open(_) => page::OPEN,
                FollowUp::GoOnWith(_) => batch_record::GO_BACK_TO_IT,
            };
            button(label).press(move || {
                desk.toast.set(None);
                match &then {
                    FollowUp::Undo => desk.undo(),
                    FollowUp::Restore(id) => desk.bin(id.clone(), false),
                    FollowUp::Open(id) => desk.open(id.clone()),
                    FollowUp::GoOnWith(id) => desk.go_on_with(id),
                    FollowUp::Tick(kept) => {
                        desk.ask_lazy(LazyTask::Tick(kept.clone()));
                    }
                }
            })
        });
        el("p").class("toast").text(&toast.text).child(then).into()
    };
    let take = move || {
        spawn_local(async move {
            // A tab that may write nothing has nothing to write, and needs the new version most.
            if browser::stopped() || desk.write().await {
                browser::take_update();
            }
        });
    };
    let update = move |ready: &bool| {
        if !ready {
            return View::nothing();
        }
        let changes = browser::root_attribute("data-changes").unwrap_or_default();
        let changes = changes.lines().map(|change| el("li").text(change)).collect::<View>();
        let changes = el("ul").class("changes").attr("aria-label", page::CHANGES).child(changes);
        el("div")
            .class("toast")
            .text(page::UPDATE_READY)
            .child(changes)
            .child(button(page::TAKE_UPDATE).press(take))
            .child(button(page::LATER).press(move || desk.update.set(false)))
            .into()
    };
    el("div")
        .class("said no-print")
        .attr("role", "status")
        .child(dynamic(move || desk.toast.get(), toast))
        .child(dynamic(move || desk.update.get(), update))
}
