//! The frame: title bar, the bar of places, what is said.

use super::browser;
use super::desk::{Desk, FollowUp, Saved};
use super::dom::{El, View, dynamic, el, in_local_field, key};
use super::field::button;
use super::lazy::{self, LazyView};
use super::{entering, formula, shortcuts};
use hundred_parts::desk::Screen;
use hundred_parts::words::{self, batch_record, page};
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

/// The whole app.
pub(super) fn app() -> View {
    let desk = Desk::start(lazy::CHUNK);
    entering::listen();
    let help = RwSignal::new(false);
    let keys = window_event_listener(leptos::ev::keydown, move |event| {
        let event = event.as_ref();
        if shortcuts::heard(help, event) {
            event.prevent_default();
            return;
        }
        let key = key(event);
        if (!key.ctrl_key() && !key.meta_key()) || in_local_field(event) {
            return;
        }
        match key.key().to_lowercase().as_str() {
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
    let stamp = move || desk.now(|open| words::stamp(open, &browser::local_time(browser::now())));
    browser::on_window("beforeprint", move || browser::set_stamp(&stamp()));
    let place = dynamic(
        move || desk.screen.get(),
        move |screen| match screen {
            Screen::Formula => formula::place(desk).into(),
            Screen::Shelf => lazy::part(desk, LazyView::Shelf),
            Screen::Batch => lazy::part(desk, LazyView::Batch),
            Screen::Papers => lazy::part(desk, LazyView::Papers),
        },
    );
    let work = el("div")
        .id("work")
        .class("work")
        .attr("tabindex", "-1")
        .child(lazy::part(desk, LazyView::Keys(help)))
        .child(lazy::part(desk, LazyView::Above))
        .child(place);
    View::from_iter([
        el("a").class("skip").attr("href", "#work").text(page::SKIP),
        top(desk, help),
        places(desk),
        work,
        said(desk),
        formula::patterns(),
    ])
}

fn top(desk: Desk, help: RwSignal<bool>) -> El {
    let title = move || {
        desk.with(|open| {
            let title = open.state().formula.about.title.trim();
            if title.is_empty() { page::UNTITLED.to_owned() } else { title.to_owned() }
        })
    };
    let saved = move || match desk.saved.get() {
        Saved::Yes => page::SAVED.to_owned(),
        Saved::Soon => page::SAVING.to_owned(),
        Saved::No(why) => why,
    };
    el("header")
        .class("top no-print")
        .child(el("h1").text_of(title))
        .child(
            el("span")
                .class("saved")
                .attr("role", "status")
                .class_if("trouble", move || matches!(desk.saved.get(), Saved::No(_)))
                .text_of(saved),
        )
        .child(
            el("span")
                .class("tools")
                .child(button(page::UNDO).press(move || desk.undo()).disabled_if(move || !desk.can_go().0))
                .child(button(page::REDO).press(move || desk.redo()).disabled_if(move || !desk.can_go().1))
                .child(shortcuts::opener(help)),
        )
}

fn places(desk: Desk) -> El {
    let link = |screen: Screen| {
        el("a")
            .attr("href", screen.address())
            .attr_of("aria-current", move || (desk.screen.get() == screen).then(|| "page".to_owned()))
            .text(page::screen(screen))
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
                FollowUp::Undo | FollowUp::Restore(_) => page::UNDO,
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
