//! The method: the steps by which a formula is made, in the maker's words.
//!
//! It holds what was typed; temperatures and times are read where they are used, which keeps that out of the first part of the
//! program. Until the maker changes it, a formula has none of its own: one is made from its lines (`sheet::first_method`).

use super::{Formula, LineId, PhaseId};
use crate::quantity::{Celsius, Minutes, Typed, keyed};

/// More steps than any method has.
pub const MOST_STEPS: usize = 200;

/// Names a step within its formula.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct StepId(pub(super) u32);

impl StepId {
    /// A number for keys in views.
    pub const fn number(self) -> u32 {
        self.0
    }
}

keyed! {
    /// What is done in a step, which decides what is asked for while a batch is made.
    #[derive(Default)]
    StepKind {
        /// Anything else.
        #[default]
        Other = "other",
        /// Bench and tools are cleaned and disinfected, and nothing of another product is left.
        Clean = "clean",
        /// Ingredients, lots, tools and jars are laid out, and the scale is checked.
        LayOut = "lay-out",
        /// Lines are weighed, one after the other.
        Weigh = "weigh",
        /// Phases are heated.
        Heat = "heat",
        /// They are held hot.
        Hold = "hold",
        /// Two phases become one.
        Join = "join",
        /// It is mixed hard.
        Blend = "blend",
        /// It cools, stirred now and then.
        Cool = "cool",
        /// What was weighed is stirred in.
        Add = "add",
        /// The pH is measured and set.
        SetPh = "set-ph",
        /// It is filled into its packs, and each is weighed.
        Pack = "pack",
    }
}

keyed! {
    /// A text of a step.
    #[derive(Default)]
    StepField {
        /// What to do.
        #[default]
        Text = "text",
        /// Why, in one line.
        Why = "why",
        /// How it is stirred.
        Stirring = "stirring",
        /// To, at or below which temperature.
        Temperature = "heat_c",
        /// How long.
        Minutes = "minutes",
    }
}

/// One step of a formula.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MethodStep {
    /// Its id, unique in the formula.
    pub id: StepId,
    /// What it says.
    pub step: NewStep,
}

impl core::ops::Deref for MethodStep {
    type Target = NewStep;

    fn deref(&self) -> &NewStep {
        &self.step
    }
}

/// What a step says; it is not part of a formula yet.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct NewStep {
    /// What is done.
    pub kind: StepKind,
    /// What to do, in words.
    pub text: String,
    /// Why, in one line.
    pub why: String,
    /// How it is stirred.
    pub stirring: String,
    /// Whose lines it weighs or adds.
    pub phase: Option<PhaseId>,
    /// The lines that it weighs or adds.
    pub lines: Vec<LineId>,
    /// To, at or below which temperature, as typed.
    pub temperature: String,
    /// How long, as typed.
    pub minutes: String,
}

/// Where a step goes that comes before the packs are filled: what a method leaves out is weighed there.
pub fn before_packing<'a>(steps: impl IntoIterator<Item = &'a NewStep>) -> usize {
    let mut before = 0;
    for step in steps {
        if step.kind == StepKind::Pack {
            return before;
        }
        before += 1;
    }
    before
}

impl NewStep {
    /// Its temperature, where that can be read.
    pub fn celsius(&self) -> Option<Celsius> {
        Typed::new(self.temperature.as_str()).value()
    }

    /// How long it takes, where that can be read.
    pub fn lasts(&self) -> Option<Minutes> {
        Typed::new(self.minutes.as_str()).value()
    }

    /// Its text of a field.
    pub fn field(&self, field: StepField) -> &str {
        match field {
            StepField::Text => &self.text,
            StepField::Why => &self.why,
            StepField::Stirring => &self.stirring,
            StepField::Temperature => &self.temperature,
            StepField::Minutes => &self.minutes,
        }
    }

    /// Changes a text.
    pub fn set(&mut self, field: StepField, text: String) {
        match field {
            StepField::Text => self.text = text,
            StepField::Why => self.why = text,
            StepField::Stirring => self.stirring = text,
            StepField::Temperature => self.temperature = text,
            StepField::Minutes => self.minutes = text,
        }
    }
}

impl Formula {
    /// The maker's own method; empty while there is none.
    pub fn method(&self) -> &[MethodStep] {
        &self.method
    }

    /// The step of this id, to be changed.
    pub fn step_mut(&mut self, id: StepId) -> Option<&mut NewStep> {
        self.method.iter_mut().find(|step| step.id == id).map(|step| &mut step.step)
    }

    /// Takes these steps for the method. Lines and phases that the formula does not have are left out.
    pub fn set_method(&mut self, steps: impl IntoIterator<Item = NewStep>) {
        self.method.clear();
        for step in steps {
            self.add_step(step, usize::MAX);
        }
    }

    /// Adds a step at a place (the end, if it is beyond it); nothing if there are [`MOST_STEPS`].
    pub fn add_step(&mut self, mut step: NewStep, at: usize) -> Option<StepId> {
        if self.method.len() >= MOST_STEPS {
            return None;
        }
        step.phase = step.phase.filter(|phase| self.phase(*phase).is_some());
        step.lines.retain(|line| self.line(*line).is_some());
        let id = StepId(self.take_id());
        self.method.insert(at.min(self.method.len()), MethodStep { id, step });
        Some(id)
    }

    /// Removes a step. What it weighed is weighed all the same: [`Formula::unplanned`].
    pub fn remove_step(&mut self, id: StepId) {
        self.method.retain(|step| step.id != id);
    }

    /// Moves a step to the place `to`.
    pub fn move_step(&mut self, id: StepId, to: usize) {
        if let Some(from) = self.method.iter().position(|step| step.id == id) {
            let step = self.method.remove(from);
            self.method.insert(to.min(self.method.len()), step);
        }
    }

    /// The lines that each step weighs or adds, in the order of the steps: those that it names, else those of its phase that
    /// no step of its kind names and no earlier one took. A line is weighed once and added once.
    pub fn lines_of_steps(&self) -> Vec<Vec<LineId>> {
        let named: Vec<(StepKind, LineId)> =
            self.method.iter().flat_map(|step| step.lines.iter().map(|line| (step.kind, *line))).collect();
        let mut taken: Vec<(StepKind, LineId)> = Vec::new();
        let lines = |step: &MethodStep| {
            let of_phase = step.phase.and_then(|phase| self.phase(phase)).into_iter();
            let of_phase = of_phase.flat_map(|phase| phase.lines.iter().map(|line| line.id));
            let of_phase = of_phase.filter(|line| !named.contains(&(step.kind, *line)));
            let wanted: Vec<LineId> = if step.lines.is_empty() { of_phase.collect() } else { step.lines.clone() };
            let mut first = Vec::new();
            for line in wanted {
                if !taken.contains(&(step.kind, line)) {
                    taken.push((step.kind, line));
                    first.push(line);
                }
            }
            first
        };
        self.method.iter().map(lines).collect()
    }

    /// Takes lines and phases that are gone out of the method. A step that named only such lines takes none from then on:
    /// what it says fits no others.
    pub(super) fn forget_in_method(&mut self) {
        let lines: Vec<LineId> = self.lines().map(|(_, line)| line.id).collect();
        let phases: Vec<PhaseId> = self.phases.iter().map(|phase| phase.id).collect();
        for MethodStep { step, .. } in &mut self.method {
            let named = !step.lines.is_empty();
            step.lines.retain(|line| lines.contains(line));
            step.phase = step.phase.filter(|phase| phases.contains(phase) && !(named && step.lines.is_empty()));
        }
    }

    /// What stands in the place of a line goes where that one goes.
    pub fn take_along_in_method(&mut self, line: LineId, new: &[LineId]) {
        for MethodStep { step, .. } in &mut self.method {
            if let Some(at) = step.lines.iter().position(|known| *known == line) {
                for new in new.iter().rev().filter(|new| **new != line) {
                    step.lines.insert(at + 1, *new);
                }
            }
        }
    }

    /// Lines that no step of the method weighs.
    pub fn unplanned(&self) -> Vec<LineId> {
        let weighed: Vec<LineId> = self
            .method
            .iter()
            .zip(self.lines_of_steps())
            .filter(|(step, _)| step.kind == StepKind::Weigh)
            .flat_map(|(_, lines)| lines)
            .collect();
        self.lines().map(|(_, line)| line.id).filter(|id| !weighed.contains(id)).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::formula::PhaseKind;

    fn weigh(phase: PhaseId) -> NewStep {
        NewStep { kind: StepKind::Weigh, phase: Some(phase), ..NewStep::default() }
    }

    #[test]
    fn method_weighs_every_line_once_and_says_which_it_leaves_out() {
        let mut formula = Formula::default();
        let water = formula.add_phase(PhaseKind::Water, "Water", 0);
        let oil = formula.add_phase(PhaseKind::Oil, "Oil", 1);
        let [a, b, c] = [(water, 0), (water, 1), (oil, 0)].map(|(phase, at)| formula.add_line(phase, at).unwrap());
        let named = NewStep { lines: vec![b, LineId(99)], ..weigh(water) };
        formula.set_method([named, weigh(water), weigh(water)]);
        assert_eq!(formula.lines_of_steps(), [vec![b], vec![a], vec![]]);
        assert_eq!(formula.unplanned(), [c]);
        // Once what it names has gone, a step takes nothing else: its words fit no other line.
        formula.remove_line(b);
        assert_eq!(formula.lines_of_steps(), [vec![], vec![a], vec![]]);
        let d = formula.add_line(water, 0).unwrap();
        assert_eq!(formula.lines_of_steps(), [vec![], vec![d, a], vec![]], "a new line goes with its phase");
        formula.remove_phase(water);
        assert!(formula.method().iter().all(|step| step.phase.is_none() && step.lines.is_empty()));
    }

    #[test]
    fn method_names_are_of_whoever_names_them_first_in_any_order() {
        let mut formula = Formula::default();
        let water = formula.add_phase(PhaseKind::Water, "Water", 0);
        let [a, b] = [0, 1].map(|at| formula.add_line(water, at).unwrap());
        // The step for the rest of the phase leaves to a later one what that names.
        formula.set_method([weigh(water), NewStep { lines: vec![b], ..weigh(water) }]);
        assert_eq!(formula.lines_of_steps(), [vec![a], vec![b]]);
        let c = formula.add_line(water, 2).unwrap();
        formula.take_along_in_method(b, &[b, c]);
        assert_eq!(formula.lines_of_steps(), [vec![a], vec![b, c]]);
    }

    #[test]
    fn method_step_is_moved_changed_and_removed() {
        let mut formula = Formula::default();
        let step = |text: &str| NewStep { text: text.into(), phase: Some(PhaseId(9)), ..NewStep::default() };
        formula.set_method([step("one"), step("two"), step("three")]);
        assert!(formula.method().iter().all(|step| step.phase.is_none()), "there is no such phase");
        let [one, two, _] = [0, 1, 2].map(|at| formula.method()[at].id);
        formula.move_step(one, 9);
        formula.remove_step(two);
        if let Some(step) = formula.step_mut(one) {
            for field in StepField::ALL {
                step.set(*field, "70".into());
                assert_eq!(step.field(*field), "70");
            }
        }
        let texts: Vec<&str> = formula.method().iter().map(|step| step.text.as_str()).collect();
        assert_eq!(texts, ["three", "70"]);
    }
}
