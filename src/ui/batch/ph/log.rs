//! What happened so far, in order; a mistaken entry is struck with a reason, and stays readable.

use super::step::form;
use super::tools::PhBench;
use crate::ui::browser::{self, focus};
use crate::ui::desk::Desk;
use crate::ui::dom::{El, View, dynamic, el};
use crate::ui::field::{button, text_field};
use hundred_parts::batch::{EntryId, Event};
use hundred_parts::quantity::Timestamp;
use hundred_parts::words::{batch_record, meter};
use leptos::prelude::*;

/// An entry as shown.
#[derive(PartialEq)]
struct LogRow {
    id: EntryId,
    place: usize,
    at: Timestamp,
    text: String,
    /// Why it was struck, if it was.
    struck: Option<String>,
    /// The maker is asked why it is to be struck.
    asked: bool,
}

/// The list.
pub(super) fn log(bench: &PhBench) -> El {
    let (desk, known) = (bench.desk, bench.clone());
    let asked = RwSignal::new(None::<EntryId>);
    let entries = move || -> Vec<LogRow> {
        let (Some(record), Some(setting)) = (known.record(), known.setting()) else { return Vec::new() };
        let name = |id: &_| known.name(id);
        let entry = |(place, (id, (at, _))): (usize, (&EntryId, &(Timestamp, _)))| LogRow {
            id: id.clone(),
            place,
            at: *at,
            text: meter::in_log(&setting.log, place, &name, desk.sign),
            struck: record.struck(id).map(str::to_owned),
            asked: asked.with(|asked| asked.as_ref() == Some(id)),
        };
        setting.entries.iter().zip(&setting.log.events).enumerate().map(entry).collect()
    };
    let list = dynamic(entries, move |entries| {
        if entries.is_empty() {
            return View::nothing();
        }
        let rows = entries.iter().map(|entry| row(desk, entry, asked)).collect::<View>();
        View::from_iter([el("h3").text(batch_record::LOG), el("ul").class("list ph-log").child(rows)])
    });
    el("section").class("log").child(list)
}

fn row(desk: Desk, entry: &LogRow, asked: RwSignal<Option<EntryId>>) -> El {
    let (text, why) = match &entry.struck {
        Some(reason) => (el("s"), Some(el("small").text(&batch_record::struck(reason)))),
        None => (el("span"), None),
    };
    let said = el("span")
        .class("entry-text")
        .text(&format!("{}. ", entry.place + 1))
        .child(text.text(&entry.text))
        .child(el("small").text(&format!(" {}", browser::local_time(entry.at))))
        .child(why);
    let item = el("li").child(said);
    if entry.struck.is_some() {
        return item;
    }
    if entry.asked {
        return item.child(reasons(desk, &entry.id, asked));
    }
    let label = format!("{}{}", batch_record::STRIKE_ENTRY, entry.place + 1);
    let id = entry.id.clone();
    let ask = move || {
        asked.set(Some(id.clone()));
        focus(WHY.to_owned());
    };
    item.child(button(batch_record::STRIKE).attr("aria-label", &label).press(ask))
}

/// Where the focus goes as the reason is asked for.
const WHY: &str = "strike-why";

fn strike(desk: Desk, id: &EntryId, reason: &str) {
    if desk.note(Event::Struck { entry: id.clone(), reason: reason.trim().to_owned() }) {
        desk.say(batch_record::STRUCK_TOAST, None);
    }
    browser::focus_soon(super::STEP.to_owned());
}

/// Why an entry is struck: what it usually is at a press, anything else in words.
fn reasons(desk: Desk, id: &EntryId, asked: RwSignal<Option<EntryId>>) -> El {
    let usual = |reason: &'static str| {
        let id = id.clone();
        button(reason).press(move || strike(desk, &id, reason))
    };
    let typed = RwSignal::new(String::new());
    let set = move |text| typed.set(text);
    let field = text_field(desk, "strike-reason", batch_record::OTHER_REASON, move || typed.get(), set);
    let stated = move || typed.with(|reason| !reason.trim().is_empty());
    let own = id.clone();
    let go = move || {
        if untrack(stated) {
            strike(desk, &own, &typed.get_untracked());
        }
    };
    let leave = move || {
        asked.set(None);
        browser::focus_soon(super::STEP.to_owned());
    };
    let pressed = el("div").class("actions").child(usual(batch_record::MISREAD)).child(usual(batch_record::NOT_DONE));
    el("fieldset")
        .class("why-struck")
        .child(el("legend").id(WHY).attr("tabindex", "-1").text(batch_record::WHY_STRUCK))
        .child(pressed.child(button(batch_record::KEEP_ENTRY).press(leave)))
        .child(form(el("div").child(field), batch_record::STRIKE_FOR_THIS, false, stated, go))
}
