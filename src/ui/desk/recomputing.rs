//! What follows from the formula beyond its masses. It is worked out a moment after a change, so that a key is shown
//! first.

use super::{Desk, LazyState, LazyTask, browser};
use hundred_parts::desk::{Derived, DocId, OpenDocument};
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

    /// Reads all that follows from the formula, tracked. Only views of the second part may: see [`LazyTask`].
    pub(crate) fn derived<T>(self, read: impl FnOnce(&Derived) -> T) -> T {
        self.derived.with(|derived| match derived {
            Some(derived) => read(derived),
            None => read(&self.now(OpenDocument::derive)),
        })
    }

    /// Reads the findings, tracked; none before they are worked out for the first time.
    pub(crate) fn found<T>(self, read: impl FnOnce(&[Finding]) -> T) -> T {
        self.derived.with(|derived| read(derived.as_ref().map_or(&[], |derived| &derived.findings)))
    }

    /// Works out all that follows from the formula. Only for the second part.
    pub(crate) fn recompute(self) {
        let masses = self.masses.get_untracked();
        let derived = self.now(|open| open.derive_from(masses));
        self.derived.set(Some(derived));
        self.recomputing.set(false);
    }

    /// Keeps what follows from the formula in step with it.
    pub(super) fn keep_recomputed(self) {
        let shown = StoredValue::new(None::<DocId>);
        let debounce = browser::Debounce::default();
        Effect::new(move |_| {
            let id = self.with(|open| open.id().clone());
            // Findings of another formula must not stand beside this one for a moment.
            if shown.get_value().as_ref() != Some(&id) {
                shown.set_value(Some(id));
                debounce.forget();
                self.ask_lazy(LazyTask::Recompute);
                return;
            }
            let recompute = move || {
                self.ask_lazy(LazyTask::Recompute);
            };
            if !self.recomputing.get_untracked() {
                self.recomputing.set(true);
            }
            debounce.ask(A_MOMENT, recompute);
        });
    }

    /// Fetches the second part of the program, once what is there has been drawn.
    pub(crate) fn fetch_lazy_chunk(self) {
        self.lazy.set(LazyState::Coming);
        let fetch = move || {
            spawn_local(async move {
                if !(self.chunk.fetch)().await {
                    self.lazy.set(LazyState::Missing);
                    // What was to open over the page must not keep it covered.
                    self.overlay.set(None);
                    return;
                }
                self.lazy.update_untracked(|lazy| *lazy = LazyState::Here);
                self.ask_lazy(LazyTask::Recompute);
                self.ask_lazy(LazyTask::Tidy);
                self.lazy.notify();
                self.read_address();
            });
        };
        // Not in the frame itself: that is to be painted first.
        request_animation_frame(move || set_timeout(fetch, Duration::ZERO));
    }
}
