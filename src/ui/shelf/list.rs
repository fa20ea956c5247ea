//! The list of ingredients, what it is narrowed by, and the field for one of the maker's own.

use super::entry::entry;
use super::stock::{self, InStock};
use crate::ui::browser::focus;
use crate::ui::desk::{Desk, materials_named};
use crate::ui::dom::{El, LOCAL, View, dynamic, el, is_enter, typed};
use crate::ui::entering::ENTER;
use crate::ui::field::{button, text_input};
use hundred_parts::facts::{IngredientId, beginning};
use hundred_parts::shelf::{Family, Ingredient, Kept, Shelf, Wanted, search};
use hundred_parts::words::{self, catalogue, oils, page};
use leptos::prelude::*;

/// More than any shelf has: a list that ended without a word would hide the rest.
const MOST: usize = 100_000;

/// What a row of the list shows.
#[derive(Clone, PartialEq)]
struct Found {
    id: IngredientId,
    label: String,
    inci: String,
    note: String,
    /// In stock, and nothing from its supplier names a document.
    open: bool,
}

/// What the list is narrowed by.
#[derive(Clone, Copy)]
struct Narrowed {
    query: RwSignal<String>,
    kept: RwSignal<Kept>,
    family: RwSignal<Family>,
}

fn found(desk: Desk, stock: InStock, shelf: &Shelf, narrowed: Narrowed) -> Vec<Found> {
    let (kept, family) = (narrowed.kept.get(), narrowed.family.get());
    let row = |entry: Ingredient| {
        let inci = entry.inci().map(|inci| beginning(inci.value).to_owned()).unwrap_or_default();
        Found {
            id: entry.id().clone(),
            label: entry.label().to_owned(),
            inci: if inci.eq_ignore_ascii_case(entry.label()) { String::new() } else { inci },
            note: stock.row(desk, entry.id()).unwrap_or_else(|| words::shelf_note(&entry)),
            open: entry.in_hand() && !entry.has_document(),
        }
    };
    narrowed.query.with(|query| {
        let hits = search(shelf, Wanted::anywhere(query, MOST), &materials_named);
        let entries = hits.into_iter().filter_map(|hit| shelf.entry(&hit.id));
        entries.filter(|entry| kept.holds(entry) && family.holds(entry)).map(row).collect()
    })
}

fn count(desk: Desk, kept: Kept) -> usize {
    desk.with(|open| {
        let shelf = open.shelf();
        let ids = shelf.ids();
        let entries = ids.iter().filter_map(|id| shelf.entry(id));
        entries.filter(|entry| !entry.is_class() && kept.holds(entry)).count()
    })
}

/// The list, and beside it what is open of it.
pub(super) fn ingredients(desk: Desk, fats: RwSignal<bool>) -> El {
    let first = if count(desk, Kept::InStock) > 0 { Kept::InStock } else { Kept::All };
    let narrowed = Narrowed {
        query: RwSignal::new(String::new()),
        kept: RwSignal::new(first),
        family: RwSignal::new(Family::default()),
    };
    let open = RwSignal::new(None::<IngredientId>);
    let stock = InStock::read(desk);
    let side = el("div")
        .class("shelf-list")
        .child(stock::top(desk, stock, open))
        .child(
            el("div")
                .class("find")
                .child(el("label").class("hidden").attr("for", "search-shelf").text(page::SEARCH_SHELF))
                .child(finder(desk, narrowed))
                .child(switch(desk, narrowed)),
        )
        .child(families(narrowed))
        .child(
            el("section")
                .class("ledger")
                .attr("aria-label", catalogue::INGREDIENTS)
                .child(list(desk, stock, narrowed, open)),
        )
        .child(own(desk, narrowed, open))
        .child(el("div").class("actions").child(button(oils::FATS).press(move || fats.set(true))));
    let shown = dynamic(move || open.get(), move |id| View::from(id.clone().map(|id| entry(desk, stock, id, open))));
    el("div").class("shelf").class_if("opened", move || open.with(Option::is_some)).child(side).child(shown)
}

/// What is left of the shelf, or why nothing is.
fn list(desk: Desk, stock: InStock, narrowed: Narrowed, open: RwSignal<Option<IngredientId>>) -> View {
    let rows = move || desk.with(|open| found(desk, stock, open.shelf(), narrowed));
    dynamic(rows, move |rows| {
        let nothing =
            if narrowed.kept.get_untracked() == Kept::InStock && narrowed.query.with_untracked(String::is_empty) {
                catalogue::NOTHING_IN_STOCK
            } else {
                page::NOTHING_ON_SHELF
            };
        let empty = rows.is_empty().then(|| el("p").class("empty").text(nothing));
        let list = el("ul").class("list").child(rows.iter().map(|found| row(found, open)).collect::<View>());
        [empty, (!rows.is_empty()).then_some(list)].into_iter().flatten().collect()
    })
}

fn finder(desk: Desk, narrowed: Narrowed) -> El {
    text_input(desk, "search-shelf")
        .flag(LOCAL)
        .attr("type", "search")
        .attr("maxlength", "100")
        .attr("placeholder", page::SEARCH_SHELF)
        .value_of(move || narrowed.query.get())
        .on("input", move |event| {
            // Who looks for something by name looks everywhere.
            narrowed.kept.set(Kept::All);
            narrowed.query.set(typed(&event));
        })
}

fn row(found: &Found, open: RwSignal<Option<IngredientId>>) -> El {
    let (here, id) = (found.id.clone(), found.id.clone());
    let current = move || open.with(|open| open.as_ref() == Some(&here)).then(|| "true".to_owned());
    let mark = found.open.then(|| el("span").class("mark").attr("data-grade", "unknown"));
    let go = move || {
        open.set(Some(id.clone()));
        focus("entry-title".to_owned());
    };
    el("li").child(
        button("")
            .attr_of("aria-current", current)
            .press(go)
            .child(
                el("span")
                    .class("who")
                    .child(el("span").text(&found.label))
                    .child(el("small").attr("lang", "la").text(&found.inci)),
            )
            .child(el("small").class("what").text(&found.note))
            .child(mark),
    )
}

/// In stock, yours, all of them: how many there are of each stands beside it.
fn switch(desk: Desk, narrowed: Narrowed) -> El {
    let one = move |kept: Kept| {
        let radio = el("input")
            .attr("type", "radio")
            .attr("name", "kept")
            .attr("value", kept.key())
            .checked_of(move || narrowed.kept.get() == kept)
            .on("change", move |_| narrowed.kept.set(kept));
        let text = move || format!("{} {}", catalogue::kept(kept), count(desk, kept));
        el("label").child(radio).child(el("span").text_of(text))
    };
    el("fieldset")
        .class("seg")
        .child(el("legend").class("hidden").text(catalogue::WHICH_INGREDIENTS))
        .child(Kept::ALL.iter().map(|kept| one(*kept)).collect::<View>())
}

fn families(narrowed: Narrowed) -> El {
    let one = move |family: Family| {
        button(catalogue::family(family))
            .attr_of("aria-pressed", move || Some((narrowed.family.get() == family).to_string()))
            .press(move || narrowed.family.set(family))
    };
    el("div")
        .class("acts families")
        .attr("role", "group")
        .attr("aria-label", catalogue::BY_FUNCTION)
        .child(Family::ALL.iter().map(|family| one(*family)).collect::<View>())
}

/// An ingredient of the maker's own.
fn own(desk: Desk, narrowed: Narrowed, open: RwSignal<Option<IngredientId>>) -> El {
    let own = RwSignal::new(String::new());
    let add = move || {
        let name = own.get_untracked();
        if !name.trim().is_empty() {
            open.set(desk.add_to_shelf(&name));
            own.set(String::new());
            narrowed.query.set(String::new());
        }
    };
    let name = text_input(desk, "own-name")
        .flag(LOCAL)
        .attr(ENTER, "done")
        .attr("maxlength", "120")
        .on("keydown", move |event: web_sys::Event| {
            if is_enter(&event) {
                event.prevent_default();
                add();
            }
        })
        .value_of(move || own.get())
        .on("input", move |event| own.set(typed(&event)));
    el("div")
        .class("field")
        .child(el("label").attr("for", "own-name").text(page::OWN_INGREDIENT))
        .child(el("span").class("with-unit").child(name).child(button(page::ADD).press(add)))
}
