//! What names were read as, kept: after a change nearly all names of a formula are the same as before it.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::sync::Arc;

use super::reading::{Meaning, NameReading};
use super::{is_ready, recogniser};

/// The most readings that are kept.
const MOST_KEPT: usize = 2000;

type Readings = BTreeMap<(String, Option<String>), Arc<NameReading>>;

thread_local! {
    static KEPT: RefCell<Readings> = const { RefCell::new(Readings::new()) };
}

/// What [`super::recognise`] says, from what is kept where the same was asked before. Nothing is kept before
/// [`super::is_ready`].
pub fn recalled(text: &str, cas: Option<&str>) -> Arc<NameReading> {
    if !is_ready() {
        return Arc::new(NameReading::unknown());
    }
    KEPT.with_borrow_mut(|kept| {
        let asked = (text.to_owned(), cas.map(str::to_owned));
        if let Some(reading) = kept.get(&asked) {
            return Arc::clone(reading);
        }
        if kept.len() >= MOST_KEPT {
            kept.clear();
        }
        let reading = Arc::new(recogniser::recognise(text, cas));
        kept.insert(asked, Arc::clone(&reading));
        reading
    })
}

/// The rows of the table of ingredients that a text may name, the likeliest first.
pub fn materials_named(text: &str) -> Vec<&'static str> {
    let reading = recalled(text, None);
    reading.means.iter().chain(&reading.candidates).filter_map(Meaning::id).collect()
}

/// Whether a reading is kept, so that [`recalled`] costs nothing.
pub fn is_recalled(text: &str, cas: Option<&str>) -> bool {
    KEPT.with_borrow(|kept| kept.contains_key(&(text.to_owned(), cas.map(str::to_owned))))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn recalled_readings_are_those_of_the_recogniser_for_name_and_number() {
        for (text, cas) in [("Shea butter", None), ("Shea butter", Some("56-81-5")), ("Quorblium", None)] {
            assert!(!is_recalled(text, cas));
            for _ in 0..2 {
                assert_eq!(*recalled(text, cas), recogniser::recognise(text, cas));
            }
            assert!(is_recalled(text, cas));
        }
    }

    #[test]
    fn recalled_readings_are_bounded() {
        for number in 0..=MOST_KEPT {
            recalled(&format!("quorblium {number}"), None);
        }
        assert!(KEPT.with_borrow(BTreeMap::len) <= MOST_KEPT);
    }
}
