//! The meter that readings are taken with: its check in two buffers, and what speaks for it now.

use super::note;
use super::step::{form, kept};
use super::tools::PhBench;
use crate::ui::browser::{forget_preference, now, preference, set_preference};
use crate::ui::desk::Desk;
use crate::ui::dom::{El, LOCAL, View, el, opened, when};
use crate::ui::field::{button, folded, pick_field, quantity_field};
use hundred_parts::batch::dose::Advice;
use hundred_parts::batch::{BufferReading, Instrument, MeterCheck, MeterVerdict, NextStep, PhEvent};
use hundred_parts::facts::{Buffer, buffers};
use hundred_parts::quantity::{Ph, Typed};
use hundred_parts::words::{FieldText, meter as words};
use leptos::prelude::*;

/// The name under which the last check of the meter is kept: it is of this device, and other batches may take it over.
const KEPT: &str = "meter-check";

/// What speaks for the meter now, and a check that was not asked for.
pub(super) fn part(bench: &PhBench, found: &NextStep) -> View {
    let (desk, instrument) = (bench.desk, bench.instrument);
    let asked = matches!(found.advice, Advice::CheckMeter(_) | Advice::Recalibrate(_));
    let (open, offer) = (RwSignal::new(false), found.meter.last.is_none());
    let fold = (!asked).then(|| {
        folded(words::CHECK)
            .child(when(move || open.get(), move || el("div").class("inside").child(check(desk, offer)).into()))
            .on("toggle", move |event| open.set(opened(&event)))
    });
    let part = el("section")
        .class("meter")
        .child(el("p").text(&words::status(&found.meter, desk.sign)))
        .child(fold)
        .hidden_if(move || instrument.get() != Instrument::Meter);
    part.into()
}

/// Goes on without a check.
pub(super) fn without(desk: Desk) -> El {
    button(words::GO_ON).class("large").press(move || note(desk, PhEvent::Unchecked))
}

/// What is asked of a buffer: which, and what the meter shows in it.
#[derive(Clone, Copy)]
struct OneBuffer {
    which: RwSignal<usize>,
    shown: RwSignal<Typed<Ph>>,
}

impl OneBuffer {
    fn new(desk: Desk, key: &'static str, of: &str) -> Self {
        let which = buffers().position(|buffer| buffer.id == of).unwrap_or(0);
        Self { which: RwSignal::new(which), shown: RwSignal::new(kept(&desk.typed_key(key)).unwrap_or_default()) }
    }

    fn fields(self, desk: Desk, key: &'static str, label: &str) -> View {
        let names = buffers().map(|buffer: &Buffer| words::buffer(buffer, desk.sign));
        let pick =
            pick_field(&format!("{key}-buffer"), label, names, move || self.which.get(), move |n| self.which.set(n));
        let read = move || self.shown.with(|typed| FieldText::of(typed, desk.sign));
        let name = desk.typed_key(key);
        let set = move |text: String| {
            set_preference(&name, &text);
            self.shown.set(Typed::new(text));
        };
        let field = quantity_field(desk, key, words::SHOWN, "", read, set).flag(LOCAL);
        View::from_iter([pick, field])
    }

    fn value(self) -> Option<BufferReading> {
        let buffer = buffers().nth(self.which.get())?;
        Some(BufferReading { buffer: buffer.ph, shown: self.shown.with(Typed::value)? })
    }
}

/// The fields of a check, what it comes to, and the button that records it; `offer` the last one of this device, too.
pub(super) fn check(desk: Desk, offer: bool) -> View {
    let (first, second) =
        (OneBuffer::new(desk, "meter-first", "technical-7"), OneBuffer::new(desk, "meter-second", "phthalate"));
    let found = move || Some(MeterCheck { first: first.value()?, second: second.value()?, done: None });
    let said = move || found().map(|check| words::verdict(&check, desk.sign)).unwrap_or_default();
    let go = move || {
        let Some(check) = untrack(found) else { return };
        for key in ["meter-first", "meter-second"] {
            forget_preference(&desk.typed_key(key));
        }
        match check.verdict() {
            MeterVerdict::Fits => set_preference(KEPT, &check.write(now())),
            _ => forget_preference(KEPT),
        }
        note(desk, PhEvent::Buffers(check));
    };
    let fields = el("div").child(first.fields(desk, "meter-first", words::FIRST)).child(second.fields(
        desk,
        "meter-second",
        words::SECOND,
    ));
    View::from_iter([
        el("p").class("small").text(words::HOW_TO_CHECK).into(),
        View::from(form(fields, words::RECORD_CHECK, true, move || found().is_some(), go)),
        el("p").attr("role", "status").text_of(said).into(),
        View::from(offer.then(|| take_over(desk)).flatten()),
    ])
}

/// The last check of this device, while it holds.
fn take_over(desk: Desk) -> Option<El> {
    let check = preference(KEPT).and_then(|text| MeterCheck::read(&text))?;
    if !check.done.is_some_and(|done| check.holds(done, now())) {
        return None;
    }
    let take = button(words::TAKE_OVER).press(move || note(desk, PhEvent::Buffers(check)));
    Some(el("div").class("actions").child(take).child(el("p").class("small").text(&words::verdict(&check, desk.sign))))
}
