//! Putting lists in order.
//!
//! The standard library's sort is compiled anew, at about four kilobytes, for every type and every key. All lists of the
//! page are short, so one sort over places serves them all.

use core::cmp::Ordering;

/// The places `0..count` in the order that `compare` gives them; equal ones keep theirs.
pub fn ordered(count: usize, compare: &dyn Fn(usize, usize) -> Ordering) -> Vec<usize> {
    let mut places: Vec<usize> = (0..count).collect();
    places.sort_by(|a, b| compare(*a, *b));
    places
}

/// Sorts a list, keeping equal items in their order.
pub fn sort_by<T: Clone>(items: &mut Vec<T>, compare: impl Fn(&T, &T) -> Ordering) {
    let places = ordered(items.len(), &|a, b| compare(&items[a], &items[b]));
    *items = places.into_iter().map(|place| items[place].clone()).collect();
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn sort_by_is_the_standard_stable_sort(items in prop::collection::vec((0u8..9, any::<u16>()), 0..60)) {
            let (mut ours, mut standard) = (items.clone(), items);
            sort_by(&mut ours, |a, b| a.0.cmp(&b.0));
            standard.sort_by_key(|item| item.0);
            prop_assert_eq!(ours, standard);
        }
    }
}
