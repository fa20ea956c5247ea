//! Batches that nobody thought of: caps, sums and premixes hold in all of them.

use crate::work::*;
use hundred_parts::facts::IngredientId;
use hundred_parts::quantity::{Mass, Percent, Quantity};
use hundred_parts::sheet::{Premix, WeighLine, WeighSheet, least_weighable};
use hundred_parts::shelf::{Shelf, carries, dissolves_in, premix_strength};
use proptest::prelude::*;

const STEPS: [&str; 12] = ["0.001", "0.002", "0.005", "0.01", "0.02", "0.05", "0.1", "0.2", "0.5", "1", "2", "5"];

/// Preservatives with the most of the line that keeps the law, all its sources alone.
///
/// Source: Regulation (EC) 1223/2009 Annex V, entries 1, 3, 4, 12, 12a, 13, 29, 34: leave-on; salts and esters as acid, by
/// the molar masses 122.12 and 144.10 g/mol of sodium benzoate, 112.13 and 150.22 g/mol of potassium sorbate, 138.12 and
/// 152.15, 180.20 g/mol of the parabens.
const CAPS: [(&str, &str); 9] = [
    ("phenoxyethanol", "1"),
    ("benzyl-alcohol", "1"),
    ("salicylic-acid", "0.5"),
    ("dehydroacetic-acid", "0.6"),
    ("sodium-benzoate", "0.589"),
    ("potassium-sorbate", "0.803"),
    ("methylparaben", "0.44"),
    ("propylparaben", "0.182"),
    ("benzoic-acid", "0.5"),
];

/// A batch that is so many steps of a scale, and a part of one, and the scale.
fn any_scale(steps: std::ops::Range<i64>) -> impl Strategy<Value = (String, String)> {
    (steps, 0..STEPS.len(), 0i64..1_000_000).prop_map(|(count, step, part)| {
        let step = Mass::from_canonical(STEPS[step]).unwrap();
        let batch = Mass::from_units((count * step.units() + part * step.units() / 1_000_000) / 1_000 * 1_000);
        (batch.canonical(), step.canonical())
    })
}

fn hundredths(units: i64) -> String {
    format!("{}.{:06}", units / 1_000_000, units % 1_000_000)
}

fn sums(weighed: &WeighSheet) -> (Mass, Mass) {
    (weighed.lines.iter().map(|line| line.on_scale).sum(), weighed.lines.iter().map(|line| line.mass).sum())
}

/// The batch as weighed holds no more of a line than a share of it, exactly.
fn within(mass: Mass, share: Percent, batch: Mass) -> bool {
    i128::from(mass.units()) * 100_000_000 <= i128::from(share.units()) * i128::from(batch.units())
}

proptest! {
    /// Lines at their very most, with and without one that fills up; the rest is water, or nothing that is free.
    #[test]
    fn no_capped_line_is_weighed_above_its_cap(
        (batch, step) in any_scale(20..4_000),
        picked in prop::sample::subsequence(CAPS.to_vec(), 1..CAPS.len()),
        part in prop::collection::vec(1i64..=100, CAPS.len()),
        fill_up in any::<bool>(),
        first in any::<bool>(),
    ) {
        let shares: Vec<Percent> = picked.iter().zip(&part).map(|((_, most), part)| {
            // Mostly at the cap itself.
            let most = percent(most);
            if *part > 50 { most } else { Percent::from_units(most.units() * part / 50) }
        }).collect();
        let rest = Percent::WHOLE.minus(shares.iter().copied().sum());
        let mut lines: Vec<String> =
            picked.iter().zip(&shares).map(|((id, _), share)| format!("{id} {}", share.canonical())).collect();
        let water = if fill_up { "water fill-up".to_owned() } else { format!("water {}", rest.canonical()) };
        lines.insert(if first { 0 } else { lines.len() }, water);
        let worked = work(&document(&[("water", lines)], &format!(r#"{{"mass_g":"{batch}","readability_g":"{step}"}}"#)));
        let Ok(weighed) = &worked.sheet.weigh else { return Ok(()) };
        prop_assert_eq!(sums(weighed), (weighed.batch.mass, weighed.batch.mass));
        prop_assert_eq!(&weighed.raised, &vec![]);
        for line in &weighed.lines {
            if let Some((id, most)) = CAPS.iter().find(|(id, _)| *id == worked.id(line.line)) {
                prop_assert!(within(line.mass, percent(most), weighed.batch.mass), "{} {:?}", id, line);
                prop_assert!(within(line.mass, line.share, weighed.batch.mass), "{} {:?}", id, line);
            }
        }
        // Nor does any rule find more as weighed than as typed.
        for finding in worked.findings.iter().filter(|finding| finding.detail.on_the_scale.is_some()) {
            prop_assert!(!["above-maximum", "above-cap", "parabens"].contains(&key(finding)), "{:?}", finding);
        }
    }

    /// Any ingredients of the shelf: what a rule finds only as weighed rests on a line that the sheet names.
    #[test]
    fn above_its_cap_as_weighed_is_said_on_the_sheet(
        (batch, step) in any_scale(20..400),
        lines in prop::collection::vec((0usize..10_000, 1i64..4_000_000), 1..12),
        fill_up in any::<bool>(),
    ) {
        let ids: Vec<IngredientId> = Shelf::default().ids().into_iter().cloned().collect();
        let rest = 100_000_000 - lines.iter().map(|(_, share)| share).sum::<i64>();
        let text = |(n, share): &(usize, i64)| format!("{} {}", ids[n % ids.len()], hundredths(*share).trim_end_matches('0').trim_end_matches('.'));
        let mut written: Vec<String> = lines.iter().map(text).collect();
        // What makes the sum whole is a capped line, too, now and then.
        let last = ["water", "glycerin", "lactic-acid", "witch-hazel"][lines.len() % 4];
        let rest = hundredths(rest);
        written.push(format!("{last} {}", if fill_up { "fill-up" } else { rest.trim_end_matches('0').trim_end_matches('.') }));
        let worked = work(&document(&[("water", written)], &format!(r#"{{"mass_g":"{batch}","readability_g":"{step}"}}"#)));
        let Ok(weighed) = &worked.sheet.weigh else { return Ok(()) };
        prop_assert_eq!(sums(weighed), (weighed.batch.mass, weighed.batch.mass));
        let over = ["above-maximum", "above-cap", "parabens", "above-most", "phototoxic", "fragrance-much"];
        for finding in worked.findings.iter().filter(|finding| finding.detail.on_the_scale.is_some()) {
            let named = finding.lines.iter().any(|line| weighed.raised.contains(line));
            // Not above its share as typed, so what is too much of it is so by what else is weighed: water that makes a
            // cream of a balm, say.
            let typed = |line: &WeighLine| within(line.mass, line.share, weighed.batch.mass);
            let no_more = finding.lines.iter().all(|line| weighed.line(*line).is_some_and(typed));
            prop_assert!(named || no_more || !over.contains(&key(finding)), "{:?} {:?}", finding, weighed);
        }
    }

    /// What is in hand is never exceeded, whatever the caps leave to the line that fills up.
    #[test]
    fn no_line_asks_for_more_than_is_in_hand(
        (grams, step) in any_scale(1..3_000),
        part in 1i64..100_000_000,
        line in 0usize..4,
        fill_up in any::<bool>(),
    ) {
        let rest = Percent::from_units(100_000_000 - 2_100_000 - part.min(97_000_000));
        let water = if fill_up { "water fill-up".to_owned() } else { format!("water {}", rest.canonical()) };
        let lines = [
            water,
            "phenoxyethanol 1".to_owned(),
            "lavender-essential-oil 1.1".to_owned(),
            format!("glycerin {}", Percent::from_units(part.min(97_000_000)).canonical()),
        ];
        let plan = format!(r#"{{"in_hand":[{{"phase":0,"line":{line},"mass_g":"{grams}"}}],"readability_g":"{step}"}}"#);
        let worked = work(&document(&[("water", lines.to_vec())], &plan));
        let Ok(weighed) = &worked.sheet.weigh else { return Ok(()) };
        prop_assert_eq!(sums(weighed), (weighed.batch.mass, weighed.batch.mass));
        let hand = weighed.batch.hand[0];
        prop_assert!(weighed.line(hand.line).unwrap().on_scale <= hand.mass, "{:?}", weighed);
    }

    /// Every premix that is proposed can be made as the table says, from its own phase, within its carrier.
    #[test]
    fn every_premix_can_be_made(
        (batch, step) in any_scale(500..60_000),
        lines in prop::collection::vec((0usize..10_000, 1_000i64..600_000, 0usize..3), 1..14),
        carriers in prop::collection::vec((0usize..8, 1i64..20_000_000, 0usize..3), 0..4),
        wish in prop::sample::select(vec!["needed", "wanted", "none"]),
        tolerance in prop::sample::select(vec!["0.1", "1", "2", "5", "20"]),
    ) {
        let shelf = Shelf::default();
        let ids: Vec<IngredientId> = shelf.ids().into_iter().cloned().collect();
        let able: Vec<&IngredientId> =
            ids.iter().filter(|id| shelf.entry(id).is_some_and(|entry| premix_strength(&entry).is_some())).collect();
        // Mostly something of which the table knows a strength.
        let dose = |n: usize| if n.is_multiple_of(3) { ids[n % ids.len()].as_str() } else { able[n % able.len()].as_str() };
        let liquids = ["glycerin", "mct", "jojoba", "propanediol", "rose-hydrosol", "squalane", "olive", "propylene-glycol"];
        let mut phases = vec![("water", vec!["water fill-up".to_owned()]), ("oil", Vec::new()), ("cool-down", Vec::new())];
        for (id, share, phase) in lines.iter().map(|(n, share, phase)| (dose(*n), share, phase))
            .chain(carriers.iter().map(|(n, share, phase)| (liquids[*n], share, phase)))
        {
            phases[*phase].1.push(format!("{id} {}", hundredths(*share).trim_end_matches('0').trim_end_matches('.')));
        }
        let plan = format!(r#"{{"mass_g":"{batch}","readability_g":"{step}","premixes":"{wish}","tolerance_percent":"{tolerance}"}}"#);
        let worked = work(&document(&phases, &plan));
        let Ok(weighed) = &worked.sheet.weigh else { return Ok(()) };
        prop_assert_eq!(sums(weighed), (weighed.batch.mass, weighed.batch.mass));
        for line in &weighed.lines {
            prop_assert!(line.on_scale >= Mass::ZERO && line.on_scale.units() % weighed.step.units() == 0, "{:?}", line);
        }
        let entry = |line| worked.shelf.entry(worked.formula.line(line).unwrap().choice.id().unwrap()).unwrap();
        let made = |premix: &Premix| premix.active.plus(premix.carrier_mass);
        for (line, premix) in weighed.premixes() {
            let carrier = weighed.line(premix.carrier).unwrap();
            prop_assert_eq!(carrier.phase, line.phase);
            prop_assert_eq!(carries(&entry(premix.carrier)), dissolves_in(&entry(line.line)));
            let strength = premix_strength(&entry(line.line)).unwrap();
            prop_assert!(premix.active.units() * 100_000_000 <= strength.units() * made(premix).units(), "{:?}", premix);
            let all: Mass = weighed.premixes().filter(|(_, other)| other.carrier == premix.carrier).map(|(_, other)| made(other)).sum();
            prop_assert!(all <= carrier.mass.plus(weighed.step), "{:?}", premix);
            prop_assert!(premix.portion <= made(premix) && premix.portion.units() % weighed.step.units() == 0);
            prop_assert!(premix.carrier_line == carrier.on_scale && carrier.on_scale >= weighed.least);
            prop_assert!(premix.portion.plus(weighed.step) > weighed.least, "{:?}", premix);
            prop_assert_eq!(line.mass.units() * premix.times, premix.portion.units());
            prop_assert!(wish == "wanted" || wish == "needed" && line.exact < least_weighable(weighed.step, Mass::ZERO, Percent::millionths(10_000_000)));
        }
        // No line is named as the worst that another is worse than.
        let worst = weighed.worst.map_or(0, |line| weighed.line(line).unwrap().error.units().abs());
        prop_assert!(weighed.lines.iter().all(|line| line.error.units().abs() <= worst));
    }
}
