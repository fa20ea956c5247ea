//! How long the batch keeps: what ends it, the first of that, and what was seen so far.

use super::typing::{Typing, forget};
use super::{Proof, of_study};
use crate::ui::dom::{El, View, dynamic, el, follow, svg};
use crate::ui::field::{button, folded, unfolding};
use hundred_parts::batch::study::{ShelfLife, Study, StudyEvent, StudyLot, shelf_life};
use hundred_parts::desk::{Action, BatchRef};
use hundred_parts::facts::Months;
use hundred_parts::formula::PaperField;
use hundred_parts::quantity::{Day, Quantity};
use hundred_parts::sheet::Figures;
use hundred_parts::words::{page, proof as words};
use leptos::prelude::*;

/// The width of a bar.
const WIDE: i64 = 300;

/// The card.
pub(super) fn card(proof: Proof) -> El {
    let found = |study: &Study| (study.basis.made, study.lots.clone(), study.rule, shelf_life(study));
    let inside = of_study(proof, found, move |(made, lots, _, life)| {
        View::from_iter([
            ends(*made, life),
            evidence(*made, life).into(),
            View::from_iter(
                [
                    words::lots_without_end(life.lots_without_end).map(|text| el("p").class("small").text(&text)),
                    Some(
                        el("p")
                            .id("binding")
                            .attr("role", "status")
                            .child(el("strong").text(&words::binding(life, proof.today))),
                    ),
                ]
                .into_iter()
                .flatten(),
            ),
            of_formula(proof, life.best_before()),
            el("p").class("small").text(words::NOT_A_PROMISE).into(),
            lot_ends(proof, lots.clone()).into(),
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
    let one = |(place, (day, what)): (usize, &(Day, hundred_parts::batch::study::ShelfLimit))| {
        el("div")
            .class(if place == 0 { "life binds" } else { "life" })
            .child(el("span").text(&words::limit(what)))
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

/// What only the formula of the batch can tell, where that is the one that is open: its oils, its pack, its label.
fn of_formula(proof: Proof, best_before: Option<Day>) -> View {
    let batch = proof.now(|study| study.basis.batch.clone()).unwrap_or_default();
    let found = follow(move || {
        let given = proof.desk.with(|open| {
            let named = |known: &BatchRef| matches!(known, BatchRef::Stored { id, .. } if id.as_str() == batch);
            let about = &open.state().formula;
            let own = open.document().batches.iter().any(named);
            own.then(|| {
                let papers = &about.papers;
                let opened = papers.months(PaperField::AfterOpening);
                (opened, page::pack(about.about.pack), papers.text(PaperField::BestBefore).to_owned())
            })
        });
        given.map(|given| {
            let outlook = proof.desk.derived(|derived| derived.sheet.fats.figures.as_ref().and_then(Figures::outlook));
            (given, outlook)
        })
    });
    dynamic(
        move || found.get(),
        move |found| {
            let Some(((opened, pack, on_label), outlook)) = found else { return View::nothing() };
            let life = |label: &str, text: &str| {
                el("div").class("life").child(el("span").text(label)).child(el("p").class("small").text(text))
            };
            let outlook = outlook.map(|outlook| life(words::OUTLOOK, words::outlook(outlook)));
            let label = best_before.map(|day| {
                if *on_label == day.text() {
                    return el("p").attr("role", "status").text(words::ON_LABEL);
                }
                button(words::TO_LABEL).press(move || {
                    proof.desk.act(Action::Paper(PaperField::BestBefore, day.text()));
                })
            });
            let opened = life(words::AFTER_OPENING, &words::after_opening(*opened, pack));
            View::from_iter(outlook.into_iter().chain([opened]).chain(label))
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

/// The lots and how long each is good.
fn lot_ends(proof: Proof, lots: Vec<StudyLot>) -> El {
    unfolding(folded(words::LOTS), move || {
        let one = |(place, lot): (usize, &StudyLot)| {
            let before = lot.expiry.map_or_else(String::new, Day::text);
            (lot.clone(), Typing::new(proof, "lots", &format!("{place}.{before}"), &before))
        };
        let fields: Vec<(StudyLot, Typing)> = lots.iter().enumerate().map(one).collect();
        let shown = fields.iter().enumerate().map(|(place, (lot, typing))| {
            let label = format!("{}, {}", words::lot_name(lot), words::LOT_END.to_lowercase());
            typing.words(&format!("lot-end-{place}"), &label)
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
            .child(el("p").class("small").text(words::DAY_HINT))
            .child(shown)
            .child(button(words::KEEP_LOT).press(keep))
    })
}
