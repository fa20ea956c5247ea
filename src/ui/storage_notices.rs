//! What the maker should know about where the work is kept: reminders, damaged copies, and the promise of the browser.

use super::browser;
use super::desk::{Desk, Importing, Unreadable};
use super::dom::{El, View, dynamic, el, follow, when};
use super::field::button;
use hundred_parts::batch::study::Tally;
use hundred_parts::desk::collection_text;
use hundred_parts::words::{page, photographs, storage_notices as words};
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

/// Puts everything into a file, and notes that it was.
pub(super) fn export_all(desk: Desk) {
    spawn_local(async move {
        let (documents, all_formulas) = desk.all_documents().await;
        let (studies, all_studies) = desk.all_studies().await;
        let all = all_formulas && all_studies;
        let text = desk.now(|open| collection_text(documents.iter(), &studies, open.shelf()));
        match desk.write_file("all-formulas.hundred-parts.json", &text, &studies).await {
            Some(lacks) if all => {
                desk.backed_up();
                if lacks > 0 {
                    desk.say(&photographs::not_in_file(lacks), None);
                }
            }
            Some(_) => desk.say(&words::exported_some(documents.len()), None),
            None => desk.say(words::NOT_EXPORTED, None),
        }
    });
}

/// The cards above the work, each only when it has something to say.
pub(super) fn cards(desk: Desk) -> View {
    let unreadable = dynamic(
        move || desk.notices.unreadable.get(),
        move |found| View::from(found.as_ref().map(|found| unreadable(desk, found))),
    );
    let nothing = when(move || desk.notices.keeps_nothing.get(), move || keeps_nothing(desk).into());
    let import = when(move || desk.importing.with(Option::is_some), move || importing(desk).into());
    let remind = when(move || desk.backup_due(), move || reminder(desk).into());
    let install = when(move || desk.notices.in_a_tab_of_ios.get(), move || install_card(desk).into());
    [nothing, unreadable, import, remind, install].into_iter().collect()
}

fn card(role: &str, title: &str, text: &str) -> El {
    el("section")
        .class("card arrival no-print")
        .attr("role", role)
        .child(el("h2").text(title))
        .child(el("p").text(text))
}

/// The button goes with its card: the focus goes to the work.
fn closing(close: impl Fn() + 'static) -> impl Fn() + 'static {
    move || {
        close();
        browser::focus("work".to_owned());
    }
}

fn keeps_nothing(desk: Desk) -> El {
    let actions = el("div")
        .class("actions")
        .child(button(page::EXPORT_ALL).class("primary").press(move || export_all(desk)))
        .child(button(page::CLOSE).press(closing(move || desk.notices.keeps_nothing.set(false))));
    card("alert", words::KEEPS_NOTHING_TITLE, words::KEEPS_NOTHING).child(actions)
}

/// How far an import is, and the way to end it.
fn importing(desk: Desk) -> El {
    let now = follow(move || desk.importing.get());
    let figure = move |read: fn(&Importing) -> usize| move || now.with(|now| now.as_ref().map_or(0, read).to_string());
    let (done, all) = (figure(|now| now.done), figure(|now| now.all));
    let text = move || now.with(|now| now.map_or_else(String::new, |now| words::so_far(now.done, now.all)));
    let bar = el("progress")
        .attr("aria-label", words::IMPORTING)
        .attr_of("max", move || Some(all()))
        .attr_of("value", move || Some(done()));
    card("status", words::IMPORTING, "")
        .child(bar)
        .child(el("p").class("small").text_of(text))
        .child(el("div").class("actions").child(button(words::STOP).press(move || desk.stop_import())))
}

fn unreadable(desk: Desk, found: &Unreadable) -> El {
    let stored = found.stored.clone();
    let id = stored.meta.id.clone();
    let bytes = found.kept.map(|kept| el("p").text(if kept { page::BYTES_KEPT } else { page::BYTES_NOT_KEPT }));
    let write =
        found.held.then(|| button(page::WRITE_IN_ITS_PLACE).press(closing(move || desk.write_in_its_place(&id))));
    let held = found.held.then(|| el("p").text(page::HELD));
    let download = move || {
        browser::download("damaged.hundred-parts.json", "application/json", &stored.body);
    };
    let actions = el("div")
        .class("actions")
        .child(button(page::DOWNLOAD_AS_IT_IS).class("primary").press(download))
        .child(write)
        .child(button(page::CLOSE).press(closing(move || desk.notices.unreadable.set(None))));
    let title = format!("{}{}", page::ABOUT_STORED, found.stored.meta.title);
    card("alert", &title, found.why).child(bytes).child(held).child(actions)
}

fn reminder(desk: Desk) -> El {
    let actions = el("div")
        .class("actions")
        .child(button(page::EXPORT_ALL).class("primary").press(move || export_all(desk)))
        .child(button(page::LATER).press(closing(move || desk.back_up_later())));
    card("status", page::BACKUP_TITLE, page::BACKUP_TEXT).child(actions)
}

fn install_card(desk: Desk) -> El {
    let close = move || {
        browser::set_preference("ios", "closed");
        desk.notices.in_a_tab_of_ios.set(false);
    };
    let actions = el("div")
        .class("actions")
        .child(button(page::EXPORT_ALL).class("primary").press(move || export_all(desk)))
        .child(button(page::CLOSE).press(closing(close)));
    card("status", page::INSTALL_TITLE, page::INSTALL_TEXT).child(actions)
}

/// Where the work is kept, as it is: the browser's promise and the last export.
pub(super) fn promise(desk: Desk) -> El {
    let text = move || {
        let promise = match desk.notices.promised.get() {
            Some(true) => page::PROMISED,
            Some(false) => page::NOT_PROMISED,
            None => page::PROMISE_UNKNOWN,
        };
        match desk.notices.backup.get().last {
            Some(last) => format!("{promise} {}{}.", page::LAST_EXPORT, browser::local_time(last)),
            None => format!("{promise} {}", page::NO_EXPORT),
        }
    };
    let tally = RwSignal::new(None::<Tally>);
    spawn_local(async move {
        let found = desk.kept_tally().await;
        tally.try_set(Some(found).filter(|found| found.number > 0));
    });
    let kept = move || tally.get().map_or_else(String::new, |tally| photographs::kept(tally, desk.sign));
    el("div").child(el("p").class("small").text_of(text)).child(el("p").class("small").text_of(kept))
}
