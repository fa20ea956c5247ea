//! Putting an entry right: it is crossed out with a reason, and what is right is recorded as an entry of its own.

use super::course::TITLE;
use crate::ui::browser::focus;
use crate::ui::desk::Desk;
use crate::ui::dom::{El, LOCAL, View, el};
use crate::ui::field::{button, quantity_field, text_field};
use hundred_parts::batch::{EntryFigure, EntryId, Event};
use hundred_parts::paper::CourseEntry;
use hundred_parts::quantity::{Celsius, Mass, Ph, Typed};
use hundred_parts::words::{FieldText, batch_record, record as words};
use leptos::prelude::*;

/// The id of the question.
pub(super) const WHY: &str = "correct-why";

/// Whether entries are being put right, and which one.
#[derive(Clone, Copy)]
pub(super) struct Correcting {
    pub(super) open: RwSignal<bool>,
    pub(super) asked: RwSignal<Option<EntryId>>,
}

impl Correcting {
    pub(super) fn new() -> Self {
        Self { open: RwSignal::new(false), asked: RwSignal::new(None) }
    }

    /// Goes back to the line of what happened.
    fn leave(self) {
        self.asked.set(None);
        focus(TITLE.to_owned());
    }
}

/// A figure as it is typed.
#[derive(Clone, Copy)]
enum RightField {
    None,
    Mass(RwSignal<Typed<Mass>>),
    Heat(RwSignal<Typed<Celsius>>),
    Ph(RwSignal<Typed<Ph>>),
}

impl RightField {
    fn of(event: &Event) -> Self {
        match event.figure() {
            None => Self::None,
            Some(EntryFigure::Mass(mass)) => Self::Mass(RwSignal::new(Typed::of(mass))),
            Some(EntryFigure::Heat(heat)) => Self::Heat(RwSignal::new(Typed::of(heat))),
            Some(EntryFigure::Ph(ph)) => Self::Ph(RwSignal::new(Typed::of(ph))),
        }
    }

    /// Its value; the outer `None` where it cannot be read.
    fn value(self) -> Option<Option<EntryFigure>> {
        Some(match self {
            Self::None => None,
            Self::Mass(typed) => Some(EntryFigure::Mass(typed.with(Typed::value)?)),
            Self::Heat(typed) => Some(EntryFigure::Heat(typed.with(Typed::value)?)),
            Self::Ph(typed) => Some(EntryFigure::Ph(typed.with(Typed::value)?)),
        })
    }

    fn shown(self, desk: Desk) -> Option<El> {
        let (id, label, sign) = ("correct-figure", words::RIGHT_FIGURE, desk.sign);
        Some(match self {
            Self::None => return None,
            Self::Mass(typed) => {
                let shown = move || typed.with(|typed| FieldText::of(typed, sign));
                quantity_field(desk, id, label, "g", shown, move |text| typed.set(Typed::new(text)))
            }
            Self::Heat(typed) => {
                let shown = move || typed.with(|typed| FieldText::of(typed, sign));
                quantity_field(desk, id, label, "\u{b0}C", shown, move |text| typed.set(Typed::new(text)))
            }
            Self::Ph(typed) => {
                let shown = move || typed.with(|typed| FieldText::of(typed, sign));
                quantity_field(desk, id, label, "", shown, move |text| typed.set(Typed::new(text)))
            }
        })
    }
}

/// The reason, what is right instead, and what is done.
pub(super) fn form(desk: Desk, entry: &CourseEntry, correcting: Correcting) -> El {
    let reason = RwSignal::new(String::new());
    let usual = move |text: &'static str| button(text).press(move || reason.set(text.to_owned()));
    let why = text_field(
        desk,
        "correct-reason",
        batch_record::WHY_STRUCK,
        move || reason.get(),
        move |text| reason.set(text),
    );
    let stated = move || reason.with(|reason| !reason.trim().is_empty());
    let (figure, texts) = (RightField::of(&entry.event), entry.event.words());
    let texts: Vec<RwSignal<String>> = texts.into_iter().map(RwSignal::new).collect();
    let labels = words::word_labels(&entry.event);
    let field = |(n, (text, label)): (usize, (&RwSignal<String>, &&'static str))| {
        let text = *text;
        text_field(desk, &format!("correct-text-{n}"), label, move || text.get(), move |typed| text.set(typed))
    };
    let fields: View = texts.iter().zip(labels).enumerate().map(field).collect();
    let old = entry.event.clone();
    let right = move || -> Option<Event> {
        let said: Vec<String> = texts.iter().map(|text| text.with(|text| text.trim().to_owned())).collect();
        old.put_right(figure.value()?, &said).filter(|event| *event != old)
    };
    let (ready, id) = (right.clone(), entry.id.clone());
    let strike = move || {
        let struck =
            Event::Struck { entry: id.clone(), reason: reason.with_untracked(|reason| reason.trim().to_owned()) };
        untrack(stated) && desk.note(struck)
    };
    let only = strike.clone();
    let cross_out = move || {
        if only() {
            desk.say(batch_record::STRUCK_TOAST, None);
            correcting.leave();
        }
    };
    let put_right = move || {
        if let Some(event) = untrack(&right)
            && strike()
            && desk.note(event)
        {
            desk.say(words::PUT_RIGHT, None);
            correcting.leave();
        }
    };
    let has_right = !matches!(figure, RightField::None) || !entry.event.words().is_empty();
    let done = button(words::CROSS_OUT_AND_RECORD).class("primary").disabled_if(move || !stated() || ready().is_none());
    el("fieldset")
        .flag(LOCAL)
        .class("why-struck")
        .child(el("legend").id(WHY).attr("tabindex", "-1").text(words::CORRECT))
        .child(el("div").class("actions").child(usual(batch_record::MISREAD)).child(usual(batch_record::NOT_DONE)))
        .child(el("div").class("fields").child(why).child(figure.shown(desk)).child(fields))
        .child(
            el("div")
                .class("actions")
                .child(has_right.then(|| done.press(put_right)))
                .child(button(words::ONLY_CROSS_OUT).disabled_if(move || !stated()).press(cross_out))
                .child(button(batch_record::KEEP_ENTRY).press(move || correcting.leave())),
        )
}
