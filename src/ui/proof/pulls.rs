//! The pulls of a study by condition: each a button that opens its form.

use super::{PULL_TITLE, PULLS_TITLE, Proof, of_study};
use crate::ui::browser;
use crate::ui::dom::{El, View, el};
use crate::ui::field::button;
use hundred_parts::batch::study::{CriterionState, Pull, Study, StudyCondition, judge_pull};
use hundred_parts::quantity::Day;
use hundred_parts::words::proof as words;
use leptos::prelude::*;

/// A pull and how it stands.
type PullCell = (Pull, Option<CriterionState>);

/// The card.
pub(super) fn grid(proof: Proof) -> El {
    let found = move |study: &Study| (proof.today.get(), rows(study));
    let rows = of_study(proof, found, move |(today, rows)| {
        rows.iter().map(|(of, pulls)| row(proof, *today, of, pulls)).collect()
    });
    el("section")
        .class("card pulls-card")
        .child(el("h3").id(PULLS_TITLE).attr("tabindex", "-1").text(words::PULLS))
        .child(el("div").class("pulls").child(rows))
}

fn rows(study: &Study) -> Vec<(StudyCondition, Vec<PullCell>)> {
    let standing = |pull: &Pull| (*pull, study.seen_of(pull).map(|seen| judge_pull(study, seen)));
    let row = |of: &StudyCondition| {
        let own = study.pulls.iter().filter(|pull| pull.condition == of.kind);
        (of.clone(), own.map(standing).collect::<Vec<_>>())
    };
    study.plan.conditions.iter().map(row).filter(|(_, pulls)| !pulls.is_empty()).collect()
}

fn row(proof: Proof, today: Day, of: &StudyCondition, pulls: &[PullCell]) -> El {
    let cell = |(pull, found): &PullCell| el("li").child(cell(proof, today, *pull, *found));
    el("div")
        .class("pull-row")
        .child(el("p").text(&words::condition_at(of, proof.desk.sign)))
        .child(el("ul").child(pulls.iter().map(cell).collect::<View>()))
}

fn cell(proof: Proof, today: Day, pull: Pull, found: Option<CriterionState>) -> El {
    let class = match found {
        Some(CriterionState::Outside) => "outside",
        Some(CriterionState::Care) => "care",
        Some(_) => "seen",
        None if pull.due <= today => "due",
        None => "later",
    };
    button("")
        .class(class)
        .child(el("span").class("hidden").text(&words::pull(&pull, found, today)))
        .child(el("small").attr("aria-hidden", "true").text(&words::short_point(pull.point)))
        .child(el("span").attr("aria-hidden", "true").text(&words::pull_mark(&pull, found, today)))
        .press(move || open(proof, pull))
}

/// Opens the form of a pull.
pub(super) fn open(proof: Proof, pull: Pull) {
    proof.pull.set(Some(pull));
    browser::focus_soon(PULL_TITLE.to_owned());
}
