//! What came in by a link or a file, to be looked at before anything of it is kept.

use super::browser::{focus, focus_soon};
use super::desk::{ArrivalShown, Desk};
use super::dom::{El, View, dynamic, el};
use super::field::button;
use hundred_parts::desk::{Document, LocalMatch, Preview, ReadProblem, RecordBody};
use hundred_parts::words::{self, page, photographs, proof, storage_notices};
use leptos::prelude::*;
use std::sync::Arc;

/// What has the focus once another card has come.
const TITLE: &str = "arrival-title";
/// How many documents of a file are shown one by one.
const MOST_SHOWN: usize = 50;

/// The card, while there is something.
pub(super) fn card(desk: Desk) -> View {
    let leave = move || leave(desk);
    dynamic(
        move || desk.came_in.with(|came| came.shown.clone()),
        move |arrival| match arrival {
            None => View::nothing(),
            Some(ArrivalShown::Refused(why)) => el("section")
                .class("card arrival no-print")
                .attr("role", "alert")
                .child(el("p").id(TITLE).attr("tabindex", "-1").text(why))
                .child(behind(desk))
                .child(button(page::CLOSE).press(leave))
                .into(),
            Some(ArrivalShown::Documents(preview)) => looked_at(desk, preview.clone()).into(),
        },
    )
}

/// The button goes with its card: the focus goes to the next one, or to the work.
fn leave(desk: Desk) {
    let more = desk.came_in.with_untracked(|came| came.behind.waiting() > 0);
    desk.answered();
    if more { focus_soon(TITLE.to_owned()) } else { focus("work".to_owned()) }
}

/// How many wait behind what is shown.
fn behind(desk: Desk) -> El {
    let count = move || desk.came_in.with(|came| came.behind.waiting());
    el("p").class("behind").attr("role", "status").text_of(move || storage_notices::waiting(count()))
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
            .text(&format!(" \u{2013} {}, {note}", storage_notices::lines(formula.lines().count())))
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
    let study = |(study, here): (&RecordBody, &bool)| el("li").text(&proof::incoming(&study.study_title(), *here));
    let studies = preview.incoming.studies.iter().zip(&preview.studies_here).take(MOST_SHOWN).map(study);
    let studies = el("ul").child(studies.collect::<View>());
    let of_photographs = photographs::incoming(&preview.photographs, desk.sign);
    let no_room = preview.no_room.map(|why| photographs::left_out(why, desk.sign));
    let shots = of_photographs.into_iter().chain(no_room).map(|text| el("p").text(&text)).collect::<View>();
    let wanted = preview.wanted();
    let nothing = wanted.documents.is_empty()
        && wanted.studies.is_empty()
        && wanted.photographs.is_empty()
        && preview.shelf_adds == 0;
    let add = (!nothing).then(|| {
        button(page::ADD_THESE).class("primary").press(move || {
            if desk.take(&wanted) {
                leave();
            }
        })
    });
    let no = if nothing { page::CLOSE } else { page::LEAVE };
    el("section")
        .class("card arrival no-print")
        .attr("aria-labelledby", TITLE)
        .child(el("h2").id(TITLE).attr("tabindex", "-1").text(page::INCOMING))
        .child(behind(desk))
        .child(el("p").text(page::INCOMING_TEXT))
        .child(el("ul").child(rows))
        .child(studies)
        .child(shots)
        .child(more)
        .child(refused)
        .child(shelf)
        .child(el("div").class("actions").child(add).child(button(no).press(leave)))
}
