//! The steps of a soap. Nothing in it is dosed to a pH: an acid would break it into fat again.

use super::Reason;
use super::needs::Needs;
use super::steps::{MethodMaker, ids, pick};
use crate::formula::{PhaseId, PhaseKind, StepKind};

impl MethodMaker<'_> {
    pub(super) fn soap(&mut self) {
        let pots = self.phases(|phase| phase.kind != PhaseKind::CoolDown);
        let lye = pick(&self.lines, |line| line.lye);
        for phase in &pots {
            self.weigh_for_soap(*phase);
        }
        if lye.is_empty() {
            // It stands in the plan for lye, and not among the lines.
            self.step(StepKind::Weigh, Reason::LyeAlone);
        }
        let late = pick(&self.lines, |line| !pots.contains(&line.phase) && !line.lye);
        // Soap thickens too fast to weigh anything once the lye is in the fats.
        self.cups(&late);
        self.step(StepKind::Other, Reason::LyeIntoWater).lines(ids(&lye));
        let oils: Vec<PhaseId> = pots.iter().copied().filter(|phase| self.is(*phase, PhaseKind::Oil)).collect();
        if !oils.is_empty() {
            self.step(StepKind::Heat, Reason::Melt).phases(&oils);
        }
        self.step(StepKind::Join, Reason::JoinLye).phases(&pots);
        self.step(StepKind::Blend, Reason::BlendSoap);
        self.stir_in(Reason::SiftPowder, &pick(&late, |line| line.powder), None);
        self.stir_in(Reason::IntoSoap, &pick(&late, |line| !line.powder && !line.fragrance), None);
        self.stir_in(Reason::IntoSoap, &pick(&late, |line| !line.powder && line.fragrance), None);
        self.step(StepKind::Pack, Reason::Mould);
    }

    /// A phase of a soap, whichever it is; a lye apart from all else.
    fn weigh_for_soap(&mut self, phase: PhaseId) {
        let (lye, others): (Vec<Needs>, Vec<Needs>) = self.in_phase(phase).into_iter().partition(|line| line.lye);
        let any_lye = self.lines.iter().any(|line| line.lye);
        let water = any_lye && self.is(phase, PhaseKind::Water);
        self.weigh(phase, if water { Reason::WaterForLye } else { Reason::PhaseTogether }, &others);
        self.weigh(phase, Reason::LyeLine, &lye);
    }
}
