//! Which entries the cases by hand are about: chance chooses them, the same for the same files.
//!
//! All rows of the annexes that are not moved or deleted, in the order of the files, are put into an order by chance (Fisher and
//! Yates, with the numbers of SplitMix64 from [`SEED`]). The first 24 of Annexes III, V and VI that have a figure in percent in
//! the column of maximums get three cases each: just under, at and just over it. Of the others, the first of each annex get
//! one case each, as many as [`ONE_CASE`] says.

use hundred_parts::law::{Annex, AnnexEntry, Law};

/// The number of the regulation.
const SEED: u64 = 1223;
const THREE_CASES: usize = 24;
const ONE_CASE: [(Annex, usize); 5] =
    [(Annex::II, 20), (Annex::III, 24), (Annex::IV, 10), (Annex::V, 8), (Annex::VI, 6)];

/// SplitMix64, as published by Steele, Lea and Flood (2014).
fn next(state: &mut u64) -> u64 {
    *state = state.wrapping_add(0x9e37_79b9_7f4a_7c15);
    let z = (*state ^ (*state >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    let z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ (z >> 31)
}

/// The chosen entries: those with three cases, and those with one.
pub(crate) fn chosen(law: &Law) -> (Vec<&AnnexEntry>, Vec<&AnnexEntry>) {
    let mut all: Vec<&AnnexEntry> = law.entries().iter().filter(|entry| !entry.is_gone()).collect();
    let mut state = SEED;
    for last in (1..all.len()).rev() {
        let other = next(&mut state) % (last as u64 + 1);
        all.swap(last, other as usize);
    }
    let three: Vec<&AnnexEntry> = all
        .iter()
        .filter(|entry| matches!(entry.annex, Annex::III | Annex::V | Annex::VI) && entry.maximum.contains('%'))
        .take(THREE_CASES)
        .copied()
        .collect();
    let rest = |annex: Annex, count: usize| {
        let of = all.iter().filter(move |entry| entry.annex == annex).copied();
        of.filter(|entry| !three.contains(entry)).take(count).collect::<Vec<_>>()
    };
    let one = ONE_CASE.iter().flat_map(|(annex, count)| rest(*annex, *count)).collect();
    (three, one)
}
