//! What is typed and not recorded yet: kept on the device, so that it is there after a reload.

use super::Proof;
use crate::ui::browser;
use crate::ui::dom::{El, LOCAL, el};
use crate::ui::field::{pick_field, quantity_field, text_field};
use hundred_parts::quantity::{Day, Quantity, Typed};
use hundred_parts::words::FieldText;
use leptos::prelude::*;

/// A text that is typed.
#[derive(Clone, Copy)]
pub(super) struct Typing {
    proof: Proof,
    text: RwSignal<String>,
    key: StoredValue<String>,
    first: StoredValue<String>,
}

/// Every text that is typed begins so, and behind it the study and the form.
fn prefix(proof: Proof, form: &str) -> String {
    let study = proof.desk.now(|open| open.open_study().map(|study| study.id().as_str().to_owned()));
    format!("draft.{}.{form}.", study.unwrap_or_default())
}

/// Forgets all that was typed into a form: it was recorded, or is not wanted.
pub(super) fn forget(proof: Proof, form: &str) {
    browser::forget_preferences(&prefix(proof, form));
}

impl Typing {
    /// Of a field of a form of this study; what was typed before a reload is in it, else `first`.
    pub(super) fn new(proof: Proof, form: &str, field: &str, first: &str) -> Self {
        let key = [prefix(proof, form), field.to_owned()].concat();
        let text = browser::preference(&key).unwrap_or_else(|| first.to_owned());
        Self { proof, text: RwSignal::new(text), key: StoredValue::new(key), first: StoredValue::new(first.to_owned()) }
    }

    /// What was typed.
    pub(super) fn now(self) -> String {
        self.text.with_untracked(|text| text.trim().to_owned())
    }

    /// Whether it is other than what it began with.
    pub(super) fn is_changed(self) -> bool {
        let now = self.now();
        self.first.with_value(|first| *first != now)
    }

    pub(super) fn set(self, text: String) {
        self.key.with_value(|key| browser::set_preference(key, &text));
        self.text.set(text);
    }

    /// As a quantity: nothing where nothing is typed, and an error where that cannot be read.
    pub(super) fn quantity<Q: Quantity>(self) -> Result<Option<Q>, ()> {
        let text = self.now();
        if text.is_empty() {
            return Ok(None);
        }
        Typed::<Q>::new(text).value().map(Some).ok_or(())
    }

    /// As a day, likewise.
    pub(super) fn day(self) -> Result<Option<Day>, ()> {
        let text = self.now();
        if text.is_empty() { Ok(None) } else { Day::read(&text).map(Some).ok_or(()) }
    }

    /// As the place of what was picked, where 0 is nothing.
    pub(super) fn picked(self) -> Option<usize> {
        self.now().parse::<usize>().ok()?.checked_sub(1)
    }

    /// A field for a quantity.
    pub(super) fn number<Q: Quantity + 'static>(self, id: &str, label: &str, unit: &str) -> El {
        let shown = move || FieldText::of(&Typed::<Q>::new(self.text.get()), self.proof.desk.sign);
        quantity_field(self.proof.desk, id, label, unit, shown, move |text| self.set(text)).flag(LOCAL)
    }

    /// A field for words.
    pub(super) fn words(self, id: &str, label: &str) -> El {
        text_field(self.proof.desk, id, label, move || self.text.get(), move |text| self.set(text)).flag(LOCAL)
    }

    /// The same with a hint below it.
    pub(super) fn hinted(self, id: &str, label: &str, hint: &str) -> El {
        self.words(id, label).child(el("small").text(hint))
    }

    /// A choice, of which the first is nothing.
    pub(super) fn pick(self, id: &str, label: &str, nothing: &str, options: Vec<String>) -> El {
        let all = core::iter::once(nothing.to_owned()).chain(options);
        let value = move || self.text.with(|text| text.parse().unwrap_or(0));
        pick_field(id, label, all, value, move |place| self.set(place.to_string())).flag(LOCAL)
    }
}
