//! Where a line goes: along the order of the formula, or beside another line.

use super::{Formula, LineId};

/// A way along an order that is shown from top to bottom.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Direction {
    /// Towards the first place.
    Up,
    /// Towards the last place.
    Down,
}

impl Direction {
    /// The place next to `at`; nothing above the first one. Whether there is one below is for the list to say.
    pub const fn next_to(self, at: usize) -> Option<usize> {
        match self {
            Self::Up => at.checked_sub(1),
            Self::Down => at.checked_add(1),
        }
    }
}

/// On which side of another line a line is put down.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DropSide {
    /// Right before it.
    Before,
    /// Right after it.
    After,
}

impl DropSide {
    /// Its name in markup.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Before => "before",
            Self::After => "after",
        }
    }
}

impl Formula {
    /// Moves a line one place up or down, into the neighbouring phase at a phase's edge.
    pub fn nudge_line(&mut self, id: LineId, direction: Direction) {
        let Some((phase, index)) = self.place_of(id) else { return };
        let Some(nth) = self.phases.iter().position(|p| p.id == phase) else { return };
        let within = direction.next_to(index).filter(|to| *to < self.phases[nth].lines.len());
        if let Some(to) = within {
            self.move_line(id, phase, to);
            return;
        }
        let Some(beyond) = direction.next_to(nth).and_then(|n| self.phases.get(n)) else { return };
        let to = match direction {
            Direction::Up => beyond.lines.len(),
            Direction::Down => 0,
        };
        self.move_line(id, beyond.id, to);
    }

    /// Moves a line to a side of another one; nothing if either is missing.
    pub fn drop_line(&mut self, id: LineId, at: LineId, side: DropSide) {
        let (Some((from, before)), Some((phase, index))) = (self.place_of(id), self.place_of(at)) else { return };
        let to = match side {
            DropSide::Before => index,
            DropSide::After => index + 1,
        };
        // The line leaves its place first, so the places behind it move up.
        let to = if from == phase && before < to { to - 1 } else { to };
        self.move_line(id, phase, to);
    }
}
