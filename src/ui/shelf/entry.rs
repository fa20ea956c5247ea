//! One ingredient with every value; each can be typed over.

use super::stock::InStock;
use super::{confirm, supplied};
use crate::ui::browser::focus;
use crate::ui::desk::{Desk, FollowUp};
use crate::ui::dom::{El, View, dynamic, el, typed, when};
use crate::ui::field::{area_field, button, text_input};
use hundred_parts::desk::ShelfAction;
use hundred_parts::facts::{Field, FieldKind, IngredientId, Provenance, UsualPhase};
use hundred_parts::shelf::{FieldGroup, field_groups};
use hundred_parts::words::{self, catalogue, oils, page};
use leptos::prelude::*;

/// The ingredient.
pub(super) fn entry(desk: Desk, stock: InStock, id: IngredientId, open: RwSignal<Option<IngredientId>>) -> El {
    let wanted = id.clone();
    let known = move || desk.with(|open| open.shelf().entry(&wanted));
    let (title, own, named) = (known.clone(), known.clone(), known.clone());
    let inci = move || named().and_then(|entry| Some(entry.inci()?.value.to_owned()));
    let shut = move || {
        open.set(None);
        focus("search-shelf".to_owned());
    };
    let close = button("\u{d7}").class("quiet").attr("aria-label", page::CLOSE).press(shut);
    let source = known().and_then(|entry| {
        let (source, verification) = entry.source()?;
        Some(format!("{}{source} ({verification})", page::SOURCE))
    });
    let odd = what_is_odd(desk, id.clone());
    let is_fat = known().is_some_and(|entry| entry.is_fat() || entry.is_own());
    let group = |(group, fields): (FieldGroup, Vec<Field>)| {
        let values = fields.into_iter().map(|field| value(desk, &id, field)).collect::<View>();
        el("section")
            .class("group")
            .child(el("h3").text(catalogue::field_group(group)))
            .child(el("div").class("fields").child(values))
    };
    let values = field_groups(is_fat).into_iter().map(group).collect::<View>();
    let lots = supplied::lots(desk, stock, id.clone());
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
        .class("entry")
        .attr("aria-labelledby", "entry-title")
        .child(
            el("header")
                .child(
                    el("h2")
                        .id("entry-title")
                        .attr("tabindex", "-1")
                        .text_of(move || title().map(|entry| entry.label().to_owned()).unwrap_or_default()),
                )
                .child(close),
        )
        .child(el("p").class("soft").attr("lang", "la").text_of(move || inci().unwrap_or_default()))
        .child(el("p").class("small").child(source))
        .child(el("p").class("small").text(page::SHELF_INTRO).text(catalogue::DAGGER))
        .child(values)
        .child(lots)
        .child(odd)
        .child(confirmed)
        .child(el("div").class("actions").child(remove))
}

/// What of a supplier's sheet of a fat does not fit together.
fn what_is_odd(desk: Desk, id: IngredientId) -> El {
    let sheet = move || desk.with(|open| open.shelf().entry(&id));
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
    el("div").attr("role", "status").child(odd)
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
    let (text, note, invalid, doubt) = (shown.clone(), shown.clone(), shown.clone(), shown);
    // Said by a sign beside each name, and in words once above.
    let unverified = move || doubt().note == page::FROM_MEMORY;
    let said = move || Some(note().note).filter(|note| note != page::FROM_MEMORY).unwrap_or_default();
    let text = move || text().text;
    let note_id = format!("{element}-note");
    let note = el("span").id(&note_id).class("note-of-field").attr("aria-live", "polite").text_of(said);
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
    // A list to choose from, and still a text: what was typed stays, whatever it is.
    let choices = match field.shape() {
        FieldKind::YesNo => ["yes", "no"].map(str::to_owned).to_vec(),
        FieldKind::Phase => UsualPhase::ALL.map(|phase| phase.key().to_owned()).to_vec(),
        _ => Vec::new(),
    };
    let list = format!("{element}-choices");
    let option = |choice: &String| el("option").attr("value", choice);
    let listed =
        (!choices.is_empty()).then(|| el("datalist").id(&list).child(choices.iter().map(option).collect::<View>()));
    let input = text_input(desk, &element)
        .attr("list", if listed.is_some() { &list } else { "" })
        .attr("maxlength", "2000")
        .attr("aria-describedby", &note_id)
        .attr_of("aria-invalid", move || Some(invalid().unread.to_string()))
        .value_of(text)
        .on("input", move |event| set(typed(&event)));
    el("div")
        .class("field")
        .class_if("own", mine)
        .child(
            el("label").attr("for", &element).text(label).child(
                el("span")
                    .class("unverified")
                    .attr("title", page::FROM_MEMORY)
                    .text(" \u{2020}")
                    .hidden_if(move || !unverified()),
            ),
        )
        .child(input)
        .child(listed)
        .child(note)
}
