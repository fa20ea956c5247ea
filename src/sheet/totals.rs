//! Sums in percent, exactly.

use crate::formula::{Choice, Formula, Line, LineId, PhaseId, Share};
use crate::quantity::Percent;

/// What a formula is over or under 100.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Balance {
    /// Exactly 100 %.
    Whole,
    /// This much is missing.
    Short(Percent),
    /// This much is too much.
    Over(Percent),
}

/// The sum of one phase.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PhaseTotal {
    /// Which phase.
    pub phase: PhaseId,
    /// Sum of the shares that are known.
    pub share: Percent,
    /// False if a share in it is missing or unread, or fills up what is not known yet.
    pub complete: bool,
}

/// The sums of a formula.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Totals {
    /// Each phase in order.
    pub phases: Vec<PhaseTotal>,
    /// The share of every line that has one; the fill-up line's is what the others leave.
    pub shares: Vec<(LineId, Percent)>,
    /// Sum over all of them.
    pub total: Percent,
    /// Over or under 100.
    pub balance: Balance,
    /// Lines with a name or a note but no share yet.
    pub missing: Vec<LineId>,
    /// Lines whose share was typed but could not be read.
    pub unread: Vec<LineId>,
    /// Lines with a share but without a name.
    pub nameless: Vec<LineId>,
}

impl Totals {
    /// True if every line's share is known, so that the sums are final.
    pub fn complete(&self) -> bool {
        self.missing.is_empty() && self.unread.is_empty()
    }

    /// True if the parts come to exactly 100.
    pub fn is_whole(&self) -> bool {
        self.balance == Balance::Whole
    }

    /// The sum of a phase, if there is such a phase.
    pub fn of_phase(&self, phase: PhaseId) -> Option<PhaseTotal> {
        self.phases.iter().find(|total| total.phase == phase).copied()
    }

    /// The share of a line, if it is known.
    pub fn share_of(&self, line: LineId) -> Option<Percent> {
        self.shares.iter().find(|(id, _)| *id == line).map(|(_, share)| *share)
    }
}

/// Sums a formula. Unread shares are left out, never counted as zero: see [`Totals::complete`].
pub fn totals(formula: &Formula) -> Totals {
    let lines: Vec<&Line> = formula.lines().map(|(_, line)| line).filter(|line| !line.is_blank()).collect();
    let typed = |line: &Line| line.share.typed().and_then(|typed| typed.value());
    let stated: Percent = lines.iter().filter_map(|line| typed(line)).sum();
    // Over 100 the fill-up line has nothing left to fill: it is nothing, and the balance says by how much it is over.
    let rest = Percent::WHOLE.minus(stated).max(Percent::ZERO);
    let share = |line: &Line| if line.share.is_fill_up() { Some(rest) } else { typed(line) };

    let shares: Vec<_> = lines.iter().filter_map(|line| Some((line.id, share(line)?))).collect();
    let total: Percent = shares.iter().map(|(_, share)| *share).sum();
    let ids =
        |test: &dyn Fn(&Line) -> bool| lines.iter().filter(|line| test(line)).map(|line| line.id).collect::<Vec<_>>();
    let missing = ids(&|line| line.share.typed().is_some_and(|typed| typed.is_empty()));
    let unread = ids(&|line| line.share.typed().is_some_and(|typed| typed.is_unread()));
    let nameless = ids(&|line| matches!(&line.choice, Choice::Named(name) if name.trim().is_empty()));

    let open = !(missing.is_empty() && unread.is_empty());
    let phases = formula
        .phases()
        .iter()
        .map(|phase| PhaseTotal {
            phase: phase.id,
            share: phase.lines.iter().filter(|line| !line.is_blank()).filter_map(share).sum(),
            complete: !phase.lines.iter().any(|line| {
                missing.contains(&line.id) || unread.contains(&line.id) || (open && matches!(line.share, Share::FillUp))
            }),
        })
        .collect();
    Totals { phases, shares, total, balance: balance(total), missing, unread, nameless }
}

fn balance(total: Percent) -> Balance {
    let difference = total.minus(Percent::WHOLE);
    match difference.cmp(&Percent::ZERO) {
        core::cmp::Ordering::Equal => Balance::Whole,
        core::cmp::Ordering::Less => Balance::Short(Percent::WHOLE.minus(total)),
        core::cmp::Ordering::Greater => Balance::Over(difference),
    }
}
