//! What came in by a link or a file, to be looked at before anything of it is kept.

use super::browser::focus;
use super::desk::{Arrival, Desk};
use super::dom::{El, View, dynamic, el};
use super::field::button;
use hundred_parts::desk::{Document, LocalMatch, Preview, ReadProblem};
use hundred_parts::words::{self, page, storage_notices};
use leptos::prelude::*;
use std::sync::Arc;

/// How many documents of a file are shown one by one.
const MOST_SHOWN: usize = 50;

/// The card, while there is something.
pub(super) fn card(desk: Desk) -> View {
    let leave = move || leave(desk);
    dynamic(
        move || desk.arrival.get(),
        move |arrival| match arrival {
            None => View::nothing(),
            Some(Arrival::Refused(why)) => el("section")
                .class("card arrival no-print")
                .attr("role", "alert")
                .child(el("p").text(why))
                .child(button(page::CLOSE).press(leave))
                .into(),
            Some(Arrival::Documents(preview)) => looked_at(desk, preview.clone()).into(),
        },
    )
}

/// The button goes with its card: the focus goes to the work.
fn leave(desk: Desk) {
    desk.arrival.set(None);
    focus("work".to_owned());
}

fn looked_at(desk: Desk, preview: Arc<Preview>) -> El {
    let leave = move || leave(desk);
    let row = |(document, known): (&Document, &LocalMatch)| {
        let formula = &document.state.formula;
        let shelf = &preview.incoming.shelf;
        let (note, lines): (_, Vec<String>) = match known {
            LocalMatch::New => {
                (page::NEW_HERE, formula.lines().map(|(_, line)| words::line_text(line, shelf)).collect())
            }
            LocalMatch::Same => (page::ALREADY, Vec::new()),
            LocalMatch::Differs(rows) => (
                page::SAME_TITLE,
                rows.iter().filter_map(|row| words::comparison_text(row, shelf, desk.sign)).collect(),
            ),
        };
        el("li")
            .child(el("strong").text(&formula.about.title))
            .text(&format!(" \u{2013} {}{}, {note}", formula.lines().count(), page::LINES))
            .child(el("ul").child(lines.iter().take(60).map(|line| el("li").text(line)).collect::<View>()))
    };
    let all = preview.incoming.documents.len();
    let rows = preview.incoming.documents.iter().zip(&preview.known).take(MOST_SHOWN).map(row).collect::<View>();
    let more = all.checked_sub(MOST_SHOWN + 1).map(|more| el("p").text(&words::and_more(more + 1)));
    let refused = &preview.incoming.refused;
    let refused = (!refused.is_empty()).then(|| {
        let reason = |problem: &ReadProblem| el("li").text(&problem.to_string());
        let reasons = el("ul").child(refused.iter().take(MOST_SHOWN).map(reason).collect::<View>());
        el("div").child(el("p").text(&storage_notices::left_out(refused.len()))).child(reasons)
    });
    let shelf = (preview.shelf_adds > 0).then(|| el("p").text(&words::shelf_adds(preview.shelf_adds)));
    let wanted = preview.wanted();
    let nothing = wanted.documents.is_empty() && preview.shelf_adds == 0;
    let add = (!nothing).then(|| {
        button(page::ADD_THESE).class("primary").press(move || {
            desk.take(&wanted);
            leave();
        })
    });
    el("section")
        .class("card arrival no-print")
        .attr("aria-labelledby", "arrival-title")
        .child(el("h2").id("arrival-title").text(page::INCOMING))
        .child(el("p").text(page::INCOMING_TEXT))
        .child(el("ul").child(rows))
        .child(more)
        .child(refused)
        .child(shelf)
        .child(add)
        .child(button(if nothing { page::CLOSE } else { page::LEAVE }).press(leave))
}
