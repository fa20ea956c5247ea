//! Which lines of the ledger may stand: when the page opens they come a few at a time (`Desk::let_lines_in`).

use crate::ui::desk::Desk;
use hundred_parts::formula::PhaseId;
use leptos::prelude::Get;

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
        let mut before = 0;
        for phase in open.state().formula.phases() {
            if phase.id == id {
                let lines = phase.lines.iter().take(grown.saturating_sub(before));
                return lines.map(|line| line.id.number()).collect();
            }
            before += phase.lines.len();
        }
        Vec::new()
    })
}
