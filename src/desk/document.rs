//! A document: a formula with its plan, and the versions that were kept of it.

use super::texts::{MOST_NAME, kept};
use super::{DocId, RecordBody, Snapshot, read, write};
use crate::formula::{Choice, Formula, Line, LineId};
use crate::quantity::Timestamp;
use crate::sheet::{Acknowledgement, LyePlan, Plan, Saponified};
use crate::shelf::Shelf;
use serde_json::Value;
use std::sync::Arc;

/// What undo goes back over: the formula, the plan for a batch of it, and the plan for its lye. What happened to a batch
/// stands in its record, which nothing goes back over.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct State {
    /// The formula.
    pub formula: Formula,
    /// The plan.
    pub plan: Plan,
    /// The plan for lye.
    pub lye: LyePlan,
}

impl Snapshot for State {
    fn write(&self) -> String {
        write::state_text(self)
    }

    fn read(text: &str) -> Option<Self> {
        read::read_state(text).ok()
    }
}

/// A formula as it was when the maker saved it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Version {
    /// Counts from 1.
    pub number: u32,
    /// When.
    pub saved: Timestamp,
    /// What the maker calls it; empty for most.
    pub name: String,
    /// What it was.
    pub formula: Formula,
}

/// A batch that was made from a formula.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum BatchRef {
    /// Its record is a stored document.
    Stored {
        /// Of this id.
        id: DocId,
        /// When it began.
        begun: Timestamp,
    },
    /// Its record is with the formula, as in files.
    Carried(Arc<RecordBody>),
}

/// A formula, its plan, its versions and its batches.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Document {
    /// As it is now.
    pub state: State,
    /// Kept versions, oldest first.
    pub versions: Vec<Arc<Version>>,
    /// Batches that were made from it, the one that is worked on last.
    pub batches: Vec<BatchRef>,
    /// The pH log of a release without records, as it was written. It becomes a record when it is looked at, and
    /// stays here too: what that release kept is not lost if the record never reaches a store.
    pub old_log: Option<Value>,
}

impl Document {
    /// Keeps the formula as a new version, unless the newest kept one is the same. Gives its number.
    pub fn save_version(&mut self, now: Timestamp) -> u32 {
        let newest = self.versions.last();
        if let Some(version) = newest.filter(|version| write::same_formula(&version.formula, &self.state.formula)) {
            return version.number;
        }
        let number = newest.map_or(1, |version| version.number.saturating_add(1));
        let formula = self.state.formula.clone();
        self.versions.push(Arc::new(Version { number, saved: now, name: String::new(), formula }));
        number
    }

    /// Gives a kept version a name, or takes it away with an empty one. False if it has that name, or is none of these.
    pub fn name_version(&mut self, number: u32, name: String) -> bool {
        let name = kept(name, MOST_NAME);
        let version = self.versions.iter_mut().find(|version| version.number == number && version.name != name);
        version.map(|version| Arc::make_mut(version).name = name).is_some()
    }

    /// A kept version.
    pub fn version(&self, number: u32) -> Option<&Version> {
        self.versions.iter().find(|version| version.number == number).map(AsRef::as_ref)
    }

    /// The formula of a kept version with the plan of now, and how many lines' entries of that plan had to be left out: what
    /// is in hand and what is saponified belong to ingredients, and not every one may have a line in the version.
    pub fn with_version(&self, number: u32) -> Option<(State, usize)> {
        let version = self.version(number)?;
        let mut state = State { formula: version.formula.clone(), ..self.state.clone() };
        let mut left_out = 0;
        let mut place = |line: LineId| {
            let there = same_line(&self.state.formula, line, &version.formula);
            left_out += usize::from(there.is_none());
            there
        };
        state.plan.in_hand = (self.state.plan.in_hand.iter().cloned())
            .filter_map(|mut hand| {
                hand.line = place(hand.line)?;
                Some(hand)
            })
            .collect();
        if let Saponified::Lines(lines) = &self.state.lye.part {
            state.lye.part = Saponified::Lines(lines.iter().filter_map(|line| place(*line)).collect());
        }
        Some((state, left_out))
    }

    /// The same formula and plans as a new document of another title: without the versions, without what happened to the
    /// batch of this one, and without what was acknowledged for it.
    #[must_use]
    pub fn duplicate(&self, title: String) -> Self {
        let mut state = self.state.clone();
        state.formula.about.title = title;
        state.lye.no_margin = Acknowledgement::Missing;
        Self { state, ..Self::default() }
    }

    /// The same document for where the shelf is all that is known, and no other stored document: an ingredient that has left
    /// the shelf is only a name there, and a batch is there if its record is with the formula.
    pub(super) fn for_others(&self, shelf: &Shelf) -> Self {
        let mut document = self.clone();
        document.batches.retain(|batch| matches!(batch, BatchRef::Carried(_)));
        let gone = |line: &Line| line.choice.id().filter(|id| !shelf.knows(id)).map(|id| (line.id, id.spelled_out()));
        let formula = &mut document.state.formula;
        for (line, name) in formula.lines().filter_map(|(_, line)| gone(line)).collect::<Vec<_>>() {
            if let Some(line) = formula.line_mut(line) {
                line.choice = Choice::Named(name);
            }
        }
        document
    }

    /// The newest kept version, if the formula equals it now.
    pub fn current_version(&self) -> Option<&Version> {
        let newest = self.versions.last().map(AsRef::as_ref);
        newest.filter(|version: &&Version| write::same_formula(&version.formula, &self.state.formula))
    }
}

/// The line of another formula that has the same ingredient: at the same number, else the first one.
fn same_line(here: &Formula, line: LineId, there: &Formula) -> Option<LineId> {
    let choice = &here.line(line)?.choice;
    if there.line(line).is_some_and(|other| other.choice == *choice) {
        return Some(line);
    }
    there.lines().find(|(_, other)| other.choice == *choice).map(|(_, other)| other.id)
}

/// Longest title, in the units in which browsers count the text of a field (UTF-16 code units).
const MOST_TITLE: usize = 200;

/// A title with words behind it, cut to what a field of names holds.
pub fn title_with(title: &str, words: &str) -> String {
    let room = MOST_TITLE.saturating_sub(words.encode_utf16().count());
    let mut units = 0;
    let kept: String = title
        .chars()
        .take_while(|c| {
            units += c.len_utf16();
            units <= room
        })
        .collect();
    kept + words
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::facts::IngredientId;
    use crate::formula::PhaseKind;
    use crate::quantity::Typed;
    use crate::sheet::InHand;
    use std::sync::Arc;

    fn formula(names: &[&str]) -> Formula {
        let mut formula = Formula::default();
        let phase = formula.add_phase(PhaseKind::Oil, String::new(), 0);
        for name in names {
            let line = formula.add_line(phase, usize::MAX).unwrap();
            formula.line_mut(line).unwrap().choice = Choice::Known(IngredientId::parse(name).unwrap());
        }
        formula
    }

    fn line(formula: &Formula, name: &str) -> LineId {
        formula.lines().find(|(_, line)| line.choice.id().is_some_and(|id| id.as_str() == name)).unwrap().1.id
    }

    #[test]
    fn version_brought_back_keeps_the_plan_with_the_ingredients_it_was_made_for() {
        let older = formula(&["olive", "shea"]);
        // As after a reload: numbers are given in order, so olive is another number now.
        let now = formula(&["aloe-juice", "olive", "shea", "castor"]);
        let hand = |name: &str| InHand { line: line(&now, name), mass: Typed::new("230") };
        let mut document = Document {
            versions: vec![Arc::new(Version {
                number: 1,
                saved: Timestamp::from_millis(0),
                name: String::new(),
                formula: older.clone(),
            })],
            ..Document::default()
        };
        document.state.plan.in_hand = vec![hand("olive"), hand("castor")];
        document.state.lye.part = Saponified::Lines(vec![line(&now, "olive"), line(&now, "castor")]);
        document.state.formula = now;
        let (state, left_out) = document.with_version(1).unwrap();
        assert_eq!(state.lye.part, Saponified::Lines(vec![line(&older, "olive")]));
        assert_eq!(state.plan.in_hand.iter().map(|hand| hand.line).collect::<Vec<_>>(), [line(&older, "olive")]);
        assert_eq!(left_out, 2);
    }

    #[test]
    fn duplicate_takes_neither_batches_nor_versions_nor_what_was_acknowledged() {
        let mut document = crate::desk::demo();
        document.save_version(Timestamp::from_millis(1));
        document.state.lye.no_margin = Acknowledgement::Given;
        document.old_log = Some(Value::Null);
        document.batches = vec![BatchRef::Carried(Arc::default())];
        let copy = document.duplicate("Another".into());
        assert_eq!((&copy.batches[..], copy.old_log, copy.versions.len()), (&[][..], None, 0));
        assert!(!copy.state.lye.no_margin.is_given());
        assert_eq!(copy.state.plan, document.state.plan);
    }

    #[test]
    fn version_takes_a_name_and_keeps_it_when_the_same_is_saved_again() {
        let now = Timestamp::from_millis(1);
        let mut document = crate::desk::demo();
        let number = document.save_version(now);
        assert!(document.name_version(number, "Spring\u{202e} batch".into()));
        assert!(!document.name_version(number, "Spring batch".into()), "it is called that already");
        assert!(!document.name_version(number + 1, "Another".into()), "there is none");
        assert_eq!(document.save_version(now), number);
        assert_eq!(document.current_version().unwrap().name, "Spring batch");
        document.state.formula.about.notes.push('!');
        assert_eq!(document.current_version(), None);
        assert_eq!(document.save_version(now), number + 1);
        assert_eq!(document.version(number).unwrap().name, "Spring batch");
    }

    #[test]
    fn title_with_words_behind_it_stays_within_a_field() {
        assert_eq!(title_with("Lotion", " (copy)"), "Lotion (copy)");
        let mut title = "\u{1f9f4}\u{30ed}".repeat(60);
        for _ in 0..20 {
            title = title_with(&title, " (copy)");
        }
        assert!(title.encode_utf16().count() <= 200 && title.ends_with(" (copy)"), "{title}");
    }
}
