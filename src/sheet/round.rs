//! Rounding to whole steps so that the parts still sum to the whole.

use crate::quantity::{Percent, Quantity, ordered};

/// A sum that was split in whole steps.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RoundedParts {
    /// Each part; they sum to the total exactly.
    pub steps: Vec<i64>,
    /// The parts that went up though there was no room for it, because no other part had room.
    pub raised: Vec<usize>,
}

/// Splits `total` steps in proportion to `shares` by largest remainder: every part is its exact value rounded down or
/// up, and the parts sum to `total` exactly.
///
/// Ties go to the larger share, then to the earlier line. Shares must not be negative; all zero gives all zero.
pub fn largest_remainder(shares: &[i64], total: i64) -> Vec<i64> {
    largest_remainder_below(shares, total, &[], None).steps
}

/// The same, but no part goes up by more steps than it has `room` for; a part of which none is given has no bound.
///
/// What is left when every part with room was rounded up goes to the one at `taker`, then to the largest ones with room,
/// whole steps at once. Only where no part has room do others go up; they are named.
pub fn largest_remainder_below(shares: &[i64], total: i64, room: &[i64], taker: Option<usize>) -> RoundedParts {
    let Some(split) = ExactParts::of(shares, total) else {
        return RoundedParts { steps: vec![0; shares.len()], raised: Vec::new() };
    };
    let mut steps = split.floors();
    let mut left = total - steps.iter().sum::<i64>();
    let mut raised = Vec::new();
    // Every part once at the most, those with room first.
    let key = |n: usize| (room_of(room, n) > 0 && split.rest(n) > 0, split.rest(n), shares[n]);
    for n in ordered(shares.len(), &|a, b| key(b).cmp(&key(a))) {
        if left > 0 && key(n).0 {
            steps[n] += 1;
            left -= 1;
        }
    }
    let size = |n: usize| (Some(n) == taker, shares[n]);
    for n in ordered(shares.len(), &|a, b| size(b).cmp(&size(a))) {
        let more = left.min(room_of(room, n) - (steps[n] - split.floor(n)));
        if more > 0 {
            steps[n] += more;
            left -= more;
        }
    }
    let last = |n: usize| (Some(n) == taker, split.rest(n), shares[n]);
    for n in ordered(shares.len(), &|a, b| last(b).cmp(&last(a))) {
        if left > 0 && split.rest(n) > 0 && steps[n] == split.floor(n) {
            steps[n] += 1;
            left -= 1;
            raised.push(n);
        }
    }
    RoundedParts { steps, raised }
}

/// Splits `total` steps in proportion to `shares`: every part but the one at `fill_up` goes to its nearest step, one
/// without `room` for that to the step below, and the one at `fill_up` takes what is left, as many steps as that is.
///
/// Small doses keep the least error that way, and the large fill-up line hardly feels it. Where it would come out a whole
/// step or more from its own exact value, and by more than `accepted` of that, it is too small for this:
/// [`largest_remainder_below`] decides over all lines instead.
pub fn fill_up_takes_rest(shares: &[i64], total: i64, fill_up: usize, room: &[i64], accepted: Percent) -> RoundedParts {
    let Some(split) = ExactParts::of(shares, total) else {
        return RoundedParts { steps: vec![0; shares.len()], raised: Vec::new() };
    };
    let mut steps = split.floors();
    for (n, part) in steps.iter_mut().enumerate() {
        if n != fill_up && split.rest(n) * 2 >= split.whole && room_of(room, n) > 0 {
            *part += 1;
        }
    }
    let others: i64 = steps.iter().enumerate().filter(|(n, _)| *n != fill_up).map(|(_, part)| *part).sum();
    let rest = total - others;
    let exact = split.exact(fill_up);
    let off = (i128::from(rest) * split.whole - exact).abs();
    let small = off >= split.whole && off * i128::from(Percent::WHOLE.units()) > exact * i128::from(accepted.units());
    if rest < 0 || small || rest - split.floor(fill_up) > room_of(room, fill_up) {
        return largest_remainder_below(shares, total, room, Some(fill_up));
    }
    steps[fill_up] = rest;
    RoundedParts { steps, raised: Vec::new() }
}

fn room_of(room: &[i64], n: usize) -> i64 {
    room.get(n).copied().unwrap_or(i64::MAX)
}

/// The exact parts, as fractions over the sum of the shares.
struct ExactParts<'a> {
    shares: &'a [i64],
    total: i64,
    whole: i128,
}

impl<'a> ExactParts<'a> {
    /// Nothing where the shares sum to nothing.
    fn of(shares: &'a [i64], total: i64) -> Option<Self> {
        let whole = shares.iter().map(|share| i128::from(*share)).sum();
        (whole != 0).then_some(Self { shares, total, whole })
    }

    fn exact(&self, n: usize) -> i128 {
        i128::from(self.shares[n]) * i128::from(self.total)
    }

    fn floor(&self, n: usize) -> i64 {
        (self.exact(n) / self.whole) as i64
    }

    fn rest(&self, n: usize) -> i128 {
        self.exact(n) % self.whole
    }

    fn floors(&self) -> Vec<i64> {
        (0..self.shares.len()).map(|n| self.floor(n)).collect()
    }
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
        assert_eq!(filled(&EIGHT, 2370, 0, &[]), [1714, 95, 7, 356, 119, 47, 20, 12]);
    }

    // Source: common practice, no source: at a batch of 100 g, percent and grams are the same number.
    #[test]
    fn hundred_gram_batch_is_percent_in_grams() {
        assert_eq!(largest_remainder(&EIGHT, 10_000), EIGHT);
        assert_eq!(filled(&EIGHT, 10_000, 0, &[]), EIGHT);
    }

    #[test]
    fn fill_up_far_from_its_own_value_gives_way() {
        // Ten lines of half a step each would all round up and take five steps from the fill-up line.
        let mut shares = vec![5; 10];
        shares.push(50);
        let parts = filled(&shares, 10, 10, &[]);
        assert_eq!(parts, largest_remainder(&shares, 10));
    }

    // Worked by hand: 455 steps of which one part takes 4.55 and another 5.005; held down they are 4 and 5.
    #[test]
    fn part_without_room_never_goes_up_where_another_can() {
        let below = |shares: &[i64], total, room: &[i64]| largest_remainder_below(shares, total, room, None);
        let free = i64::MAX;
        assert_eq!(filled(&[979, 10, 11], 455, 0, &[]), [445, 5, 5]);
        assert_eq!(filled(&[979, 10, 11], 455, 0, &[free, 0, 0]), [446, 4, 5]);
        assert_eq!(below(&[1, 1, 1], 100, &[0, free, free]).steps, [33, 34, 33]);
        assert_eq!(
            below(&[1, 1], 3, &[0, 0]),
            RoundedParts { steps: vec![2, 1], raised: vec![0] },
            "someone has to take it"
        );
        assert_eq!(below(&[2, 1, 1], 2, &[free, 0, 0]).steps, [2, 0, 0], "a whole step for the one that may");
        assert_eq!(below(&[2, 1, 1], 2, &[0, 0, 1]).steps, [1, 0, 1], "as far as there is room");
    }

    // Source: the same independent implementation in exact fractions, run for the project: gum, alcohol, preservative and
    // scent held down; 237, 119, 1185 and 57 steps.
    #[test]
    fn held_parts_match_exact_fractions() {
        let room = [i64::MAX, i64::MAX, 0, i64::MAX, i64::MAX, 0, 0, 0];
        assert_eq!(filled(&EIGHT, 237, 0, &room), [173, 9, 0, 36, 12, 4, 2, 1]);
        assert_eq!(filled(&EIGHT, 119, 0, &room), [87, 5, 0, 18, 6, 2, 1, 0]);
        assert_eq!(filled(&EIGHT, 1185, 0, &room), [860, 47, 3, 178, 59, 23, 10, 5]);
        assert_eq!(filled(&EIGHT, 57, 0, &room), [42, 2, 0, 9, 3, 1, 0, 0]);
        let below = |total| largest_remainder_below(&EIGHT, total, &room, None).steps;
        assert_eq!(below(237), [172, 10, 0, 36, 12, 4, 2, 1]);
        assert_eq!(below(119), [87, 5, 0, 18, 6, 2, 1, 0]);
        assert_eq!(below(1185), [858, 48, 3, 178, 60, 23, 10, 5]);
        assert_eq!(below(57), [41, 3, 0, 9, 3, 1, 0, 0]);
    }

    // Worked by hand: eight parts of 0.99 steps each are held down to nothing, and the large part takes all eight.
    #[test]
    fn fill_up_takes_as_many_steps_as_the_others_need() {
        let mut shares = vec![99; 8];
        shares.push(100_000 - 8 * 99);
        let room = [0; 8];
        assert_eq!(filled(&shares, 1_000, 8, &room), [0, 0, 0, 0, 0, 0, 0, 0, 1_000]);
        // Of a fill-up part of two steps that is too much: what has room goes first.
        let small = |shares: &[i64], total, room: &[i64]| {
            let parts = fill_up_takes_rest(shares, total, shares.len() - 1, room, Percent::millionths(2_000_000));
            (parts.steps, parts.raised)
        };
        assert_eq!(small(&[190, 190, 190, 230], 8, &[0, 0]), (vec![1, 1, 2, 4], vec![]));
        assert_eq!(
            small(&[190, 190, 190, 230], 8, &[0, 0, 0]),
            (vec![1, 1, 1, 5], vec![]),
            "and then it takes them all"
        );
        // One with a most of its own goes no further than that; then one step more, and the sheet says so.
        assert_eq!(small(&[19, 19, 62], 10, &[0, 0, 1]), (vec![2, 1, 7], vec![0]));
    }

    #[test]
    fn nothing_to_split_is_nothing() {
        assert_eq!(largest_remainder(&[], 10), [0; 0]);
        assert_eq!(largest_remainder(&[0, 0], 10), [0, 0]);
    }

    fn filled(shares: &[i64], total: i64, fill_up: usize, room: &[i64]) -> Vec<i64> {
        fill_up_takes_rest(shares, total, fill_up, room, Percent::millionths(2_000_000)).steps
    }

    /// How far a part is from its exact value, in parts of a step.
    fn off(shares: &[i64], total: i64, parts: &[i64], n: usize) -> (i128, i128) {
        let whole: i128 = shares.iter().map(|share| i128::from(*share)).sum();
        (i128::from(parts[n]) * whole - i128::from(shares[n]) * i128::from(total), whole)
    }

    proptest! {
        #[test]
        fn parts_sum_to_the_whole_and_no_part_is_off_by_a_step_but_one(
            shares in prop::collection::vec(0i64..=100_000_000, 1..40),
            total in 0i64..=1_000_000_000_000,
            pick in any::<prop::sample::Index>(),
            room in prop::collection::vec(prop::sample::select(vec![0, 1, 3, i64::MAX]), 0..40),
        ) {
            prop_assume!(shares.iter().any(|share| *share > 0));
            let pick = pick.index(shares.len());
            let accepted = Percent::millionths(2_000_000);
            let plain = largest_remainder(&shares, total);
            let below = largest_remainder_below(&shares, total, &room, None);
            let filled = fill_up_takes_rest(&shares, total, pick, &room, accepted);
            for n in 0..shares.len() {
                let (off, whole) = off(&shares, total, &plain, n);
                prop_assert!(off.abs() < whole);
            }
            for parts in [&below, &filled] {
                prop_assert_eq!(parts.steps.iter().sum::<i64>(), total);
                prop_assert!(parts.steps.iter().all(|part| *part >= 0));
                for n in 0..shares.len() {
                    let (off, whole) = off(&shares, total, &parts.steps, n);
                    let room = room.get(n).copied().unwrap_or(i64::MAX);
                    let over = (off + whole - 1).div_euclid(whole);
                    if room == 0 {
                        prop_assert_eq!(over > 0, parts.raised.contains(&n), "{} {:?}", n, parts);
                    }
                    // Someone goes up without room only where nobody has any left.
                    prop_assert!(parts.raised.is_empty() || over >= i128::from(room), "{} {:?}", n, parts);
                    prop_assert!(off > -whole || n == pick, "{} {:?}", n, parts);
                }
            }
        }
    }
}
