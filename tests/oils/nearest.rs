//! The nearest mixture against scipy, published answers and its own conditions.

use crate::problem::Oils;
use crate::{formula_of, id, line, near};
use hundred_parts::facts::IngredientId;
use hundred_parts::quantity::{Percent, Quantity};
use hundred_parts::sheet::{nearest, nearest_few, new_lines, replace, totals};
use proptest::prelude::*;
use serde_json::Value;

fn vectors() -> Value {
    serde_json::from_str(include_str!("../vectors/swap.json")).unwrap()
}

fn all(value: &Value) -> &[Value] {
    value.as_array().unwrap()
}

/// Shares that are shares, within every limit.
fn within_limits(problem: &hundred_parts::sheet::MixtureProblem, shares: &[f64]) -> bool {
    let sum: f64 = shares.iter().sum();
    (sum - 1.0).abs() < 1e-9
        && shares.iter().zip(&problem.caps).all(|(share, cap)| *share >= 0.0 && *share <= cap + 1e-7)
        && problem.rows.iter().all(|row| row.of.iter().zip(shares).map(|(a, x)| a * x).sum::<f64>() <= row.most + 1e-6)
}

/// Source: scipy (SLSQP, and linprog for the bound on its error), 200 random problems and 9 over the whole table, made
/// by `tests/vectors/swap.py`.
#[test]
fn nearest_mixture_is_no_worse_than_scipys() {
    let (oils, vectors) = (Oils::read(), vectors());
    let ids: Vec<&str> = all(&vectors["ids"]).iter().map(|id| id.as_str().unwrap()).collect();
    assert_eq!(ids, oils.ids, "the vectors are of another table: run tests/vectors/swap.py");
    let problems: Vec<&Value> = all(&vectors["random"]).iter().chain(all(&vectors["whole"])).collect();
    assert_eq!(problems.len(), 209);
    for one in problems {
        let problem = oils.of(one);
        match (nearest(&problem), one["f"].as_f64()) {
            (None, None) => assert!(!problem.has_mixture()),
            (Some(found), Some(expected)) => {
                assert!(found.distance <= expected + 1e-6, "{one}: {found:?}");
                assert!(found.gap <= 1e-8, "{one}: not shown to be optimal, gap {}", found.gap);
                assert!(within_limits(&problem, &found.shares), "{one}: {found:?}");
            }
            (found, expected) => panic!("{one}: found {found:?}, scipy {expected:?}"),
        }
    }
}

/// Source: the same script: every choice of at most three oils, each by scipy.
#[test]
fn nearest_mixture_of_few_oils_is_no_worse_than_trying_all() {
    let (oils, vectors) = (Oils::read(), vectors());
    for one in all(&vectors["few"]) {
        let problem = oils.of(one);
        let most = one["k"].as_u64().unwrap() as usize;
        match (nearest_few(&problem, most), one["f"].as_f64()) {
            (None, None) => {}
            (Some(found), Some(expected)) => {
                assert!(found.distance <= expected + 1e-6, "{one}: {found:?}");
                assert!(found.shares.iter().filter(|share| **share > 0.0).count() <= most, "{one}: {found:?}");
                assert!(within_limits(&problem, &found.shares), "{one}: {found:?}");
            }
            (found, expected) => panic!("{one}: found {found:?}, scipy {expected:?}"),
        }
    }
}

/// Source: answers on which scipy 1.17.1 (SLSQP) and an enumeration of active sets agree, handed down with the facts.
#[test]
fn reference_mixtures_come_out() {
    let oils = Oils::read();
    let target = |id: &str| oils.columns[oils.number(id)].clone();
    let from = |ids: &[&str]| ids.iter().map(|id| oils.number(id)).collect::<Vec<_>>();
    let check = |target: &[f64], ids: &[&str], shares: &[f64], distance: f64| {
        let found = nearest(&oils.problem(target, &from(ids), 1.0, None)).unwrap();
        near(found.distance, distance, 2e-6, ids[0]);
        for (share, expected) in found.shares.iter().zip(shares) {
            near(*share, *expected, 6e-6, ids[0]);
        }
    };
    check(
        &target("almond-sweet"),
        &["sunflower-high-oleic", "grapeseed", "olive", "rice-bran", "macadamia"],
        &[0.60418, 0.16582, 0.23, 0.0, 0.0],
        10.512058,
    );
    let five = ["olive", "sunflower-linoleic", "sesame", "palm", "rice-bran"];
    check(&target("argan"), &five, &[0.1655, 0.0, 0.75291, 0.08159, 0.0], 2.777451);
    check(&target("almond-sweet"), &["almond-sweet", "olive", "grapeseed"], &[1.0, 0.0, 0.0], 0.0);
    let known =
        oils.mixture(&[(oils.number("olive"), 0.55), (oils.number("coconut"), 0.3), (oils.number("castor"), 0.15)]);
    check(&known, &["olive", "coconut", "castor", "palm", "shea"], &[0.55, 0.3, 0.15, 0.0, 0.0], 0.0);
    // Twice the same oil: the shares are not unique, what they come to is.
    let twice =
        nearest(&oils.problem(&target("almond-sweet"), &from(&["olive", "olive", "grapeseed"]), 1.0, None)).unwrap();
    near(twice.distance, 53.325764, 2e-6, "the same oil twice");
    near(twice.shares[0] + twice.shares[1], 0.9176, 5e-5, "the same oil twice");
    // With a limit of 92.0 on the iodine value, as computed to one place.
    let mut limited = oils.problem(&target("argan"), &from(&five), 1.0, None);
    let iv = [82.1, 132.0, 112.0, 50.4, 102.4];
    limited.rows.push(hundred_parts::sheet::Constraint { of: iv.to_vec(), most: 92.0 });
    let found = nearest(&limited).unwrap();
    near(found.distance, 68.410207, 1e-5, "iodine value at most 92");
    near(found.shares[2], 0.58780, 6e-6, "iodine value at most 92");
}

/// Source: three small mixtures with illustrative numbers, on which three solvers agree (Clarabel, SLSQP, NNLS).
#[test]
fn illustrative_mixtures_come_out() {
    let a = [0.0, 11.0, 4.0, 72.0, 10.0, 1.0];
    let b = [0.0, 7.0, 4.0, 25.0, 62.0, 0.5];
    let c = [65.0, 9.0, 3.0, 6.0, 2.0, 0.0];
    let d = [0.0, 5.0, 42.0, 46.0, 5.0, 0.3];
    let e = [0.0, 6.0, 2.0, 62.0, 20.0, 9.0];
    let check = |oils: &[[f64; 6]], target: [f64; 6], shares: &[f64], distance: f64| {
        let away = |oil: &[f64; 6]| oil.iter().zip(target).map(|(a, b)| a - b).collect();
        let problem = hundred_parts::sheet::MixtureProblem {
            points: oils.iter().map(away).collect(),
            caps: vec![1.0; oils.len()],
            rows: Vec::new(),
        };
        let found = nearest(&problem).unwrap();
        near(found.distance, distance, 1e-6, "distance");
        for (share, expected) in found.shares.iter().zip(shares) {
            near(*share, *expected, 1e-6, "share");
        }
    };
    check(&[a, b, c, d], [13.0, 8.8, 10.2, 48.2, 16.4, 1.5], &[0.490036, 0.159705, 0.191579, 0.158680], 1.664491);
    check(
        &[a, b, c, d, e],
        [20.0, 9.0, 10.0, 40.0, 19.0, 2.0],
        &[0.274280, 0.194612, 0.289476, 0.145853, 0.095779],
        5.251610,
    );
    check(&[a, b, c], [0.0, 10.0, 4.0, 60.0, 24.0, 2.0], &[0.737181, 0.262819, 0.0], 1.518132);
}

/// A mixture at the edge of a limit: of the last share rounding once left −1e-16.
#[test]
fn share_that_rounds_below_nothing_is_nothing() {
    let oils = Oils::read();
    let place = |id: &str| oils.ids.iter().position(|known| *known == id).unwrap();
    let from = ["camellia-oleifera", "coconut", "duck-fat", "sacha-inchi"].map(place);
    let problem = oils.problem(&oils.columns[place("cupuacu")], &from, 0.973_469_564_391_094_3, Some(0.5));
    let few = nearest_few(&problem, 3).unwrap();
    assert!(within_limits(&problem, &few.shares), "{few:?}");
}

fn count() -> usize {
    Oils::read().ids.len()
}

prop_compose! {
    fn some_oils()(
        mut from in prop::collection::btree_set(0..count(), 2..14),
        target in 0..count(),
        cap in 0.2f64..1.0,
        cox in 0.5f64..8.0,
    ) -> (Vec<usize>, usize, f64, f64) {
        from.remove(&target);
        from.insert((target + 1) % count());
        (from.into_iter().collect(), target, cap, cox)
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(ProptestConfig::default().cases / 2))]

    #[test]
    fn mixture_with_the_target_in_the_set_is_the_target((mut from, target, _, _) in some_oils()) {
        let oils = Oils::read();
        from.push(target);
        let found = nearest(&oils.problem(&oils.columns[target], &from, 1.0, None)).unwrap();
        prop_assert!(found.distance < 1e-12, "{}", found.distance);
    }

    #[test]
    fn mixture_that_is_known_is_found((from, _, _, _) in some_oils(), parts in prop::collection::vec(0.01f64..1.0, 3)) {
        let oils = Oils::read();
        let sum: f64 = parts.iter().take(from.len()).sum();
        let known: Vec<(usize, f64)> = from.iter().copied().zip(parts.iter().map(|part| part / sum)).collect();
        let found = nearest(&oils.problem(&oils.mixture(&known), &from, 1.0, None)).unwrap();
        prop_assert!(found.distance < 1e-9, "{}", found.distance);
    }

    #[test]
    fn mixture_is_never_worse_with_one_oil_more_nor_better_under_a_tighter_limit((from, target, cap, cox) in some_oils()) {
        let oils = Oils::read();
        let target = &oils.columns[target];
        let distance = |from: &[usize], cap: f64, cox: Option<f64>| {
            nearest(&oils.problem(target, from, cap, cox)).map_or(f64::INFINITY, |found| found.distance)
        };
        let free = distance(&from, 1.0, None);
        prop_assert!(free <= distance(&from[1..], 1.0, None) + 1e-8);
        prop_assert!(free <= distance(&from, cap, None) + 1e-8);
        prop_assert!(distance(&from, cap, Some(cox)) <= distance(&from, cap * 0.9, Some(cox * 0.9)) + 1e-8);
    }

    #[test]
    fn mixture_does_not_mind_the_order_nor_the_scale((from, target, cap, cox) in some_oils(), scale in 0.5f64..3.0) {
        let oils = Oils::read();
        let mut turned = from.clone();
        turned.reverse();
        let problem = oils.problem(&oils.columns[target], &from, cap, Some(cox));
        let other = oils.problem(&oils.columns[target], &turned, cap, Some(cox));
        let mut scaled = problem.clone();
        scaled.points.iter_mut().flatten().for_each(|cell| *cell *= scale);
        match (nearest(&problem), nearest(&other), nearest(&scaled)) {
            (None, None, None) => {}
            (Some(a), Some(b), Some(c)) => {
                prop_assert!((a.distance - b.distance).abs() < 1e-7);
                prop_assert!((a.distance * scale * scale - c.distance).abs() < 1e-6);
                // What it comes to is unique even where the shares are not.
                let mix = |shares: &[f64], from: &[usize]| {
                    oils.mixture(&from.iter().copied().zip(shares.iter().copied()).collect::<Vec<_>>())
                };
                let (here, there) = (mix(&a.shares, &from), mix(&b.shares, &turned));
                prop_assert!(here.iter().zip(&there).all(|(a, b)| (a - b).abs() < 1e-3));
            }
            _ => prop_assert!(false, "one order has a mixture, the other not"),
        }
    }

    #[test]
    fn few_oils_are_the_best_of_all_choices((from, target, cap, cox) in some_oils(), most in 1usize..=3, limited in any::<bool>()) {
        let oils = Oils::read();
        let from = &from[..from.len().min(7)];
        let (cap, cox) = if limited { (cap, Some(cox)) } else { (1.0, None) };
        let target = &oils.columns[target];
        // Every subset by the other method, which knows nothing of pairs and triples.
        let subsets = (1u32..1 << from.len()).filter(|set| set.count_ones() as usize <= most);
        let best = subsets
            .filter_map(|set| {
                let chosen: Vec<usize> = from.iter().enumerate().filter(|(n, _)| set >> n & 1 == 1).map(|(_, oil)| *oil).collect();
                nearest(&oils.problem(target, &chosen, cap, cox)).map(|found| found.distance)
            })
            .fold(f64::INFINITY, f64::min);
        let few = nearest_few(&oils.problem(target, from, cap, cox), most).map_or(f64::INFINITY, |few| few.distance);
        prop_assert!(best == few || (best - few).abs() < 1e-6, "all choices {}, few {}", best, few);
    }

    #[test]
    fn few_oils_are_within_the_limits_and_no_better_than_many((from, target, cap, cox) in some_oils(), most in 1usize..=3) {
        let oils = Oils::read();
        let problem = oils.problem(&oils.columns[target], &from, cap, Some(cox));
        if let Some(few) = nearest_few(&problem, most) {
            let whole = nearest(&problem).unwrap();
            prop_assert!(few.distance >= whole.distance - 1e-8);
            prop_assert!(within_limits(&problem, &few.shares), "{few:?}");
            prop_assert!(within_limits(&problem, &whole.shares), "{whole:?}");
            if whole.shares.iter().filter(|share| **share > 1e-7).count() <= most {
                prop_assert!(few.distance <= whole.distance + 1e-6, "{} {}", few.distance, whole.distance);
            }
        }
    }

    #[test]
    fn swapped_line_keeps_the_total_to_the_last_digit(
        share in 0i64..=100_000_000,
        weights in prop::collection::vec(0i64..=100_000_000, 1..6),
        fills in any::<bool>(),
    ) {
        let text = if fills { "qs".to_owned() } else { Percent::from_units(share).canonical() };
        let mut formula = formula_of(&[("olive", &text), ("shea", "12.345678")]);
        let before = totals(&formula);
        let oils = ["canola", "sesame", "marula", "argan", "borage"];
        let parts: Vec<(IngredientId, Percent)> =
            oils.iter().zip(&weights).map(|(oil, weight)| (id(oil), Percent::from_units(*weight))).collect();
        let target = line(&formula, 0);
        if let Ok(lines) = new_lines(&formula, &before, target, &parts) {
            replace(&mut formula, target, lines);
        }
        prop_assert_eq!(totals(&formula).total, before.total);
        prop_assert_eq!(formula.fill_up().is_some(), fills);
    }
}
