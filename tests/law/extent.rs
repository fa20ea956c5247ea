//! How much of the annexes a program has read, and that nothing of the rest is lost.

use hundred_parts::law::{
    Annex, AnnexCell, AnnexEntry, COMPACT, EntryReading, Extent, JudgedShare, Law, Letters, Verdict, What, judge,
    products, read, verdict,
};
use hundred_parts::quantity::Percent;
use proptest::prelude::*;
use std::sync::LazyLock;

static LAW: LazyLock<Law> = LazyLock::new(|| Law::read(COMPACT).unwrap());

/// Words that only say what follows, and are in no condition.
const HEADS: [&str; 6] = ["Conditions", "Warnings", "printed", "label", "mixing", "ratio"];

fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split(|c: char| !c.is_alphabetic()).filter(|word| word.len() > 3)
}

fn said(reading: &EntryReading<'_>) -> String {
    let conditions = reading.conditions.iter().flat_map(|condition| {
        let basis = match &condition.what {
            What::Maximum(maximum) => maximum.reckoned_as.clone().unwrap_or_default(),
            _ => String::new(),
        };
        [condition.words.clone(), basis]
    });
    conditions.chain(reading.uses.iter().map(|of| of.words.clone())).collect::<Vec<_>>().join("\n")
}

#[test]
fn law_words_of_restrictions_are_all_in_a_condition() {
    let mut lost = Vec::new();
    for entry in LAW.entries().iter().filter(|entry| !entry.is_gone()) {
        let said = said(&read(entry));
        let cells: &[AnnexCell] = match entry.annex {
            Annex::II => &[AnnexCell::Chemical],
            _ => &[AnnexCell::Product, AnnexCell::Maximum, AnnexCell::Other, AnnexCell::Wording],
        };
        let basis = "The abovementioned percentages are calculated as";
        for word in cells.iter().flat_map(|cell| words(entry.get(*cell))) {
            if !said.contains(word) && !HEADS.contains(&word) && !basis.contains(word) {
                lost.push(format!("{}: {word}", entry.title()));
            }
        }
    }
    assert!(lost.is_empty(), "{lost:?}");
}

#[test]
fn law_is_read_as_far_as_is_said() {
    // Of the files kept to 28 August 2026: entries read whole, in part, and not at all. `cargo task law` prints the same.
    for (annex, whole, part, none) in EXTENT {
        let of: Vec<Extent> =
            LAW.entries().iter().filter(|entry| entry.annex == annex).map(|entry| read(entry).extent()).collect();
        let count = |extent| of.iter().filter(|found| **found == extent).count();
        assert_eq!((count(Extent::Whole), count(Extent::Part), count(Extent::None)), (whole, part, none), "{annex}");
        assert_eq!(of.len(), whole + part + none);
    }
}

const EXTENT: [(Annex, usize, usize, usize); 5] = [
    (Annex::II, 1403, 0, 355),
    (Annex::III, 359, 22, 0),
    (Annex::IV, 153, 1, 0),
    (Annex::V, 57, 1, 0),
    (Annex::VI, 31, 3, 0),
];

#[test]
fn law_entries_without_a_condition_are_colourants_and_what_is_gone() {
    let bare = |entry: &&AnnexEntry| {
        let reading = read(entry);
        reading.conditions.is_empty() && reading.uses.is_empty()
    };
    for entry in LAW.entries().iter().filter(bare) {
        let cells = [AnnexCell::Product, AnnexCell::Maximum, AnnexCell::Other, AnnexCell::Wording];
        assert!(cells.iter().all(|cell| entry.get(*cell).is_empty()), "{}", entry.title());
        assert!(entry.annex == Annex::IV || entry.is_gone(), "{}", entry.title());
    }
}

/// What is not read is never fine: for whichever product it is about, the verdict is open or worse.
#[test]
fn law_words_that_are_not_read_are_never_fine() {
    for entry in LAW.entries() {
        let reading = read(entry);
        let unread = reading
            .conditions
            .iter()
            .any(|condition| condition.what == What::Unread && condition.letters == Letters::ALL);
        if unread {
            let judgements = judge(&reading, products("all").sure, JudgedShare::of(Percent::millionths(1)));
            assert!(verdict(&judgements) >= Verdict::Open, "{}", entry.title());
        }
    }
}

proptest! {
    /// Whatever the law will say one day, reading it does not stop.
    #[test]
    fn law_entries_of_any_words_are_read(
        annex in prop::sample::select(&Annex::ALL[..]),
        from in any::<prop::sample::Index>(),
        product in "(\\(?[a-e]\\)|[A-Za-z ,/()-]|\n|Other products|except){0,12}|.{0,40}",
        maximum in "(\\(?[a-e]\\)|[0-9.,]{1,4} ?%|as acid|\n| |in other products){0,12}|.{0,40}",
        other in "(\\(?[a-e]\\)|Not to be used in |products|for children under 3 years of age|\\. |\n| ){0,12}|.{0,60}",
    ) {
        let sample = from.get(LAW.entries());
        let export = row(annex, &[sample.chemical.as_str(), &product, &maximum, &other]);
        let reading = read(&export);
        let judgements = judge(&reading, products("body-lotion still 10").sure, JudgedShare::of(Percent::millionths(500_000)));
        let _ = verdict(&judgements);
        prop_assert!(judgements.iter().all(|judgement| judgement.entry == &export));
    }
}

/// An entry of those words.
fn row(annex: Annex, [chemical, product, maximum, other]: &[&str; 4]) -> AnnexEntry {
    let mut entry = AnnexEntry::empty(annex);
    entry.reference = "1".to_owned();
    (entry.chemical, entry.product) = ((*chemical).to_owned(), (*product).to_owned());
    (entry.maximum, entry.other) = ((*maximum).to_owned(), (*other).to_owned());
    entry
}
