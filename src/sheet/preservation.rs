//! What the preservatives of a formula can do: as added, as acid, undissociated, against what they need.

use super::Totals;
use super::ph::{WaterPhase, davies, undissociated};
use crate::facts::{Acid, Cover, Preservative, PreservativeGroup, Shelf, UseRange, acid, preservative};
use crate::formula::{Formula, LineId, Use};
use crate::quantity::{Percent, Ph, Quantity, mul_div_nearest};

/// Half the width of the band of pH in which a batch is let go, in hundredths. Common practice, no source.
pub const BAND: i64 = 30;
/// The salts of a lotion, mol per kg of water, at the careful end of a share; 25 °C.
const SALTS: (f64, f64) = (0.05, 298.15);

/// Undissociated share at one pH: only that acts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ShareAt {
    /// The pH.
    pub ph: Ph,
    /// The share by the table's constant in pure water.
    pub share: Percent,
    /// Least and greatest over what sources say of the constant and what salts do to it.
    pub range: (Percent, Percent),
    /// The share of the whole formula that is active: as acid × undissociated.
    pub active: Percent,
}

/// Whether it works at the upper end of the band.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Works {
    /// Within its window.
    Yes,
    /// Between the end of its window and the pH at which it fails.
    WithCare,
    /// It does not count.
    No,
    /// No window or no target is known.
    Unknown,
}

/// One substance over all the lines that bring it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Agent {
    /// Its row: that under which its sources are summed.
    pub substance: &'static Preservative,
    /// The lines that bring it.
    pub lines: Vec<LineId>,
    /// What was added, salts as salts, blends by the middle of its part.
    pub added: Percent,
    /// The same as counted: salts as their acid.
    pub counted: Percent,
    /// As counted, blends by the upper end: what a check of a limit must use.
    pub counted_most: Percent,
    /// What the law allows for this use.
    pub limit: Option<Percent>,
    /// At the target, and at the lower and the upper end of its band; nothing for what no acid is, or without a target.
    pub shares: Option<[ShareAt; 3]>,
    /// Its usual share, as counted.
    pub usual: Option<UseRange>,
    /// Whether it works at the target's band.
    pub works: Works,
}

/// All preservatives together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Preservation {
    /// Each substance.
    pub agents: Vec<Agent>,
    /// The best grade for each organism over what may be counted and works.
    pub cover: Option<Cover>,
    /// Lines of a blend whose composition nobody told.
    pub unknown_blends: Vec<LineId>,
}

/// Computes it; nothing if the formula has no preservative and no helper of one.
pub fn preservation(formula: &Formula, totals: &Totals, shelf: &Shelf, water: &WaterPhase) -> Option<Preservation> {
    let target = formula.about.target_ph.value();
    let mut found = Preservation { agents: Vec::new(), cover: None, unknown_blends: Vec::new() };
    for (_, line) in formula.lines() {
        let share = totals.share_of(line.id).filter(|share| *share > Percent::ZERO);
        let row = line.choice.id().and_then(|id| shelf.entry(id)).and_then(|entry| entry.links().preservative);
        let (Some(share), Some(row)) = (share, row.and_then(preservative)) else { continue };
        if row.group != PreservativeGroup::Blend {
            found.take(formula, line.id, row, (share, share));
        } else if row.parts.is_empty() {
            found.unknown_blends.push(line.id);
        } else {
            for part in &row.parts {
                // Water, glycerin and the like have no row.
                if let Some(part_row) = preservative(part.id) {
                    found.take(formula, line.id, part_row, (of(share, part.middle()), of(share, part.high)));
                }
            }
        }
    }
    if found.agents.is_empty() && found.unknown_blends.is_empty() {
        return None;
    }
    let salty = !water.known.is_empty();
    for agent in &mut found.agents {
        agent.works = works(agent.substance, target);
        agent.shares = target.and_then(|target| shares(agent, target, salty));
    }
    let counting = |agent: &&Agent| {
        agent.substance.group == PreservativeGroup::Listed
            && matches!(agent.works, Works::Yes | Works::WithCare | Works::Unknown)
    };
    found.cover = found.agents.iter().filter(counting).filter_map(|agent| agent.substance.cover).reduce(Cover::best);
    Some(found)
}

fn of(share: Percent, part: Percent) -> Percent {
    Percent::from_units(mul_div_nearest(share.units(), part.units(), Percent::WHOLE.units()))
}

impl Preservation {
    /// Adds a source of a substance: middle and upper end of what it brings.
    fn take(
        &mut self,
        formula: &Formula,
        line: LineId,
        row: &'static Preservative,
        (middle, most): (Percent, Percent),
    ) {
        let Some(substance) = preservative(row.sum_with) else { return };
        let at = self.agents.iter().position(|agent| agent.substance.id == substance.id).unwrap_or_else(|| {
            let leave_on = formula.about.purpose == Use::LeaveOn;
            let counts = |end: Option<Percent>| end.map(|end| row.counts(end));
            self.agents.push(Agent {
                substance,
                lines: Vec::new(),
                added: Percent::ZERO,
                counted: Percent::ZERO,
                counted_most: Percent::ZERO,
                limit: if leave_on { row.leave_on } else { row.rinse_off },
                shares: None,
                usual: row.usual.map(|usual| UseRange { low: counts(usual.low), high: counts(usual.high) }),
                works: Works::Unknown,
            });
            self.agents.len() - 1
        });
        if let Some(agent) = self.agents.get_mut(at) {
            if agent.lines.last() != Some(&line) {
                agent.lines.push(line);
            }
            agent.added = agent.added.plus(middle);
            agent.counted = agent.counted.plus(row.counts(middle));
            agent.counted_most = agent.counted_most.plus(row.counts(most));
        }
    }
}

fn works(row: &Preservative, target: Option<Ph>) -> Works {
    let (Some(target), Some(window)) = (target, row.window) else { return Works::Unknown };
    let (low, high) = (target.units() - BAND, target.units() + BAND);
    let above = |end: Option<Ph>| end.is_some_and(|end| high > end.units());
    if window.min.is_some_and(|min| low < min.units()) || above(row.ph_worst) {
        Works::No
    } else if above(window.max) {
        Works::WithCare
    } else {
        Works::Yes
    }
}

/// Shares at the target and both ends of its band.
fn shares(agent: &Agent, target: Ph, salty: bool) -> Option<[ShareAt; 3]> {
    let row = agent.substance.acid.and_then(acid)?;
    let at = |offset: i64| {
        let ph = Ph::from_units((target.units() + offset).clamp(Ph::MIN, Ph::MAX));
        share_at(row, ph, agent.counted, salty)
    };
    Some([at(0)?, at(-BAND)?, at(BAND)?])
}

/// The undissociated share of an acid at a pH; `counted` is how much of it there is, `salty` that salts are dissolved.
pub fn share_at(row: &Acid, ph: Ph, counted: Percent, salty: bool) -> Option<ShareAt> {
    let pka = row.steps.first()?.pka;
    let (low, high) = row.span.unwrap_or((pka, pka));
    let at = ph.units() as f64 / 100.0;
    let d = if salty { davies(SALTS.0, SALTS.1) } else { 0.0 };
    let percent = |share: f64| Percent::from_units((share * Percent::WHOLE.units() as f64).round() as i64);
    let share = percent(undissociated(pka, at, 0.0));
    let range = (percent(undissociated(low, at, d)), percent(undissociated(high, at, 0.0)));
    Some(ShareAt { ph, share, range, active: of(counted, share) })
}
