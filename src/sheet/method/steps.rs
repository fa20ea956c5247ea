//! Puts one step after the other.

use super::needs::Needs;
use super::vessels::Vessels;
use super::{PlannedStep, Reason};
use crate::formula::{Formula, LineId, Phase, PhaseId, PhaseKind, StepKind};
use crate::quantity::{Celsius, Minutes};

/// Makes the steps, one after the other.
pub(super) struct MethodMaker<'a> {
    pub(super) formula: &'a Formula,
    pub(super) lines: Vec<Needs>,
    pub(super) vessels: Vessels,
    steps: Vec<PlannedStep>,
}

impl<'a> MethodMaker<'a> {
    /// For the lines of a formula, in these vessels.
    pub(super) fn new(formula: &'a Formula, lines: Vec<Needs>, vessels: Vessels) -> Self {
        Self { formula, lines, vessels, steps: Vec::new() }
    }

    /// All steps.
    pub(super) fn make(mut self, soap: bool) -> Vec<PlannedStep> {
        self.step(StepKind::Clean, Reason::CleanBefore);
        self.step(StepKind::LayOut, if soap { Reason::LayOutLye } else { Reason::LayOut });
        if soap {
            self.soap();
        } else {
            self.emulsion();
        }
        self.step(StepKind::Clean, Reason::CleanAfter);
        self.take_the_rest();
        self.steps
    }

    /// In each phase one step weighs what no other step names: the one that fills its vessel, or else its last one.
    fn take_the_rest(&mut self) {
        let phases: Vec<PhaseId> = self.formula.phases().iter().map(|phase| phase.id).collect();
        for phase in phases {
            let of_phase = |step: &&mut PlannedStep| step.kind == StepKind::Weigh && step.phases.contains(&phase);
            let fills = |step: &PlannedStep| {
                !matches!(step.reason, Reason::GumAndLiquid | Reason::DryCup | Reason::LyeLine | Reason::LateIntoCups)
            };
            let any = self
                .steps
                .iter()
                .any(|step| step.kind == StepKind::Weigh && step.phases.contains(&phase) && fills(step));
            let step = self.steps.iter_mut().filter(of_phase).rfind(|step| !any || fills(step));
            if let Some(step) = step {
                step.rest = true;
            }
        }
    }

    /// Weighs lines of a phase; nothing without any.
    pub(super) fn weigh(&mut self, phase: PhaseId, reason: Reason, lines: &[Needs]) {
        if !lines.is_empty() {
            self.step(StepKind::Weigh, reason).phases(&[phase]).lines(ids(lines));
        }
    }

    /// Does something with lines of a phase; nothing without any.
    pub(super) fn treat(&mut self, phase: PhaseId, reason: Reason, lines: &[Needs]) {
        if !lines.is_empty() {
            self.step(StepKind::Other, reason).phases(&[phase]).lines(ids(lines));
        }
    }

    /// Stirs lines in, at or below a temperature; nothing without any.
    pub(super) fn stir_in(&mut self, reason: Reason, lines: &[Needs], below: Option<Celsius>) {
        if !lines.is_empty() {
            self.step(StepKind::Add, reason).lines(ids(lines)).at(below);
        }
    }

    /// One step more.
    pub(super) fn step(&mut self, kind: StepKind, reason: Reason) -> StepMaker<'_> {
        let at = self.steps.len();
        self.steps.push(PlannedStep {
            kind,
            reason,
            phases: Vec::new(),
            lines: Vec::new(),
            rest: false,
            temperature: None,
            minutes: None,
        });
        StepMaker(self.steps.get_mut(at))
    }

    /// What comes late, each into a cup of its own.
    pub(super) fn cups(&mut self, late: &[Needs]) {
        let mut phases: Vec<PhaseId> = Vec::new();
        for line in late {
            if !phases.contains(&line.phase) {
                phases.push(line.phase);
            }
        }
        for phase in phases {
            let here = pick(late, |line| line.phase == phase);
            self.weigh(phase, Reason::LateIntoCups, &here);
        }
    }

    /// The lines of a phase.
    pub(super) fn in_phase(&self, phase: PhaseId) -> Vec<Needs> {
        pick(&self.lines, |line| line.phase == phase)
    }

    /// Phases that hold a line.
    pub(super) fn phases(&self, wanted: impl Fn(&Phase) -> bool) -> Vec<PhaseId> {
        let holds = |phase: &&Phase| wanted(phase) && self.lines.iter().any(|line| line.phase == phase.id);
        self.formula.phases().iter().filter(holds).map(|phase| phase.id).collect()
    }

    /// Whether a phase is of this kind.
    pub(super) fn is(&self, phase: PhaseId, kind: PhaseKind) -> bool {
        self.formula.phase(phase).is_some_and(|phase| phase.kind == kind)
    }
}

/// Fills in what a step says beside its kind.
pub(super) struct StepMaker<'a>(Option<&'a mut PlannedStep>);

impl StepMaker<'_> {
    fn change(mut self, change: impl FnOnce(&mut PlannedStep)) -> Self {
        if let Some(step) = &mut self.0 {
            change(step);
        }
        self
    }

    pub(super) fn phases(self, phases: &[PhaseId]) -> Self {
        self.change(|step| step.phases = phases.to_vec())
    }

    pub(super) fn lines(self, lines: Vec<LineId>) -> Self {
        self.change(|step| step.lines = lines)
    }

    pub(super) fn at(self, temperature: Option<Celsius>) -> Self {
        self.change(|step| step.temperature = temperature)
    }

    pub(super) fn minutes(self, minutes: Minutes) -> Self {
        self.change(|step| step.minutes = Some(minutes))
    }
}

/// The lines for which something holds.
pub(super) fn pick(lines: &[Needs], wanted: impl Fn(&Needs) -> bool) -> Vec<Needs> {
    lines.iter().copied().filter(|line| wanted(line)).collect()
}

/// Their ids.
pub(super) fn ids(lines: &[Needs]) -> Vec<LineId> {
    lines.iter().map(|line| line.id).collect()
}
