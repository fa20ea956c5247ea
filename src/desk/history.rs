//! Undo and redo over whole states, in a form that can be kept step by step.

use super::{UndoGroup, crc32};
use crate::quantity::sort_by;

/// A state that can be kept as text.
pub trait Snapshot: Clone + PartialEq {
    /// As text.
    fn write(&self) -> String;
    /// From text that [`Self::write`] made; `None` if it is damaged.
    fn read(text: &str) -> Option<Self>;
}

/// A state with its checksum behind it: a damaged step must not come back as another formula.
fn sealed(state: &impl Snapshot) -> String {
    let text = state.write();
    format!("{text}\n{:08x}", crc32(text.as_bytes()))
}

/// A stored step; `None` if it is damaged. Steps of the first releases have no checksum.
pub(super) fn read_step<S: Snapshot>(stored: &str) -> Option<S> {
    match stored.rsplit_once('\n') {
        Some((text, sum)) => S::read(text).filter(|_| u32::from_str_radix(sum, 16) == Ok(crc32(text.as_bytes()))),
        None => S::read(stored),
    }
}

/// How many states are kept.
const MOST: usize = 200;

/// One state of the past, read only when it is needed.
#[derive(Debug, Clone)]
enum HistoryStep<S> {
    Live(S),
    Stored(String),
}

impl<S: Snapshot> HistoryStep<S> {
    /// The state; `None` if it is damaged.
    fn state(&self) -> Option<S> {
        match self {
            Self::Live(state) => Some(state.clone()),
            Self::Stored(text) => read_step(text),
        }
    }
}

/// What of the history has to be written since the last time.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct StepsChange {
    /// Number of the oldest state that is kept; older ones may go.
    pub first: u64,
    /// Number of the newest; later ones may go.
    pub last: u64,
    /// States that are new or changed.
    pub put: Vec<(u64, String)>,
}

/// All states from the oldest kept to the newest, and which one is current.
#[derive(Debug, Clone)]
pub struct History<S> {
    steps: Vec<HistoryStep<S>>,
    cursor: usize,
    first: u64,
    group: Option<UndoGroup>,
    /// Numbers of states changed since the last [`Self::take_change`].
    dirty: Vec<u64>,
}

impl<S: Snapshot> History<S> {
    /// A history that begins with this state.
    pub fn new(state: S) -> Self {
        Self { steps: vec![HistoryStep::Live(state)], cursor: 0, first: 0, group: None, dirty: vec![0] }
    }

    /// From stored steps and the number of the current one. A gap or a missing current step gives a new history that
    /// begins with `state`: undo is then shorter, but what is shown is never in doubt.
    pub fn restore(state: S, stored: Vec<(u64, String)>, cursor: u64) -> Self {
        let first = stored.first().map_or(0, |(number, _)| *number);
        let joined = stored.iter().enumerate().all(|(n, (number, _))| *number == first + n as u64);
        let position = cursor.checked_sub(first).and_then(|n| usize::try_from(n).ok()).filter(|n| *n < stored.len());
        match position {
            Some(cursor) if joined => {
                let mut steps: Vec<_> = stored.into_iter().map(|(_, text)| HistoryStep::Stored(text)).collect();
                steps[cursor] = HistoryStep::Live(state);
                Self { steps, cursor, first, group: None, dirty: Vec::new() }
            }
            _ => Self::new(state),
        }
    }

    /// Notes a new state. Typing on in the same undo group replaces the current state instead of adding one.
    pub fn push(&mut self, state: S, group: Option<UndoGroup>) {
        let typing_on = group.is_some() && group == self.group;
        self.steps.truncate(self.cursor + 1);
        if typing_on {
            self.steps[self.cursor] = HistoryStep::Live(state);
        } else {
            self.steps.push(HistoryStep::Live(state));
            self.cursor += 1;
        }
        if self.steps.len() > MOST {
            self.steps.remove(0);
            self.cursor -= 1;
            self.first += 1;
        }
        self.group = group;
        self.dirty.push(self.current());
    }

    /// The state before the change that is being typed; none if nothing is being typed.
    pub fn before_typing(&self) -> Option<S> {
        let before = self.steps.get(self.cursor.checked_sub(1)?).filter(|_| self.group.is_some())?;
        before.state()
    }

    /// Notes what follows from the change that is being typed: both are undone together. Where nothing is being typed it is
    /// a step of its own.
    pub fn amend(&mut self, state: S) {
        self.push(state, self.group.clone());
    }

    /// Closes the current undo group (on blur): the next change is a step of its own.
    pub fn end_undo_group(&mut self) {
        self.group = None;
    }

    /// The state before, which becomes the current one.
    pub fn undo(&mut self) -> Option<S> {
        self.go(|at| at.checked_sub(1))
    }

    /// The state after, which becomes the current one.
    pub fn redo(&mut self) -> Option<S> {
        self.go(|at| Some(at + 1))
    }

    /// To the next state that is another one and not damaged: steps of earlier releases may differ in what no state holds
    /// any more.
    fn go(&mut self, next: fn(usize) -> Option<usize>) -> Option<S> {
        let mut to = self.cursor;
        let now = self.steps.get(to)?.state();
        let state = loop {
            to = next(to)?;
            match self.steps.get(to)?.state() {
                Some(state) if now.as_ref() != Some(&state) => break state,
                _ => {}
            }
        };
        self.steps[to] = HistoryStep::Live(state.clone());
        self.cursor = to;
        self.group = None;
        Some(state)
    }

    /// True if there is a state before.
    pub fn can_undo(&self) -> bool {
        self.cursor > 0
    }

    /// True if there is a state after.
    pub fn can_redo(&self) -> bool {
        self.cursor + 1 < self.steps.len()
    }

    /// Number of the current state.
    pub fn current(&self) -> u64 {
        self.first + self.cursor as u64
    }

    /// What has to be written; afterwards nothing is, until the next change.
    pub fn take_change(&mut self) -> StepsChange {
        let last = self.first + self.steps.len() as u64 - 1;
        let mut numbers = core::mem::take(&mut self.dirty);
        sort_by(&mut numbers, |a, b| a.cmp(b));
        numbers.dedup();
        let text = |number: u64| match self.steps.get(usize::try_from(number.checked_sub(self.first)?).ok()?)? {
            HistoryStep::Live(state) => Some((number, sealed(state))),
            HistoryStep::Stored(text) => Some((number, text.clone())),
        };
        StepsChange { first: self.first, last, put: numbers.into_iter().filter_map(text).collect() }
    }

    /// The states after the one of this number, up to the current one.
    pub fn since(&self, number: u64) -> Vec<S> {
        let after = number.checked_sub(self.first).and_then(|n| usize::try_from(n).ok()).map_or(0, |n| n + 1);
        self.steps.get(after..=self.cursor).unwrap_or_default().iter().filter_map(HistoryStep::state).collect()
    }

    /// Puts an older history behind this one, which began with the older one's current state. What the older one could
    /// redo is gone, as after any change. False, and nothing changes, if it began elsewhere.
    pub fn go_on_from(&mut self, older: Self) -> bool {
        let began_there = |step: Option<&HistoryStep<S>>| match (step, older.steps.get(older.cursor)) {
            (Some(HistoryStep::Live(first)), Some(HistoryStep::Live(then))) => first == then,
            _ => false,
        };
        if self.first != 0 || !began_there(self.steps.first()) {
            return false;
        }
        let (begin, cursor) = (older.current(), older.cursor);
        let mut steps = older.steps;
        steps.truncate(cursor + 1);
        steps.extend(self.steps.drain(1..));
        self.dirty = self.dirty.iter().filter(|number| **number > 0).map(|number| begin + number).collect();
        (self.steps, self.cursor, self.first) = (steps, cursor + self.cursor, older.first);
        while self.steps.len() > MOST && self.cursor > 0 {
            self.steps.remove(0);
            self.cursor -= 1;
            self.first += 1;
        }
        true
    }

    /// Marks everything as to be written again: after a failed write, or for a new place.
    pub fn forget_written(&mut self) {
        self.dirty = (self.first..self.first + self.steps.len() as u64).collect();
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    impl Snapshot for u32 {
        fn write(&self) -> String {
            self.to_string()
        }
        fn read(text: &str) -> Option<Self> {
            text.parse().ok()
        }
    }

    #[test]
    fn history_typing_in_one_spot_is_one_step() {
        let mut history = History::new(0u32);
        for state in 1..=5 {
            history.push(state, Some(UndoGroup::About("title")));
        }
        history.push(6, Some(UndoGroup::About("notes")));
        assert_eq!(history.undo(), Some(5));
        assert_eq!(history.undo(), Some(0));
        assert_eq!(history.undo(), None);
        assert_eq!(history.redo(), Some(5));
    }

    #[test]
    fn history_longer_than_it_keeps_drops_the_oldest() {
        let mut history = History::new(0u32);
        for state in 1..=500 {
            history.push(state, None);
        }
        let steps = core::iter::from_fn(|| history.undo()).count();
        assert_eq!(steps, MOST - 1);
        assert!(steps >= 100);
    }

    #[test]
    fn history_goes_on_from_an_older_one_and_no_longer_than_it_keeps() {
        let mut older = History::new(0u32);
        (1..=5).for_each(|state| older.push(state, None));
        older.undo();
        older.take_change();
        let mut newer = History::new(4u32);
        newer.push(40, None);
        let mut stranger = History::new(3u32);
        stranger.go_on_from(older.clone());
        assert!(!stranger.can_undo(), "it began elsewhere");
        newer.go_on_from(older.clone());
        assert_eq!((newer.current(), newer.can_redo()), (5, false));
        assert_eq!(newer.take_change(), StepsChange { first: 0, last: 5, put: newer_step(40) });
        assert_eq!((newer.undo(), newer.undo()), (Some(4), Some(3)));
        let mut long = History::new(4u32);
        (0..300).for_each(|state| long.push(state, None));
        long.go_on_from(older);
        assert!(long.steps.len() <= MOST);
    }

    fn newer_step(state: u32) -> Vec<(u64, String)> {
        vec![(5, sealed(&state))]
    }

    #[test]
    fn damaged_step_is_passed_over_and_never_read_as_another_state() {
        let mut history = History::new(10u32);
        history.push(11, None);
        history.push(12, None);
        let mut stored = history.take_change().put;
        // Another number, and still one that could be read.
        stored[1].1 = stored[1].1.replacen("11", "13", 1);
        let mut restored = History::restore(12, stored, 2);
        assert_eq!(restored.undo(), Some(10));
        assert_eq!(restored.redo(), Some(12));
        assert_eq!(read_step::<u32>("7"), Some(7), "as the first releases wrote it");
        for bad in ["7\n", "7\nxyz", "7\n00000000", "\n", ""] {
            assert_eq!(read_step::<u32>(bad), None, "{bad:?}");
        }
    }

    proptest! {
        /// However it was used, writing each change and restoring gives the same history.
        #[test]
        fn history_written_step_by_step_restores(moves in prop::collection::vec(0u8..4, 0..300)) {
            let mut history = History::new(0u32);
            let mut store = std::collections::BTreeMap::new();
            let mut state = 0;
            for (n, step) in moves.iter().enumerate() {
                match step {
                    0 => { history.undo().inspect(|s| state = *s); }
                    1 => { history.redo().inspect(|s| state = *s); }
                    2 => { state = n as u32; history.push(state, Some(UndoGroup::About("title"))); }
                    _ => { state = n as u32; history.push(state, None); }
                }
                let change = history.take_change();
                store.extend(change.put);
                store.retain(|number, _| (change.first..=change.last).contains(number));
            }
            let mut restored = History::restore(state, store.into_iter().collect(), history.current());
            prop_assert_eq!(restored.can_undo(), history.can_undo());
            prop_assert_eq!(restored.can_redo(), history.can_redo());
            while let Some(expected) = history.undo() {
                prop_assert_eq!(restored.undo(), Some(expected));
            }
            while let Some(expected) = history.redo() {
                prop_assert_eq!(restored.redo(), Some(expected));
            }
        }
    }
}
