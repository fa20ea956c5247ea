//! How long the batch keeps: what ends it, the first of that, and what was seen so far.

use super::typing::{Typing, forget};
use super::{Proof, of_study};
use crate::ui::dom::{El, View, dynamic, el, follow, svg};
use crate::ui::field::{button, folded, unfolding};
use hundred_parts::batch::study::{LotEnd, ShelfLife, ShelfLimit, Study, StudyEvent, StudyLot, shelf_life};
use hundred_parts::desk::{Action, BatchRef};
use hundred_parts::facts::Months;
use hundred_parts::formula::PaperField;
use hundred_parts::quantity::{Day, Quantity};
use hundred_parts::words::{page, proof as words};
use leptos::prelude::*;

/// The width of a bar.
const WIDE: i64 = 300;

/// The card.
pub(super) fn card(proof: Proof) -> El {
    let found = move |study: &Study| {
        let record = proof.record.get();
        let life = proof.desk.with(|open| shelf_life(study, record.as_deref(), open.shelf()));
        (study.basis.made, proof.today.get(), record.is_some(), life)
    };
    let inside = of_study(proof, found, move |(made, today, has_record, life)| {
        View::from_iter([
            ends(*made, life),
            evidence(*made, life).into(),
            life.outlook.map(|outlook| said(words::OUTLOOK, &words::outlook(outlook))).into(),
            (!has_record).then(|| el("p").class("small").text(words::NO_RECORD)).into(),
            words::ends_not_known(life).map(|text| el("p").class("small").text(&text)).into(),
            el("p").id("binding").attr("role", "status").child(el("strong").text(&words::binding(life, *today))).into(),
            of_formula(proof, life.best_before()),
            el("p").class("small").text(words::NOT_A_PROMISE).into(),
            lot_ends(proof, life.lots.clone()).into(),
        ])
    });
    el("section").class("keeps").child(el("h3").text(words::KEEPS)).child(inside).child(rule(proof))
}

/// Days from making to what ends it, as a bar: the last one fills it.
fn bar(days: i64, all: i64, class: &str) -> El {
    let width = days.clamp(0, all.max(1)) * WIDE / all.max(1);
    let part = svg("rect").attr("width", &width.to_string()).attr("height", "12").attr("rx", "4");
    svg("svg")
        .class(class)
        .attr("viewBox", "0 0 300 12")
        .attr("preserveAspectRatio", "none")
        .attr("aria-hidden", "true")
        .child(part)
}

/// The longest of what is drawn.
fn span(made: Day, life: &ShelfLife) -> i64 {
    let ends = life.limits.iter().map(|(day, _)| day.number() - made.number());
    ends.chain([life.evidence.days]).max().unwrap_or(1)
}

fn ends(made: Day, life: &ShelfLife) -> View {
    let all = span(made, life);
    let basis = |what: &ShelfLimit| {
        let text = words::limit_basis(what);
        (!text.is_empty()).then(|| el("small").text(&text))
    };
    let one = |(place, (day, what)): (usize, &(Day, ShelfLimit))| {
        el("div")
            .class(if place == 0 { "life binds" } else { "life" })
            .child(el("span").text(&words::limit(what)))
            .child(basis(what))
            .child(bar(day.number() - made.number(), all, "life-bar"))
            .child(el("b").text(&words::day(*day)))
    };
    life.limits.iter().enumerate().map(one).collect()
}

fn evidence(made: Day, life: &ShelfLife) -> El {
    el("div")
        .class("life")
        .child(el("span").text(words::EVIDENCE))
        .child(bar(life.evidence.days, span(made, life), "life-bar seen"))
        .child(el("b").text(&words::evidence(life)))
}

/// A row without a bar.
fn said(label: &str, text: &str) -> El {
    el("div").class("life").child(el("span").text(label)).child(el("p").class("small").text(text))
}

/// What only the formula of the batch can tell, where that is the one that is open: its pack, its label.
fn of_formula(proof: Proof, best_before: Option<Day>) -> View {
    let batch = proof.now(|study| study.basis.batch.clone()).unwrap_or_default();
    let found = follow(move || {
        proof.desk.with(|open| {
            let named = |known: &BatchRef| matches!(known, BatchRef::Stored { id, .. } if id.as_str() == batch);
            let about = &open.state().formula;
            let own = open.document().batches.iter().any(named);
            own.then(|| {
                let papers = &about.papers;
                let opened = papers.months(PaperField::AfterOpening);
                (opened, page::pack(about.about.pack), papers.text(PaperField::BestBefore).to_owned())
            })
        })
    });
    dynamic(
        move || found.get(),
        move |found| {
            let Some((opened, pack, on_label)) = found else { return View::nothing() };
            let (on_label, is_there) = (on_label.trim(), best_before.is_some_and(|day| on_label.trim() == day.text()));
            let other =
                (!on_label.is_empty() && !is_there).then(|| el("p").class("small").text(&words::label_says(on_label)));
            let label = best_before.map(|day| {
                if is_there {
                    return el("p").attr("role", "status").text(words::ON_LABEL);
                }
                button(words::TO_LABEL).press(move || {
                    proof.desk.act(Action::Paper(PaperField::BestBefore, day.text()));
                })
            });
            let opened = said(words::AFTER_OPENING, &words::after_opening(*opened, pack));
            View::from_iter([opened].into_iter().chain(other).chain(label))
        },
    )
}

/// The rule of the maker.
fn rule(proof: Proof) -> El {
    let before = proof.now(|study| study.rule).flatten().map_or_else(String::new, Quantity::canonical);
    let typing = Typing::new(proof, "rule", "months", &before);
    let keep = move || match typing.quantity::<Months>() {
        Err(()) => proof.desk.say(words::NOT_READ, None),
        Ok(rule) => {
            if proof.desk.note_study(StudyEvent::Ruled(rule)) {
                forget(proof, "rule");
                proof.desk.say(words::RULE_KEPT, None);
            }
        }
    };
    el("div")
        .class("rule")
        .child(
            typing
                .number::<Months>("proof-rule", words::RULE, words::IN_MONTHS)
                .child(el("small").text(words::RULE_HINT)),
        )
        .child(button(words::KEEP_RULE).press(keep))
}

/// The lots, how long each keeps and where that comes from, and what is noted of it for this batch.
fn lot_ends(proof: Proof, lots: Vec<LotEnd>) -> El {
    unfolding(folded(words::LOTS), move || {
        let one = |LotEnd { lot, .. }: &LotEnd| {
            let before = lot.expiry.map_or_else(String::new, Day::text);
            // By its name, as a record that is put right moves the places.
            (lot.clone(), Typing::new(proof, "lots", &format!("{}.{before}", words::lot_name(lot)), &before))
        };
        let fields: Vec<(StudyLot, Typing)> = lots.iter().map(one).collect();
        let shown = fields.iter().zip(&lots).enumerate().map(|(place, ((lot, typing), end))| {
            let label = format!("{}, {}", words::lot_name(lot), words::LOT_END.to_lowercase());
            typing.hinted(&format!("lot-end-{place}"), &label, &words::lot_keeps(end))
        });
        let shown = shown.collect::<View>();
        let keep = move || {
            if fields.iter().any(|(_, typing)| typing.day().is_err()) {
                return proof.desk.say(words::NOT_READ, None);
            }
            for (lot, typing) in fields.iter().filter(|(_, typing)| typing.is_changed()) {
                let lot = StudyLot { expiry: typing.day().ok().flatten(), ..lot.clone() };
                if !proof.desk.note_study(StudyEvent::Lot(lot)) {
                    return;
                }
            }
            forget(proof, "lots");
            proof.desk.say(words::LOTS_KEPT, None);
        };
        el("div")
            .class("lot-ends")
            .child(el("p").class("small").text(words::LOTS_SAY))
            .child(el("p").class("small").text(words::DAY_HINT))
            .child(shown)
            .child(button(words::KEEP_LOT).press(keep))
    })
}
