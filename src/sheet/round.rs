//! Rounding to whole steps so that the parts still sum to the whole.

use crate::quantity::ordered;

/// Splits `total` steps in proportion to `shares` by largest remainder: every part is its exact value rounded down or
/// up, and the parts sum to `total` exactly.
///
/// Ties go to the larger share, then to the earlier line. Shares must not be negative; all zero gives all zero.
pub fn largest_remainder(shares: &[i64], total: i64) -> Vec<i64> {
    largest_remainder_below(shares, total, &[])
}

/// The same, but a part that is `held` down is rounded up only where every other part with a remainder was already.
pub fn largest_remainder_below(shares: &[i64], total: i64, held: &[bool]) -> Vec<i64> {
    let whole: i128 = shares.iter().map(|share| i128::from(*share)).sum();
    if whole == 0 {
        return vec![0; shares.len()];
    }
    let exact = |share: i64| i128::from(share) * i128::from(total);
    let mut parts: Vec<i64> = shares.iter().map(|share| (exact(*share) / whole) as i64).collect();
    let left = total - parts.iter().sum::<i64>();
    let key = |n: usize| {
        let rest = exact(shares[n]) % whole;
        (rest > 0 && !is_held(held, n), rest, shares[n])
    };
    let order = ordered(shares.len(), &|a, b| key(b).cmp(&key(a)));
    for &n in order.iter().take(usize::try_from(left).unwrap_or(0)) {
        parts[n] += 1;
    }
    parts
}

fn is_held(held: &[bool], n: usize) -> bool {
    held.get(n).copied().unwrap_or(false)
}

/// Splits `total` steps in proportion to `shares`: every part but the one at `fill_up` goes to its nearest step, one
/// that is `held` down to the step below, and the one at `fill_up` takes what is left.
///
/// Small doses keep the least error that way, and the large fill-up line hardly feels it. Where it would come out a
/// whole step or more from its own exact value, [`largest_remainder_below`] decides over all lines instead.
pub fn fill_up_takes_rest(shares: &[i64], total: i64, fill_up: usize, held: &[bool]) -> Vec<i64> {
    let whole: i128 = shares.iter().map(|share| i128::from(*share)).sum();
    if whole == 0 {
        return vec![0; shares.len()];
    }
    let exact = |share: i64| i128::from(share) * i128::from(total);
    let nearest = |share: i64| ((exact(share) * 2 + whole) / (whole * 2)) as i64;
    let step = |(n, share): (usize, &i64)| {
        if is_held(held, n) { (exact(*share) / whole) as i64 } else { nearest(*share) }
    };
    let mut parts: Vec<i64> = shares.iter().enumerate().map(step).collect();
    let others: i64 = parts.iter().enumerate().filter(|(n, _)| *n != fill_up).map(|(_, part)| *part).sum();
    parts[fill_up] = total - others;
    let off = (i128::from(parts[fill_up]) * whole - exact(shares[fill_up])).abs();
    if parts[fill_up] < 0 || off >= whole { largest_remainder_below(shares, total, held) } else { parts }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// Water, glycerin, gum, oil, wax, alcohol, preservative, scent in units of 0.01 %; 100.00 % with the water of the
    /// published-style vectors, which sum to 100 exactly: 72.35 + 4 + 0.3 + 15 + 5 + 2 + 0.85 + 0.5.
    const EIGHT: [i64; 8] = [7235, 400, 30, 1500, 500, 200, 85, 50];

    // Source: an independent implementation in exact fractions (Python's fractions.Fraction), run for the project;
    // 500 g and 237 g at 0.1 g, 37 g at 0.01 g, thirds of 100.
    #[test]
    fn largest_remainder_matches_exact_fractions() {
        assert_eq!(largest_remainder(&EIGHT, 5000), [3618, 200, 15, 750, 250, 100, 42, 25]);
        assert_eq!(largest_remainder(&EIGHT, 2370), [1715, 95, 7, 356, 118, 47, 20, 12]);
        assert_eq!(largest_remainder(&EIGHT, 3700), [2677, 148, 11, 555, 185, 74, 31, 19]);
        assert_eq!(largest_remainder(&[1, 1, 1], 100), [34, 33, 33]);
    }

    #[test]
    fn fill_up_line_takes_what_is_left() {
        assert_eq!(fill_up_takes_rest(&EIGHT, 2370, 0, &[]), [1714, 95, 7, 356, 119, 47, 20, 12]);
    }

    // Source: common practice, no source: at a batch of 100 g, percent and grams are the same number.
    #[test]
    fn hundred_gram_batch_is_percent_in_grams() {
        assert_eq!(largest_remainder(&EIGHT, 10_000), EIGHT);
        assert_eq!(fill_up_takes_rest(&EIGHT, 10_000, 0, &[]), EIGHT);
    }

    #[test]
    fn fill_up_far_from_its_own_value_gives_way() {
        // Ten lines of half a step each would all round up and take five steps from the fill-up line.
        let mut shares = vec![5; 10];
        shares.push(50);
        let parts = fill_up_takes_rest(&shares, 10, 10, &[]);
        assert_eq!(parts, largest_remainder(&shares, 10));
    }

    // Worked by hand: 455 steps of which one part takes 4.55 and another 5.005; held down they are 4 and 5.
    #[test]
    fn held_part_never_goes_up_where_another_can() {
        assert_eq!(fill_up_takes_rest(&[979, 10, 11], 455, 0, &[]), [445, 5, 5]);
        assert_eq!(fill_up_takes_rest(&[979, 10, 11], 455, 0, &[false, true, true]), [446, 4, 5]);
        assert_eq!(largest_remainder_below(&[1, 1, 1], 100, &[true, false, false]), [33, 34, 33]);
        assert_eq!(largest_remainder_below(&[1, 1], 3, &[true, true]), [2, 1], "someone has to take it");
        assert_eq!(largest_remainder_below(&[2, 1, 1], 2, &[false, true, true]), [1, 1, 0], "no part is off by a step");
    }

    #[test]
    fn nothing_to_split_is_nothing() {
        assert_eq!(largest_remainder(&[], 10), [0; 0]);
        assert_eq!(largest_remainder(&[0, 0], 10), [0, 0]);
    }

    fn off_by_less_than_a_step(shares: &[i64], total: i64, parts: &[i64]) -> bool {
        let whole: i128 = shares.iter().map(|share| i128::from(*share)).sum();
        shares
            .iter()
            .zip(parts)
            .all(|(share, part)| (i128::from(*part) * whole - i128::from(*share) * i128::from(total)).abs() < whole)
    }

    proptest! {
        #[test]
        fn parts_sum_to_the_whole_and_no_part_is_off_by_a_step(
            shares in prop::collection::vec(0i64..=100_000_000, 1..40),
            total in 0i64..=1_000_000_000_000,
            pick in any::<prop::sample::Index>(),
            held in prop::collection::vec(any::<bool>(), 0..40),
        ) {
            prop_assume!(shares.iter().any(|share| *share > 0));
            let plain = largest_remainder(&shares, total);
            let filled = fill_up_takes_rest(&shares, total, pick.index(shares.len()), &[]);
            let low = largest_remainder_below(&shares, total, &held);
            let both = fill_up_takes_rest(&shares, total, pick.index(shares.len()), &held);
            for parts in [plain, filled, low, both] {
                prop_assert_eq!(parts.iter().sum::<i64>(), total);
                prop_assert!(off_by_less_than_a_step(&shares, total, &parts));
                prop_assert!(parts.iter().all(|part| *part >= 0));
            }
        }
    }
}
