//! What can be done with a study as a whole: a file of its own, the bin, and back out of that.

use super::Proof;
use crate::ui::dom::{El, View, dynamic, el};
use crate::ui::field::{button, folded};
use hundred_parts::desk::{DocId, collection_text};
use hundred_parts::paper::file_name;
use hundred_parts::shelf::Shelf;
use hundred_parts::words::{page, photographs as words};
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

/// The file and the bin.
pub(super) fn ways(proof: Proof) -> El {
    let to_bin = move || {
        if let Some(id) = proof.desk.now(|open| open.open_study().map(|study| study.id().clone())) {
            proof.pull.set(None);
            proof.desk.bin(id, true);
        }
    };
    el("section")
        .class("card whole-study no-print")
        .child(
            el("div")
                .class("actions")
                .child(button(words::EXPORT_STUDY).press(move || spawn_local(export(proof))))
                .child(button(words::STUDY_TO_BIN).press(to_bin)),
        )
        .child(binned(proof))
}

/// Writes the study that is open into a file, with its photographs.
async fn export(proof: Proof) {
    let Some((body, title)) =
        proof.desk.now(|open| open.open_study().map(|study| (study.body().clone(), study.title().to_owned())))
    else {
        return;
    };
    let studies = [body];
    let text = collection_text([].iter(), &studies, &Shelf::default());
    let name = file_name(&title, words::STUDY_FILE, ".hundred-parts.json");
    match proof.desk.write_file(&name, &text, &studies).await {
        Some(0) => {}
        Some(lacks) => proof.desk.say(&words::not_in_file(lacks), None),
        None => proof.desk.say(hundred_parts::words::storage_notices::NOT_EXPORTED, None),
    }
}

/// Studies in the bin, each with the way back.
pub(super) fn binned(proof: Proof) -> View {
    dynamic(
        move || proof.binned.get(),
        move |binned| {
            if binned.is_empty() {
                return View::nothing();
            }
            let one = |(id, title): &(DocId, String)| {
                let id = id.clone();
                let back = move || {
                    proof.pull.set(None);
                    proof.desk.bin(id.clone(), false);
                };
                el("li").text(title).text(" ").child(button(page::RESTORE).press(back))
            };
            let list = el("ul").class("list").child(binned.iter().map(one).collect::<View>());
            folded(words::IN_THE_BIN).child(list).into()
        },
    )
}
