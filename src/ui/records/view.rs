//! The record of one batch: what happened, yield, fill weights, lots, and the seal. That of the batch that is worked on can be
//! added to; any other is read.

use super::correct::Correcting;
use super::{course, fills};
use crate::ui::browser::{self, minutes_ahead};
use crate::ui::desk::{Desk, Overlay};
use crate::ui::dom::{El, View, dynamic, el};
use crate::ui::field::button;
use crate::ui::papers::draw_paper;
use hundred_parts::batch::SealState;
use hundred_parts::desk::{DocId, RecordBody, check};
use hundred_parts::facts::IngredientId;
use hundred_parts::paper::{RecordFacts, record_facts};
use hundred_parts::words::{self, RecordStyle, batch_record, bench, record as said};
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

/// What is shown.
#[derive(Clone, PartialEq)]
enum Shown {
    Coming,
    Gone,
    Unreadable(String),
    /// A record, and whether it is that of the batch that is worked on.
    Record(Box<RecordFacts>, bool),
}

fn told(body: &RecordBody, title: &str, live: bool) -> Shown {
    match body.record() {
        Ok(record) => Shown::Record(Box::new(record_facts(&record, &check(body), title)), live),
        Err(problem) => Shown::Unreadable(problem.to_string()),
    }
}

/// What is said where the record cannot be shown yet, or not at all.
fn notice(shown: &Shown) -> View {
    let (head, text) = match shown {
        Shown::Coming => (batch_record::OPENING_RECORD, ""),
        Shown::Gone => (said::RECORD_GONE, ""),
        Shown::Unreadable(why) => (batch_record::RECORD_UNREADABLE, why.as_str()),
        Shown::Record(..) => return View::nothing(),
    };
    el("div").attr("role", "status").child(el("p").text(head)).child(el("p").class("small").text(text)).into()
}

/// The record, and the same as it prints.
pub(in crate::ui) fn record(desk: Desk) -> (View, View) {
    let Some((id, title)) = desk.shown_record.get_untracked() else { return super::list(desk) };
    let stored = RwSignal::new(Shown::Coming);
    load(desk, id.clone(), title.clone(), stored);
    let shown = crate::ui::dom::follow(move || {
        let live = desk.with_batch(|open| {
            let record = open.open_record().filter(|record| *record.id() == id)?;
            Some(told(record.body(), &title, true))
        });
        live.unwrap_or_else(|| stored.get())
    });
    let correcting = Correcting::new();
    let inside = dynamic(
        move || (shown.get(), correcting.open.get(), correcting.asked.get()),
        move |(shown, ..)| match shown {
            Shown::Record(facts, live) => whole(desk, facts, *live, correcting),
            other => notice(other),
        },
    );
    let printed_at = RwSignal::new(String::new());
    let printed = dynamic(
        move || shown.get(),
        move |shown| match shown {
            Shown::Record(facts, _) => {
                let name = |id: &IngredientId| desk.now(|open| bench::substance(id.as_str(), open.shelf()));
                let style = RecordStyle { zone: minutes_ahead, name: &name, sign: desk.sign };
                let paper = words::record_paper(facts, style);
                browser::set_foot(&paper.foot);
                el("div").class("record-print print-only").child(draw_paper(&paper, printed_at)).into()
            }
            _ => View::nothing(),
        },
    );
    (inside, printed)
}

/// Opens the record where it is that of the batch that is worked on, else reads it.
fn load(desk: Desk, id: DocId, title: String, stored: RwSignal<Shown>) {
    if desk.now(|open| open.open_record().is_some_and(|record| *record.id() == id)) {
        return;
    }
    spawn_local(async move {
        if desk.is_closed_batch(&id) && desk.open_batch(id.clone()).await {
            return;
        }
        let read = desk.read_record(&id).await;
        stored.try_set(read.map_or(Shown::Gone, |record| told(record.body(), &title, false)));
    });
}

fn whole(desk: Desk, facts: &RecordFacts, live: bool, correcting: Correcting) -> View {
    let seals = seals(facts);
    View::from_iter([
        el("p").class("small record-about").text(&said::subtitle(facts, minutes_ahead)),
        el("div")
            .class("record")
            .child(
                el("div")
                    .child(correcting.open.get().then(|| el("p").class("small").text(said::CORRECT_HINT)))
                    .child(course::line(desk, facts, correcting))
                    .child(seals),
            )
            .child(beside(desk, facts)),
        bar(desk, facts, live, correcting),
    ])
}

fn seals(facts: &RecordFacts) -> View {
    let one = |seal: &hundred_parts::batch::Seal| {
        let text = el("p").class("seal").text(&said::seal_text(seal, minutes_ahead));
        match seal.state {
            SealState::Intact => text,
            SealState::Changed => {
                el("div").class("seal-broken").attr("role", "alert").child(text).child(el("p").text(said::SEAL_BROKEN))
            }
        }
    };
    if facts.seals.is_empty() {
        return el("p").class("seal").text(said::NOT_SEALED).into();
    }
    let after = (facts.after_seals > 0).then(|| el("p").class("seal").text(&said::after_seal(facts.after_seals)));
    facts.seals.iter().map(one).chain(after).collect()
}

fn beside(desk: Desk, facts: &RecordFacts) -> El {
    let head = |text: &str| el("h3").text(text);
    let yields = said::yield_text(facts, desk.sign).map(|(share, of)| {
        let missing = said::unaccounted_text(facts, desk.sign).map(|text| el("p").class("small").text(&text));
        el("section")
            .child(head(said::YIELD))
            .child(el("p").class("yield").text(&share))
            .child(el("p").class("small").text(&of))
            .child(missing)
    });
    let fills = facts.fills.as_ref().map(|filled| {
        el("section")
            .child(head(said::FILL_WEIGHTS))
            .child(fills::picture(filled, desk.sign))
            .child(el("p").class("small").text(&said::fills_text(filled, desk.sign)))
    });
    let lots = el("section").child(head(said::FROM_LOTS)).child(el("p").class("small").text(&said::lots_text(facts)));
    el("aside").class("record-side").child(yields).child(fills).child(lots)
}

/// What can be done: of a record that is only read, its print and the way to the others.
fn bar(desk: Desk, facts: &RecordFacts, live: bool, correcting: Correcting) -> El {
    let print = button(said::PRINT_RECORD).press(browser::print);
    let bar = el("div").class("record-bar").child(el("strong").text(&said::status(facts)));
    if !live {
        let ours = ours(desk);
        return bar
            .child(button(said::BACK_TO_LIST).press(move || desk.show(Overlay::Batches)))
            .child(print)
            .child(ours.is_none().then(|| el("p").class("small").text(said::ONLY_TO_READ)))
            .child(ours.map(|id| button(batch_record::GO_ON_WITH).press(move || go_on(desk, &id))));
    }
    let open = correcting.open.get();
    let correct = move || {
        correcting.asked.set(None);
        correcting.open.set(!open);
        browser::focus(course::TITLE.to_owned());
    };
    let seal = move || {
        if desk.seal_record() {
            desk.say(said::SEALED_TOAST, None);
            browser::focus(course::TITLE.to_owned());
        }
    };
    let sealed = facts.seals.last().is_some_and(|seal| seal.state == SealState::Intact) && facts.after_seals == 0;
    let sealing = if facts.seals.is_empty() { said::CLOSE_AND_SEAL } else { said::SEAL_AGAIN };
    bar.child(button(if open { said::DONE_CORRECTING } else { said::CORRECT }).press(correct))
        .child(print)
        .child((!sealed).then(|| button(sealing).class("primary").press(seal)))
}

/// The batch that is shown, where it is an earlier one of the open formula.
fn ours(desk: Desk) -> Option<DocId> {
    let (id, _) = desk.shown_record.get_untracked()?;
    desk.now(|open| open.earlier_batches().iter().any(|(known, _)| *known == id)).then_some(id)
}

fn go_on(desk: Desk, id: &DocId) {
    desk.go_on_with(id);
    let id = id.clone();
    spawn_local(async move {
        desk.open_batch(id).await;
    });
}
