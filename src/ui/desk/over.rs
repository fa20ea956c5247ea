//! What opens over the page, and its entry in the browser's history. Only for the second part of the program; the first one
//! asks by [`Desk::ask_cover`].

use super::{Desk, OVERLAY_TITLE, Overlay, browser};
use leptos::prelude::*;

/// What Forward opens again, by its number in the history.
const AGAIN_OPEN: [Overlay; 15] = [
    Overlay::Formulas,
    Overlay::Start,
    Overlay::About,
    Overlay::Versions,
    Overlay::PassOn,
    Overlay::Keys,
    Overlay::Findings,
    Overlay::Oils,
    Overlay::Ph,
    Overlay::Preservatives,
    Overlay::Emulsifier,
    Overlay::Annexes,
    Overlay::Batches,
    Overlay::Record,
    Overlay::Method,
];

impl Overlay {
    /// A line may be gone or be another by the time that Forward leads to it: what belongs to one is not opened again.
    fn number(self) -> u32 {
        AGAIN_OPEN.iter().position(|known| *known == self).map_or(u32::MAX, |number| number as u32)
    }

    fn of_number(number: u32) -> Option<Self> {
        AGAIN_OPEN.get(number as usize).copied()
    }
}

impl Desk {
    /// Opens something over the page, with an entry of its own in the browser's history; the focus goes to its heading.
    pub(crate) fn show(self, overlay: Overlay) {
        browser::enter_over(overlay.number());
        self.cover(overlay);
    }

    fn cover(self, overlay: Overlay) {
        if self.overlay.get_untracked().is_none() {
            browser::remember_focus();
        }
        self.overlay.set(Some(overlay));
        browser::focus(OVERLAY_TITLE.to_owned());
    }

    /// Closes what is open over the page, and takes its entry out of the history.
    pub(crate) fn close_overlay(self) {
        self.uncover();
        browser::leave_over();
    }

    /// The focus goes back to where it was.
    fn uncover(self) {
        if self.overlay.get_untracked().is_some() {
            self.overlay.set(None);
            browser::return_focus();
        }
    }

    /// After Back, Forward or a link: what lies over the page is what the entry of the history says.
    pub(crate) fn follow_history(self) {
        match browser::come_to().map(|number| number.map(Overlay::of_number)) {
            Some(Some(Some(overlay))) if self.overlay.get_untracked() != Some(overlay) => self.cover(overlay),
            Some(Some(None) | None) => self.uncover(),
            _ => {}
        }
    }

    /// Once the second part is there: what was opened before has no entry yet, and what was open before a reload has one.
    pub(crate) fn tidy_history(self) {
        match self.overlay.get_untracked() {
            Some(overlay) => browser::enter_over(overlay.number()),
            None => browser::leave_over(),
        }
    }
}
