//! The ticks of the weigh sheet: kept on this device, so that they are there after a reload.

use super::{kept, key_of};
use crate::ui::browser;
use crate::ui::desk::Desk;
use crate::ui::dom::{El, effect, el, ticked};
use hundred_parts::desk::Weighed;
use hundred_parts::formula::LineId;
use hundred_parts::words::plan as words;
use leptos::prelude::{RwSignal, Set, Update, With, WithUntracked};

/// What is ticked.
#[derive(Clone, Copy)]
pub(super) struct Ticks {
    desk: Desk,
    pub(super) kept: RwSignal<Weighed>,
}

impl Ticks {
    /// Of the open formula; other masses begin without a tick.
    pub(super) fn new(desk: Desk) -> Self {
        let ticks = Self { desk, kept: RwSignal::new(Weighed::default()) };
        effect(Box::new(move || {
            let key = key_of(desk);
            let of_sheet =
                desk.masses(|masses| masses.weigh.as_ref().ok().map(|sheet| Weighed::read(&kept(&key), sheet)));
            ticks.kept.set(of_sheet.unwrap_or_default());
        }));
        ticks
    }

    /// The box of a line.
    pub(super) fn tick(self, line: LineId, name: &str) -> El {
        let change = move |event: web_sys::Event| {
            self.kept.update(|kept| kept.set(line, ticked(&event)));
            let key = self.desk.now(|open| format!("weighed.{}", open.id().as_str()));
            browser::set_preference(&key, &self.kept.with_untracked(Weighed::text));
        };
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
