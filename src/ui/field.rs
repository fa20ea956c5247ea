//! Fields: text in, text out; what could not be read is said below.

use super::desk::Desk;
use super::dom::{El, View, chosen, close_menu, dynamic, el, key, left, opened, show_whole, typed, when};
use hundred_parts::words::{FieldText, page};
use leptos::prelude::{Get, RwSignal, Set as _, untrack};
use std::rc::Rc;

/// Reads what a field shows.
pub(super) type FieldReader = Rc<dyn Fn() -> FieldText>;
/// Takes what was typed.
pub(super) type Set = Rc<dyn Fn(String)>;

/// A field for a quantity, with its label, its unit, and what is wrong with it.
pub(super) fn quantity_field(
    desk: Desk,
    id: &str,
    label: &str,
    unit: &str,
    shown: impl Fn() -> FieldText + 'static,
    set: impl Fn(String) + 'static,
) -> El {
    let (shown, set): (FieldReader, Set) = (Rc::new(shown), Rc::new(set));
    let row = el("span").class("with-unit");
    let row = if untrack(|| shown()).signed { row.child(sign(label, shown.clone(), set.clone())) } else { row };
    let row = row.child(number_input(desk, id, shown.clone(), set.clone()));
    let row = if unit.is_empty() { row } else { row.child(el("span").class("unit").text(unit)) };
    el("div").class("field").child(el("label").attr("for", id).text(label)).child(row).child(note(id, shown, set))
}

fn sign(label: &str, shown: FieldReader, set: Set) -> El {
    let turn = move || {
        let text = shown().text;
        let text = text.trim_start();
        set(text.strip_prefix(['-', '\u{2212}']).map_or_else(|| format!("-{text}"), str::to_owned));
    };
    button("\u{b1}").class("sign").attr("aria-label", &format!("{}: {label}", page::SIGN)).press(turn)
}

/// The input alone: one for text. An input for numbers would read `1,5` as 15 where the page's language has a point.
pub(super) fn number_input(desk: Desk, id: &str, shown: FieldReader, set: Set) -> El {
    let (text, invalid) = (shown.clone(), shown);
    text_input(desk, id)
        .class("number")
        .attr("inputmode", "decimal")
        .attr("maxlength", "60")
        .attr("aria-describedby", &format!("{id}-note"))
        .attr_of("aria-invalid", move || Some(invalid().unread.to_string()))
        .value_of(move || text().text)
        .on("input", move |event| set(typed(&event)))
}

/// What is wrong with a typed quantity, or the question about it with its answers as buttons.
pub(super) fn note(id: &str, shown: FieldReader, set: Set) -> El {
    let said = move || {
        let shown = shown();
        (shown.note, shown.answers)
    };
    el("span").id(&format!("{id}-note")).class("note-of-field").attr("aria-live", "polite").child(dynamic(
        said,
        move |(note, answers)| {
            let answer = |(label, text): &(String, String)| {
                let (text, set) = (text.clone(), set.clone());
                button(label).press(move || set(text.clone()))
            };
            [View::from(note.as_str()), answers.iter().map(answer).collect()].into_iter().collect()
        },
    ))
}

/// An input for text.
pub(super) fn text_input(desk: Desk, id: &str) -> El {
    el("input").id(id).attr("type", "text").attr("autocomplete", "off").on("blur", move |_| desk.end_undo_group())
}

/// A figure that follows what is typed, in a box that keeps its size (`style/places.css`): the browser then lays out the
/// figure alone, and not the page around it: half of the layout that a key brings.
pub(super) fn fixed_size_text(text: impl Fn() -> String + 'static) -> El {
    el("span").class("still").text_of(text)
}

/// A field for plain text.
pub(super) fn text_field(
    desk: Desk,
    id: &str,
    label: &str,
    value: impl Fn() -> String + 'static,
    set: impl Fn(String) + 'static,
) -> El {
    let input =
        text_input(desk, id).attr("maxlength", "200").value_of(value).on("input", move |event| set(typed(&event)));
    el("div").class("field").child(el("label").attr("for", id).text(label)).child(input)
}

/// A field for a longer text. What is typed comes as `input` events.
pub(super) fn area_field(desk: Desk, id: &str, label: &str, value: impl Fn() -> String + 'static) -> El {
    let area = el("textarea")
        .id(id)
        .attr("rows", "3")
        .attr("maxlength", "20000")
        .value_of(value)
        .on("blur", move |_| desk.end_undo_group());
    el("div").class("field wide").child(el("label").attr("for", id).text(label)).child(area)
}

/// A choice of one out of a few, by their place in the list.
pub(super) fn pick_field(
    id: &str,
    label: &str,
    options: impl IntoIterator<Item = String>,
    value: impl Fn() -> usize + 'static,
    set: impl Fn(usize) + 'static,
) -> El {
    let option = |(n, text): (usize, String)| el("option").attr("value", &n.to_string()).text(&text);
    let list = el("select").id(id).child(options.into_iter().enumerate().map(option).collect::<View>());
    let list = list.value_of(move || value().to_string()).on("change", move |event| {
        if let Ok(n) = typed(&event).parse() {
            set(n);
        }
    });
    el("div").class("field").child(el("label").attr("for", id).text(label)).child(list)
}

/// A choice of one of the values of an enum.
pub(super) fn pick_one<T: Copy + PartialEq + 'static>(
    id: &str,
    label: &str,
    all: &'static [T],
    name: impl Fn(T) -> &'static str,
    value: impl Fn() -> T + 'static,
    set: impl Fn(T) + 'static,
) -> El {
    let names = all.iter().map(|pick| name(*pick).to_owned()).collect::<Vec<_>>();
    let at = move || all.iter().position(|pick| *pick == value()).unwrap_or(0);
    pick_field(id, label, names, at, move |n| {
        if let Some(pick) = all.get(n) {
            set(*pick);
        }
    })
}

/// A button.
pub(super) fn button(text: &str) -> El {
    el("button").attr("type", "button").text(text)
}

/// A part that is folded away under its heading.
pub(super) fn folded(summary: &str) -> El {
    el("details").child(el("summary").text(summary))
}

/// A menu behind three points. What is in it is made when it is first opened: forty closed menus would cost as much to
/// lay out as the forty lines that they belong to.
pub(super) fn menu(label: impl Fn() -> String + 'static, inside: impl Fn() -> El + 'static) -> El {
    let summary = el("summary").attr_of("aria-label", move || Some(label())).text("\u{22ef}");
    // It lies over what stands below: once something was chosen, or the focus has gone elsewhere, it goes.
    let details = el("details")
        .class("menu")
        .child(summary)
        .on("click", |event| {
            if chosen(&event) {
                close_menu(&event);
            }
        })
        .on("keydown", |event| {
            if key(&event).key() == "Escape" {
                close_menu(&event);
            }
        })
        .on("focusout", |event| {
            if left(&event) {
                close_menu(&event);
            }
        });
    unfolding(details, inside).on("toggle", |event| {
        if opened(&event) {
            show_whole(&event);
        }
    })
}

/// Lets a fold make what is in it when it is first opened.
pub(super) fn unfolding(details: El, inside: impl Fn() -> El + 'static) -> El {
    let opened = RwSignal::new(false);
    details.child(when(move || opened.get(), move || inside().into())).on("toggle", move |_| opened.set(true))
}
