//! One line of a phase: name, percent, grams, and what can be done with it.

use super::phase::add_line;
use super::{drag, menu, name};
use crate::ui::browser::focus;
use crate::ui::desk::Desk;
use crate::ui::dom::{El, el, key, when};
use crate::ui::field::{Set, Shown, note, number_input};
use hundred_parts::desk::Action;
use hundred_parts::formula::{LineId, Share};
use hundred_parts::words::{self, FieldText, page};
use leptos::prelude::{Get, GetUntracked, Set as _};
use std::rc::Rc;
use web_sys::Event;

/// The row.
pub(super) fn row(desk: Desk, id: LineId) -> El {
    let grade = move || {
        desk.derived(|derived| {
            derived.findings.iter().find(|finding| finding.lines.contains(&id)).map(|finding| finding.grade)
        })
    };
    let grams = move || {
        desk.derived(|derived| {
            let row = derived.sheet.weigh.as_ref().ok()?.line(id)?;
            Some(words::mass(row.mass, desk.with(|bench| bench.state().plan.unit), desk.sign))
        })
        .unwrap_or_default()
    };
    let remark = move || desk.with(|bench| bench.state().formula.line(id).map(|line| line.note.clone()));
    let mark = el("span")
        .class("mark")
        .attr_of("data-grade", move || grade().map(|grade| grade.key().to_owned()))
        .text_of(move || grade().map(page::grade).unwrap_or_default().to_owned());
    let light = move |_: Event| {
        if desk.lit.get_untracked() != Some(id) {
            desk.lit.set(Some(id));
        }
    };
    let row = el("div")
        .class("line")
        .attr("data-line", &id.number().to_string())
        .class_if("lit", move || desk.lit.get() == Some(id))
        .attr_of("data-drop", move || {
            let (at, after) = desk.drop.get()?;
            (at == id).then(|| if after { "after" } else { "before" }.to_owned())
        })
        .on("focusin", light)
        .on("pointerenter", light);
    row.child(drag::handle(desk, id))
        .child(name::name_box(desk, id))
        .child(share_box(desk, id))
        .child(el("span").class("grams").text_of(grams))
        .child(mark)
        .child(menu::menu(desk, id))
        .child(el("span").class("row-note").text_of(move || remark().unwrap_or_default()))
}

fn share_box(desk: Desk, id: LineId) -> El {
    let number = id.number();
    let fills = move || {
        desk.with(|bench| matches!(bench.state().formula.line(id).map(|line| &line.share), Some(Share::FillUp)))
    };
    let shown: Shown = Rc::new(move || {
        if fills() {
            return FieldText { text: rest_text(desk, id), ..FieldText::default() };
        }
        desk.with(|bench| {
            let typed = bench.state().formula.line(id).and_then(|line| line.share.typed());
            typed.map(|typed| FieldText::of(typed, desk.sign)).unwrap_or_default()
        })
    });
    let set: Set = Rc::new(move |text| {
        desk.act(Action::ShareLine(id, text));
    });
    let keys = move |event: Event| {
        if moves(desk, id, &event, "share") {
            return;
        }
        match key(&event).key().as_str() {
            "Enter" => next_line(desk, id),
            "ArrowDown" => neighbour(desk, id, true),
            "ArrowUp" => neighbour(desk, id, false),
            _ => return,
        }
        event.prevent_default();
    };
    let element = format!("share-{number}");
    let label = move || {
        desk.with(|bench| {
            let line = bench.state().formula.line(id)?;
            Some(format!("{} {}", page::PERCENT, words::choice_name(&line.choice, bench.shelf())))
        })
    };
    let input =
        number_input(desk, &element, shown.clone(), set.clone()).attr_of("aria-label", label).on("keydown", keys);
    el("span")
        .class("share")
        .child(el("span").class("with-unit").child(input).child(el("span").class("unit").text("%")))
        .child(when(fills, || el("span").class("fills").text(page::FILLS_UP).into()))
        .child(note(&element, shown, set))
}

/// What the fill-up line comes to, as shown in its field.
fn rest_text(desk: Desk, id: LineId) -> String {
    use hundred_parts::quantity::Quantity;
    desk.derived(|derived| {
        derived.sheet.totals.share_of(id).map(|share| words::number(&share.canonical(), desk.sign)).unwrap_or_default()
    })
}

/// Goes to the name of the next line of the phase, or makes a new line after the last one.
fn next_line(desk: Desk, id: LineId) {
    let next = desk.now(|bench| {
        let (phase, index) = bench.state().formula.place_of(id)?;
        let line = bench.state().formula.phase(phase)?.lines.get(index + 1).map(|line| line.id);
        Some((phase, index, line))
    });
    match next {
        Some((_, _, Some(line))) => focus(format!("name-{}", line.number())),
        Some((phase, index, None)) => add_line(desk, phase, index + 1),
        None => {}
    }
}

/// Goes to the same field of the line above or below.
fn neighbour(desk: Desk, id: LineId, down: bool) {
    let found = desk.now(|bench| {
        let ids: Vec<LineId> = bench.state().formula.lines().map(|(_, line)| line.id).collect();
        let at = ids.iter().position(|line| *line == id)?;
        let to = if down { at.checked_add(1) } else { at.checked_sub(1) };
        ids.get(to?).copied()
    });
    if let Some(line) = found {
        focus(format!("share-{}", line.number()));
    }
}

/// Keys that move a line: Alt with an arrow, and with Shift into the next phase. True if the key was one.
pub(super) fn moves(desk: Desk, id: LineId, event: &Event, field: &str) -> bool {
    let key = key(event);
    let down = match key.key().as_str() {
        "ArrowDown" => true,
        "ArrowUp" => false,
        _ => return false,
    };
    if !key.alt_key() {
        return false;
    }
    event.prevent_default();
    if key.shift_key() {
        to_next_phase(desk, id, down);
    } else {
        desk.act(Action::NudgeLine(id, down));
    }
    focus(format!("{field}-{}", id.number()));
    true
}

/// A line to the end of the phase before or the start of the one after.
fn to_next_phase(desk: Desk, id: LineId, down: bool) {
    let to = desk.now(|bench| {
        let formula = &bench.state().formula;
        let (here, _) = formula.place_of(id)?;
        let at = formula.phases().iter().position(|phase| phase.id == here)?;
        let to = if down { at.checked_add(1) } else { at.checked_sub(1) };
        formula.phases().get(to?).map(|phase| phase.id)
    });
    if let Some(phase) = to {
        desk.act(Action::MoveLine(id, phase, if down { 0 } else { usize::MAX }));
    }
}
