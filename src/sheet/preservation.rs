//! What the preservatives of a formula can do: as added, as acid, undissociated, against what they need.

use super::ph::{WaterPhase, davies, undissociated};
use super::preserves::{BAND, Enough, Works, enough, works};
use super::{FormulaComposition, InWater, SubstanceShare, Trust, Volumes, in_water};
use crate::facts::{Acid, Cover, Preservative, PreservativeGroup, UseRange, acid, preservative};
use crate::formula::{Formula, LineId, Use};
use crate::quantity::{Percent, Ph, Quantity};

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
    /// What of it is free in the water at the target; nothing for an acid without a target.
    pub in_water: Option<InWater>,
    /// Its usual share, as counted.
    pub usual: Option<UseRange>,
    /// Whether it works at the target's band, and there is enough of it.
    pub works: Works,
}

/// All preservatives together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Preservation {
    /// Each substance.
    pub agents: Vec<Agent>,
    /// The best grade for each organism over what may be counted and works.
    pub cover: Option<Cover>,
    /// Lines with a preservative among what nobody told the shares of.
    pub unknown_blends: Vec<LineId>,
}

/// Computes it; nothing if the formula has no preservative and no helper of one. What is too little of one as it will be
/// `weighed` counts as too little.
pub fn preservation(
    formula: &Formula,
    composition: &FormulaComposition,
    weighed: Option<&FormulaComposition>,
    water: &WaterPhase,
    volumes: Volumes,
) -> Option<Preservation> {
    let target = formula.about.target_ph.value();
    let leave_on = formula.about.purpose == Use::LeaveOn;
    let mut found = Preservation { agents: Vec::new(), cover: None, unknown_blends: Vec::new() };
    for substance in &composition.substances {
        let Some(row) = substance.preservative() else { continue };
        if substance.trust != Trust::Open {
            let lost = weighed.is_some_and(|weighed| {
                let same = |other: &&SubstanceShare| other.line == substance.line && other.key == substance.key;
                weighed
                    .substances
                    .iter()
                    .find(same)
                    .is_none_or(|substance| enough(weighed, substance, row) == Enough::No)
            });
            found.take(leave_on, substance, row, if lost { Enough::No } else { enough(composition, substance, row) });
        } else if found.unknown_blends.last() != Some(&substance.line) {
            found.unknown_blends.push(substance.line);
        }
    }
    if found.agents.is_empty() && found.unknown_blends.is_empty() {
        return None;
    }
    let salty = !water.known.is_empty();
    for agent in &mut found.agents {
        if agent.works != Works::TooLittle {
            agent.works = works(agent.substance, target);
        }
        agent.shares = target.and_then(|target| shares(agent, target, salty));
        agent.in_water = free_of(agent, target, volumes);
    }
    let counting = |agent: &&Agent| {
        agent.substance.group == PreservativeGroup::Listed
            && matches!(agent.works, Works::Yes | Works::WithCare | Works::Unknown)
    };
    found.cover = found.agents.iter().filter(counting).filter_map(|agent| agent.substance.cover).reduce(Cover::best);
    Some(found)
}

impl Preservation {
    /// Adds a source of a substance.
    fn take(&mut self, leave_on: bool, share: &SubstanceShare, row: &'static Preservative, enough: Enough) {
        let Some(substance) = preservative(row.sum_with) else { return };
        let at = self.agents.iter().position(|agent| agent.substance.id == substance.id).unwrap_or_else(|| {
            let counts = |end: Option<Percent>| end.map(|end| row.counts(end));
            self.agents.push(Agent {
                substance,
                lines: Vec::new(),
                added: Percent::ZERO,
                counted: Percent::ZERO,
                counted_most: Percent::ZERO,
                limit: None,
                shares: None,
                in_water: None,
                usual: row.usual.map(|usual| UseRange { low: counts(usual.low), high: counts(usual.high) }),
                // Taken back by the first source of which there is enough.
                works: Works::TooLittle,
            });
            self.agents.len() - 1
        });
        if let Some(agent) = self.agents.get_mut(at) {
            if agent.lines.last() != Some(&share.line) {
                agent.lines.push(share.line);
            }
            agent.added = agent.added.plus(share.middle());
            agent.counted = agent.counted.plus(row.counts(share.middle()));
            agent.counted_most = agent.counted_most.plus(row.counts(share.high));
            let limit = if leave_on { row.leave_on } else { row.rinse_off };
            agent.limit = agent.limit.into_iter().chain(limit).min();
            // Only what may be the preservative must be enough of it.
            if enough != Enough::No || row.group != PreservativeGroup::Listed {
                agent.works = Works::Unknown;
            }
        }
    }
}

/// What is free of it in the water.
fn free_of(agent: &Agent, target: Option<Ph>, volumes: Volumes) -> Option<InWater> {
    let ionised = match agent.substance.acid.and_then(acid) {
        None => 0.0,
        Some(row) => {
            let share = undissociated(row.steps.first()?.pka, target?.units() as f64 / 100.0, 0.0);
            1.0 / share - 1.0
        }
    };
    // Salts as their acid; of parabens, which count as another acid than they are, what was added.
    let there = if agent.substance.acid.is_some() { agent.counted } else { agent.added };
    in_water(agent.substance.id, there, volumes, ionised)
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
    Some(ShareAt { ph, share, range, active: counted.of(share) })
}
