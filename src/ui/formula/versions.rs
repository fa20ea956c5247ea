//! Kept versions, and one of them beside what is now.

use crate::ui::browser;
use crate::ui::desk::{Desk, FollowUp};
use crate::ui::dom::{El, LOCAL, View, dynamic, each, el, typed, when};
use crate::ui::entering::ENTER;
use crate::ui::field::{button, text_field, text_input};
use hundred_parts::desk::{Action, Version};
use hundred_parts::formula::{Comparison, compare, method_differs};
use hundred_parts::words::{change_text, choice_name, compared_share, page, storage_notices, versions as words};
use leptos::prelude::*;

/// The versions.
pub(in crate::ui) fn versions(desk: Desk) -> View {
    // A version of another formula is none of this one.
    dynamic(move || desk.with(|open| open.id().clone()), move |_| of_formula(desk))
}

fn of_formula(desk: Desk) -> View {
    let compared = RwSignal::new(None::<u32>);
    let numbers = move || -> Vec<u32> {
        desk.with(|open| open.document().versions.iter().rev().map(|version| version.number).collect())
    };
    let none = move || numbers().is_empty();
    let list = el("ul")
        .class("list kept-versions")
        .hidden_if(none)
        .child(each(numbers, move |number| kept(desk, number, compared)));
    let side_by_side = dynamic(
        move || {
            compared.get().map(|number| (called(desk, number), compared_rows(desk, number), new_method(desk, number)))
        },
        move |rows| {
            let Some((called, rows, method)) = rows else { return View::nothing() };
            let method = method.then(|| el("p").text(hundred_parts::words::method::CHANGED));
            View::from_iter([View::from(table(desk, called, rows)), method.into()])
        },
    );
    View::from_iter([
        save(desk).into(),
        when(none, || el("p").text(page::NO_VERSIONS).into()),
        list.into(),
        side_by_side,
    ])
}

/// Keeps the formula as it is now, under a name if one is typed.
fn save(desk: Desk) -> El {
    let name = RwSignal::new(String::new());
    let keep = move |event: web_sys::Event| {
        event.prevent_default();
        let number = desk.save_version();
        let called = name.get_untracked();
        if !called.trim().is_empty() {
            desk.name_version(number, called.clone());
        }
        desk.say(&words::saved(number, &called), None);
        name.set(String::new());
    };
    let field = text_field(desk, "version-name", words::NAME, move || name.get(), move |text| name.set(text));
    let button = el("button").class("primary").attr("type", "submit").text(page::SAVE_VERSION);
    el("form").flag(LOCAL).class("save-version").attr(ENTER, "done").on("submit", keep).child(field).child(button)
}

/// A kept version: its name can be typed where it stands.
fn kept(desk: Desk, number: u32, compared: RwSignal<Option<u32>>) -> El {
    let read = move |read: fn(&Version) -> String| desk.with(|open| open.document().version(number).map(read));
    let saved = untrack(|| desk.with(|open| open.document().version(number).map(|version| version.saved)));
    let heading = words::heading(number, &saved.map(browser::local_time).unwrap_or_default());
    let back = move || {
        if let Some((older, left_out)) = desk.now(|open| open.document().with_version(number)) {
            desk.act(Action::Restore(Box::new(older)));
            desk.say(&storage_notices::brought_back(left_out), Some(FollowUp::Undo));
        }
    };
    let name = text_input(desk, &format!("version-name-{number}"))
        .flag(LOCAL)
        .attr("maxlength", "200")
        .attr("aria-label", &words::name_of(number))
        .attr("placeholder", page::NAME)
        .value_of(move || read(|version| version.name.clone()).unwrap_or_default())
        .on("input", move |event| desk.name_version(number, typed(&event)));
    let acts = el("span")
        .class("actions")
        .child(button(page::COMPARE).press(move || compared.set(Some(number))))
        .child(button(page::BRING_BACK).press(back));
    el("li").child(el("small").text(&heading)).child(name).child(acts)
}

fn called(desk: Desk, number: u32) -> String {
    desk.with(|open| open.document().version(number).map(|version| words::called(number, &version.name)))
        .unwrap_or_default()
}

fn compared_rows(desk: Desk, number: u32) -> Vec<(String, Comparison)> {
    desk.with(|open| {
        let version = open.document().version(number)?;
        let rows = compare(&version.formula, &open.state().formula);
        Some(rows.into_iter().map(|row| (choice_name(&row.choice, open.shelf()), row)).collect())
    })
    .unwrap_or_default()
}

fn new_method(desk: Desk, number: u32) -> bool {
    let differs = |version: &Version| desk.with(|open| method_differs(&version.formula, &open.state().formula));
    desk.with(|open| open.document().version(number).is_some_and(differs))
}

fn table(desk: Desk, called: &str, rows: &[(String, Comparison)]) -> El {
    let head = |text: &str| el("th").attr("scope", "col").text(text);
    let cell = |text: &str| el("td").text(text);
    let row = |(name, row): &(String, Comparison)| {
        el("tr")
            .child(el("th").attr("scope", "row").text(name))
            .child(cell(&compared_share(&row.before, desk.sign)))
            .child(cell(&compared_share(&row.after, desk.sign)))
            .child(cell(&change_text(&row.change, desk.sign)))
    };
    let metas = el("tr")
        .child([page::INGREDIENT, page::BEFORE, page::NOW, page::CHANGE].map(head).into_iter().collect::<View>());
    el("table")
        .class("compare")
        .child(el("caption").text(called))
        .child(el("thead").child(metas))
        .child(el("tbody").child(rows.iter().map(row).collect::<View>()))
}
