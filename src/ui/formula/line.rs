//! One line of a phase: name, percent, grams, and what can be done with it.

use super::phase::add_line;
use super::{drag, menu, name};
use crate::ui::browser::{focus, typed_now};
use crate::ui::desk::Desk;
use crate::ui::dom::{El, effect, el, key};
use crate::ui::field::{Set, Shown, note, number_input};
use hundred_parts::desk::{Action, Bench};
use hundred_parts::formula::{LineId, Share};
use hundred_parts::quantity::Quantity;
use hundred_parts::rules::{Finding, Grade};
use hundred_parts::sheet::Masses;
use hundred_parts::words::{self, DecimalSign, FieldText, page};
use leptos::prelude::{Get, GetUntracked, Notify, RwSignal, Set as _, With, WithUntracked};
use std::cell::RefCell;
use std::rc::Rc;
use web_sys::Event;

/// All that a row shows. Rows follow one of these instead of the whole formula, so that a key touches only the rows
/// that it changes.
#[derive(Clone, PartialEq, Default)]
pub(in crate::ui) struct Shows {
    pub(super) name: String,
    pub(super) inci: String,
    share: FieldText,
    fills: bool,
    grams: String,
    grade: Option<Grade>,
    pub(super) remark: String,
    /// The other phases, by number and name.
    pub(super) others: Vec<(u32, String)>,
}

impl Shows {
    fn of(bench: &Bench, masses: &Masses, found: &[Finding], id: LineId, sign: DecimalSign) -> Self {
        let formula = &bench.state().formula;
        let (Some(line), Some((here, _))) = (formula.line(id), formula.place_of(id)) else {
            return Self::default();
        };
        let entry = line.choice.id().and_then(|id| bench.shelf().entry(id));
        let inci = entry.as_ref().and_then(|entry| Some(entry.inci()?.value.to_owned()));
        let row = masses.weigh.as_ref().ok().and_then(|sheet| sheet.line(id));
        let others = formula.phases().iter().filter(|phase| phase.id != here);
        // What the fill-up line comes to.
        let rest = || masses.totals.share_of(id).map(|share| words::number(&share.canonical(), sign));
        Self {
            name: entry
                .map_or_else(|| words::choice_name(&line.choice, bench.shelf()), |entry| entry.label().to_owned()),
            inci: inci.unwrap_or_default(),
            share: match line.share.typed() {
                Some(typed) => FieldText::of(typed, sign),
                None => FieldText { text: rest().unwrap_or_default(), ..FieldText::default() },
            },
            fills: matches!(line.share, Share::FillUp),
            grams: row.map(|row| words::mass(row.mass, bench.state().plan.unit, sign)).unwrap_or_default(),
            grade: found.iter().find(|finding| finding.lines.contains(&id)).map(|finding| finding.grade),
            remark: line.note.clone(),
            others: others.map(|phase| (phase.id.number(), phase.name.clone())).collect(),
        }
    }
}

/// What rows show now, tracked.
fn show<T>(desk: Desk, read: impl FnOnce(&dyn Fn(LineId) -> Shows) -> T) -> T {
    desk.masses(|masses| {
        desk.found(|found| desk.with(|bench| read(&|id| Shows::of(bench, masses, found, id, desk.sign))))
    })
}

/// What a row shows, followed.
pub(in crate::ui) type Row = RwSignal<Shows>;

/// All rows that stand in the page. One effect keeps them; forty would cost more than what they do.
#[derive(Clone)]
pub(super) struct Rows {
    desk: Desk,
    rows: Rc<RefCell<Vec<(LineId, Row)>>>,
}

impl Rows {
    pub(super) fn new(desk: Desk) -> Self {
        let rows = Rc::new(RefCell::new(Vec::<(LineId, Row)>::new()));
        let kept = rows.clone();
        let keep = move || {
            show(desk, |of| {
                let mut changed = Vec::new();
                kept.borrow_mut().retain(|(id, row)| {
                    let shows = of(*id);
                    // The signal of a row that went is gone with it.
                    let same = row.try_with_untracked(|before| *before == shows);
                    if same == Some(false) {
                        changed.push((*row, shows));
                    }
                    same.is_some()
                });
                changed
            })
        };
        effect(Box::new(move || keep().into_iter().for_each(|(row, shows)| row.set(shows))));
        Self { desk, rows }
    }

    fn add(&self, id: LineId) -> Row {
        let desk = self.desk;
        let row = RwSignal::new(show(desk, |of| of(id)));
        self.rows.borrow_mut().push((id, row));
        row
    }
}

/// The row.
pub(super) fn row(desk: Desk, rows: &Rows, id: LineId) -> El {
    let row = rows.add(id);
    let grade = move || row.with(|row| row.grade);
    let mark = el("span")
        .class("mark")
        .attr_of("data-grade", move || grade().map(|grade| grade.key().to_owned()))
        .text_of(move || grade().map(page::grade).unwrap_or_default().to_owned());
    let light = move |_: Event| {
        if desk.lit.get_untracked() != Some(id) {
            desk.lit.set(Some(id));
        }
    };
    // A form of its own: after every key browsers go through all fields of the form that the field belongs to, and fields
    // without one count as one large form. With forty rows that took longer than all that is done here.
    el("form")
        .class("line")
        .on("submit", |event| event.prevent_default())
        .attr("data-line", &id.number().to_string())
        .class_if("lit", move || desk.lit.get() == Some(id))
        .attr_of("data-drop", move || {
            let (at, after) = desk.drop.get()?;
            (at == id).then(|| if after { "after" } else { "before" }.to_owned())
        })
        .on("focusin", light)
        .on("pointerenter", light)
        .child(drag::handle(desk, id))
        .child(name::name_box(desk, id, row))
        .child(share_box(desk, id, row))
        .child(el("span").class("grams").text_of(move || row.with(|row| row.grams.clone())))
        .child(mark)
        .child(menu::menu(desk, id, row))
        .child(el("span").class("row-note").text_of(move || row.with(|row| row.remark.clone())))
}

fn share_box(desk: Desk, id: LineId, row: Row) -> El {
    let element = format!("share-{}", id.number());
    let here = element.clone();
    // A word for filling up is taken before it is all typed (`q.s` of `q.s.`): what it comes to must not stand in its place
    // before the maker has left the field.
    let word = move || typed_now(&here).filter(|text| Share::read(text).is_fill_up());
    let shown: Shown = Rc::new(move || {
        let share = row.with(|row| row.share.clone());
        match word().filter(|_| row.with(|row| row.fills)) {
            Some(text) => FieldText { text, ..share },
            None => share,
        }
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
    let input = number_input(desk, &element, shown.clone(), set.clone())
        .attr_of("aria-label", move || Some(row.with(|row| format!("{} {}", page::PERCENT, row.name))))
        .on("keydown", keys)
        .on("blur", move |_| {
            if row.with_untracked(|row| row.fills) {
                row.notify();
            }
        });
    let fills = el("span").class("fills").text(page::FILLS_UP).hidden_if(move || !row.with(|row| row.fills));
    el("span")
        .class("share")
        .child(el("span").class("with-unit").child(input).child(el("span").class("unit").text("%")))
        .child(fills)
        .child(note(&element, shown, set))
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
    if !key.alt_key() {
        return false;
    }
    let down = match key.key().as_str() {
        "ArrowDown" => true,
        "ArrowUp" => false,
        _ => return false,
    };
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
