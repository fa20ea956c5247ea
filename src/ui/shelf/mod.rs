//! The shelf: known ingredients, their values with sources, and the maker's own.

mod confirm;
mod supplied;

use super::browser::focus;
use super::desk::{Desk, FollowUp, materials_named};
use super::dom::{El, LOCAL, View, dynamic, el, is_enter, typed, when};
use super::entering::ENTER;
use super::field::{area_field, button, text_input};
use hundred_parts::desk::{Screen, ShelfAction};
use hundred_parts::facts::{Field, IngredientId, Provenance, beginning};
use hundred_parts::shelf::{Ingredient, Shelf, search};
use hundred_parts::words::{self, oils, page};
use leptos::prelude::*;

/// How many rows are drawn at once; a search finds the others.
const MOST: usize = 60;

/// What a row of the list shows.
#[derive(Clone, PartialEq)]
struct Found {
    id: IngredientId,
    label: String,
    inci: String,
    own: bool,
}

fn found(shelf: &Shelf, query: &str) -> Vec<Found> {
    let row = |entry: Ingredient| Found {
        id: entry.id().clone(),
        label: entry.label().to_owned(),
        inci: entry.inci().map(|inci| beginning(inci.value).to_owned()).unwrap_or_default(),
        own: entry.is_own(),
    };
    search(shelf, query, MOST, &materials_named).into_iter().filter_map(|hit| shelf.entry(&hit.id)).map(row).collect()
}

/// The place: all ingredients, or the table of fats.
pub(super) fn place(desk: Desk) -> El {
    let fats = RwSignal::new(false);
    let shown = dynamic(
        move || fats.get(),
        move |shown| {
            if *shown { super::oils::table(desk, move || fats.set(false)) } else { ingredients(desk, fats) }.into()
        },
    );
    el("div").child(shown)
}

fn ingredients(desk: Desk, fats: RwSignal<bool>) -> El {
    let query = RwSignal::new(String::new());
    let open = RwSignal::new(None::<IngredientId>);
    let own = RwSignal::new(String::new());
    let rows = move || query.with(|query| desk.with(|open| found(open.shelf(), query)));
    let add = move || {
        let name = own.get_untracked();
        if !name.trim().is_empty() {
            open.set(desk.act_on_shelf(ShelfAction::Add(name.trim().to_owned())));
            own.set(String::new());
            query.set(String::new());
        }
    };
    let row = move |found: &Found| {
        let (here, id) = (found.id.clone(), found.id.clone());
        let current = move || open.with(|open| open.as_ref() == Some(&here)).then(|| "true".to_owned());
        let own = found.own.then(|| el("em").text(" ").text(page::YOURS));
        let name = el("span").text(&found.label).child(own);
        el("li").child(
            button("")
                .attr_of("aria-current", current)
                .press(move || open.set(Some(id.clone())))
                .child(name)
                .child(el("small").attr("lang", "la").text(&found.inci)),
        )
    };
    let list = dynamic(rows, move |rows| {
        let empty = rows.is_empty().then(|| el("p").class("empty").text(page::NOTHING_ON_SHELF));
        let list = el("ul").class("list").child(rows.iter().map(row).collect::<View>());
        [empty, Some(list)].into_iter().flatten().collect()
    });
    let find = text_input(desk, "search-shelf")
        .flag(LOCAL)
        .attr("type", "search")
        .attr("maxlength", "100")
        .value_of(move || query.get())
        .on("input", move |event| query.set(typed(&event)));
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
    let card = el("section")
        .class("card")
        .child(el("h2").text(page::screen(Screen::Shelf)))
        .child(el("p").text(page::SHELF_INTRO))
        .child(el("div").class("actions").child(button(oils::FATS).press(move || fats.set(true))))
        .child(
            el("div")
                .class("field")
                .child(el("label").attr("for", "search-shelf").text(page::SEARCH_SHELF))
                .child(find),
        )
        .child(
            el("div")
                .class("field")
                .child(el("label").attr("for", "own-name").text(page::OWN_INGREDIENT))
                .child(el("span").class("with-unit").child(name).child(button(page::ADD).press(add))),
        )
        .child(list);
    let shown = dynamic(move || open.get(), move |id| View::from(id.clone().map(|id| entry(desk, id, open))));
    el("div").class("shelf").child(card).child(shown)
}

/// One ingredient with every value; each can be typed over.
fn entry(desk: Desk, id: IngredientId, open: RwSignal<Option<IngredientId>>) -> El {
    let wanted = id.clone();
    let known = move || desk.with(|open| open.shelf().entry(&wanted));
    let (title, own) = (known.clone(), known.clone());
    let source = known().and_then(|entry| {
        let (source, verification) = entry.source()?;
        Some(format!("{}{source} ({verification})", page::SOURCE))
    });
    let sheet = known.clone();
    let odd = dynamic(
        move || {
            let fat = sheet().and_then(|entry| entry.fat());
            let found = fat.map(|fat| fat.findings).unwrap_or_default();
            found.iter().map(|odd| words::fats::sheet_finding(odd, desk.sign)).collect::<Vec<_>>()
        },
        |said| {
            let box_of = || {
                let said = said.iter().map(|said| el("p").text(said)).collect::<View>();
                el("div").class("caution odd").child(el("h3").text(oils::SHEET_SAYS)).child(said)
            };
            (!said.is_empty()).then(box_of).into()
        },
    );
    let odd = el("div").attr("role", "status").child(odd);
    let values =
        Field::ALL.iter().filter(|field| !field.confirms()).map(|field| value(desk, &id, *field)).collect::<View>();
    let lots = supplied::lots(desk, id.clone());
    let confirmed = confirm::saponification(desk, id.clone());
    let remove = when(
        move || own().is_some_and(|entry| entry.is_own()),
        move || {
            let id = id.clone();
            let remove = move || {
                desk.act_on_shelf(ShelfAction::Remove(id.clone()));
                open.set(None);
                desk.say(page::REMOVED_OWN, Some(FollowUp::Undo));
                focus("search-shelf".to_owned());
            };
            button(page::REMOVE_OWN).press(remove).into()
        },
    );
    el("section")
        .class("card entry")
        .attr("aria-labelledby", "entry-title")
        .child(
            el("h2")
                .id("entry-title")
                .text_of(move || title().map(|entry| entry.label().to_owned()).unwrap_or_default()),
        )
        .child(el("p").class("small").child(source))
        .child(el("div").class("fields").child(values))
        .child(lots)
        .child(odd)
        .child(confirmed)
        .child(el("div").class("actions").child(button(page::CLOSE).press(move || open.set(None))).child(remove))
        .shown(|card| card.scroll_into_view_with_bool(true))
}

fn value(desk: Desk, id: &IngredientId, field: Field) -> El {
    let element = format!("value-{}", field.key());
    let wanted = id.clone();
    let entry = move || desk.with(|open| open.shelf().entry(&wanted));
    let (counted, id) = (entry.clone(), id.clone());
    let set = move |text: String| {
        desk.act_on_shelf(ShelfAction::Set(id.clone(), field, text));
    };
    let mine =
        move || counted().is_some_and(|entry| entry.counted_provenance(field).is_some_and(Provenance::is_makers));
    let shown = move || entry().map(|entry| words::shelf_field(&entry, field)).unwrap_or_default();
    let (text, note, invalid) = (shown.clone(), shown.clone(), shown);
    let text = move || text().text;
    let note_id = format!("{element}-note");
    let note = el("span").id(&note_id).class("note-of-field").attr("aria-live", "polite").text_of(move || note().note);
    let label = page::field(field);
    if field.is_pasted() {
        let area = area_field(desk, &element, label, text.clone()).on("input", move |event| set(typed(&event)));
        let read = match field {
            Field::AllergenStatement => Some(supplied::statement(desk, text)),
            Field::Certificate => Some(supplied::certificate(desk, text)),
            _ => None,
        };
        return area.class_if("own", mine).child(note).child(read);
    }
    let input = text_input(desk, &element)
        .attr("maxlength", "2000")
        .attr("aria-describedby", &note_id)
        .attr_of("aria-invalid", move || Some(invalid().unread.to_string()))
        .value_of(text)
        .on("input", move |event| set(typed(&event)));
    el("div")
        .class("field")
        .class_if("own", mine)
        .child(el("label").attr("for", &element).text(label))
        .child(input)
        .child(note)
}
