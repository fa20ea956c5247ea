//! What is looked at on the way, in words of the maker's: each is recorded if something was found.

use super::Stove;
use super::draft::Draft;
use crate::ui::dom::{El, View, el};
use hundred_parts::batch::{Check, Event};
use hundred_parts::words::stove as words;

/// The fields of some checks.
#[derive(Clone)]
pub(super) struct Checks {
    stove: Stove,
    texts: Vec<(Check, Draft)>,
}

impl Checks {
    pub(super) fn new(stove: Stove, checks: &[Check]) -> Self {
        let texts = checks.iter().map(|check| (*check, Draft::new(stove, check.key()))).collect();
        Self { stove, texts }
    }

    /// A field for each.
    pub(super) fn fields(&self) -> Vec<El> {
        let field =
            |(check, text): &(Check, Draft)| text.words(&format!("stove-{}", check.key()), words::check(*check), || ());
        self.texts.iter().map(field).collect()
    }

    /// The fields in a block of their own; nothing without any.
    pub(super) fn shown(&self) -> View {
        match self.texts.is_empty() {
            true => View::nothing(),
            false => el("div").class("fields").child(self.fields().into_iter().collect::<View>()).into(),
        }
    }

    /// Records what was found.
    pub(super) fn record(&self) {
        for (check, text) in &self.texts {
            let found = text.now().trim().to_owned();
            if !found.is_empty() && self.stove.note(Event::Checked { check: *check, found }) {
                text.clear();
            }
        }
    }
}
