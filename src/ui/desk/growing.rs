//! The lines of the ledger come a few at a time when the page opens: made and laid out in one go, they would keep a phone from
//! answering for a third of a second. The second part of the program is fetched behind them.

use super::Desk;
use hundred_parts::desk::Screen;
use leptos::prelude::{GetUntracked, Set, request_animation_frame, set_timeout};
use std::time::Duration;

/// So many lines more in each frame.
const A_FRAME: usize = 4;

impl Desk {
    /// Lets the next lines in once what is there has been painted, until all are, and then fetches the second part.
    pub(super) fn let_lines_in(self) {
        let grown = self.formula_page.grown;
        if self.screen.get_untracked() != Screen::Formula {
            grown.set(usize::MAX);
        }
        if grown.get_untracked() == usize::MAX {
            return self.fetch_lazy_chunk();
        }
        let more = move || {
            let next = grown.get_untracked().saturating_add(A_FRAME);
            let all = self.now(|open| open.state().formula.lines().count());
            grown.set(if next >= all { usize::MAX } else { next });
            self.let_lines_in();
        };
        request_animation_frame(move || set_timeout(more, Duration::ZERO));
    }
}
