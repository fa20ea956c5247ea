//! One step of the maker's own method. Its words are fields that look like text; what can be done with it, and what it does
//! not say yet, stands in it while it is in hand.

use crate::ui::browser::{self, focus};
use crate::ui::desk::{Desk, FollowUp};
use crate::ui::dom::{El, View, dynamic, el, follow, typed, when};
use crate::ui::field::{button, note, number_input, pick_field, text_input};
use hundred_parts::desk::{Action, MethodChange};
use hundred_parts::formula::{MethodStep, NewStep, PhaseId, StepField, StepId, StepKind};
use hundred_parts::quantity::{Celsius, Minutes, Typed};
use hundred_parts::words::{FieldText, method as words, page};
use leptos::prelude::{Get, GetUntracked, RwSignal, Set};
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::{Element, Event};

/// Which step, and which one is in hand.
#[derive(Clone, Copy)]
pub(super) struct StepRow {
    /// The number of its id.
    pub(super) key: u32,
    /// The number of the one that is worked on.
    pub(super) hand: RwSignal<Option<u32>>,
}

/// Reads the step of a number, tracked.
fn of<T>(desk: Desk, key: u32, read: impl FnOnce(usize, &MethodStep) -> T) -> Option<T> {
    desk.with(|open| {
        let mut steps = open.state().formula.method().iter().enumerate();
        steps.find(|(_, step)| step.id.number() == key).map(|(at, step)| read(at, step))
    })
}

fn id_now(desk: Desk, key: u32) -> Option<(usize, StepId)> {
    desk.now(|open| {
        let mut steps = open.state().formula.method().iter().enumerate();
        steps.find(|(_, step)| step.id.number() == key).map(|(at, step)| (at, step.id))
    })
}

/// The id of what a step says to do.
fn text_id(key: u32) -> String {
    format!("step-{key}-text")
}

/// Moves the focus to the step at a place.
pub(super) fn focus_at(desk: Desk, at: usize) {
    let key = desk.now(|open| open.state().formula.method().get(at).map(|step| step.id.number()));
    if let Some(key) = key {
        focus(text_id(key));
    }
}

/// The step.
pub(super) fn step(desk: Desk, row: StepRow) -> El {
    let key = row.key;
    let number = move || of(desk, key, |at, _| at + 1).unwrap_or_default();
    let kind = move || of(desk, key, |_, step| words::kind(step.kind)).unwrap_or_default().to_owned();
    let names = move || {
        desk.with(|open| {
            let formula = &open.state().formula;
            let at = formula.method().iter().position(|step| step.id.number() == key)?;
            let lines = formula.lines_of_steps().into_iter().nth(at)?;
            let names = words::names_of(&lines, formula, open.shelf());
            (!names.is_empty()).then(|| words::takes(&names))
        })
        .unwrap_or_default()
    };
    let names = follow(names);
    let said = move |field| of(desk, key, |_, step| step.field(field).trim().is_empty()) == Some(false);
    let shown = move |field| row.hand.get() == Some(key) || said(field);
    let quantity = move |field, label, unit: &'static str| {
        when(move || shown(field), move || figure(desk, key, field, label, unit).into())
    };
    el("li")
        .class("step")
        .class_if("in-hand", move || row.hand.get() == Some(key))
        .on("focusin", move |event| take(row, &event))
        .child(el("p").class("step-kind").child(el("strong").text_of(kind)))
        .child(words_of(desk, key, StepField::Text, words::DO, number))
        .child(el("p").class("small").hidden_if(move || names.get().is_empty()).text_of(move || names.get()))
        .child(
            el("div")
                .class("step-figures")
                .child(quantity(StepField::Temperature, words::TEMPERATURE, page::CELSIUS))
                .child(quantity(StepField::Minutes, words::MINUTES, words::MINUTES_UNIT))
                .child(when(move || shown(StepField::Stirring), move || stirring(desk, key).into())),
        )
        .child(when(
            move || shown(StepField::Why),
            move || words_of(desk, key, StepField::Why, words::WHY, number).into(),
        ))
        .child(when(move || row.hand.get() == Some(key), move || actions(desk, row).into()))
}

/// Takes a step into the hand: not before a press has ended, and what was touched stays where it is.
fn take(row: StepRow, event: &Event) {
    if row.hand.get_untracked() == Some(row.key) {
        return;
    }
    let touched = event.current_target().and_then(|target| target.dyn_into::<Element>().ok());
    browser::after_press(move || {
        let Some(touched) = touched else { return };
        let before = touched.get_bounding_client_rect().top();
        row.hand.set(Some(row.key));
        browser::hold_in_place(touched, before);
    });
}

fn set(desk: Desk, key: u32, field: StepField, text: String) {
    if let Some((_, id)) = id_now(desk, key) {
        desk.act(Action::Method(MethodChange::Text(id, field, text)));
    }
}

/// What to do, or why: as many lines as it takes.
fn words_of(desk: Desk, key: u32, field: StepField, label: &'static str, number: impl Fn() -> usize + 'static) -> El {
    el("textarea")
        .id(&if field == StepField::Text { text_id(key) } else { format!("step-{key}-{}", field.key()) })
        .class(if field == StepField::Text { "step-text" } else { "step-text small" })
        .attr("rows", "1")
        .attr("maxlength", "2000")
        .attr("placeholder", label)
        .attr_of("aria-label", move || Some(words::field_of(label, number())))
        .value_of(move || of(desk, key, |_, step| step.field(field).to_owned()).unwrap_or_default())
        .on("input", move |event| set(desk, key, field, typed(&event)))
        .on("blur", move |_| desk.end_undo_group())
}

fn figure(desk: Desk, key: u32, field: StepField, label: &str, unit: &str) -> El {
    let id = format!("step-{key}-{}", field.key());
    let shown: crate::ui::field::FieldReader = Rc::new(move || {
        let read = |_, step: &MethodStep| match field {
            StepField::Temperature => FieldText::of(&Typed::<Celsius>::new(step.temperature.as_str()), desk.sign),
            _ => FieldText::of(&Typed::<Minutes>::new(step.minutes.as_str()), desk.sign),
        };
        of(desk, key, read).unwrap_or_default()
    });
    let change: crate::ui::field::Set = Rc::new(move |text| set(desk, key, field, text));
    let input = number_input(desk, &id, shown.clone(), change.clone());
    let row = el("span").class("with-unit").child(input).child(el("span").class("unit").text(unit));
    el("div").class("field").child(el("label").attr("for", &id).text(label)).child(row).child(note(&id, shown, change))
}

fn stirring(desk: Desk, key: u32) -> El {
    let id = format!("step-{key}-stirring");
    let input = text_input(desk, &id)
        .attr("maxlength", "2000")
        .value_of(move || of(desk, key, |_, step| step.stirring.clone()).unwrap_or_default())
        .on("input", move |event| set(desk, key, StepField::Stirring, typed(&event)));
    el("div").class("field stirred").child(el("label").attr("for", &id).text(words::STIRRING)).child(input)
}

/// What can be done with the step in hand.
fn actions(desk: Desk, row: StepRow) -> El {
    let key = row.key;
    let go = move |down: bool| {
        if let Some((at, id)) = id_now(desk, key) {
            let to = if down { at + 1 } else { at.saturating_sub(1) };
            desk.act(Action::Method(MethodChange::Move(id, to)));
            focus(text_id(key));
        }
    };
    let remove = move || {
        let Some((at, id)) = id_now(desk, key) else { return };
        desk.act(Action::Method(MethodChange::Remove(id)));
        desk.say(words::REMOVED, Some(FollowUp::Undo));
        let left = desk.now(|open| open.state().formula.method().len());
        match left.checked_sub(1) {
            Some(last) => focus_at(desk, at.min(last)),
            None => focus("method-head".to_owned()),
        }
    };
    let after = move || id_now(desk, key).map_or(usize::MAX, |(at, _)| at + 1);
    let chips = el("div")
        .class("acts")
        .attr("role", "group")
        .attr("aria-label", words::STEP_ACTIONS)
        .child(button(page::MOVE_UP).press(move || go(false)))
        .child(button(page::MOVE_DOWN).press(move || go(true)))
        .child(button(page::REMOVE).press(remove));
    el("div").child(chips).child(adder(desk, &format!("step-{key}-add"), after))
}

/// Adds a step at a place: of which kind, and whose lines it takes.
pub(super) fn adder(desk: Desk, id: &str, at: impl Fn() -> usize + 'static) -> El {
    let kind = RwSignal::new(0_usize);
    let phase = RwSignal::new(0_usize);
    let kinds = StepKind::ALL.iter().map(|kind| words::kind(*kind).to_owned());
    let chosen = move || StepKind::ALL.get(kind.get_untracked()).copied().unwrap_or_default();
    let takes_lines = move || matches!(StepKind::ALL.get(kind.get()), Some(StepKind::Weigh | StepKind::Add));
    let phases = move || -> Vec<(PhaseId, String)> {
        desk.with(|open| open.state().formula.phases().iter().map(|one| (one.id, one.name.clone())).collect())
    };
    let phase_id = format!("{id}-phase");
    let whose = move || {
        let phase_id = phase_id.clone();
        dynamic(phases, move |phases| {
            let names = phases.iter().map(|(_, name)| words::rest_of(name));
            let options = [words::NO_PHASE.to_owned()].into_iter().chain(names);
            pick_field(&phase_id, words::OF_PHASE, options, move || phase.get(), move |n| phase.set(n)).into()
        })
    };
    let add = move || {
        let kind = chosen();
        let lines_of = phase.get_untracked().checked_sub(1).filter(|_| matches!(kind, StepKind::Weigh | StepKind::Add));
        let phase = lines_of.and_then(|n| desk.now(|open| open.state().formula.phases().get(n).map(|one| one.id)));
        let at = at();
        desk.act(Action::Method(MethodChange::Add(Box::new(NewStep { kind, phase, ..NewStep::default() }), at)));
        focus_at(desk, at.min(desk.now(|open| open.state().formula.method().len().saturating_sub(1))));
    };
    el("div")
        .class("step-adder")
        .child(pick_field(&format!("{id}-kind"), words::KIND, kinds, move || kind.get(), move |n| kind.set(n)))
        .child(when(takes_lines, move || View::from_iter([whose()])))
        .child(button(words::ADD_STEP).press(add))
}
