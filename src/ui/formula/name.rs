//! The name of a line, with a search over the shelf while typing.

use super::line::{RowSignal, RowView, moves};
use crate::ui::browser::focus;
use crate::ui::desk::{Desk, LazyTask, materials_named};
use crate::ui::dom::{El, View, dynamic, el, key, typed};
use crate::ui::entering::ENTER;
use crate::ui::field::text_input;
use hundred_parts::desk::Action;
use hundred_parts::facts::{IngredientId, beginning};
use hundred_parts::formula::{Choice, LineId};
use hundred_parts::shelf::{Wanted, search};
use hundred_parts::words::page;
use leptos::prelude::*;
use web_sys::Event;

/// How many proposals are shown.
const MOST: usize = 8;

/// A proposal: id, common name, INCI.
type Hit = (IngredientId, String, String);

/// What fits the name that is being typed; nothing once it is chosen from the shelf.
fn hits(desk: Desk, id: LineId) -> Vec<Hit> {
    desk.with(|open| {
        let formula = &open.state().formula;
        let Some(Choice::Named(query)) = formula.line(id).map(|line| &line.choice) else {
            return Vec::new();
        };
        let phase = formula.place_of(id).and_then(|(phase, _)| formula.phase(phase)).and_then(|phase| phase.usual());
        if query.trim().is_empty() {
            return Vec::new();
        }
        let shelf = open.shelf();
        let hit = |id: IngredientId| {
            let entry = shelf.entry(&id)?;
            let inci = entry.inci().map(|inci| beginning(inci.value).to_owned()).unwrap_or_default();
            Some((id, entry.label().to_owned(), inci))
        };
        search(shelf, Wanted { query, limit: MOST, phase }, &materials_named)
            .into_iter()
            .filter_map(|found| hit(found.id))
            .collect()
    })
}

/// A text field with a list of proposals under it.
pub(super) fn name_box(desk: Desk, id: LineId, row: RowSignal) -> El {
    let number = id.number();
    let open = RwSignal::new(false);
    let active = RwSignal::new(0usize);
    let found = RwSignal::new(Vec::<Hit>::new());
    let shut = move || {
        open.set(false);
        found.set(Vec::new());
    };
    let choose = move |ingredient: IngredientId| {
        desk.act(Action::ChooseLine(id, ingredient));
        shut();
        focus(format!("share-{number}"));
    };
    let keys = move |event: Event| {
        if moves(desk, id, &event, "name") {
            return;
        }
        let count = found.with_untracked(Vec::len);
        match key(&event).key().as_str() {
            "ArrowDown" if count > 0 => active.update(|at| *at = (*at + 1) % count),
            "ArrowUp" if count > 0 => active.update(|at| *at = (*at + count - 1) % count),
            "Escape" => shut(),
            "Enter" => {
                let at = active.get_untracked();
                match found.with_untracked(|found| found.get(at).map(|hit| hit.0.clone())) {
                    Some(ingredient) => choose(ingredient),
                    None if desk.ask_lazy(LazyTask::LeaveName(id)) => {}
                    None => focus(format!("share-{number}")),
                }
            }
            _ => return,
        }
        event.prevent_default();
    };
    let write = move |event: Event| {
        desk.act(Action::NameLine(id, typed(&event)));
        active.set(0);
        open.set(true);
        found.set(untrack(|| hits(desk, id)));
    };
    let list = format!("names-{number}");
    let shown = move || open.get() && !found.with(Vec::is_empty);
    let input = text_input(desk, &format!("name-{number}"))
        .attr(ENTER, "next")
        .attr("role", "combobox")
        .attr("maxlength", "120")
        .attr("aria-label", page::INGREDIENT)
        .attr("aria-autocomplete", "list")
        .attr("aria-controls", &list)
        .attr_of("aria-expanded", move || Some(shown().to_string()))
        .attr_of("aria-activedescendant", move || shown().then(|| format!("names-{number}-{}", active.get())))
        .value_of(move || row.with(|row| row.name.clone()))
        .on("input", write)
        .on("keydown", keys)
        .on("blur", move |_| shut());
    let proposals = dynamic(
        move || found.get(),
        move |found| {
            let row = |(n, (ingredient, label, inci)): (usize, &Hit)| {
                let ingredient = ingredient.clone();
                el("li")
                    .id(&format!("names-{number}-{n}"))
                    .attr("role", "option")
                    .attr_of("aria-selected", move || Some((active.get() == n).to_string()))
                    // Pressing must not take the focus from the field before the choice is made.
                    .on("mousedown", |event| event.prevent_default())
                    .press(move || choose(ingredient.clone()))
                    .child(el("span").text(label))
                    .child(el("small").text(inci))
            };
            found.iter().enumerate().map(row).collect::<View>()
        },
    );
    el("span")
        .class("name")
        .child(input)
        .child(
            el("span")
                .class("inci")
                .child(el("span").attr("lang", "la").text_of(move || row.with(|row| row.inci.clone())))
                .child(el("span").class("row-note").text_of(move || row.with(RowView::remark_behind))),
        )
        .child(
            el("ul")
                .id(&list)
                .class("hits")
                .attr("role", "listbox")
                .attr("aria-label", page::INGREDIENT)
                .hidden_if(move || !shown())
                .child(proposals),
        )
}
