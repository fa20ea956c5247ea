//! Looks a formula up in the annexes, a few names at a time: the first look builds the tables, which takes longer than a
//! finger may wait.

use super::files::{FilesState, state};
use crate::ui::browser;
use crate::ui::desk::Desk;
use crate::ui::dom::effect;
use hundred_parts::desk::DocId;
use hundred_parts::formula::About;
use hundred_parts::law;
use hundred_parts::names::{Meaning, NameReading, entries_of, recognise};
use hundred_parts::sheet::{AnnexCheck, FormulaComposition};
use leptos::prelude::*;
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::sync::Arc;
use std::time::Duration;

/// How many milliseconds one piece of the work may take before others have their turn.
const A_TURN: i64 = 8;
/// The most readings that are kept.
const MOST_KEPT: usize = 2000;

thread_local! {
    /// What names were read as: most are the same after a change.
    static READ: RefCell<BTreeMap<String, NameReading>> = const { RefCell::new(BTreeMap::new()) };
}

/// The last answer, or none while a formula is looked up for the first time.
pub(super) type Checked = RwSignal<Option<Arc<AnnexCheck>>>;

/// One look at a formula.
struct Look {
    number: u32,
    composition: FormulaComposition,
    about: About,
    readings: Vec<NameReading>,
    stage: Stage,
}

/// What comes next.
#[derive(Clone, Copy)]
enum Stage {
    Law,
    Names,
    Entries,
    Readings,
    Answer,
}

/// Keeps the answer in step with what follows from the formula, after it.
pub(super) fn keep_checked(desk: Desk) -> Checked {
    let checked: Checked = RwSignal::new(None);
    let newest = StoredValue::new(0_u32);
    let shown = StoredValue::new(None::<DocId>);
    effect(Box::new(move || {
        let here = state() == FilesState::Here;
        let composition = desk.derived(|derived| derived.sheet.composition.clone());
        let (id, about) = desk.now(|open| (open.id().clone(), open.state().formula.about.clone()));
        // What was found in another formula must not stand beside this one.
        if shown.get_value().as_ref() != Some(&id) {
            shown.set_value(Some(id));
            checked.set(None);
        }
        let number = newest.get_value().wrapping_add(1);
        newest.set_value(number);
        if here {
            go_on(Look { number, composition, about, readings: Vec::new(), stage: Stage::Law }, newest, checked);
        }
    }));
    checked
}

/// Does the next piece in a task of its own, unless the formula has changed or the card is gone.
fn go_on(mut look: Look, newest: StoredValue<u32>, checked: Checked) {
    let piece = move || {
        if newest.try_get_value() != Some(look.number) {
            return;
        }
        match look.next() {
            Some(found) => {
                checked.try_set(Some(Arc::new(found)));
            }
            None => go_on(look, newest, checked),
        }
    };
    set_timeout(piece, Duration::ZERO);
}

impl Look {
    /// Does one piece; the last one has the answer.
    fn next(&mut self) -> Option<AnnexCheck> {
        self.stage = match self.stage {
            // The first three are work once, and nothing afterwards.
            Stage::Law => law::shipped().map_or(Stage::Answer, |_| Stage::Names),
            Stage::Names => {
                recognise("Aqua", None);
                Stage::Entries
            }
            Stage::Entries => {
                entries_of(&Meaning::Inci("Aqua".into()));
                Stage::Readings
            }
            Stage::Readings => self.read_some(),
            Stage::Answer => {
                return Some(AnnexCheck::of(&self.composition, core::mem::take(&mut self.readings), &self.about));
            }
        };
        None
    }

    fn read_some(&mut self) -> Stage {
        let until = browser::now().millis() + A_TURN;
        for one in self.composition.substances.iter().skip(self.readings.len()) {
            self.readings.push(read(&one.name));
            if browser::now().millis() > until {
                return Stage::Readings;
            }
        }
        Stage::Answer
    }
}

fn read(name: &str) -> NameReading {
    READ.with_borrow_mut(|known| {
        if let Some(reading) = known.get(name) {
            return reading.clone();
        }
        if known.len() >= MOST_KEPT {
            known.clear();
        }
        let reading = recognise(name, None);
        known.insert(name.to_owned(), reading.clone());
        reading
    })
}
