//! What is used up: records by hand, any records, and five hundred batches that are traced.

use super::*;
use crate::batch::{EntryId, FrozenScale, MassSource, trace, trace_lot};
use crate::formula::{Choice, PhaseKind, Share};
use crate::quantity::{Parsed, Typed};
use crate::shelf::LotField;
use proptest::prelude::*;
use std::sync::Arc;

const OILS: [&str; 3] = ["olive", "shea", "jojoba"];

pub(super) fn id(text: &str) -> IngredientId {
    IngredientId::parse(text).unwrap()
}

pub(super) fn grams(grams: i64) -> Mass {
    Mass::micrograms(grams * 1_000_000)
}

/// A batch of 1000 g of water and three oils of 10 % each.
fn made_from(lots: [&str; 3]) -> MadeFrom {
    let mut formula = Formula::default();
    let oil = formula.add_phase(PhaseKind::Oil, "Oil phase", 0);
    let water = formula.add_line(oil, 0).unwrap();
    formula.line_mut(water).unwrap().share = Share::FillUp;
    formula.line_mut(water).unwrap().choice = Choice::Known(id("water"));
    let mut lines = vec![line("Water", "70", 700, "", &formula)];
    for (n, (oil_id, lot)) in OILS.into_iter().zip(lots).enumerate() {
        let own = formula.add_line(oil, n + 1).unwrap();
        let own = formula.line_mut(own).unwrap();
        own.share = Share::Typed(Typed::new("10"));
        own.choice = Choice::Known(id(oil_id));
        lines.push(line(oil_id, "10", 100, lot, &formula));
    }
    MadeFrom {
        version: None,
        mark: 0,
        batch: Some(grams(1000)),
        lines,
        steps: Vec::new(),
        scale: Some(FrozenScale { step: grams(1), tolerance: Percent::ZERO }),
        packs: None,
        findings: Vec::new(),
        rules_known_to: Day::read("2026-11-25").unwrap(),
        formula,
    }
}

pub(super) fn line(name: &str, share: &str, on_scale: i64, lot: &str, formula: &Formula) -> FrozenLine {
    let Parsed::Value(share) = Percent::read(share) else { panic!("{share}") };
    FrozenLine {
        name: name.into(),
        share,
        on_scale: grams(on_scale),
        lot: lot.into(),
        inci: String::new(),
        phase: formula.phases()[0].name.clone(),
        capped: false,
    }
}

pub(super) fn entry(n: usize, event: Event) -> BatchEntry {
    BatchEntry { id: EntryId::random(n as u64), at: Timestamp::from_millis(n as i64 * 1000), event }
}

pub(super) fn weighed(line: usize, mass: Mass, lot: &str) -> Event {
    Event::Weighed { line, actual: mass, source: MassSource::Typed, lot: lot.into(), expiry: None, kept: false }
}

fn struck(n: usize) -> Event {
    Event::Struck { entry: EntryId::random(n as u64), reason: "Misread".into() }
}

pub(super) fn record(lots: [&str; 3], events: Vec<Event>) -> BatchRecord {
    let entries = events.into_iter().enumerate().map(|(n, event)| entry(n, event)).collect();
    BatchRecord { made_from: Some(Arc::new(made_from(lots))), entries }
}

fn used(events: Vec<Event>) -> Usage {
    Usage::of(&[UsedBatch::of("a", "", &record(["A1", "B1", "C1"], events))])
}

#[test]
fn used_up_is_what_was_weighed_last_and_stands() {
    assert_eq!(used(Vec::new()).lots(&id("olive")), [], "what is planned is still there");
    let events = vec![weighed(1, grams(99), "A1"), weighed(1, grams(101), " A2 "), weighed(2, grams(100), "B1")];
    assert_eq!(used(events.clone()).lots(&id("olive")), [("A2".to_owned(), grams(101))]);
    assert_eq!(used(events.clone()).lots(&id("shea")), [("B1".to_owned(), grams(100))]);
    let corrected = [events, vec![struck(1)]].concat();
    assert_eq!(used(corrected).lots(&id("olive")), [("A1".to_owned(), grams(99))], "the one before stands again");
}

#[test]
fn stock_is_what_was_delivered_less_what_was_weighed() {
    let mut shelf = Shelf::default();
    let lot = |name: &str, amount: &str, expiry: &str| {
        Lot::of(&[(LotField::Name, name), (LotField::Amount, amount), (LotField::Expiry, expiry)])
    };
    let olive = id("olive");
    shelf.keep_lots(&olive, vec![lot("A1", "500 g", "2026-12-31"), lot("A2", "", ""), lot("A3", "1 kg", "2027-06-30")]);
    assert!(shelf.entry(&olive).unwrap().in_hand(), "what was delivered is in stock");
    let usage = used(vec![weighed(1, grams(120), "A1")]);
    let stock = MaterialStock::of(&shelf, &olive, &usage);
    let left: Vec<_> = stock.lots.iter().map(LotStock::left).collect();
    assert_eq!(left, [Some(grams(380)), None, Some(grams(1000))]);
    assert_eq!(stock.usable(Day::read("2026-12-31")), Some(grams(1380)), "the day itself is good");
    assert_eq!(stock.usable(Day::read("2027-01-01")), Some(grams(1000)));
    let over = MaterialStock::of(&shelf, &olive, &used(vec![weighed(1, grams(600), "A1")]));
    assert_eq!((over.lots[0].left(), over.usable(None)), (Some(grams(-100)), Some(grams(1000))));
    let none = MaterialStock::of(&shelf, &olive, &used(vec![weighed(1, grams(100), "")]));
    assert_eq!((none.from_none, none.usable(None)), (grams(100), Some(grams(1500))));
    assert_eq!(MaterialStock::of(&shelf, &id("shea"), &usage).usable(None), None, "nothing was entered of it");
}

// Worked by hand: 1 g of 1000 g is weighed as 10 g of a premix of 10 %; of 11 g on the scale 1.1 g are the ingredient.
#[test]
fn premix_uses_up_what_of_it_is_the_ingredient() {
    let mut record = record(["A1", "", ""], vec![weighed(1, grams(11), "A1")]);
    let from = Arc::make_mut(record.made_from.as_mut().unwrap());
    from.lines[1].share = Percent::millionths(100_000);
    from.lines[1].on_scale = grams(10);
    let own = from.formula.lines().nth(1).map(|(_, line)| line.id).unwrap();
    from.formula.line_mut(own).unwrap().share = Share::Typed(Typed::new("0.1"));
    let batch = UsedBatch::of("a", "", &record);
    assert_eq!(batch.uses[1].mass, Some(Mass::micrograms(1_100_000)));
    assert_eq!(batch.uses[1].ingredient, Some(id("olive")));
}

#[test]
fn lines_that_weigh_nothing_do_not_shift_the_others() {
    let mut record = record(["A1", "B1", "C1"], vec![weighed(2, grams(100), "B1")]);
    let from = Arc::make_mut(record.made_from.as_mut().unwrap());
    let phase = from.formula.phases()[0].id;
    let blank = from.formula.add_line(phase, 1).unwrap();
    from.formula.line_mut(blank).unwrap().choice = Choice::Known(id("glycerin"));
    from.formula.line_mut(blank).unwrap().share = Share::Typed(Typed::new("about 3"));
    let ids: Vec<_> = UsedBatch::of("a", "", &record).uses.into_iter().map(|used| used.ingredient).collect();
    assert_eq!(ids, ["water", "olive", "shea", "jojoba"].map(|text| Some(id(text))));
}

prop_compose! {
    /// What may be noted: weighings of lines that are there or not, from one of three lots, and corrections of any earlier entry.
    fn events()(drawn in prop::collection::vec((0..6usize, 0..1_000_000_000i64, 0..3usize, any::<prop::sample::Index>()), 0..40)) -> Vec<Event> {
        let mut events: Vec<Event> = Vec::new();
        for (kind, mass, lot, at) in drawn {
            events.push(match kind {
                5 if !events.is_empty() => struck(at.index(events.len())),
                line => weighed(line, Mass::micrograms(mass), ["L1", "L2", ""][lot]),
            });
        }
        events
    }
}

proptest! {
    /// Used up is the sum of the weighings that stand, found another way: from the end, the first that stands of each line.
    #[test]
    fn used_up_is_the_sum_of_the_weighings_that_stand(all in prop::collection::vec(events(), 1..5)) {
        let mut batches = Vec::new();
        let mut expected: BTreeMap<(String, String), i64> = BTreeMap::new();
        for (n, events) in all.into_iter().enumerate() {
            let record = record(["", "", ""], events);
            for line in 1..4 {
                let stands = record.entries.iter().rev().find(|entry| {
                    matches!(&entry.event, Event::Weighed { line: at, .. } if *at == line) && record.struck(&entry.id).is_none()
                });
                if let Some(Event::Weighed { actual, lot, .. }) = stands.map(|entry| &entry.event) {
                    *expected.entry((OILS[line - 1].to_owned(), lot.clone())).or_default() += actual.units();
                }
            }
            batches.push(UsedBatch::of(&n.to_string(), "", &record));
        }
        let usage = Usage::of(&batches);
        let mut found = BTreeMap::new();
        for oil in OILS {
            for (lot, mass) in usage.lots(&id(oil)) {
                found.insert((oil.to_owned(), lot.clone()), mass.units());
            }
        }
        prop_assert_eq!(found, expected);
    }

    /// What is corrected by one of its own kind gives the stock as if it had been noted so at once.
    #[test]
    fn correction_corrects_the_stock(events in events(), mass in 0..1_000_000_000i64) {
        let right = weighed(1, Mass::micrograms(mass), "L1");
        let wrong = weighed(1, Mass::micrograms(mass / 2 + 1), "L2");
        let n = events.len();
        let at_once = used([events.clone(), vec![right.clone()]].concat());
        let later = used([events, vec![wrong, struck(n), right]].concat());
        prop_assert_eq!(at_once, later);
    }
}

/// 500 batches of three of 40 lots each, chosen by chance, with packs; a few lines are only planned.
fn five_hundred() -> Vec<UsedBatch> {
    let mut seed = 0x2026_1130_u64;
    let mut chance = move |most: u64| {
        seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (seed >> 33) % most
    };
    let lot = |oil: usize, n: u64| format!("{}{:04}", ["O", "S", "J"][oil], 400 + n);
    (0..500)
        .map(|n| {
            let lots = [0, 1, 2].map(|oil| lot(oil, chance(40)));
            let mut events = vec![Event::Begun { code: format!("H{n:04}"), maker: "A".into() }];
            for (oil, lot) in lots.iter().enumerate() {
                if chance(10) > 0 {
                    events.push(weighed(oil + 1, grams(100), lot));
                }
            }
            events.extend((0..12).map(|_| Event::Filled { mass: grams(50) }));
            let record = record([&lots[0], &lots[1], &lots[2]], events);
            UsedBatch::of(&format!("b{n}"), "Harbour hand lotion", &record)
        })
        .collect()
}

#[test]
fn trace_over_five_hundred_batches_is_complete_both_ways() {
    let batches = five_hundred();
    let mut pairs = 0;
    for (oil, letter) in OILS.into_iter().zip(["O", "S", "J"]) {
        for n in 0..40 {
            let lot = format!("{letter}{:04}", 400 + n);
            let found = trace_lot(&batches, &id(oil), &lot);
            let places: Vec<usize> = found.iter().flat_map(|found| &found.batches).map(|batch| batch.place).collect();
            // The other way round: every batch says whether it holds the lot.
            let holds =
                |batch: &&UsedBatch| batch.uses.iter().any(|used| used.lot == lot && used.ingredient == Some(id(oil)));
            let expected: Vec<usize> = (0..batches.len()).filter(|n| holds(&&batches[*n])).collect();
            assert_eq!(places, expected, "{lot}");
            for batch in found.iter().flat_map(|found| &found.batches) {
                let weighed = batches[batch.place].uses.iter().find(|used| used.lot == lot).and_then(|used| used.mass);
                assert_eq!(batch.mass, weighed, "what was only planned is told apart");
            }
            pairs += places.len();
        }
    }
    assert_eq!(pairs, 1500, "each of 500 batches has three lots");
    assert!(
        batches.iter().any(|batch| batch.uses.iter().skip(1).any(|used| used.mass.is_none())),
        "some are only planned"
    );
}

#[test]
fn trace_finds_the_lot_of_that_name_before_those_that_only_have_it_in_theirs() {
    let of = |lots: [&str; 3]| UsedBatch::of("a", "", &record(lots, Vec::new()));
    let batches = [of(["X0412-b", "0412", ""]), of(["0412", "0412", ""])];
    let found: Vec<_> = trace(&batches, "0412").into_iter().map(|lot| (lot.name, lot.lot, lot.batches.len())).collect();
    let told = |name: &str, lot: &str, batches| (name.to_owned(), lot.to_owned(), batches);
    assert_eq!(found, [told("shea", "0412", 2), told("olive", "0412", 1), told("olive", "X0412-b", 1)]);
    assert!(trace(&batches, " ").is_empty() && trace(&batches, "0413").is_empty());
}
