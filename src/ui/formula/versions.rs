//! Kept versions, and one of them beside what is now.

use crate::ui::browser;
use crate::ui::desk::{Desk, FollowUp};
use crate::ui::dom::{El, View, dynamic, el};
use crate::ui::field::button;
use hundred_parts::desk::Action;
use hundred_parts::formula::{Comparison, compare};
use hundred_parts::quantity::Timestamp;
use hundred_parts::words::{self, page, storage_notices};
use leptos::prelude::*;

/// The versions.
pub(in crate::ui) fn versions(desk: Desk) -> View {
    let compared = RwSignal::new(None::<u32>);
    // A version of another formula is none of this one.
    let id = Memo::new(move |_| desk.with(|open| open.id().clone()));
    Effect::new(move |_| {
        id.track();
        compared.set(None);
    });
    let list = move || -> Vec<(u32, Timestamp)> {
        desk.with(|open| open.document().versions.iter().rev().map(|version| (version.number, version.saved)).collect())
    };
    let save = move || {
        let number = desk.save_version();
        desk.say(&format!("{}{number}.", page::VERSION_SAVED), None);
    };
    let back = move |number: u32| {
        if let Some((older, left_out)) = desk.now(|open| open.document().with_version(number)) {
            desk.act(Action::Restore(Box::new(older)));
            desk.say(&storage_notices::brought_back(left_out), Some(FollowUp::Undo));
        }
    };
    let row = move |(number, saved): &(u32, Timestamp)| {
        let number = *number;
        el("li")
            .text(&format!("{number} \u{2013} {} ", browser::local_time(*saved)))
            .child(button(page::COMPARE).press(move || compared.set(Some(number))))
            .child(button(page::BRING_BACK).press(move || back(number)))
    };
    let rows = dynamic(list, move |list| {
        if list.is_empty() {
            return el("p").text(page::NO_VERSIONS).into();
        }
        el("ul").class("list").child(list.iter().map(row).collect::<View>()).into()
    });
    let side_by_side = dynamic(
        move || compared.get().map(|number| compared_rows(desk, number)),
        move |rows| View::from(rows.as_ref().map(|rows| table(desk, rows))),
    );
    View::from_iter([button(page::SAVE_VERSION).press(save).into(), rows, side_by_side])
}

fn compared_rows(desk: Desk, number: u32) -> Vec<(String, Comparison)> {
    desk.with(|open| {
        let version = open.document().versions.iter().find(|version| version.number == number)?;
        let rows = compare(&version.formula, &open.state().formula);
        Some(rows.into_iter().map(|row| (words::choice_name(&row.choice, open.shelf()), row)).collect())
    })
    .unwrap_or_default()
}

fn table(desk: Desk, rows: &[(String, Comparison)]) -> El {
    let head = |text: &str| el("th").attr("scope", "col").text(text);
    let cell = |text: &str| el("td").text(text);
    let row = |(name, row): &(String, Comparison)| {
        el("tr")
            .child(el("th").attr("scope", "row").text(name))
            .child(cell(&words::compared_share(&row.before, desk.sign)))
            .child(cell(&words::compared_share(&row.after, desk.sign)))
            .child(cell(&words::change_text(&row.change, desk.sign)))
    };
    let metas = el("tr")
        .child([page::INGREDIENT, page::BEFORE, page::NOW, page::CHANGE].map(head).into_iter().collect::<View>());
    el("table")
        .class("compare")
        .child(el("thead").child(metas))
        .child(el("tbody").child(rows.iter().map(row).collect::<View>()))
}
