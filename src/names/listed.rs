//! Which entries of the annexes a substance falls under.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::sync::{Arc, LazyLock};

use super::key::key;
use super::lexicon;
use super::plain::plain;
use super::reading::Meaning;
use super::{annexes, is_ready};
use crate::law::AnnexEntry;
use crate::quantity::sort_by;

/// An entry that lists a substance.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Listing {
    /// The entry.
    pub entry: &'static AnnexEntry,
    /// It lists a name of the substance; otherwise only its number. A number says less than it seems: one of a mixture or of
    /// a plant stands in entries that mean one part or one use of it.
    pub by_name: bool,
}

/// Every name of the annexes by what it is read as.
static MEANINGS: LazyLock<Vec<(Meaning, &'static AnnexEntry)>> = LazyLock::new(|| {
    let mut all: Vec<(Meaning, &'static AnnexEntry)> = Vec::new();
    for listed in annexes::names() {
        let hit = lexicon::find(&listed.key).filter(lexicon::NameHit::is_certain);
        let means = hit.and_then(|hit| hit.means.into_iter().next());
        all.push((means.unwrap_or_else(|| Meaning::Inci(listed.name.clone())), listed.entry));
    }
    sort_by(&mut all, |a, b| a.0.cmp(&b.0));
    all
});

/// The most substances whose entries are kept.
const MOST_KEPT: usize = 2000;

thread_local! {
    static KEPT: RefCell<BTreeMap<Meaning, Arc<[Listing]>>> = const { RefCell::new(BTreeMap::new()) };
}

/// The entries that list a substance: by any name that is read as it, or else by its number, in the order of the law;
/// none before [`is_ready`]. They are kept, since what asks for them asks again after every change.
pub fn entries_of(means: &Meaning) -> Arc<[Listing]> {
    if !is_ready() {
        return Arc::default();
    }
    KEPT.with_borrow_mut(|kept| {
        if let Some(entries) = kept.get(means) {
            return Arc::clone(entries);
        }
        if kept.len() >= MOST_KEPT {
            kept.clear();
        }
        let entries: Arc<[Listing]> = looked_up(means).into();
        kept.insert(means.clone(), Arc::clone(&entries));
        entries
    })
}

fn looked_up(means: &Meaning) -> Vec<Listing> {
    let start = MEANINGS.partition_point(|(known, _)| known < means);
    let named = MEANINGS.iter().skip(start).take_while(|(known, _)| known == means).map(|(_, entry)| *entry);
    let own_names = lexicon::exact_names(means);
    let by_text = own_names.iter().flat_map(|key| annexes::entries_named(key));
    let text_key = if means.id().is_none() { key(&plain(means.text())) } else { String::new() };
    let plain_text = annexes::entries_named(&text_key);
    let mut all: Vec<Listing> =
        named.chain(by_text).chain(plain_text).map(|entry| Listing { entry, by_name: true }).collect();
    for number in lexicon::numbers_of(means) {
        all.extend(annexes::entries_numbered(number).map(|entry| Listing { entry, by_name: false }));
    }
    // By name first of those by both.
    all.sort_by_key(|listing| (core::ptr::from_ref::<AnnexEntry>(listing.entry), !listing.by_name));
    all.dedup_by(|later, earlier| core::ptr::eq(later.entry, earlier.entry));
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::names::recognise;

    // Annexes II to VI as the Commission exports them, 28 August 2026.
    #[test]
    fn listed_substances_find_their_entries_whatever_they_are_called() {
        for (text, entry) in [
            ("Salicylic Acid (BHA)", "Annex III, 98"),
            ("2-Phenoxyethanol", "Annex V, 29"),
            ("Methyl Paraben", "Annex V, 12"),
            ("Retinol (Vitamin A)", "Annex III, 376"),
            ("d-Limonene", "Annex III, 88"),
            ("Natriumbenzoat", "Annex V, 1"),
            ("Avobenzone", "Annex VI, 8"),
            ("Hydroquinone", "Annex II, 1339"),
            ("Boric acid", "Annex II, 1395"),
            ("79-07-2", "Annex II, 1387"),
            ("Zinc oxide", "Annex VI, 30"),
        ] {
            let reading = recognise(text, None);
            let entries: Vec<String> = reading
                .means
                .iter()
                .flat_map(|means| entries_of(means).to_vec())
                .map(|listing| listing.entry.title())
                .chain(reading.entries.iter().map(|entry| entry.title()))
                .collect();
            assert!(entries.iter().any(|title| title == entry), "{text}: {:?} {entries:?}", reading.means);
        }
    }
}
