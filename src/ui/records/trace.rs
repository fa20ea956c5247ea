//! Where a lot went: the lots of a name among all batches, the batches of one with their packs, and its recall sheet.

use super::show;
use super::used::Used;
use crate::ui::browser::{self, minutes_ahead};
use crate::ui::desk::{Desk, Overlay};
use crate::ui::dom::{El, View, dynamic, effect, el, follow};
use crate::ui::field::button;
use crate::ui::papers::draw_paper;
use hundred_parts::batch::{LotIndex, TracedLot, UsedBatch, trace_lot};
use hundred_parts::desk::DocId;
use hundred_parts::facts::IngredientId;
use hundred_parts::paper::{RecallFacts, recall_facts};
use hundred_parts::words::{self, trace as said};
use leptos::prelude::*;
use std::cell::RefCell;
use std::sync::Arc;

/// How many lots of a name are drawn at once; more of the name finds the others.
const MOST: usize = 40;
/// The heading of a lot that is shown.
const TITLE: &str = "trace-title";

/// An ingredient of the shelf, what it is called, and a lot of it.
type WantedLot = (IngredientId, String, String);

thread_local! {
    /// The lot that the list of batches is to open with.
    static WANTED: RefCell<Option<WantedLot>> = const { RefCell::new(None) };
}

/// Shows where a lot of the shelf went.
pub(in crate::ui) fn show_lot(desk: Desk, wanted: WantedLot) {
    WANTED.with_borrow_mut(|at| *at = Some(wanted));
    desk.show(Overlay::Batches);
}

/// What the list of batches shows of lots.
#[derive(Clone, Copy)]
pub(super) struct Traced {
    used: Used,
    /// The lot that is looked at.
    open: RwSignal<Option<TracedLot>>,
}

impl Traced {
    /// With what is put into `used` once the records were read; true if a lot is to be shown at once.
    pub(super) fn new(used: Used) -> (Self, bool) {
        let open = RwSignal::new(None);
        let wanted = WANTED.with_borrow_mut(Option::take);
        let at_once = wanted.is_some();
        if let Some((ingredient, name, lot)) = wanted {
            effect(Box::new(move || {
                if let Some(batches) = used.get().filter(|_| open.with_untracked(Option::is_none)) {
                    let nowhere = || TracedLot {
                        ingredient: Some(ingredient.clone()),
                        name: name.clone(),
                        lot: lot.trim().to_owned(),
                        batches: Vec::new(),
                    };
                    open.set(Some(trace_lot(&batches, &ingredient, &lot).unwrap_or_else(nowhere)));
                }
            }));
        }
        (Self { used, open }, at_once)
    }

    /// True while one lot is looked at.
    pub(super) fn is_open(self) -> bool {
        self.open.with(Option::is_some)
    }

    /// The lots of a name, each a way to where it went.
    pub(super) fn found(self, query: impl Fn() -> String + 'static) -> View {
        let index = follow(move || self.used.get().map(|batches| Arc::new(LotIndex::of(&batches))));
        let lots = move || -> (Vec<(TracedLot, String)>, usize) {
            let Some((batches, index)) = self.used.get().zip(index.get()) else { return (Vec::new(), 0) };
            let told = |lot: &TracedLot| (lot.clone(), said::lot(lot, &batches));
            let found = index.find(&query());
            (found.iter().take(MOST).map(|lot| told(lot)).collect(), found.len().saturating_sub(MOST))
        };
        dynamic(lots, move |(lots, more)| {
            let one = |(lot, text): &(TracedLot, String)| {
                let lot = lot.clone();
                let go = move || {
                    self.open.set(Some(lot.clone()));
                    browser::focus(TITLE.to_owned());
                };
                el("li").child(button(text).press(go))
            };
            let list = || {
                el("section")
                    .class("traced")
                    .child(el("h3").text(said::LOTS_FOUND))
                    .child(el("ul").class("list").child(lots.iter().map(one).collect::<View>()))
                    .child((*more > 0).then(|| el("p").class("small").text(&words::and_more(*more))))
            };
            (!lots.is_empty()).then(list).into()
        })
    }

    /// The lot that is looked at, and the sheet that prints.
    pub(super) fn one(self, desk: Desk) -> (View, View) {
        // Worked out once, for the page and for the paper.
        let shown = follow(move || self.open.get().and_then(|lot| Some(facts(desk, &lot, &self.used.get()?))));
        let inside = dynamic(
            move || shown.get(),
            move |shown| match shown {
                None => View::nothing(),
                Some(facts) => self.whole(desk, facts),
            },
        );
        let printed_at = RwSignal::new(String::new());
        let paper = dynamic(
            move || shown.get(),
            move |shown| match shown {
                None => View::nothing(),
                Some(facts) => {
                    let paper = words::recall_paper(facts, minutes_ahead, desk.sign);
                    browser::set_foot(&paper.foot);
                    el("div").class("record-print print-only").child(draw_paper(&paper, printed_at)).into()
                }
            },
        );
        (inside, paper)
    }

    fn whole(self, desk: Desk, facts: &RecallFacts) -> View {
        let back = move || {
            self.open.set(None);
            browser::focus("find-batch".to_owned());
        };
        let title = el("h3").id(TITLE).attr("tabindex", "-1").text(&said::heading(&facts.lot, &facts.material));
        let bar = el("div")
            .class("record-bar")
            .child(button(said::PRINT).class("primary").press(browser::print))
            .child(button(said::BACK).press(back));
        let planned = facts.has_planned().then(|| el("p").class("small").text(said::PLANNED_SAYS));
        let rows = facts.batches.iter().map(|row| batch(desk, &row.batch, row.mass)).collect::<View>();
        View::from_iter([
            title.into(),
            el("p").text(&words::recall_summary(facts, minutes_ahead, desk.sign)).into(),
            View::from(el("ul").class("list").child(rows)),
            View::from(planned),
            View::from(bar),
        ])
    }
}

fn batch(desk: Desk, batch: &UsedBatch, mass: Option<hundred_parts::quantity::Mass>) -> El {
    let title = words::record::title(&batch.code, &batch.title);
    let id = DocId::from(batch.key.clone());
    let row = button(&title).child(el("small").text(&said::row(batch, mass, minutes_ahead, desk.sign)));
    el("li").child(row.press(move || show(desk, id.clone(), title.clone())))
}

/// What the sheet of a lot says, with its delivery where the shelf has it.
fn facts(desk: Desk, lot: &TracedLot, batches: &Arc<Vec<UsedBatch>>) -> RecallFacts {
    desk.now(|open| {
        let entry = lot.ingredient.as_ref().and_then(|id| open.shelf().entry(id));
        let delivery = lot.ingredient.as_ref().map(|id| open.shelf().lots_of(id)).unwrap_or_default();
        let delivery = delivery.iter().find(|one| one.name.trim() == lot.lot);
        recall_facts(lot, batches, entry.as_ref().map(|entry| entry.label()), delivery)
    })
}
