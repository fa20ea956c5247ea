//! A formula as the maker writes it: phases in order, lines in percent, at most one line that fills up to 100.
//!
//! It holds what was typed, finished or not; every state may be edited and none is an error. What follows from it
//! (sums, masses) is computed in `sheet`, and whether it is wise is judged in `rules`.

mod about;
mod compare;
mod line;
mod method;
mod moving;
mod papers;
mod phase;

pub use about::{About, Area, Audience, Pack, Region, Use};
pub use compare::{Change, Comparison, compare, method_differs};
pub use line::{Choice, Line, LineId, Share};
pub use method::{MOST_STEPS, MethodStep, NewStep, StepField, StepId, StepKind, before_packing};
pub use moving::{Direction, DropSide};
pub use papers::{Answer, Content, PaperField, Papers};
pub use phase::{Phase, PhaseId, PhaseKind};

use crate::facts::fold;

/// More lines than any formula has: with more of them the page would no longer keep up.
pub const MOST_LINES: usize = 500;
/// More phases than any formula has.
pub const MOST_PHASES: usize = 50;

/// A formula, possibly incomplete.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Formula {
    /// What it is called and what it is for.
    pub about: About,
    /// What label and papers need, and the answers to findings.
    pub papers: Papers,
    phases: Vec<Phase>,
    method: Vec<MethodStep>,
    next: u32,
}

impl Formula {
    /// The phases in the order in which they are made.
    pub fn phases(&self) -> &[Phase] {
        &self.phases
    }

    /// All lines, phase by phase.
    pub fn lines(&self) -> impl Iterator<Item = (&Phase, &Line)> {
        self.phases.iter().flat_map(|phase| phase.lines.iter().map(move |line| (phase, line)))
    }

    /// The phase with this id.
    pub fn phase(&self, id: PhaseId) -> Option<&Phase> {
        self.phases.iter().find(|phase| phase.id == id)
    }

    /// The phase with this id, to be changed.
    pub fn phase_mut(&mut self, id: PhaseId) -> Option<&mut Phase> {
        self.phases.iter_mut().find(|phase| phase.id == id)
    }

    /// The line with this id.
    pub fn line(&self, id: LineId) -> Option<&Line> {
        self.lines().map(|(_, line)| line).find(|line| line.id == id)
    }

    /// The line with this id, to be changed.
    pub fn line_mut(&mut self, id: LineId) -> Option<&mut Line> {
        self.phases.iter_mut().flat_map(|phase| phase.lines.iter_mut()).find(|line| line.id == id)
    }

    /// Where a line stands: its phase, and its place in it.
    pub fn place_of(&self, id: LineId) -> Option<(PhaseId, usize)> {
        self.phases.iter().find_map(|phase| Some((phase.id, phase.lines.iter().position(|line| line.id == id)?)))
    }

    /// The lines that were typed by this name and are not linked to an ingredient.
    pub fn lines_named(&self, name: &str) -> Vec<LineId> {
        let folded = fold(name);
        let named = |line: &Line| matches!(&line.choice, Choice::Named(typed) if fold(typed) == folded);
        self.lines().filter(|(_, line)| named(line)).map(|(_, line)| line.id).collect()
    }

    /// The line that fills up to 100, if there is one.
    pub fn fill_up(&self) -> Option<LineId> {
        self.lines().find(|(_, line)| line.share.is_fill_up()).map(|(_, line)| line.id)
    }

    /// Adds an empty phase at `at` (the end, if `at` is beyond it).
    pub fn add_phase(&mut self, kind: PhaseKind, name: impl Into<String>, at: usize) -> PhaseId {
        let id = PhaseId(self.take_id());
        let at = at.min(self.phases.len());
        self.phases.insert(at, Phase::new(id, kind, name.into()));
        id
    }

    /// Removes a phase with its lines.
    pub fn remove_phase(&mut self, id: PhaseId) {
        self.phases.retain(|phase| phase.id != id);
        self.forget_in_method();
    }

    /// Moves a phase to the place `to`.
    pub fn move_phase(&mut self, id: PhaseId, to: usize) {
        if let Some(from) = self.phases.iter().position(|phase| phase.id == id) {
            let phase = self.phases.remove(from);
            self.phases.insert(to.min(self.phases.len()), phase);
        }
    }

    /// Adds an empty line to a phase at `at` (the end, if `at` is beyond it); nothing if there is no such phase, or if there
    /// are [`MOST_LINES`].
    pub fn add_line(&mut self, phase: PhaseId, at: usize) -> Option<LineId> {
        if self.lines().count() >= MOST_LINES {
            return None;
        }
        let id = LineId(self.next);
        let lines = &mut self.phase_mut(phase)?.lines;
        lines.insert(at.min(lines.len()), Line::new(id));
        self.next += 1;
        Some(id)
    }

    /// The line after this one, else the one before.
    pub fn beside(&self, id: LineId) -> Option<LineId> {
        let lines: Vec<LineId> = self.lines().map(|(_, line)| line.id).collect();
        let at = lines.iter().position(|line| *line == id)?;
        lines.get(at + 1).or_else(|| lines.get(at.checked_sub(1)?)).copied()
    }

    /// Removes a line.
    pub fn remove_line(&mut self, id: LineId) {
        for phase in &mut self.phases {
            phase.lines.retain(|line| line.id != id);
        }
        self.forget_in_method();
    }

    /// Moves a line to the place `at` of a phase; nothing if there is no such line or phase.
    pub fn move_line(&mut self, id: LineId, to: PhaseId, at: usize) {
        let Some((from, index)) = self.place_of(id) else { return };
        if self.phase(to).is_none() {
            return;
        }
        let Some(line) = self.phase_mut(from).map(|phase| phase.lines.remove(index)) else { return };
        if let Some(phase) = self.phase_mut(to) {
            phase.lines.insert(at.min(phase.lines.len()), line);
        }
    }

    fn take_id(&mut self) -> u32 {
        let id = self.next;
        self.next += 1;
        id
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn two_phases() -> (Formula, [PhaseId; 2], [LineId; 3]) {
        let mut formula = Formula::default();
        let water = formula.add_phase(PhaseKind::Water, "Water", 0);
        let oil = formula.add_phase(PhaseKind::Oil, "Oil", 1);
        let a = formula.add_line(water, 0).unwrap();
        let b = formula.add_line(water, 1).unwrap();
        let c = formula.add_line(oil, 0).unwrap();
        (formula, [water, oil], [a, b, c])
    }

    fn order(formula: &Formula) -> Vec<Vec<LineId>> {
        formula.phases().iter().map(|phase| phase.lines.iter().map(|line| line.id).collect()).collect()
    }

    #[test]
    fn line_nudged_over_the_edge_enters_the_next_phase() {
        let (mut formula, _, [a, b, c]) = two_phases();
        formula.nudge_line(b, Direction::Down);
        assert_eq!(order(&formula), [vec![a], vec![b, c]]);
        formula.nudge_line(b, Direction::Up);
        assert_eq!(order(&formula), [vec![a, b], vec![c]]);
        formula.nudge_line(a, Direction::Up);
        assert_eq!(order(&formula), [vec![a, b], vec![c]], "nothing above the first place");
        formula.nudge_line(c, Direction::Down);
        assert_eq!(order(&formula), [vec![a, b], vec![c]], "nothing below the last one");
        formula.nudge_line(c, Direction::Up);
        assert_eq!(order(&formula), [vec![a, b, c], vec![]]);
    }

    #[test]
    fn line_dropped_beside_another_one_stands_on_that_side() {
        for (line, at, side, expected) in [
            (0, 1, DropSide::After, [vec![1, 0], vec![2]]),
            (0, 1, DropSide::Before, [vec![0, 1], vec![2]]),
            (1, 0, DropSide::Before, [vec![1, 0], vec![2]]),
            (0, 2, DropSide::Before, [vec![1], vec![0, 2]]),
            (2, 0, DropSide::After, [vec![0, 2, 1], vec![]]),
            (0, 0, DropSide::After, [vec![0, 1], vec![2]]),
        ] {
            let (mut formula, _, lines) = two_phases();
            formula.drop_line(lines[line], lines[at], side);
            let expected = expected.map(|phase| phase.into_iter().map(|n: usize| lines[n]).collect::<Vec<_>>());
            assert_eq!(order(&formula), expected, "{line} {side:?} {at}");
        }
    }

    #[test]
    fn line_moved_to_a_missing_phase_stays() {
        let (mut formula, [water, _], [a, b, c]) = two_phases();
        formula.move_line(a, PhaseId(99), 0);
        formula.move_line(a, water, 99);
        assert_eq!(order(&formula), [vec![b, a], vec![c]]);
    }
}
