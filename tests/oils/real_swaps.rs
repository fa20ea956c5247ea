//! Swaps as they are asked for: two hundred under limits, each checked by a way of its own, and ten of the trade to be read.

use crate::id;
use crate::problem::Oils;
use hundred_parts::facts::{Allergens, Cox, CsvTable, FatClass, FatKind};
use hundred_parts::quantity::{Percent, Quantity};
use hundred_parts::sheet::{Limits, NoSwap, Offer, Weighting, drying, swap};
use hundred_parts::shelf::Shelf;

/// Numbers that are the same every time: the constants of Knuth's MMIX.
struct Numbers(u64);

impl Numbers {
    fn below(&mut self, end: u64) -> u64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % end
    }

    fn yes(&mut self) -> bool {
        self.below(2) == 0
    }
}

fn limits(numbers: &mut Numbers) -> Limits {
    let avoid = [Allergens::NONE, Allergens::NUTS, Allergens::SOYA, Allergens::NUTS.with(Allergens::SESAME)];
    Limits {
        plants_only: numbers.yes(),
        no_drying: numbers.yes(),
        avoid: avoid[numbers.below(4) as usize],
        most_oils: Some(1 + numbers.below(3) as u8),
        most_of_one: numbers.yes().then(|| Percent::millionths(40_000_000 + 10_000_000 * numbers.below(6) as i64)),
        oxidizability: numbers.yes().then(|| Cox::from_units(150 + numbers.below(600) as i64)),
        ..Limits::default()
    }
}

/// What each oil has beside the acids of the table, by the second word of its cell: only the same ones match.
fn rests(oils: &Oils) -> Vec<String> {
    let table = CsvTable::read(include_str!("../../src/facts/data/fats.csv"));
    let rest = |id: &String| {
        let row = table.rows().find(|row| row.get("id") == Ok(id.as_str())).unwrap();
        row.get("other").unwrap_or("").split(' ').nth(1).unwrap_or("").to_owned()
    };
    oils.ids.iter().map(rest).collect()
}

/// The squared distance of acids, by the columns of the table alone.
fn distance(oils: &Oils, rests: &[String], target: usize, parts: &[(usize, f64)]) -> f64 {
    let mixture = oils.mixture(parts);
    let [acids @ .., _] = mixture.as_slice() else { return f64::INFINITY };
    let known: f64 = acids.iter().zip(&oils.columns[target]).map(|(a, b)| (a - b) * (a - b)).sum();
    let all = parts.iter().map(|(one, _)| *one).chain([target]);
    let mut kinds: Vec<&str> = all.map(|one| rests[one].as_str()).collect();
    kinds.sort_unstable();
    kinds.dedup();
    let of = |one: usize, kind: &str| if rests[one] == kind { *oils.columns[one].last().unwrap() } else { 0.0 };
    let off = |kind: &&str| parts.iter().map(|(one, part)| part * of(*one, kind)).sum::<f64>() - of(target, kind);
    known + kinds.iter().map(off).map(|off| off * off).sum::<f64>()
}

/// What the limits leave of the table, read from the shelf and not from the swap.
fn allowed(oils: &Oils, shelf: &Shelf, target: usize, limits: &Limits) -> Vec<usize> {
    let keeps = |n: &usize| {
        let fat = shelf.entry(&id(&oils.ids[*n])).and_then(|entry| entry.fat()).unwrap();
        let iodine = fat.triglyceride().unwrap().iodine();
        *n != target
            && fat.untold().is_none()
            && (limits.avoid.is_empty() || fat.allergens.is_some_and(|carried| !carried.meets(limits.avoid)))
            && (!limits.plants_only || fat.row.is_some_and(|row| row.class != FatClass::Animal))
            && (!limits.no_drying || iodine <= drying())
            && (limits.oxidizability.is_none() || !fat.doubts.oxidation)
    };
    (0..oils.ids.len()).filter(keeps).collect()
}

/// The best of every oil and every pair in steps of a twentieth within the limits, by trying them all.
fn best_by_trying(oils: &Oils, rests: &[String], target: usize, from: &[usize], limits: &Limits) -> f64 {
    let cap = limits.most_of_one.map_or(1.0, |most| most.units() as f64 / 1e8);
    let cox = limits.oxidizability.map_or(f64::INFINITY, |most| most.units() as f64 / 100.0 - 0.02);
    let keeps = |parts: &[(usize, f64)]| {
        parts.iter().all(|(_, part)| *part <= cap + 1e-9)
            && parts.iter().map(|(n, part)| oils.cox[*n] * part).sum::<f64>() <= cox
    };
    let mut best = f64::INFINITY;
    for (n, one) in from.iter().enumerate() {
        let single = [(*one, 1.0)];
        if keeps(&single) {
            best = best.min(distance(oils, rests, target, &single));
        }
        for other in &from[n + 1..] {
            for step in 1..20 {
                let part = f64::from(step) / 20.0;
                let pair = [(*one, part), (*other, 1.0 - part)];
                if limits.most_oils.is_none_or(|most| most >= 2) && keeps(&pair) {
                    best = best.min(distance(oils, rests, target, &pair));
                }
            }
        }
    }
    best
}

/// Every answer keeps its limits, by figures that the swap did not make, and nothing that is found by trying is nearer.
#[test]
fn two_hundred_swaps_keep_their_limits_and_nothing_tried_is_nearer() {
    let (oils, shelf, mut numbers) = (Oils::read(), Shelf::default(), Numbers(28));
    let (rests, mut asked, mut answered) = (rests(&oils), 0, 0);
    while asked < 200 {
        let target = numbers.below(oils.ids.len() as u64) as usize;
        let limits = limits(&mut numbers);
        let Ok(answer) = swap(&shelf, &id(&oils.ids[target]), &limits, Weighting::Plain) else { continue };
        asked += 1;
        let from = allowed(&oils, &shelf, target, &limits);
        let tried = best_by_trying(&oils, &rests, target, &from, &limits);
        let Ok(blend) = answer.blend else {
            assert!(tried.is_infinite(), "{}: something keeps {limits:?}", oils.ids[target]);
            continue;
        };
        answered += 1;
        let parts: Vec<(usize, f64)> =
            blend.parts.iter().map(|(one, share)| (oils.number(one.as_str()), share.units() as f64 / 1e8)).collect();
        let what = format!("{} under {limits:?}: {:?}", oils.ids[target], blend.parts);
        assert_eq!(blend.parts.iter().map(|(_, share)| *share).sum::<Percent>(), Percent::WHOLE, "{what}");
        assert!(parts.len() <= usize::from(limits.most_oils.unwrap()), "{what}");
        assert!(parts.iter().all(|(one, _)| from.contains(one)), "{what}");
        assert!(limits.most_of_one.is_none_or(|most| blend.parts.iter().all(|(_, share)| *share <= most)), "{what}");
        let cox: f64 = parts.iter().map(|(one, part)| oils.cox[*one] * part).sum();
        // Lauric fats carry up to 5 % less acid for their mass than what the table's percent are of.
        assert!(
            limits.oxidizability.is_none_or(|most| cox <= most.units() as f64 / 100.0 * 1.05 + 0.01),
            "{what}: {cox}"
        );
        // Rounded to tenths of a percent, and weighed by the acid in a fat: a hundredth of the distance and a little.
        assert!(distance(&oils, &rests, target, &parts) <= tried * 1.05 + 1.0, "{what}: tried {tried}");
    }
    assert!(answered >= 150, "{answered}");
}

fn told(offer: &Offer) -> String {
    let parts = offer.parts.iter().map(|(one, share)| format!("{} {} %", one.as_str(), share.canonical()));
    let tenths = |share: Percent| (share.units() + 50_000) / 100_000;
    let misplaced = tenths(offer.misplaced);
    let verdict = if offer.is_match() { "a match" } else { "NO REAL MATCH" };
    format!(
        "{}; {}.{} of 100 parts differ, {verdict}",
        parts.collect::<Vec<_>>().join(", "),
        misplaced / 10,
        misplaced % 10
    )
}

/// Ten that makers ask for, of plants and at most three oils: `cargo test --test oils ten_swaps -- --nocapture` shows them. What
/// the trade would do is common practice, no source: high-linolenic oils for rosehip, seed oils of one's own class for plum,
/// cocoa-type butters for cocoa butter; nothing at all for castor, whose ricinoleic acid no other has, and no acids for jojoba.
#[test]
fn ten_swaps_of_the_trade_are_answered_or_refused_for_a_reason() {
    let shelf = Shelf::default();
    let limits = Limits { plants_only: true, most_oils: Some(3), ..Limits::default() };
    let ten = [
        "argan",
        "shea",
        "rosehip",
        "castor",
        "olive",
        "cocoa-butter",
        "jojoba",
        "plum-kernel",
        "avocado",
        "hemp-seed",
    ];
    for name in ten {
        let answer = swap(&shelf, &id(name), &limits, Weighting::Plain);
        let said = match &answer {
            Err(why) => format!("{why:?}"),
            Ok(answer) => told(answer.blend.as_ref().unwrap()),
        };
        println!("{name}: {said}");
        match (name, answer) {
            ("jojoba", answer) => assert_eq!(answer.unwrap_err(), NoSwap::NotTriglyceride(FatKind::WaxEster)),
            ("castor", answer) => {
                let blend = answer.unwrap().blend.unwrap();
                assert!(!blend.is_match() && blend.misplaced > Percent::millionths(80_000_000), "{said}");
            }
            (_, answer) => {
                let blend = answer.unwrap().blend.unwrap();
                assert!(blend.parts.len() <= 3 && blend.is_match(), "{name}: {said}");
            }
        }
    }
}
