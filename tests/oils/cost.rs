//! What a swap may cost: kept as shown, told where it clashes, and the best mixture within it held against a method that knows
//! nothing of ours.

use crate::problem::Oils;
use crate::{id, near};
use hundred_parts::facts::Field;
use hundred_parts::quantity::{Money, Percent, Quantity};
use hundred_parts::sheet::{
    Constraint, Limits, MixtureProblem, NoSwap, OilPool, SwapLimit, Weighting, WhyLeftOut, nearest, nearest_few, swap,
    swap_cost,
};
use hundred_parts::shelf::{NoPrice, Shelf};
use proptest::prelude::*;

/// Prices of our own for a kilogram.
const PRICES: [(&str, &str); 7] = [
    ("almond-sweet", "18 EUR"),
    ("sunflower-high-oleic", "9 EUR"),
    ("grapeseed", "12.50 EUR"),
    ("olive", "14 EUR"),
    ("rice-bran", "21 EUR"),
    ("macadamia", "32 EUR"),
    ("sesame", "150 kr"),
];

fn shelf() -> Shelf {
    let mut shelf = Shelf::default();
    for (oil, price) in PRICES {
        shelf.set(&id(oil), Field::Price, price);
        shelf.set(&id(oil), Field::InHand, "yes");
    }
    shelf
}

fn money(text: &str) -> Option<Money> {
    Money::read(text).unwrap()
}

#[test]
fn swap_no_dearer_than_now_leaves_out_what_has_no_price_and_says_so() {
    let shelf = shelf();
    let limits = Limits { no_dearer: true, ..Limits::default() };
    let answer = swap(&shelf, &id("almond-sweet"), &limits, Weighting::Plain).unwrap();
    let blend = answer.blend.unwrap();
    let cost = swap_cost(&shelf, &id("almond-sweet"), &blend.parts).unwrap();
    assert!(cost.after.micros <= cost.before.micros, "{cost:?}");
    let why = |oil: &str| answer.left_out.iter().find(|left| left.id == id(oil)).map(|left| left.why);
    assert_eq!(why("sesame"), Some(WhyLeftOut::OtherCurrency));
    assert_eq!(why("hazelnut"), Some(WhyLeftOut::NoPrice(NoPrice::Missing)));
    let dear = answer.singles.iter().find(|one| one.id == id("macadamia")).unwrap();
    assert_eq!(dear.breaks, [SwapLimit::NoDearer], "shown in spite of it, and called so");
    assert_eq!(answer.singles.len(), 5);
    // Without a price of its own there is nothing to hold the others against.
    let unknown = swap(&shelf, &id("argan"), &limits, Weighting::Plain);
    assert_eq!(unknown, Err(NoSwap::PriceUnknown(NoPrice::Missing)));
}

#[test]
fn swap_under_a_cost_that_nothing_keeps_names_that_limit() {
    let limits = Limits { pool: OilPool::InHand, cost: money("8 EUR"), ..Limits::default() };
    let answer = swap(&shelf(), &id("almond-sweet"), &limits, Weighting::Plain).unwrap();
    assert_eq!(answer.blend.unwrap_err(), [SwapLimit::CostAtMost(money("8 EUR").unwrap())]);
    // Two limits that clash only together: 9 EUR is the sunflower oil alone, of which there is to be at most half.
    let half = Percent::millionths(50_000_000);
    let both = Limits { most_of_one: Some(half), cost: money("9 EUR"), ..limits };
    let clash = swap(&shelf(), &id("almond-sweet"), &both, Weighting::Plain).unwrap().blend.unwrap_err();
    assert_eq!(clash, [SwapLimit::MostOfOne(half), SwapLimit::CostAtMost(money("9 EUR").unwrap())]);
}

/// The tighter the limit, the farther the best mixture, and never beyond the limit as it is shown.
#[test]
fn swap_under_a_tighter_cost_is_never_nearer() {
    let shelf = shelf();
    let mut before = 0i64;
    for most in ["40 EUR", "18 EUR", "13 EUR", "11.25 EUR", "9.8 EUR", "9.1 EUR", "9 EUR"] {
        let limits = Limits { cost: money(most), most_oils: Some(3), ..Limits::default() };
        let blend = swap(&shelf, &id("almond-sweet"), &limits, Weighting::Plain).unwrap().blend.unwrap();
        let cost = swap_cost(&shelf, &id("almond-sweet"), &blend.parts).unwrap().after;
        assert!(cost.micros <= money(most).unwrap().micros, "{most}: {cost:?}");
        // Shares are rounded to tenths of a percent where that keeps the limit: a twentieth of a point of the acids.
        assert!(blend.misplaced.units() + 50_000 >= before, "{most}");
        before = blend.misplaced.units();
    }
}

/// The least squared distance over every face of the mixtures, by elimination alone: for each choice of oils that are there,
/// and of whether the limit binds, the point at which the way to the target stands square on the face. The best of those that
/// are mixtures within the limit is the optimum (Karush, Kuhn and Tucker), as the problem is convex.
fn by_faces(problem: &MixtureProblem, most_oils: usize) -> f64 {
    let n = problem.len();
    let row = &problem.rows[0];
    let mut best = f64::INFINITY;
    for set in (1u32..1 << n).filter(|set| set.count_ones() as usize <= most_oils) {
        let oils: Vec<usize> = (0..n).filter(|at| set >> at & 1 == 1).collect();
        for binds in [false, true] {
            let Some(shares) = stationary(problem, &oils, binds.then_some(row)) else { continue };
            let cost: f64 = oils.iter().zip(&shares).map(|(oil, share)| row.of[*oil] * share).sum();
            if shares.iter().all(|share| *share >= -1e-9) && cost <= row.most + 1e-9 {
                let mut at = vec![0.0; problem.points[0].len()];
                for (oil, share) in oils.iter().zip(&shares) {
                    at.iter_mut().zip(&problem.points[*oil]).for_each(|(sum, cell)| *sum += share * cell);
                }
                best = best.min(at.iter().map(|cell| cell * cell).sum());
            }
        }
    }
    best
}

/// The shares of these oils at which the distance is stationary, under the sum of one and, perhaps, the limit as an equation.
fn stationary(problem: &MixtureProblem, oils: &[usize], limit: Option<&Constraint>) -> Option<Vec<f64>> {
    let (k, extra) = (oils.len(), 1 + usize::from(limit.is_some()));
    let size = k + extra;
    let mut system = vec![vec![0.0; size + 1]; size];
    for (i, a) in oils.iter().enumerate() {
        for (j, b) in oils.iter().enumerate() {
            let product = problem.points[*a].iter().zip(&problem.points[*b]).map(|(a, b)| a * b).sum::<f64>();
            system[i][j] = product;
        }
        system[i][k] = 1.0;
        system[k][i] = 1.0;
        if let Some(limit) = limit {
            system[i][k + 1] = limit.of[*a];
            system[k + 1][i] = limit.of[*a];
            system[k + 1][size] = limit.most;
        }
    }
    system[k][size] = 1.0;
    for column in 0..size {
        let pivot = (column..size).max_by(|a, b| system[*a][column].abs().total_cmp(&system[*b][column].abs()))?;
        if system[pivot][column].abs() < 1e-10 {
            return None;
        }
        system.swap(column, pivot);
        let pivot_row = system[column].clone();
        for (_, row) in system.iter_mut().enumerate().filter(|(other, _)| *other != column) {
            let factor = row[column] / pivot_row[column];
            row.iter_mut().zip(&pivot_row).for_each(|(cell, by)| *cell -= factor * by);
        }
    }
    Some((0..k).map(|at| system[at][size] / system[at][at]).collect())
}

prop_compose! {
    /// Some oils of the table with prices, a target, and where between the cheapest and the dearest the limit lies.
    fn priced()(
        from in prop::collection::btree_set(0..Oils::read().ids.len(), 3..8),
        target in 0..Oils::read().ids.len(),
        prices in prop::collection::vec(4i64..60, 8),
        at in 0.05f64..0.95,
    ) -> (Vec<usize>, usize, Vec<f64>, f64) {
        let from: Vec<usize> = from.into_iter().filter(|oil| *oil != target).collect();
        let prices = prices.into_iter().map(|price| price as f64).take(from.len()).collect();
        (from, target, prices, at)
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(ProptestConfig::default().cases / 2))]

    #[test]
    fn best_mixture_within_a_cost_is_that_of_every_face((from, target, prices, at) in priced()) {
        let oils = Oils::read();
        let mut problem = oils.problem(&oils.columns[target], &from, 1.0, None);
        let (low, high) = prices.iter().fold((f64::INFINITY, 0.0f64), |(low, high), one| (low.min(*one), high.max(*one)));
        let most = low + (high - low) * at;
        let scale = prices.iter().map(|price| (price - most).abs()).fold(1e-9, f64::max);
        problem.rows = vec![Constraint { of: prices.iter().map(|price| (price - most) / scale).collect(), most: 0.0 }];
        let found = nearest(&problem).unwrap();
        let faces = by_faces(&problem, from.len());
        prop_assert!(found.gap <= 1e-8, "gap {}", found.gap);
        prop_assert!((found.distance - faces).abs() < 1e-5, "ours {}, faces {faces}", found.distance);
        let cost: f64 = problem.rows[0].of.iter().zip(&found.shares).map(|(of, share)| of * share).sum();
        prop_assert!(cost <= 1e-7, "{cost}");
        for few in 1..=3 {
            let found = nearest_few(&problem, few).map_or(f64::INFINITY, |found| found.distance);
            let faces = by_faces(&problem, few);
            prop_assert!(found == faces || (found - faces).abs() < 1e-5, "{few}: ours {found}, faces {faces}");
        }
    }
}

/// Worked by hand: of two oils of which one is the target but for its price, the limit alone says the shares. At 9 and 18, 12 are
/// a third of the dear one.
#[test]
fn limit_that_binds_says_the_shares_of_two() {
    let problem = MixtureProblem {
        points: vec![vec![0.0, 0.0], vec![6.0, 0.0]],
        caps: vec![1.0; 2],
        rows: vec![Constraint { of: vec![18.0 - 12.0, 9.0 - 12.0], most: 0.0 }],
    };
    let found = nearest(&problem).unwrap();
    near(found.shares[0], 1.0 / 3.0, 1e-9, "a third");
    near(found.distance, 16.0, 1e-9, "two thirds of six, squared");
    near(nearest_few(&problem, 2).unwrap().shares[0], 1.0 / 3.0, 1e-9, "of two alike");
    near(by_faces(&problem, 2), 16.0, 1e-9, "and by faces");
}
