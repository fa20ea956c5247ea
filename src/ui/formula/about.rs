//! Purpose of the formula, audience, target and notes.

use crate::ui::desk::Desk;
use crate::ui::dom::{El, el, typed};
use crate::ui::field::{pick_one, quantity_field};
use hundred_parts::desk::Action;
use hundred_parts::formula::{About, Area, Audience, Pack, Region, Use};
use hundred_parts::words::{self, FieldText, page};

/// Purpose, audience, target and notes.
pub(in crate::ui) fn further_fields(desk: Desk) -> El {
    let of = move |read: fn(&About) -> String| move || desk.with(|open| read(&open.state().formula.about));
    let set = move |action: fn(String) -> Action| {
        move |text| {
            desk.act(action(text));
        }
    };
    let fields = el("div")
        .class("fields")
        .child(pick(desk, "use", page::USE, Use::ALL, page::purpose, |about| about.purpose, Action::Purpose))
        .child(pick(desk, "area", page::AREA, Area::ALL, page::area, |about| about.area, Action::Area))
        .child(pick(desk, "audience", page::AUDIENCE, Audience::ALL, page::audience, |a| a.audience, Action::Audience))
        .child(pick(desk, "pack", page::PACK, Pack::ALL, page::pack, |about| about.pack, Action::Pack))
        .child(pick(desk, "region", page::REGION, Region::ALL, words::region, |about| about.region, Action::Region))
        .child(quantity_field(
            desk,
            "target-ph",
            page::TARGET_PH,
            "",
            move || desk.with(|open| FieldText::of(&open.state().formula.about.target_ph, desk.sign)),
            set(Action::TargetPh),
        ));
    let write = set(Action::Notes);
    let notes = el("textarea")
        .id("notes")
        .attr("rows", "3")
        .attr("maxlength", "20000")
        .value_of(of(|about| about.notes.clone()))
        .on("input", move |event| write(typed(&event)))
        .on("blur", move |_| desk.end_undo_group());
    el("div").class("inside").child(fields).child(el("label").attr("for", "notes").text(page::NOTES)).child(notes)
}

fn pick<T: Copy + PartialEq + 'static>(
    desk: Desk,
    id: &str,
    label: &str,
    all: &'static [T],
    name: fn(T) -> &'static str,
    read: fn(&About) -> T,
    action: fn(T) -> Action,
) -> El {
    let value = move || desk.with(|open| read(&open.state().formula.about));
    pick_one(id, label, all, name, value, move |pick| {
        desk.act(action(pick));
    })
}
