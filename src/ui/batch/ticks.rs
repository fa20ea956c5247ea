//! The ticks of the weigh sheet: kept on this device, so that they are there after a reload; while a batch is being made, they
//! are entries of its record.

use crate::ui::browser;
use crate::ui::desk::{Desk, FollowUp};
use crate::ui::dom::{El, effect, el, follow, ticked};
use hundred_parts::batch::Event;
use hundred_parts::desk::{OpenDocument, Weighed};
use hundred_parts::formula::LineId;
use hundred_parts::report::{SheetLine, lines_on_sheet};
use hundred_parts::words::plan as words;
use leptos::prelude::{Notify, RwSignal, Set, Track, Update, With, WithUntracked, untrack};

/// Where the ticks of a formula are kept on this device.
fn key_of(open: &OpenDocument) -> String {
    format!("weighed.{}", open.id().as_str())
}

/// Sets ticks again that were taken away.
pub(in crate::ui) fn put_back(desk: Desk, kept: &str) {
    let (key, before) = kept.split_once(' ').unwrap_or((kept, ""));
    let since = browser::preference(key).unwrap_or_default();
    browser::set_preference(key, &Weighed::put_back(before, &since));
    desk.ticks_put_back.notify();
}

/// What is ticked on this device on the sheet of the open formula, where there is a sheet.
fn kept_on_device(desk: Desk) -> Weighed {
    let kept = desk.masses(|masses| {
        let sheet = masses.weigh.as_ref().ok()?;
        desk.with(|open| {
            let text = browser::preference(&key_of(open)).unwrap_or_default();
            Some(Weighed::read(&text, sheet, &open.state().formula))
        })
    });
    kept.unwrap_or_default()
}

/// The lines of the sheet that belong to the batch in the making; nothing where none is.
fn in_making(desk: Desk) -> Option<Vec<SheetLine>> {
    desk.masses(|masses| desk.with_batch(|open| lines_on_sheet(open, masses.weigh.as_ref().ok()?)))
}

/// How many lines are ticked.
pub(in crate::ui) fn ticked_lines(desk: Desk) -> usize {
    kept_on_device(desk).count()
}

/// Records what is ticked as weighed for the batch that has just begun; the ticks are in its record then, and go here.
pub(in crate::ui) fn take_over(desk: Desk) {
    untrack(|| {
        let kept = kept_on_device(desk);
        let mut ticked = in_making(desk).unwrap_or_default().into_iter().filter(|line| kept.holds(line.line));
        if ticked.all(|line| desk.note(line.tick)) {
            browser::forget_preference(&desk.now(key_of));
        }
    });
}

/// What is ticked: kept on this device, or in the record of the batch while one is being made.
#[derive(Clone, Copy)]
pub(super) struct Ticks {
    desk: Desk,
    kept: RwSignal<Weighed>,
    making: RwSignal<Option<Vec<SheetLine>>>,
}

impl Ticks {
    /// Of the open formula; others than were weighed begin without a tick.
    pub(super) fn new(desk: Desk) -> Self {
        let ticks = Self { desk, kept: RwSignal::new(Weighed::default()), making: follow(move || in_making(desk)) };
        effect(Box::new(move || {
            desk.ticks_put_back.track();
            ticks.kept.set(kept_on_device(desk));
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
        let before = self.kept.with_untracked(Weighed::text);
        self.keep(Weighed::clear);
        let kept = format!("{} {before}", self.desk.now(key_of));
        self.desk.say(words::TICKS_CLEARED, Some(FollowUp::Tick(kept)));
    }

    /// Ticks a line, or takes the tick away; in the record of a batch that is an entry, and one that crosses it out.
    fn set(self, line: LineId, weighed: bool) {
        let found = self
            .making
            .with_untracked(|making| making.as_ref().map(|lines| lines.iter().find(|one| one.line == line).cloned()));
        match found {
            None => self.keep(|kept| kept.set(line, weighed)),
            Some(Some(SheetLine { tick, weighed: None, .. })) if weighed => {
                self.desk.note(tick);
            }
            Some(Some(SheetLine { weighed: Some(entry), .. })) if !weighed => {
                self.desk.note(Event::Struck { entry, reason: words::TICK_TAKEN_AWAY.to_owned() });
            }
            Some(_) => {}
        }
    }

    /// The box of a line.
    pub(super) fn tick(self, line: LineId, name: &str) -> El {
        let change = move |event: web_sys::Event| self.set(line, ticked(&event));
        el("input")
            .attr("type", "checkbox")
            .attr("aria-label", &words::tick(name))
            .checked_of(move || self.holds(line))
            .disabled_if(move || self.is_of_another_batch(line))
            .on("change", change)
    }

    /// Whether a line is ticked, tracked.
    pub(super) fn holds(self, line: LineId) -> bool {
        self.making.with(|making| match making {
            Some(lines) => lines.iter().any(|one| one.line == line && one.weighed.is_some()),
            None => self.kept.with(|kept| kept.holds(line)),
        })
    }

    /// Whether a batch is in the making that has no such line: its sheet was another one.
    fn is_of_another_batch(self, line: LineId) -> bool {
        self.making.with(|making| making.as_ref().is_some_and(|lines| lines.iter().all(|one| one.line != line)))
    }

    /// How many are ticked, tracked.
    pub(super) fn count(self) -> usize {
        self.making.with(|making| match making {
            Some(lines) => lines.iter().filter(|one| one.weighed.is_some()).count(),
            None => self.kept.with(Weighed::count),
        })
    }

    /// Whether there are ticks that can be taken away all at once: not those that are in a record.
    pub(super) fn can_clear(self) -> bool {
        self.making.with(Option::is_none) && self.count() > 0
    }
}
