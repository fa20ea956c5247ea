//! Beginning a study: what it is for, and the batch that it begins from.

use super::{PULLS_TITLE, Proof, Shown};
use crate::ui::browser;
use crate::ui::dom::{El, View, dynamic, el};
use crate::ui::field::button;
use hundred_parts::batch::study::{StudyBasis, StudyEvent, usual_plan};
use hundred_parts::desk::{BatchState, Screen};
use hundred_parts::facts::Months;
use hundred_parts::quantity::{Ph, Quantity};
use hundred_parts::words::proof as words;
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

/// Where no study is open: what one is, and how it begins.
pub(super) fn empty(proof: Proof) -> View {
    el("section")
        .class("card proof-empty")
        .child(el("h3").id(PULLS_TITLE).attr("tabindex", "-1").text(words::NONE_YET))
        .child(el("p").text(words::TEACH))
        .child(el("p").text(words::TEACH_HOW))
        .child(from_batch(proof))
        .into()
}

/// Where one is open of another batch than the one that is worked on.
pub(super) fn another(proof: Proof) -> View {
    let other = move || {
        let batch = proof.desk.with(|open| open.batch_id().cloned());
        let open = proof.shown.with(|shown| match shown {
            Shown::Study(study) => study.basis.batch.clone(),
            _ => String::new(),
        });
        batch.is_some_and(|batch| batch.as_str() != open)
    };
    dynamic(other, move |other| {
        if !other {
            return View::nothing();
        }
        el("section").class("card").child(el("h3").text(words::BEGIN_ANOTHER)).child(from_batch(proof)).into()
    })
}

/// The basis of a study of the batch that is worked on, and the pH that the batch was to have; `Err` with what is missing.
fn basis(proof: Proof) -> Result<(StudyBasis, Option<Ph>), &'static str> {
    let today = proof.today.get();
    proof.desk.with(|open| {
        let (BatchState::Open(record), Some(id)) = (open.batch(), open.batch_id()) else {
            return Err(words::NEEDS_BATCH);
        };
        let made = record.began().and_then(browser::day_of).unwrap_or(today);
        let basis = StudyBasis::of(&record, id.as_str().to_owned(), made, today);
        Ok((basis.ok_or(words::NEEDS_FORMULA_OF_BATCH)?, record.target_ph()))
    })
}

fn from_batch(proof: Proof) -> View {
    let months = RwSignal::new(Months::from_units(3));
    dynamic(
        move || basis(proof),
        move |found| match found {
            Err(missing) => View::from_iter([
                el("p").text(missing),
                el("a").class("primary").attr("href", Screen::Batch.address()).text(words::TO_BATCH),
            ]),
            Ok((basis, target)) => begins(proof, basis.clone(), *target, months),
        },
    )
}

fn begins(proof: Proof, basis: StudyBasis, target: Option<Ph>, months: RwSignal<Months>) -> View {
    let choice = |number: i64| {
        let length = Months::from_units(number);
        let radio = el("input")
            .attr("type", "radio")
            .attr("name", "study-months")
            .attr("value", &number.to_string())
            .checked_of(move || months.get() == length)
            .on("change", move |_| months.set(length));
        el("label").child(radio).child(el("span").text(&words::months(length)))
    };
    let choices = el("fieldset")
        .class("seg")
        .child(el("legend").class("hidden").text(words::FOR_HOW_LONG))
        .child(words::MONTHS_CHOICES.into_iter().map(choice).collect::<View>());
    let head: El = el("p").child(el("strong").text(&words::batch_at_hand(&basis.code, &basis.title)));
    let begin = move || {
        let plan = usual_plan(months.get_untracked(), target);
        let event = StudyEvent::Begun { basis: basis.clone(), plan };
        spawn_local(async move {
            if proof.desk.begin_study(event).await {
                proof.desk.say(words::BEGUN, None);
                proof.look().await;
                browser::focus_soon(PULLS_TITLE.to_owned());
            }
        });
    };
    View::from_iter([head, choices, button(words::BEGIN).class("primary").press(begin)])
}
