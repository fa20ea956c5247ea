//! The ledger comes a few lines at a time when the page opens: made and laid out in one go, its lines would keep a phone from
//! answering for a third of a second.

use crate::ui::desk::Desk;
use hundred_parts::formula::PhaseId;
use leptos::prelude::{Get, GetUntracked, Set, request_animation_frame, set_timeout};
use std::time::Duration;

/// So many lines more in each frame.
const A_FRAME: usize = 4;

/// Lets the next lines in once what is there has been painted, until all are.
pub(super) fn grow(desk: Desk) {
    let grown = desk.formula_page.grown;
    let more = move || {
        let next = grown.get_untracked().saturating_add(A_FRAME);
        let all = desk.now(|open| open.state().formula.lines().count());
        grown.set(if next >= all { usize::MAX } else { next });
        grow(desk);
    };
    if grown.get_untracked() < usize::MAX {
        request_animation_frame(move || set_timeout(more, Duration::ZERO));
    }
}

/// Whether all stand.
pub(super) fn is_whole(desk: Desk) -> bool {
    desk.formula_page.grown.get() == usize::MAX
}

/// The phases that may stand, by their numbers, in order.
pub(super) fn phases(desk: Desk) -> Vec<u32> {
    let grown = desk.formula_page.grown.get();
    desk.with(|open| {
        let mut before = 0;
        let mut stand = Vec::new();
        for phase in open.state().formula.phases() {
            if before < grown {
                stand.push(phase.id.number());
            }
            before += phase.lines.len();
        }
        stand
    })
}

/// The lines of a phase that may stand, by their numbers, in order.
pub(super) fn lines(desk: Desk, id: PhaseId) -> Vec<u32> {
    let grown = desk.formula_page.grown.get();
    desk.with(|open| {
        let phases = open.state().formula.phases();
        let Some(at) = phases.iter().position(|phase| phase.id == id) else { return Vec::new() };
        let before: usize = phases[..at].iter().map(|phase| phase.lines.len()).sum();
        phases[at].lines.iter().take(grown.saturating_sub(before)).map(|line| line.id.number()).collect()
    })
}
