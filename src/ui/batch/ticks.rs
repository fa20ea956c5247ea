//! The ticks of the weigh sheet: kept on this device, so that they are there after a reload.

use crate::ui::browser;
use crate::ui::desk::Desk;
use crate::ui::dom::{El, effect, el, ticked};
use hundred_parts::desk::{OpenDocument, Weighed};
use hundred_parts::formula::LineId;
use hundred_parts::words::plan as words;
use leptos::prelude::{RwSignal, Set, Update, With, WithUntracked};

/// Where the ticks of a formula are kept on this device.
fn key_of(open: &OpenDocument) -> String {
    format!("weighed.{}", open.id().as_str())
}

/// What is ticked.
#[derive(Clone, Copy)]
pub(super) struct Ticks {
    desk: Desk,
    pub(super) kept: RwSignal<Weighed>,
}

impl Ticks {
    /// Of the open formula; others than were weighed begin without a tick.
    pub(super) fn new(desk: Desk) -> Self {
        let ticks = Self { desk, kept: RwSignal::new(Weighed::default()) };
        effect(Box::new(move || {
            let weighed = desk.masses(|masses| {
                let sheet = masses.weigh.as_ref().ok()?;
                desk.with(|open| {
                    let text = browser::preference(&key_of(open)).unwrap_or_default();
                    Some(Weighed::read(&text, sheet, &open.state().formula))
                })
            });
            ticks.kept.set(weighed.unwrap_or_default());
        }));
        ticks
    }

    /// Changes what is ticked, and keeps it.
    fn keep(self, change: impl FnOnce(&mut Weighed)) {
        self.kept.update(change);
        browser::set_preference(&self.desk.now(key_of), &self.kept.with_untracked(Weighed::text));
    }

    /// Takes all ticks away, for the next batch.
    pub(super) fn clear(self) {
        self.keep(Weighed::clear);
    }

    /// The box of a line.
    pub(super) fn tick(self, line: LineId, name: &str) -> El {
        let change = move |event: web_sys::Event| self.keep(|kept| kept.set(line, ticked(&event)));
        el("input")
            .attr("type", "checkbox")
            .attr("aria-label", &words::tick(name))
            .checked_of(move || self.holds(line))
            .on("change", change)
    }

    /// Whether a line is ticked, tracked.
    pub(super) fn holds(self, line: LineId) -> bool {
        self.kept.with(|kept| kept.holds(line))
    }
}
