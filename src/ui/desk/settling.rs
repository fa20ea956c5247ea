//! What follows from the formula beyond its masses. It is worked out a moment after a change, so that a key is shown
//! first.

use super::{Desk, browser};
use crate::ui::later::{self, Errand, Later};
use hundred_parts::desk::{Bench, Derived, DocId};
use hundred_parts::rules::Finding;
use hundred_parts::sheet::Masses;
use leptos::prelude::*;
use std::time::Duration;
use wasm_bindgen_futures::spawn_local;

/// How long typing may rest before the rest is worked out.
const A_MOMENT: Duration = Duration::from_millis(300);

impl Desk {
    /// Reads the sums and masses of the formula as it is, tracked.
    pub(crate) fn masses<T>(self, read: impl FnOnce(&Masses) -> T) -> T {
        self.masses.with(read)
    }

    /// Reads all that follows from the formula, tracked. Only views of the second part may: see [`later`].
    pub(crate) fn derived<T>(self, read: impl FnOnce(&Derived) -> T) -> T {
        self.derived.with(|derived| match derived {
            Some(derived) => read(derived),
            None => read(&self.now(Bench::derive)),
        })
    }

    /// Reads the findings, tracked; none before they are worked out for the first time.
    pub(crate) fn found<T>(self, read: impl FnOnce(&[Finding]) -> T) -> T {
        self.derived.with(|derived| read(derived.as_ref().map_or(&[], |derived| &derived.findings)))
    }

    /// Works out all that follows from the formula. Only for the second part.
    pub(crate) fn settle(self) {
        let masses = self.masses.get_untracked();
        let derived = self.now(|bench| bench.derive_from(masses));
        self.derived.set(Some(derived));
        self.settling.set(false);
    }

    /// Keeps what follows from the formula in step with it.
    pub(super) fn keep_settled(self) {
        let shown = StoredValue::new(None::<DocId>);
        let rest = browser::Rest::default();
        Effect::new(move |_| {
            let id = self.with(|bench| bench.id().clone());
            // Findings of another formula must not stand beside this one for a moment.
            if shown.get_value().as_ref() != Some(&id) {
                shown.set_value(Some(id));
                rest.forget();
                later::send(self, Errand::Settle);
                return;
            }
            let settle = move || {
                later::send(self, Errand::Settle);
            };
            if !self.settling.get_untracked() {
                self.settling.set(true);
            }
            rest.ask(A_MOMENT, settle);
        });
    }

    /// Fetches the second part of the program, once what is there has been drawn.
    pub(crate) fn fetch_later(self) {
        self.later.set(Later::Coming);
        let fetch = move || {
            spawn_local(async move {
                if !later::fetch().await {
                    self.later.set(Later::Missing);
                    return;
                }
                self.later.update_untracked(|later| *later = Later::Here);
                later::send(self, Errand::Settle);
                later::send(self, Errand::Tidy);
                self.later.notify();
                self.read_address();
            });
        };
        // Not in the frame itself: that is to be painted first.
        request_animation_frame(move || set_timeout(fetch, Duration::ZERO));
    }
}
