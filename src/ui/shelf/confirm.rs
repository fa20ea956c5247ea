//! The maker's word for a saponification value that stands out.

use crate::ui::desk::Desk;
use crate::ui::dom::{El, LOCAL, View, dynamic, el, typed};
use crate::ui::field::{button, text_input};
use hundred_parts::desk::ShelfAction;
use hundred_parts::facts::{Field, IngredientId};
use hundred_parts::words::oils;
use leptos::prelude::*;

/// Asks for a reason where one is needed, and shows the one that stands.
pub(super) fn saponification(desk: Desk, id: IngredientId) -> El {
    let wanted = id.clone();
    let asked = move || {
        let fat = desk.with(|open| open.shelf().entry(&wanted)).and_then(|entry| entry.fat());
        fat.and_then(|fat| fat.sv_apart).map(|(_, reason)| reason)
    };
    el("div").child(dynamic(asked, move |asked| match asked {
        None => View::nothing(),
        Some(None) => ask(desk, id.clone()).into(),
        Some(Some(_)) => {
            let id = id.clone();
            let back = move || {
                desk.act_on_shelf(ShelfAction::Set(id.clone(), Field::SvReason, String::new()));
            };
            el("div").class("actions").child(button(oils::UNCONFIRM).press(back)).into()
        }
    }))
}

fn ask(desk: Desk, id: IngredientId) -> El {
    let reason = RwSignal::new(String::new());
    let given = move || !reason.with(|reason| reason.trim().is_empty());
    let confirm = move || {
        let text = reason.get_untracked().trim().to_owned();
        if !text.is_empty() {
            desk.act_on_shelf(ShelfAction::Set(id.clone(), Field::SvReason, text));
        }
    };
    let input = text_input(desk, "sv-reason")
        .flag(LOCAL)
        .attr("maxlength", "200")
        .value_of(move || reason.get())
        .on("input", move |event| reason.set(typed(&event)));
    el("div").class("field").child(el("label").attr("for", "sv-reason").text(oils::CONFIRM_SV)).child(
        el("span")
            .class("with-unit")
            .child(input)
            .child(button(oils::CONFIRM).press(confirm).disabled_if(move || !given())),
    )
}
