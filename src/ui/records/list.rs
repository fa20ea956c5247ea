//! The list of batches: from what the stores say of them. Their records are read only where a lot is looked for or traced.

use super::show;
use super::trace::Traced;
use super::used::Used;
use crate::ui::browser;
use crate::ui::desk::Desk;
use crate::ui::dom::{El, LOCAL, View, dynamic, el, typed, when};
use crate::ui::field::text_input;
use hundred_parts::batch::UsedBatch;
use hundred_parts::desk::{BatchRow, DocId, RecordDocument, find_batches, lots_of};
use hundred_parts::words::record as words;
use leptos::prelude::*;
use std::time::Duration;
use wasm_bindgen_futures::spawn_local;

/// How many rows are drawn at once; a search finds the others.
const MOST: usize = 100;
/// How many records are read between two frames.
const AT_ONCE: usize = 12;

/// The list and its search, or where one lot went, and the recall sheet of that lot as it prints.
pub(in crate::ui) fn list(desk: Desk) -> (View, View) {
    let used = Used::later(desk);
    let (traced, at_once) = Traced::new(used);
    let (one, printed) = traced.one(desk);
    let search = el("div").hidden_if(move || traced.is_open()).child(searched(desk, used, traced, at_once));
    (View::from_iter([View::from(search), one]), printed)
}

fn searched(desk: Desk, used: Used, traced: Traced, at_once: bool) -> View {
    let rows = RwSignal::new(None::<Vec<BatchRow>>);
    let (query, reading) = (RwSignal::new(String::new()), RwSignal::new(false));
    spawn_local(async move {
        let metas = desk.batch_metas().await;
        let row = |meta| BatchRow::of(meta, browser::minutes_ahead);
        rows.try_set(Some(metas.into_iter().map(row).collect()));
        if at_once {
            reading.try_set(true);
            read_lots(desk, rows, used).await;
        }
    });
    let look = move |event: web_sys::Event| {
        query.set(typed(&event));
        // Lots stand in the records alone.
        if query.with_untracked(|query| !query.trim().is_empty()) && !reading.get_untracked() {
            reading.set(true);
            spawn_local(read_lots(desk, rows, used));
        }
    };
    let search = text_input(desk, "find-batch")
        .flag(LOCAL)
        .attr("type", "search")
        .attr("maxlength", "100")
        .attr("placeholder", words::SEARCH)
        .value_of(move || query.get())
        .on("input", look);
    // Without what is searched: lots that come in draw no row anew.
    let found = move || -> Option<Vec<DrawnRow>> {
        let listed = |row: &BatchRow| DrawnRow { id: row.id.clone(), title: row.title.clone(), day: row.day.clone() };
        let found = |rows: &Vec<BatchRow>| {
            query.with(|query| find_batches(rows, query).into_iter().take(MOST).map(listed).collect())
        };
        rows.with(|rows| rows.as_ref().map(found))
    };
    let unread = move || rows.with(|rows| rows.as_ref().is_some_and(|rows| rows.iter().any(|row| !row.is_read())));
    let list = dynamic(found, move |found| match found {
        None => View::nothing(),
        Some(found) if found.is_empty() => {
            let none = if query.with_untracked(|query| query.trim().is_empty()) {
                words::NO_BATCHES
            } else {
                words::NO_BATCH_FOUND
            };
            el("p").class("empty").text(none).into()
        }
        Some(found) => {
            el("ul").class("list").child(found.iter().map(|found| row(desk, found)).collect::<View>()).into()
        }
    });
    let looking = when(
        move || reading.get() && unread(),
        || el("p").class("small").attr("role", "status").text(words::READING_LOTS).into(),
    );
    View::from_iter([
        el("label").class("hidden").attr("for", "find-batch").text(words::SEARCH).into(),
        View::from(search),
        looking,
        traced.found(move || query.get()),
        list,
    ])
}

/// A row as it is drawn.
#[derive(Clone, PartialEq)]
struct DrawnRow {
    id: DocId,
    title: String,
    day: String,
}

fn row(desk: Desk, found: &DrawnRow) -> El {
    let (id, title) = (found.id.clone(), found.title.clone());
    let go = move || show(desk, id.clone(), title.clone());
    el("li").child(button(found).press(go).child(el("small").text(&found.day)))
}

fn button(found: &DrawnRow) -> El {
    crate::ui::field::button(&words::title("", &found.title))
}

/// What a record says was used up; nothing where it cannot be read.
pub(super) fn folded(record: &RecordDocument) -> Option<UsedBatch> {
    let read = record.body().record().ok()?;
    Some(UsedBatch::of(record.id().as_str(), record.title(), &read))
}

/// Reads the records a few at a time, so that typing goes on meanwhile.
async fn read_lots(desk: Desk, rows: RwSignal<Option<Vec<BatchRow>>>, used: Used) {
    let mut batches = Vec::new();
    loop {
        let next: Option<Vec<_>> = rows.try_with_untracked(|rows| {
            let unread = rows.iter().flatten().filter(|row| !row.is_read()).take(AT_ONCE);
            unread.map(|row| row.id.clone()).collect()
        });
        let Some(next) = next else { return };
        if next.is_empty() {
            return used.put(batches);
        }
        let mut read = Vec::new();
        for id in next {
            let record = desk.read_record(&id).await;
            let lots = record.as_ref().map(|record| lots_of(record.body())).unwrap_or_default();
            batches.extend(record.as_ref().and_then(folded));
            read.push((id, lots));
        }
        // All of them at once: what is found is looked for again with each change.
        let set = rows.try_update(|rows| {
            for row in rows.iter_mut().flatten() {
                if let Some((_, lots)) = read.iter().find(|(id, _)| *id == row.id) {
                    row.with_lots(lots);
                }
            }
        });
        if set.is_none() {
            return;
        }
        browser::pause(Duration::ZERO).await;
    }
}
