//! Building the tables of names one after another: all at once takes longer than a finger may wait.

use std::borrow::Cow;

use super::listed::entries_of;
use super::reading::Meaning;
use super::{annexes, is_ready, lexicon, plants, recalled::recalled, spellings, tongues, vocabulary};

/// What builds one table each, those first on which others rest. The last one is the first look, which builds what is left.
const STEPS: [fn(); 8] = [
    || {
        vocabulary::kind("x");
    },
    || {
        tongues::read(&["x"]);
    },
    || {
        plants::is_plant(&["x"]);
    },
    || {
        annexes::entries_numbered("x").count();
    },
    || {
        lexicon::find("x");
    },
    || {
        spellings::words_of(1);
    },
    || {
        entries_of(&Meaning::Inci(Cow::Borrowed("Aqua")));
    },
    || {
        recalled("Aqua", None);
    },
];

/// Builds the next of the tables; false where `step` is behind the last one. Nothing is built before [`is_ready`].
pub fn prepare(step: usize) -> bool {
    match STEPS.get(step).filter(|_| is_ready()) {
        Some(build) => {
            build();
            true
        }
        None => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn prepared_tables_come_to_an_end() {
        assert_eq!((0..).take_while(|step| prepare(*step)).count(), STEPS.len());
        assert!(recalled("Glycerine", None).is_certain());
    }
}
