//! One line of a phase: name, percent, grams, and what can be done with it.

use super::phase::{add_line, ghost};
use super::{in_hand, name};
use crate::ui::browser::focus;
use crate::ui::desk::{Desk, Touched};
use crate::ui::dom::{El, effect, el, key, when};
use crate::ui::entering::ENTER;
use crate::ui::field::{FieldReader, Set, fixed_size_text, note, number_input};
use crate::ui::lazy::{self, LazyView};
use hundred_parts::desk::{Action, OpenDocument};
use hundred_parts::facts::beginning;
use hundred_parts::formula::{Direction, LineId, Share};
use hundred_parts::quantity::Percent;
use hundred_parts::rules::{Finding, Grade};
use hundred_parts::sheet::Masses;
use hundred_parts::words::{self, DecimalSign, FieldText, ledger, page};
use leptos::prelude::{Get, GetUntracked, Notify, RwSignal, Set as _, UpdateUntracked, With};
use std::borrow::Borrow;
use std::cell::RefCell;
use std::rc::Rc;
use web_sys::Event;

/// All that a row shows. Rows follow one of these instead of the whole formula, so that a key touches only the rows
/// that it changes.
pub(in crate::ui) struct RowView {
    pub(super) name: String,
    pub(super) inci: String,
    share: Share,
    /// What the line comes to, where it fills up.
    rest: Option<Percent>,
    /// What is weighed of it, as the column shows it.
    mass: String,
    /// Digits that the column of percents has room for.
    places: usize,
    grade: Option<Grade>,
    pub(super) remark: String,
}

/// Puts a value in the place of another. True if it is another one.
fn assign_if_changed<T: ToOwned + PartialEq + ?Sized>(place: &mut T::Owned, value: &T) -> bool {
    let other = (*place).borrow() != value;
    if other {
        value.clone_into(place);
    }
    other
}

impl RowView {
    fn nothing() -> Self {
        Self {
            name: String::new(),
            inci: String::new(),
            share: Share::FillUp,
            rest: None,
            mass: String::new(),
            places: 0,
            grade: None,
            remark: String::new(),
        }
    }

    /// Brings it up to date. True if it shows something else now. Forty rows are asked at every key: what stays is not
    /// copied.
    fn refresh(&mut self, open: &OpenDocument, follows: &Follows<'_>, id: LineId) -> bool {
        let Follows { masses, found, places, sign } = *follows;
        let Some(line) = open.state().formula.line(id) else { return false };
        let entry = line.choice.id().and_then(|id| open.shelf().entry(id));
        let named = match &entry {
            Some(entry) => assign_if_changed(&mut self.name, entry.label()),
            None => assign_if_changed(&mut self.name, words::choice_name(&line.choice, open.shelf()).as_str()),
        };
        let inci = entry.as_ref().and_then(|entry| entry.inci()).map_or("", |inci| beginning(inci.value));
        // Said once: many a name is the INCI name.
        let inci = if inci.eq_ignore_ascii_case(&self.name) { "" } else { inci };
        let mass = ledger::line_mass(masses, id, open.state(), sign);
        let grade = found.iter().find(|finding| finding.lines.contains(&id)).map(|finding| finding.grade);
        let rest = line.share.is_fill_up().then(|| masses.totals.share_of(id)).flatten();
        named
            | assign_if_changed(&mut self.inci, inci)
            | assign_if_changed(&mut self.share, &line.share)
            | assign_if_changed(&mut self.rest, &rest)
            | assign_if_changed(&mut self.mass, mass.as_str())
            | assign_if_changed(&mut self.places, &places)
            | assign_if_changed(&mut self.grade, &grade)
            | assign_if_changed(&mut self.remark, line.note.as_str())
    }

    /// The maker's remark, behind the INCI name where there is one.
    pub(super) fn remark_behind(&self) -> String {
        match (self.inci.is_empty(), self.remark.trim()) {
            (_, "") => String::new(),
            (true, remark) => remark.to_owned(),
            (false, remark) => format!(" \u{b7} {remark}"),
        }
    }

    /// Whether anything stands under the name.
    pub(super) fn is_named_twice(&self) -> bool {
        !self.inci.is_empty() || !self.remark.trim().is_empty()
    }

    const fn fills(&self) -> bool {
        self.share.is_fill_up()
    }

    fn share(&self, sign: DecimalSign) -> FieldText {
        words::share_text(&self.share, self.rest, sign)
    }

    fn padding(&self, sign: DecimalSign) -> String {
        ledger::padding(&self.share(sign).text, self.places, sign)
    }
}

/// What rows follow beside the document.
struct Follows<'a> {
    masses: &'a Masses,
    found: &'a [Finding],
    places: usize,
    sign: DecimalSign,
}

/// Hands over [`RowView::refresh`] with all that rows follow, tracked once for as many of them as are asked for.
fn tracked<T>(desk: Desk, rows: impl FnOnce(&dyn Fn(&mut RowView, LineId) -> bool) -> T) -> T {
    desk.masses(|masses| {
        desk.found(|found| {
            desk.with(|open| {
                let places = ledger::column_places(masses, &open.state().formula, desk.sign);
                let follows = Follows { masses, found, places, sign: desk.sign };
                rows(&|shows, id| shows.refresh(open, &follows, id))
            })
        })
    })
}

/// What a row shows, followed.
pub(in crate::ui) type RowSignal = RwSignal<RowView>;

/// All rows that stand in the page. One effect keeps them; forty would cost more than what they do.
#[derive(Clone)]
pub(super) struct RowSignals {
    desk: Desk,
    rows: Rc<RefCell<Vec<(LineId, RowSignal)>>>,
}

impl RowSignals {
    pub(super) fn new(desk: Desk) -> Self {
        let rows = Rc::new(RefCell::new(Vec::<(LineId, RowSignal)>::new()));
        let kept = rows.clone();
        let keep = move || {
            tracked(desk, |refresh| {
                let mut changed = Vec::new();
                kept.borrow_mut().retain(|(id, row)| {
                    // The signal of a row that went is gone with it.
                    let other = row.try_update_untracked(|shows| refresh(shows, *id));
                    if other == Some(true) {
                        changed.push(*row);
                    }
                    other.is_some()
                });
                changed
            })
        };
        effect(Box::new(move || keep().iter().for_each(Notify::notify)));
        Self { desk, rows }
    }

    fn add(&self, id: LineId) -> RowSignal {
        let desk = self.desk;
        let mut shows = RowView::nothing();
        tracked(desk, |refresh| refresh(&mut shows, id));
        let row = RwSignal::new(shows);
        self.rows.borrow_mut().push((id, row));
        row
    }
}

/// The row.
pub(super) fn row(desk: Desk, rows: &RowSignals, id: LineId) -> El {
    let row = rows.add(id);
    let grade = move || row.with(|row| row.grade);
    let mark = el("span")
        .class("mark")
        .attr_of("data-grade", move || grade().map(|grade| grade.key().to_owned()))
        .child(el("span").class("hidden").text_of(move || grade().map(page::grade).unwrap_or_default().to_owned()));
    let in_hand = move || desk.formula_page.hand.get() == Some(Touched::Line(id));
    let light = move |_: Event| {
        if desk.formula_page.lit.get_untracked() != Some(id) {
            desk.formula_page.lit.set(Some(id));
        }
    };
    // A form of its own: after every key browsers go through all fields of the form that the field belongs to, and fields
    // without one count as one large form. With forty rows that took longer than all that is done here.
    el("form")
        .class("line")
        .on("submit", |event| event.prevent_default())
        .attr("data-line", &id.number().to_string())
        .class_if("lit", move || desk.formula_page.lit.get() == Some(id))
        .class_if("in-hand", in_hand)
        .class_if("fills-up", move || row.with(RowView::fills))
        .class_if("two", move || row.with(RowView::is_named_twice))
        .attr_of("data-drop", move || {
            let (at, side) = desk.formula_page.drop.get()?;
            (at == id).then(|| side.key().to_owned())
        })
        .on("focusin", move |event| {
            in_hand::take(desk, &event, Touched::Line(id));
            light(event);
        })
        .on("pointerenter", light)
        .child(name::name_box(desk, id, row))
        .child(share_box(desk, id, row))
        .child(el("span").class("grams").child(fixed_size_text(move || row.with(|row| row.mass.clone()))))
        .child(mark)
        .child(when(in_hand, move || {
            el("div").class("under").child(lazy::part(desk, LazyView::LineActions(id, row))).into()
        }))
}

fn share_box(desk: Desk, id: LineId, row: RowSignal) -> El {
    let element = format!("share-{}", id.number());
    let shown: FieldReader = Rc::new(move || row.with(|row| row.share(desk.sign)));
    let set: Set = Rc::new(move |text| {
        desk.act(Action::ShareLine(id, text));
    });
    let keys = move |event: Event| {
        if moves(desk, id, &event, "share") {
            return;
        }
        match key(&event).key().as_str() {
            "Enter" => next_line(desk, id),
            "ArrowDown" => neighbour(desk, id, Direction::Down),
            "ArrowUp" => neighbour(desk, id, Direction::Up),
            _ => return,
        }
        event.prevent_default();
    };
    let input = number_input(desk, &element, shown.clone(), set.clone())
        .attr_of("aria-label", move || Some(row.with(|row| format!("{} {}", page::PERCENT, row.name))))
        .attr(ENTER, "next")
        .on("keydown", keys);
    let fills = el("span")
        .class("fills")
        .attr("title", page::FILLS_UP)
        .text(ledger::QS)
        .hidden_if(move || !row.with(RowView::fills));
    let figure = el("span")
        .class("figure")
        .child(fills)
        .child(input)
        .child(ghost(move || row.with(|row| row.padding(desk.sign))));
    el("span").class("share").child(figure).child(note(&element, shown, set))
}

/// Goes to the name of the next line of the phase, or makes a new line after the last one.
fn next_line(desk: Desk, id: LineId) {
    let next = desk.now(|open| {
        let (phase, index) = open.state().formula.place_of(id)?;
        let line = open.state().formula.phase(phase)?.lines.get(index + 1).map(|line| line.id);
        Some((phase, index, line))
    });
    match next {
        Some((_, _, Some(line))) => focus(format!("name-{}", line.number())),
        Some((phase, index, None)) => add_line(desk, phase, index + 1),
        None => {}
    }
}

/// Goes to the same field of the line above or below.
fn neighbour(desk: Desk, id: LineId, direction: Direction) {
    let found = desk.now(|open| {
        let ids: Vec<LineId> = open.state().formula.lines().map(|(_, line)| line.id).collect();
        let at = ids.iter().position(|line| *line == id)?;
        ids.get(direction.next_to(at)?).copied()
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
    let direction = match key.key().as_str() {
        "ArrowDown" => Direction::Down,
        "ArrowUp" => Direction::Up,
        _ => return false,
    };
    event.prevent_default();
    if key.shift_key() {
        to_next_phase(desk, id, direction);
    } else {
        desk.act(Action::NudgeLine(id, direction));
    }
    focus(format!("{field}-{}", id.number()));
    true
}

/// A line to the end of the phase before or the start of the one after.
fn to_next_phase(desk: Desk, id: LineId, direction: Direction) {
    let to = desk.now(|open| {
        let formula = &open.state().formula;
        let (here, _) = formula.place_of(id)?;
        let at = formula.phases().iter().position(|phase| phase.id == here)?;
        formula.phases().get(direction.next_to(at)?).map(|phase| phase.id)
    });
    if let Some(phase) = to {
        let end = match direction {
            Direction::Up => usize::MAX,
            Direction::Down => 0,
        };
        desk.act(Action::MoveLine(id, phase, end));
    }
}
