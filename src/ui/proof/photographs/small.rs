//! All photographs of a study, small: a row a condition, in the order of time, so that a change can be seen.

use super::super::{Proof, of_study};
use crate::ui::desk::Overlay;
use crate::ui::dom::{El, View, effect, el};
use crate::ui::field::button;
use hundred_parts::batch::study::{ConditionKind, PhotographId, Study, StudyPhotograph, Tally};
use hundred_parts::words::{photographs as words, proof};
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

/// The card, once there is one.
pub(in crate::ui::proof) fn card(proof: Proof) -> View {
    of_study(proof, Study::photographs_by_condition, move |rows| {
        if rows.is_empty() {
            return View::nothing();
        }
        let ids: Vec<PhotographId> = rows.iter().flat_map(|(_, row)| row).map(|one| one.photograph.id).collect();
        // Again when a file has brought what was not here.
        effect(Box::new(move || {
            proof.desk.studies_came.track();
            proof.shots.ask(proof.desk, ids.iter().copied());
        }));
        el("section")
            .class("card shots-card")
            .child(el("h3").text(words::TITLE))
            .child(rows.iter().map(|(kind, row)| self::row(proof, *kind, row)).collect::<View>())
            .child(kept(proof))
            .into()
    })
}

fn row(proof: Proof, kind: ConditionKind, row: &[StudyPhotograph]) -> El {
    el("div")
        .class("shots")
        .child(el("h4").text(proof::condition(kind)))
        .child(el("ul").child(row.iter().map(|one| el("li").child(small(proof, one))).collect::<View>()))
}

/// One, which opens over the page.
pub(super) fn small(proof: Proof, of: &StudyPhotograph) -> El {
    let short = of.photograph.id.short();
    let (struck, own) = (of.struck.is_some(), of.photograph.caption.trim());
    button("")
        .class("shot")
        .class_if("struck", move || struck)
        .child(proof.shots.image(of))
        .child(el("small").text(&words::short(of)))
        .child((!own.is_empty()).then(|| el("small").class("own-words").attr("aria-hidden", "true").text(own)))
        .child(struck.then(|| el("small").attr("aria-hidden", "true").text(words::CROSSED)))
        .press(move || proof.desk.show(Overlay::Photograph(short)))
}

/// How much storage all photographs of this device take.
fn kept(proof: Proof) -> El {
    let tally = RwSignal::new(None::<Tally>);
    spawn_local(async move {
        let found = proof.desk.kept_tally().await;
        tally.try_set(Some(found));
    });
    let text = move || tally.get().map_or_else(String::new, |tally| words::kept(tally, proof.desk.sign));
    el("p").class("small no-print").text_of(text)
}
