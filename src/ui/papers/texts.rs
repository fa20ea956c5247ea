//! The texts that label and papers need beside the formula.

use crate::ui::desk::Desk;
use crate::ui::dom::{El, View, el, typed};
use crate::ui::field::{area_field, pick_field, quantity_field, text_field};
use hundred_parts::desk::Action;
use hundred_parts::formula::PaperField;
use hundred_parts::words;

/// The element in which a text is written.
pub(super) fn id(field: PaperField) -> String {
    format!("paper-{}", field.key())
}

/// A card with those for which `wanted` holds.
pub(super) fn card(desk: Desk, title: &str, wanted: fn(PaperField) -> bool) -> El {
    let fields = PaperField::ALL.iter().copied().filter(|field| wanted(*field));
    el("section")
        .class("card")
        .child(el("h2").text(title))
        .child(el("div").class("fields").child(fields.map(|field| one(desk, field)).collect::<View>()))
}

fn one(desk: Desk, field: PaperField) -> El {
    let (id, label) = (id(field), words::paper_field(field));
    let text = move || desk.with(|open| open.state().formula.papers.text(field).to_owned());
    let set = move |text: String| {
        desk.act(Action::Paper(field, text));
    };
    match field {
        PaperField::Nano => {
            let names = words::NANO.map(|(_, shown)| shown.to_owned());
            let at = move || words::NANO.iter().position(|(kept, _)| *kept == text()).unwrap_or(0);
            pick_field(&id, label, names, at, move |n| set(words::NANO.get(n).map_or("", |(kept, _)| kept).to_owned()))
        }
        PaperField::Address | PaperField::Storage | PaperField::ChallengeTest | PaperField::Stability => {
            area_field(desk, &id, label, text).on("input", move |event| set(typed(&event)))
        }
        PaperField::NetContent | PaperField::Durability | PaperField::AfterOpening | PaperField::WaterActivity => {
            let shown =
                move || desk.with(|open| words::paper_field_text(field, &open.state().formula.papers, desk.sign));
            quantity_field(desk, &id, label, "", shown, set)
        }
        _ => text_field(desk, &id, label, text, set),
    }
}
