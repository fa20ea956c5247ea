//! Judging one weighing against its target, and what can be done where it is off.
//!
//! Whether a batch with a deviation is kept is for the maker to decide and to write down; nothing here says that it is safe.

use crate::quantity::{Mass, Percent};

use super::{LineState, Rescale, rescale};

/// How a weighing stands to its target.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WeighVerdict {
    /// Off by no more than is allowed.
    Within,
    /// Too much is in.
    Over,
    /// Too little is in.
    Under,
}

/// One weighing, judged.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WeighIn {
    /// What is in less what should be; negative where too little is in.
    pub difference: Mass,
    /// By how much it may be off.
    pub allowed: Mass,
    /// How it stands.
    pub verdict: WeighVerdict,
}

/// What can be done about a weighing that is off. Which of it is possible only the maker sees: what has dissolved or melted
/// into the rest cannot be taken out any more.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum WeighRemedy {
    /// Weigh in so much more.
    Add(Mass),
    /// Take so much out again, while it is still by itself.
    TakeOut(Mass),
    /// Make more of everything, so that what is in is right.
    Rescale(Rescale),
    /// Leave it and write down why.
    Deviation,
    /// Throw it away and begin again.
    StartAgain,
}

/// Judges one weighing; nothing before the line was weighed. It may be off by one step of the scale, or by `tolerance` of the
/// target where that is more; at that bound it is still within it. Of a line that a rule may cap no more than a step may be
/// over: a tolerance must not carry it above what the rule allows (a choice of this program).
pub fn judge_weighing(line: &LineState, step: Mass, tolerance: Percent) -> Option<WeighIn> {
    let difference = line.actual?.minus(line.target);
    let allowed = if line.capped && difference > Mass::ZERO { step } else { step.max(line.target.share(tolerance)) };
    let off = difference.max(Mass::ZERO.minus(difference));
    let verdict = if off <= allowed {
        WeighVerdict::Within
    } else if difference > Mass::ZERO {
        WeighVerdict::Over
    } else {
        WeighVerdict::Under
    };
    Some(WeighIn { difference, allowed, verdict })
}

/// What can be done about the line at the place `line`, the least work first. Nothing where it was not weighed yet or is
/// within what is allowed.
pub fn weigh_remedies(
    batch: Mass,
    step: Mass,
    tolerance: Percent,
    lines: &[LineState],
    line: usize,
) -> Vec<WeighRemedy> {
    let Some(found) = lines.get(line).and_then(|line| judge_weighing(line, step, tolerance)) else {
        return Vec::new();
    };
    match found.verdict {
        WeighVerdict::Within => Vec::new(),
        WeighVerdict::Under => vec![WeighRemedy::Add(Mass::ZERO.minus(found.difference)), WeighRemedy::Deviation],
        WeighVerdict::Over => {
            let more = rescale(batch, step, lines, line).map(WeighRemedy::Rescale);
            let first = core::iter::once(WeighRemedy::TakeOut(found.difference));
            first.chain(more).chain([WeighRemedy::Deviation, WeighRemedy::StartAgain]).collect()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Quantity;
    use proptest::prelude::*;

    fn grams(text: &str) -> Mass {
        Mass::from_canonical(text).unwrap()
    }

    fn percent(text: &str) -> Percent {
        Percent::from_canonical(text).unwrap()
    }

    /// On a scale of steps of 0.1 g, with a tolerance of 2 %.
    fn judged(target: Mass, actual: Mass, capped: bool) -> WeighIn {
        let line = LineState { target, actual: Some(actual), capped };
        judge_weighing(&line, grams("0.1"), percent("2")).unwrap()
    }

    #[test]
    fn line_that_a_rule_may_cap_is_over_from_the_second_step_on() {
        for (actual, verdict) in [
            ("50.1", WeighVerdict::Within),
            ("50.2", WeighVerdict::Over),
            ("49", WeighVerdict::Within),
            ("48.9", WeighVerdict::Under),
        ] {
            assert_eq!(judged(grams("50"), grams(actual), true).verdict, verdict, "{actual}");
        }
        assert_eq!(judged(grams("50"), grams("50.2"), false).verdict, WeighVerdict::Within);
    }

    // Worked by hand. Two percent of 35.5 g are 0.71 g; of 0.9 g they are 0.018 g, less than the step of 0.1 g.
    #[test]
    fn weighing_may_be_off_by_a_step_or_by_its_tolerance() {
        for (target, actual, allowed, verdict) in [
            ("35.5", "35.5", "0.71", WeighVerdict::Within),
            ("35.5", "36.21", "0.71", WeighVerdict::Within),
            ("35.5", "36.210001", "0.71", WeighVerdict::Over),
            ("35.5", "34.79", "0.71", WeighVerdict::Within),
            ("35.5", "34.789999", "0.71", WeighVerdict::Under),
            ("0.9", "1", "0.1", WeighVerdict::Within),
            ("0.9", "1.1", "0.1", WeighVerdict::Over),
            ("0.9", "0.7", "0.1", WeighVerdict::Under),
            ("0", "0.1", "0.1", WeighVerdict::Within),
            ("0", "0.2", "0.1", WeighVerdict::Over),
        ] {
            let found = judged(grams(target), grams(actual), false);
            assert_eq!((found.allowed, found.verdict), (grams(allowed), verdict), "{actual} of {target}");
            assert_eq!(found.difference, grams(actual).minus(grams(target)));
        }
    }

    #[test]
    fn nothing_is_advised_for_what_is_right_or_not_weighed() {
        let line = |actual: Option<&str>| LineState { target: grams("50"), actual: actual.map(grams), capped: false };
        let advised = |lines: &[LineState], at| weigh_remedies(grams("100"), grams("0.1"), percent("1"), lines, at);
        let lines = [line(Some("50.5")), line(None)];
        assert_eq!(advised(&lines, 0), []);
        assert_eq!(advised(&lines, 1), []);
        assert_eq!(advised(&lines, 2), [], "there is no such line");
        let lines = [line(Some("48.2")), line(None)];
        assert_eq!(advised(&lines, 0), [WeighRemedy::Add(grams("1.8")), WeighRemedy::Deviation]);
    }

    // Worked by hand: 52 g where 50 g should be make 104 g of what was to be 100 g.
    #[test]
    fn what_is_over_can_be_taken_out_or_made_more_of() {
        let line = |actual: Option<&str>| LineState { target: grams("50"), actual: actual.map(grams), capped: false };
        let found = weigh_remedies(grams("100"), grams("0.1"), percent("1"), &[line(Some("52")), line(None)], 0);
        let more = Rescale { batch: grams("104"), more: vec![], rest: vec![(1, grams("52"))], total: grams("104") };
        assert_eq!(
            found,
            [
                WeighRemedy::TakeOut(grams("2")),
                WeighRemedy::Rescale(more),
                WeighRemedy::Deviation,
                WeighRemedy::StartAgain
            ]
        );
        // A line of which nothing should be in makes no batch right.
        let none = LineState { target: Mass::ZERO, actual: Some(grams("2")), capped: false };
        let found = weigh_remedies(grams("100"), grams("0.1"), percent("1"), &[none, line(None)], 0);
        assert!(!found.iter().any(|remedy| matches!(remedy, WeighRemedy::Rescale(_))), "{found:?}");
    }

    proptest! {
        #[test]
        fn verdict_says_which_way_and_whether_more_than_allowed(
            target in 0..=Mass::MAX, off in -2_000_000_000i64..=2_000_000_000, step in 1i64..=1_000_000_000,
            tolerance in 0i64..=Percent::WHOLE.units(),
        ) {
            let (target, step) = (Mass::micrograms(target), Mass::micrograms(step));
            let actual = target.plus(Mass::micrograms(off));
            let line = LineState { target, actual: Some(actual), capped: false };
            let found = judge_weighing(&line, step, Percent::millionths(tolerance)).unwrap();
            prop_assert!(found.allowed >= step);
            prop_assert_eq!(target.plus(found.difference), actual);
            let expected = match off {
                off if off.abs() <= found.allowed.units() => WeighVerdict::Within,
                off if off > 0 => WeighVerdict::Over,
                _ => WeighVerdict::Under,
            };
            prop_assert_eq!(found.verdict, expected);
        }

        #[test]
        fn any_numbers_are_judged(a in any::<i64>(), b in any::<i64>(), c in any::<i64>(), d in any::<i64>()) {
            let (target, actual, step) = (Mass::micrograms(a), Mass::micrograms(b), Mass::micrograms(c));
            let lines = [LineState { target, actual: Some(actual), capped: d % 2 == 0 }];
            judge_weighing(&lines[0], step, Percent::millionths(d));
            weigh_remedies(Mass::micrograms(d), step, Percent::millionths(b), &lines, 0);
        }
    }
}
