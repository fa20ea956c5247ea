//! Building the tables of names one after another: all at once takes longer than a finger may wait.

use std::borrow::Cow;

use super::listed::entries_of;
use super::reading::Meaning;
use super::{annexes, is_ready, lexicon, plants, recalled::recalled, spellings, tongues, vocabulary};

/// What builds one table each, or a piece of it, and says whether there is more of it to build. Those come first on which
/// others rest; the last one is the first look, which builds what is left.
const STEPS: [fn() -> bool; 8] = [
    || {
        vocabulary::kind("x");
        false
    },
    plants::build,
    || {
        tongues::read(&["x"]);
        false
    },
    annexes::build,
    lexicon::build,
    spellings::build,
    || {
        entries_of(&Meaning::Inci(Cow::Borrowed("Aqua")));
        false
    },
    || {
        recalled("Aqua", None);
        false
    },
];

/// Builds a piece of the tables; false where all are built. `step` is the table, and goes on to the next one by itself. Nothing
/// is built before [`is_ready`].
pub fn prepare(step: &mut usize) -> bool {
    let Some(build) = STEPS.get(*step).filter(|_| is_ready()) else { return false };
    if !build() {
        *step += 1;
    }
    true
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn prepared_tables_come_to_an_end() {
        let mut step = 0;
        while prepare(&mut step) {}
        assert_eq!(step, STEPS.len());
        assert!(recalled("Glycerine", None).is_certain());
    }
}
