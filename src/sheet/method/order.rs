//! The order of the steps of all that is no soap: an emulsion, a gel, a balm.

use super::Reason;
use super::needs::Needs;
use super::steps::{MethodMaker, ids, pick};
use crate::facts::craft;
use crate::formula::{PhaseId, PhaseKind, StepKind};
use crate::quantity::Celsius;

impl MethodMaker<'_> {
    pub(super) fn emulsion(&mut self) {
        for phase in self.vessels.pots.clone() {
            self.weigh_phase(phase);
        }
        for phase in self.vessels.slurries.clone() {
            self.slurry(phase);
        }
        // What melts on its own is poured together hot; an emulsion is heated in two vessels.
        if self.vessels.joined {
            self.join_alike();
        }
        self.heat();
        if !self.vessels.joined {
            self.join_alike();
        }
        let late = pick(&self.lines, |line| !self.in_pot(line));
        self.join();
        self.cups(&late);
        let below = self.add_below(&late);
        let sets_ph = self.sets_ph();
        if !self.vessels.hot.is_empty() && (self.vessels.joined || !late.is_empty() || sets_ph) {
            let reason = match () {
                () if self.vessels.joined => Reason::Cool,
                () if self.melts() => Reason::CoolMelt,
                () => Reason::CoolWater,
            };
            self.step(StepKind::Cool, reason).at(below);
        }
        self.add(&late, below);
        let poured = !self.vessels.hot.is_empty() && !self.vessels.joined && self.melts();
        self.step(StepKind::Pack, if poured { Reason::PourMelt } else { Reason::Pack });
    }

    /// Whether a line goes into a vessel at the start: not where its phase is added late, nor where it would not bear the
    /// heat; nor what the pH is set with, nor an acid before a benzoate or sorbate has dissolved.
    fn in_pot(&self, line: &Needs) -> bool {
        let vessels = &self.vessels;
        if vessels.slurries.contains(&line.phase) {
            return true;
        }
        let hot = vessels.hot.contains(&line.phase);
        let spoils = hot && (line.fragrance || line.heat_most.is_some_and(|most| most < vessels.heat));
        let falls_out = line.acid && self.lines.iter().any(|other| other.salt_of_acid);
        vessels.pots.contains(&line.phase) && !spoils && !falls_out && !self.adjusts(line)
    }

    /// Whether a line sets the pH. A base in the water that meets a fatty acid in the oil makes the emulsifier instead.
    fn adjusts(&self, line: &Needs) -> bool {
        let makes_soap = line.base
            && self.is(line.phase, PhaseKind::Water)
            && self.lines.iter().any(|other| other.fatty_acid && self.is(other.phase, PhaseKind::Oil));
        line.adjuster && !makes_soap
    }

    /// The phases that are heated have to melt, and not only to dissolve.
    fn melts(&self) -> bool {
        let hot = &self.vessels.hot;
        let melts = |line: &Needs| line.melts && hot.contains(&line.phase);
        hot.iter().any(|phase| self.is(*phase, PhaseKind::Oil)) || self.lines.iter().any(melts)
    }

    /// A phase into its vessel: a gum with what wets it first; gums and powders that nothing wets by themselves, since they
    /// are strewn or worked in.
    fn weigh_phase(&mut self, phase: PhaseId) {
        let here = pick(&self.in_phase(phase), |line| self.in_pot(line));
        let oil = self.is(phase, PhaseKind::Oil);
        let gums = pick(&here, |line| line.gum);
        let liquids = if oil { Vec::new() } else { pick(&here, |line| line.wetting && !line.gum) };
        let wetted = !gums.is_empty() && !liquids.is_empty();
        let powders = pick(&here, |line| line.powder && !line.gum);
        let dry = pick(&here, |line| (line.powder && !line.gum) || (line.gum && !wetted));
        let slurry: Vec<Needs> = if wetted { [liquids, gums.clone()].concat() } else { Vec::new() };
        let rest = pick(&here, |line| ![&dry, &slurry].iter().any(|set| ids(set).contains(&line.id)));
        if rest.is_empty() {
            // There is nothing to strew it into.
            self.weigh(phase, self.reason_of(phase, &here, false), &here);
            return;
        }
        self.weigh(phase, Reason::GumAndLiquid, &slurry);
        self.treat(phase, Reason::WetGum, &slurry);
        self.weigh(phase, self.reason_of(phase, &rest, wetted), &rest);
        self.weigh(phase, Reason::DryCup, &dry);
        self.treat(phase, Reason::WorkInPowder, &powders);
        match () {
            () if wetted => {}
            () if !oil => self.treat(phase, Reason::StrewGum, &gums),
            // It is stirred in later, right before the oil meets water.
            () if self.vessels.joined => {}
            () => self.treat(phase, Reason::WorkInPowder, &gums),
        }
    }

    /// What is said of the vessel of a phase.
    fn reason_of(&self, phase: PhaseId, lines: &[Needs], wetted: bool) -> Reason {
        let hot = self.vessels.hot.contains(&phase);
        let oil = self.is(phase, PhaseKind::Oil);
        match () {
            () if oil && hot && lines.iter().any(|line| line.emulsifier) => Reason::EmulsifierMelts,
            () if wetted && lines.iter().any(|line| line.salt) => Reason::SaltsFirst,
            () if wetted => Reason::GumJoins,
            () if hot => Reason::PhaseTogether,
            () => Reason::ColdTogether,
        }
    }

    /// A phase of a gum and what wets it joins the water.
    fn slurry(&mut self, phase: PhaseId) {
        let here = self.in_phase(phase);
        self.weigh(phase, Reason::GumAndLiquid, &here);
        self.treat(phase, Reason::WetGum, &here);
        let waters = self.pots_of(PhaseKind::Water);
        self.step(StepKind::Other, Reason::GumIntoWater).phases(&waters).lines(ids(&here));
    }

    fn pots_of(&self, kind: PhaseKind) -> Vec<PhaseId> {
        self.vessels.pots.iter().copied().filter(|phase| self.is(*phase, kind)).collect()
    }

    /// Two phases of water are one before they meet oil, and so are two of oil. Where the two do not meet, all are one.
    fn join_alike(&mut self) {
        let alike = if self.vessels.joined {
            [PhaseKind::Water, PhaseKind::Oil].map(|kind| self.pots_of(kind)).to_vec()
        } else {
            vec![self.vessels.pots.clone()]
        };
        for phases in alike.iter().filter(|phases| phases.len() > 1) {
            self.step(StepKind::Join, Reason::JoinAlike).phases(phases);
        }
    }

    fn heat(&mut self) {
        let (hot, heat) = (self.vessels.hot.clone(), self.vessels.heat);
        if hot.is_empty() {
            return;
        }
        let reason = match () {
            () if self.vessels.joined => Reason::HeatPhases,
            () if self.melts() => Reason::Melt,
            () => Reason::HeatWater,
        };
        self.step(StepKind::Heat, reason).phases(&hot).at(Some(heat));
        if self.vessels.joined {
            self.step(StepKind::Hold, Reason::HoldHot).phases(&hot).at(Some(heat)).minutes(craft().hold);
        }
    }

    /// Water and oil meet.
    fn join(&mut self) {
        if !self.vessels.joined {
            return;
        }
        for phase in self.pots_of(PhaseKind::Oil) {
            let gums = pick(&self.in_phase(phase), |line| line.gum && self.in_pot(line));
            self.treat(phase, Reason::GumIntoOil, &gums);
        }
        let (pots, hot) = (self.vessels.pots.clone(), self.vessels.hot.clone());
        let cold: Vec<PhaseId> = pots.iter().copied().filter(|phase| !hot.contains(phase)).collect();
        let (reason, phases) = match () {
            () if hot.is_empty() => (Reason::JoinCold, &pots),
            () if cold.is_empty() => (Reason::JoinPhases, &pots),
            () => (Reason::JoinHotAndCold, &cold),
        };
        self.step(StepKind::Join, reason).phases(phases);
        self.step(StepKind::Blend, Reason::Blend).minutes(craft().blend);
    }

    /// Below which temperature the rest goes in: none where nothing was heated. A melt may set above the usual one, so
    /// there only what its lines and phases say counts.
    fn add_below(&self, late: &[Needs]) -> Option<Celsius> {
        if self.vessels.hot.is_empty() {
            return None;
        }
        let of_phase = late.iter().filter_map(|line| self.formula.phase(line.phase)?.heat.value());
        let of_phase = of_phase.filter(|heat| *heat < self.vessels.heat).min();
        let usual = Some(craft().add_below).filter(|_| self.vessels.joined || !self.melts());
        let own = late.iter().filter_map(|line| line.heat_most).min();
        [of_phase.or(usual), own].into_iter().flatten().min()
    }

    /// A pH is set where one is wanted or something is there to set it with, and there is water to have one.
    fn sets_ph(&self) -> bool {
        let water = self.formula.phases().iter().filter(|phase| phase.kind != PhaseKind::Oil);
        let water = water.filter(|phase| self.lines.iter().any(|line| line.phase == phase.id));
        let wet = water.clone().any(|phase| phase.kind == PhaseKind::Water)
            || (water.count() > 0 && !self.vessels.pots.iter().any(|phase| self.is(*phase, PhaseKind::Oil)));
        let wanted = self.formula.about.target_ph.value().is_some();
        (wet && wanted) || self.lines.iter().any(|line| self.adjusts(line))
    }

    /// Powders, then what preserves as a salt, then the rest with acids last, then the pH, then scent.
    fn add(&mut self, late: &[Needs], below: Option<Celsius>) {
        let now = pick(late, |line| !line.fragrance && !self.adjusts(line));
        let gums = pick(&now, |line| line.gum);
        let powders = pick(&now, |line| line.powder && !line.gum);
        let salts = pick(&now, |line| line.salt_of_acid && !line.powder && !line.gum);
        let rest = pick(&now, |line| !line.powder && !line.salt_of_acid && !line.gum);
        let rest = [pick(&rest, |line| !line.acid), pick(&rest, |line| line.acid)].concat();
        let stirred = if self.vessels.hot.is_empty() { Reason::StirIn } else { Reason::HeatSensitive };
        self.stir_in(Reason::SiftPowder, &powders, below);
        self.stir_in(Reason::StrewGum, &gums, below);
        self.stir_in(Reason::SaltsOfAcids, &salts, below);
        self.stir_in(stirred, &rest, below);
        if self.sets_ph() {
            let adjusters = pick(&self.lines, |line| self.adjusts(line));
            let reason = if adjusters.is_empty() { Reason::SetPh } else { Reason::SetPhWith };
            self.step(StepKind::SetPh, reason).lines(ids(&adjusters));
        }
        self.stir_in(Reason::FragranceLast, &pick(late, |line| line.fragrance), below);
    }
}
