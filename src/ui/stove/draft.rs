//! What is typed at the stove and not recorded yet: kept on the device, so that it is there after a reload.

use super::Stove;
use crate::ui::browser;
use crate::ui::dom::{El, LOCAL, View, el, is_enter, typed};
use crate::ui::entering::ENTER;
use crate::ui::field::{note, text_input};
use hundred_parts::quantity::{Day, Quantity, Typed};
use hundred_parts::words::FieldText;
use leptos::prelude::*;
use std::rc::Rc;

/// Forgets all that was typed for a batch: it is over.
pub(super) fn forget_all(stove: Stove) {
    if let Some(batch) = stove.of(|made| made.id.clone()) {
        browser::forget_preferences(&format!("draft.{batch}."));
    }
}

/// A text that is typed.
#[derive(Clone, Copy)]
pub(super) struct Draft {
    stove: Stove,
    text: RwSignal<String>,
    key: StoredValue<String>,
}

impl Draft {
    /// Of a field of this batch; what was typed before a reload is in it.
    pub(super) fn new(stove: Stove, name: &str) -> Self {
        Self::beginning(stove, name, "")
    }

    /// The same, with a text that it begins with.
    pub(super) fn beginning(stove: Stove, name: &str, first: &str) -> Self {
        let key = stove.desk.typed_key(name);
        let text = browser::preference(&key).unwrap_or_else(|| first.to_owned());
        Self { stove, text: RwSignal::new(text), key: StoredValue::new(key) }
    }

    /// What was typed, tracked.
    pub(super) fn get(self) -> String {
        self.text.get()
    }

    /// What was typed.
    pub(super) fn now(self) -> String {
        self.text.get_untracked()
    }

    /// As a quantity, tracked; nothing while it cannot be read.
    pub(super) fn value<Q: Quantity>(self) -> Option<Q> {
        Typed::new(self.text.get()).value()
    }

    /// As a quantity.
    pub(super) fn value_now<Q: Quantity>(self) -> Option<Q> {
        Typed::new(self.text.get_untracked()).value()
    }

    /// Types something.
    pub(super) fn set(self, text: String) {
        self.key.with_value(|key| browser::set_preference(key, &text));
        self.text.set(text);
    }

    /// Forgets it: it was recorded.
    pub(super) fn clear(self) {
        self.key.with_value(|key| browser::forget_preference(key));
        self.text.set(String::new());
    }

    /// As a day, tracked; nothing while it is none.
    pub(super) fn day_typed(self) -> Option<Day> {
        Day::read(self.text.get().trim())
    }

    /// A field for a quantity.
    pub(super) fn number<Q: Quantity + 'static>(
        self,
        id: &str,
        label: &str,
        unit: &str,
        enter: impl Fn() + 'static,
    ) -> El {
        let shown: Rc<dyn Fn() -> FieldText> =
            Rc::new(move || FieldText::of(&Typed::<Q>::new(self.text.get()), self.stove.desk.sign));
        let set: Rc<dyn Fn(String)> = Rc::new(move |text| self.set(text));
        let invalid = shown.clone();
        let input = text_input(self.stove.desk, id)
            .class("number")
            .attr("inputmode", "decimal")
            .attr("maxlength", "60")
            .attr("aria-describedby", &format!("{id}-note"))
            .attr_of("aria-invalid", move || Some(invalid().unread.to_string()));
        let row = el("span")
            .class("with-unit")
            .child(self.listening(input, enter))
            .child(el("span").class("unit").text(unit));
        el("div").class("field").child(el("label").attr("for", id).text(label)).child(row).child(note(id, shown, set))
    }

    /// A field for words.
    pub(super) fn words(self, id: &str, label: &str, enter: impl Fn() + 'static) -> El {
        self.labelled(id, label, text_input(self.stove.desk, id).attr("maxlength", "200"), enter)
    }

    /// A field for words that offers some to choose from.
    pub(super) fn chosen(self, id: &str, label: &str, offered: &[String], enter: impl Fn() + 'static) -> El {
        let list = format!("{id}-offered");
        let option = |text: &String| el("option").attr("value", text);
        let offers =
            (!offered.is_empty()).then(|| el("datalist").id(&list).child(offered.iter().map(option).collect::<View>()));
        let mut input = text_input(self.stove.desk, id).attr("maxlength", "200");
        if offers.is_some() {
            input = input.attr("list", &list);
        }
        self.labelled(id, label, input, enter).child(offers)
    }

    /// A field for a day of the calendar.
    pub(super) fn day(self, id: &str, label: &str, enter: impl Fn() + 'static) -> El {
        self.labelled(id, label, text_input(self.stove.desk, id).attr("type", "date"), enter)
    }

    fn labelled(self, id: &str, label: &str, input: El, enter: impl Fn() + 'static) -> El {
        el("div").class("field").child(el("label").attr("for", id).text(label)).child(self.listening(input, enter))
    }

    /// Undo reaches what is recorded nowhere least of all: the browser's own keys work in it.
    fn listening(self, input: El, enter: impl Fn() + 'static) -> El {
        input
            .flag(LOCAL)
            .attr(ENTER, "done")
            .value_of(move || self.text.get())
            .on("input", move |event| self.set(typed(&event)))
            .on("keydown", move |event| {
                if is_enter(&event) {
                    event.prevent_default();
                    enter();
                }
            })
    }
}
