//! The picture of a formula as a hundred cells, a cell a part.

use super::{Totals, largest_remainder};
use crate::formula::{Formula, LineId, PhaseId};
use crate::quantity::{Percent, Quantity};

/// Lines that own cells together: a line of one part or more for itself, the smaller lines of a phase as one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Group {
    /// Their phase.
    pub phase: PhaseId,
    /// The lines.
    pub lines: Vec<LineId>,
    /// Their share.
    pub share: Percent,
    /// How many cells they own.
    pub cells: usize,
}

/// The hundred square.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Square {
    /// Groups in the order in which they fill it.
    pub groups: Vec<Group>,
    /// Cells that stay empty because parts are missing.
    pub missing: usize,
    /// Cells beyond the hundredth.
    pub excess: usize,
}

impl Square {
    /// The group that owns each cell, from the first on; may be more than a hundred.
    pub fn cells(&self) -> impl Iterator<Item = &Group> {
        self.groups.iter().flat_map(|group| core::iter::repeat_n(group, group.cells))
    }
}

/// One part of a hundred.
const PART: i64 = 1_000_000;

/// Gives each group its cells by largest remainder, so that the cells sum to the total in whole parts.
pub fn square(formula: &Formula, totals: &Totals) -> Square {
    let mut groups: Vec<Group> = Vec::new();
    for phase in formula.phases() {
        let mut small: Option<Group> = None;
        for line in &phase.lines {
            let Some(share) = totals.share_of(line.id) else { continue };
            if share.units() >= PART {
                groups.push(Group { phase: phase.id, lines: vec![line.id], share, cells: 0 });
            } else {
                let group = small.get_or_insert_with(|| Group {
                    phase: phase.id,
                    lines: Vec::new(),
                    share: Percent::ZERO,
                    cells: 0,
                });
                group.lines.push(line.id);
                group.share = group.share.plus(share);
            }
        }
        groups.extend(small);
    }
    let parts = ((totals.total.units() + PART / 2) / PART).max(0);
    let shares: Vec<i64> = groups.iter().map(|group| group.share.units()).collect();
    for (group, cells) in groups.iter_mut().zip(largest_remainder(&shares, parts)) {
        group.cells = usize::try_from(cells).unwrap_or(0);
    }
    let parts = usize::try_from(parts).unwrap_or(0);
    Square { groups, missing: 100usize.saturating_sub(parts), excess: parts.saturating_sub(100) }
}
