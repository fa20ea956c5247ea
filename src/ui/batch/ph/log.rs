//! What happened so far, in order; a mistaken entry is struck, not removed.

use super::tools::PhBench;
use crate::ui::browser;
use crate::ui::desk::FollowUp;
use crate::ui::dom::{El, View, dynamic, el};
use crate::ui::field::button;
use hundred_parts::batch::PhEvent;
use hundred_parts::desk::Action;
use hundred_parts::quantity::Timestamp;
use hundred_parts::words::{bench, dose};

/// An entry as shown.
#[derive(PartialEq)]
struct Entry {
    place: usize,
    at: Timestamp,
    text: String,
    struck: bool,
}

/// The list.
pub(super) fn log(bench: &PhBench) -> El {
    let (desk, known) = (bench.desk, bench.clone());
    let entries = move || -> Vec<Entry> {
        desk.with(|open| {
            let Some(log) = &open.state().ph_log else { return Vec::new() };
            let name = |id: &_| known.name(id);
            let entry = |(place, (at, event)): (usize, &(Timestamp, PhEvent))| Entry {
                place,
                at: *at,
                text: dose::entry(event, &name, desk.sign),
                struck: log.is_struck(place),
            };
            let shown = log.events.iter().enumerate().filter(|(_, (_, event))| !matches!(event, PhEvent::Strike(_)));
            shown.map(entry).collect()
        })
    };
    let row = move |entry: &Entry| {
        let place = entry.place;
        let strike = move || {
            desk.act(Action::NotePh(browser::now(), PhEvent::Strike(place)));
            desk.say(bench::STRUCK_TOAST, Some(FollowUp::Undo));
            browser::focus(super::STEP.to_owned());
        };
        let text = if entry.struck { el("s") } else { el("span") };
        let said = el("span")
            .class("entry-text")
            .text(&format!("{}. ", place + 1))
            .child(text.text(&entry.text))
            .child(el("small").text(&format!(" {}", browser::local_time(entry.at))));
        let end = if entry.struck {
            el("small").text(bench::STRUCK)
        } else {
            let label = format!("{}{}", bench::STRIKE_ENTRY, place + 1);
            button(bench::STRIKE).attr("aria-label", &label).press(strike)
        };
        el("li").child(said).child(end)
    };
    let list = dynamic(entries, move |entries| {
        if entries.is_empty() {
            return View::nothing();
        }
        let rows = entries.iter().map(row).collect::<View>();
        View::from_iter([el("h3").text(bench::LOG), el("ul").class("list ph-log").child(rows)])
    });
    el("section").class("log").child(list)
}
