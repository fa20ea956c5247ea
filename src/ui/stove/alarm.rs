//! That a time is up: sound, vibration, a band over the screen, a notification where that is allowed. And the screen that
//! stays awake meanwhile, and steps that are spoken.

use super::Stove;
use crate::ui::browser;
use crate::ui::dom::{El, View, dynamic, el};
use crate::ui::field::button;
use hundred_parts::batch::EntryId;
use hundred_parts::words::stove as words;
use leptos::prelude::*;

/// Times of steps that are not done, and are up: the entry of each, and what it is for.
fn ended(stove: Stove) -> Vec<(EntryId, String)> {
    let now = stove.now.get();
    let ended = stove.with(|made| {
        let making = &made.at.making;
        let open = making.timers.iter().filter(|timer| {
            timer.left_millis(now) == 0 && making.steps_done.iter().all(|(step, _)| *step != timer.step)
        });
        open.map(|timer| (timer.entry.clone(), words::timer(&made.at, timer.step, stove.desk.sign))).collect()
    });
    ended.unwrap_or_default()
}

/// Sounds once for each time that is up, also for one that ended while the tablet slept or the page was closed.
pub(super) fn follow(stove: Stove) {
    let sounded = StoredValue::new(Vec::<EntryId>::new());
    let ended = crate::ui::dom::follow(move || {
        ended(stove).into_iter().map(|(entry, what)| (entry.as_str().to_owned(), what)).collect::<Vec<_>>()
    });
    crate::ui::dom::effect(Box::new(move || {
        for (entry, what) in ended.get() {
            let Some(id) = EntryId::parse(&entry) else { continue };
            if !sounded.with_value(|known| known.contains(&id)) {
                sounded.update_value(|known| known.push(id));
                browser::sound();
                browser::notify(words::OVER, &what);
            }
        }
    }));
}

/// The band over the screen, until it is pressed away.
pub(super) fn flash(stove: Stove) -> View {
    let seen = RwSignal::new(Vec::<String>::new());
    let unseen = move || {
        let ended = ended(stove).into_iter().map(|(entry, what)| (entry.as_str().to_owned(), what));
        ended.filter(|(entry, _)| seen.with(|seen| !seen.contains(entry))).collect::<Vec<_>>()
    };
    dynamic(unseen, move |unseen| unseen.iter().map(|(entry, what)| band(seen, entry, what)).collect())
}

fn band(seen: RwSignal<Vec<String>>, entry: &str, what: &str) -> El {
    let entry = entry.to_owned();
    let away = move || {
        seen.update(|seen| seen.push(entry.clone()));
        browser::focus(super::TASK.to_owned());
    };
    el("p")
        .class("time-is-up")
        .attr("role", "alert")
        .child(el("strong").text(words::OVER))
        .text(" ")
        .child(el("span").text(what))
        .child(button(words::SEEN).press(away))
}

/// Asks that the screen stays awake while the view is there, and again whenever the page comes back.
pub(super) fn stay_awake() {
    browser::keep_awake(true);
    on_cleanup(|| browser::keep_awake(false));
}

/// Speaks the task, where the maker asked for it.
pub(super) fn speak(stove: Stove, at: usize) {
    if browser::preference("speak").is_none() {
        return;
    }
    if let Some(text) = stove.of(|made| words::spoken(&made.at, at, stove.desk.sign)) {
        browser::speak(&text);
    }
}
