//! Looks up the names of a formula a few at a time, before what follows from it is worked out: a name that was never looked
//! up takes longer than a finger may wait where there are many, and the first look builds the tables.

use super::files::is_here;
use crate::ui::browser;
use crate::ui::desk::{Desk, set_recogniser};
use hundred_parts::law;
use hundred_parts::names::{entries_of, is_recalled, materials_named, prepare, recalled};
use hundred_parts::sheet::{AskedName, names_in, names_written};
use leptos::prelude::*;
use std::cell::Cell;
use std::time::Duration;

/// How many milliseconds one piece of the work may take before others have their turn.
const A_TURN: i64 = 8;

thread_local! {
    /// The newest look: an older one ends.
    static NEWEST: Cell<u32> = const { Cell::new(0) };
    /// The tables of law and names are built.
    static BUILT: Cell<bool> = const { Cell::new(false) };
}

/// What comes next.
enum Stage {
    Law,
    /// One table of names after another.
    Tables(usize),
    /// What the maker wrote.
    Written(Vec<AskedName>),
    /// What the formula consists of.
    Substances(Vec<AskedName>),
    Answer,
}

/// Works out what follows from the formula: at once where all of its names are known, else after they were looked up.
pub(crate) fn recompute(desk: Desk) {
    let number = NEWEST.get().wrapping_add(1);
    NEWEST.set(number);
    if !is_here() {
        desk.recompute();
        return;
    }
    let first = if BUILT.get() { Stage::Written(written(desk)) } else { Stage::Law };
    go_on(desk, first, number);
}

/// Does what is left of this turn, and the rest in tasks of their own, unless the formula has changed.
fn go_on(desk: Desk, mut stage: Stage, number: u32) {
    let until = browser::now().millis() + A_TURN;
    while NEWEST.get() == number {
        stage = match next(desk, stage, until) {
            Some(stage) => stage,
            None => return,
        };
        if browser::now().millis() > until {
            set_timeout(move || go_on(desk, stage, number), Duration::ZERO);
            return;
        }
    }
}

/// One piece; nothing after the last one.
fn next(desk: Desk, stage: Stage, until: i64) -> Option<Stage> {
    Some(match stage {
        Stage::Law => {
            // This and the tables are work once.
            let _ = law::shipped();
            Stage::Tables(0)
        }
        Stage::Tables(mut step) => {
            if prepare(&mut step) {
                Stage::Tables(step)
            } else {
                BUILT.set(true);
                set_recogniser(materials_named);
                Stage::Written(written(desk))
            }
        }
        Stage::Written(names) => match look_up(names, until) {
            Some(rest) => Stage::Written(rest),
            None => Stage::Substances(unknown(desk.now(|open| names_in(&open.state().formula, open.shelf())))),
        },
        Stage::Substances(names) => match look_up(names, until) {
            Some(rest) => Stage::Substances(rest),
            None => Stage::Answer,
        },
        Stage::Answer => {
            desk.recompute();
            return None;
        }
    })
}

fn written(desk: Desk) -> Vec<AskedName> {
    unknown(desk.now(|open| names_written(&open.state().formula, open.shelf())))
}

fn unknown(mut names: Vec<AskedName>) -> Vec<AskedName> {
    names.retain(|name| !is_recalled(&name.text, name.cas.as_deref()));
    names
}

/// Looks some up, and gives back those that are left.
fn look_up(mut names: Vec<AskedName>, until: i64) -> Option<Vec<AskedName>> {
    while let Some(name) = names.pop() {
        let reading = recalled(&name.text, name.cas.as_deref());
        reading.means.iter().for_each(|means| drop(entries_of(means)));
        if browser::now().millis() > until {
            return Some(names);
        }
    }
    None
}
