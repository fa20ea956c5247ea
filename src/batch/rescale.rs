//! Another size for a batch that is half weighed: what is in stays in, everything else follows it in proportion.
//!
//! A line's exact new mass is target × new batch ÷ batch. Lines that are in get what is missing to the nearest step, lines
//! that are not get a new target of whole steps; of a line that a rule may cap both are rounded down.

use crate::quantity::{Mass, Quantity};

/// One line of a batch that is being weighed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LineState {
    /// What should go in.
    pub target: Mass,
    /// What is in; nothing before it was weighed.
    pub actual: Option<Mass>,
    /// True where a rule may cap it: nothing of it is rounded up then.
    pub capped: bool,
}

/// A batch of another size, with what is in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rescale {
    /// The new batch.
    pub batch: Mass,
    /// What each line that is in still needs, by its place among all lines; without those that need nothing.
    pub more: Vec<(usize, Mass)>,
    /// The new targets of the lines that are not weighed yet, by their places.
    pub rest: Vec<(usize, Mass)>,
    /// What is in when all of that was weighed. Where the targets sum to the batch, it differs from the new batch by a step
    /// a line at the most, and by half a step a line where no line is capped and none that is in is above its new share.
    pub total: Mass,
}

/// Why a batch cannot have another size.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoRescale {
    /// A batch or a step that is not above nothing, or a mass outside of what can be weighed.
    OutOfRange,
    /// More of a line is in than the new batch may hold.
    TooMuchIn {
        /// The place of the line, the one that asks for the largest batch.
        line: usize,
        /// The smallest batch, in whole steps, that what is in allows; none where there is no such batch.
        least: Option<Mass>,
    },
}

/// The batch in which what is in of the line at `line` is right: batch × actual ÷ target, rounded up to a whole step. It is
/// larger where another line that is in would be more than a step above its new share without that, or above it at all if
/// it is capped.
///
/// `None` where no more than its target is in of the line, where none should be, or where there is no such batch.
pub fn rescale(batch: Mass, step: Mass, lines: &[LineState], line: usize) -> Option<Rescale> {
    let chosen = lines.get(line)?;
    if chosen.actual? <= chosen.target || !in_range(batch, step, lines) {
        return None;
    }
    let mut exact = lines.to_vec();
    // What the batch is made to fit is no step above its share, capped or not.
    exact.get_mut(line)?.capped = true;
    let (_, least) = least_batch(batch, step, &exact)?;
    scale_to(batch, step, lines, least?).ok()
}

/// The same batch as `new_batch`, larger or smaller, with what is in.
///
/// # Errors
/// [`NoRescale::TooMuchIn`] where a line that is in would be more than a step above its new share, or above it at all if it
/// is capped.
pub fn scale_to(batch: Mass, step: Mass, lines: &[LineState], new_batch: Mass) -> Result<Rescale, NoRescale> {
    if !in_range(batch, step, lines) || !in_range(new_batch, step, &[]) {
        return Err(NoRescale::OutOfRange);
    }
    let too_much = |line: &LineState| over(line, step) * wide(batch) > wide(line.target) * wide(new_batch);
    if lines.iter().any(too_much)
        && let Some((line, least)) = least_batch(batch, step, lines)
    {
        return Err(NoRescale::TooMuchIn { line, least });
    }
    let mut scaled = Rescale { batch: new_batch, more: Vec::new(), rest: Vec::new(), total: Mass::ZERO };
    for (place, line) in lines.iter().enumerate() {
        let missing = missing(line, batch, new_batch, step);
        scaled.total = scaled.total.plus(line.actual.unwrap_or_default()).plus(missing);
        match line.actual {
            Some(_) if missing == Mass::ZERO => {}
            Some(_) => scaled.more.push((place, missing)),
            None => scaled.rest.push((place, missing)),
        }
    }
    Ok(scaled)
}

/// Within 0 to 1000 kg a product of two masses is far from the edge of `i128`.
fn in_range(batch: Mass, step: Mass, lines: &[LineState]) -> bool {
    let weighable = |mass: Mass| (Mass::MIN..=Mass::MAX).contains(&mass.units());
    let fits = |line: &LineState| weighable(line.target) && line.actual.is_none_or(weighable);
    batch > Mass::ZERO && step > Mass::ZERO && weighable(batch) && weighable(step) && lines.iter().all(fits)
}

fn wide(mass: Mass) -> i128 {
    i128::from(mass.units())
}

/// What the new share of a line has to reach: what is in, less the step by which that may be above.
fn over(line: &LineState, step: Mass) -> i128 {
    let spared = if line.capped { Mass::ZERO } else { step };
    line.actual.map_or(0, |actual| wide(actual) - wide(spared)).max(0)
}

/// The line that asks for the largest batch, and that batch in whole steps; no batch where none of that line should be in
/// or it would be more than can be weighed. Nothing where no line is in.
fn least_batch(batch: Mass, step: Mass, lines: &[LineState]) -> Option<(usize, Option<Mass>)> {
    let asks = |line: &LineState| match (over(line, step) * wide(batch), wide(line.target) * wide(step)) {
        (0, _) => Some(0),
        (_, 0) => None,
        (asked, one) => Some((asked + one - 1) / one),
    };
    let weighed = lines.iter().enumerate().filter(|(_, line)| line.actual.is_some());
    let (place, steps) =
        weighed.map(|(place, line)| (place, asks(line))).reduce(|most, next| match (most.1, next.1) {
            (Some(a), Some(b)) if b > a => next,
            (Some(_), None) => next,
            _ => most,
        })?;
    let mass = |steps: i128| i64::try_from(steps * wide(step)).ok().filter(|units| *units <= Mass::MAX);
    Some((place, steps.and_then(mass).map(Mass::micrograms)))
}

/// What a line is to weigh in a batch of another mass, if none of it is in yet.
pub(super) fn target_in(line: &LineState, batch: Mass, new_batch: Mass, step: Mass) -> Mass {
    if batch <= Mass::ZERO { line.target } else { missing(line, batch, new_batch, step.max(Mass::micrograms(1))) }
}

/// What a line still needs in whole steps: nearest, halves up, or the step below where it is capped.
fn missing(line: &LineState, batch: Mass, new_batch: Mass, step: Mass) -> Mass {
    let exact = wide(line.target) * wide(new_batch) - wide(line.actual.unwrap_or_default()) * wide(batch);
    let one = wide(step) * wide(batch);
    let steps = if line.capped { exact.div_euclid(one) } else { (2 * exact + one).div_euclid(2 * one) };
    Mass::micrograms(i64::try_from(steps.max(0) * wide(step)).unwrap_or_default())
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn grams(text: &str) -> Mass {
        Mass::from_canonical(text).unwrap()
    }

    /// Lines as `target`, `actual` (`-` before it was weighed) and whether it is capped.
    fn lines(of: &[(&str, &str, bool)]) -> Vec<LineState> {
        let line = |(target, actual, capped): &(&str, &str, bool)| LineState {
            target: grams(target),
            actual: (*actual != "-").then(|| grams(actual)),
            capped: *capped,
        };
        of.iter().map(line).collect()
    }

    fn placed(of: &[(usize, &str)]) -> Vec<(usize, Mass)> {
        of.iter().map(|(place, mass)| (*place, grams(mass))).collect()
    }

    // Worked by hand: 205 g of oil where 200 g should be make 1000 × 205 ÷ 200 = 1025 g. Water 717.5 g, so 17.5 g more; wax
    // 61.5 g; of the preservative 10.25 g, rounded down since it is capped; gum 30.75 g, rounded up.
    #[test]
    fn too_much_of_one_line_makes_more_of_everything() {
        let state = lines(&[
            ("700", "700", false),
            ("200", "205", false),
            ("60", "-", false),
            ("10", "-", true),
            ("30", "-", false),
        ]);
        let found = rescale(grams("1000"), grams("0.1"), &state, 1).unwrap();
        assert_eq!(found.batch, grams("1025"));
        assert_eq!(found.more, placed(&[(0, "17.5")]));
        assert_eq!(found.rest, placed(&[(2, "61.5"), (3, "10.2"), (4, "30.8")]));
        assert_eq!(found.total, grams("1025"), "717.5 + 205 + 61.5 + 10.2 + 30.8");
    }

    // Worked by hand: 1000 × 60.7 ÷ 60 = 1011.66… g, so 1011.7 g.
    #[test]
    fn new_batch_is_rounded_up_to_a_step() {
        let state = lines(&[("940", "-", false), ("60", "60.7", false)]);
        let found = rescale(grams("1000"), grams("0.1"), &state, 1).unwrap();
        assert_eq!((found.batch, found.more.len()), (grams("1011.7"), 0));
        // 940 × 1011.7 ÷ 1000 = 950.998 g.
        assert_eq!(found.rest, placed(&[(0, "951")]));
    }

    // Worked by hand: for the oil alone 1010 g would do, in which 20.2 g of the wax, of which 21 g are in; a step below that
    // are 20.9 g, so the batch is 1000 × 20.9 ÷ 20 = 1045 g. Were it capped: 1000 × 21 ÷ 20 = 1050 g.
    #[test]
    fn other_lines_that_are_in_are_no_more_than_a_step_above_their_share() {
        let state = |capped| lines(&[("880", "-", false), ("100", "101", false), ("20", "21", capped)]);
        let batch = |capped| rescale(grams("1000"), grams("0.1"), &state(capped), 1).unwrap().batch;
        assert_eq!((batch(false), batch(true)), (grams("1045"), grams("1050")));
    }

    #[test]
    fn nothing_is_rescaled_that_is_not_over() {
        let state = lines(&[("50", "50", false), ("50", "-", false), ("0", "1", false)]);
        for line in 0..4 {
            assert_eq!(rescale(grams("100"), grams("0.1"), &state, line), None, "{line}");
        }
        let huge = lines(&[("0.000001", "1000000", false)]);
        assert_eq!(rescale(grams("100"), grams("0.1"), &huge, 0), None, "more than can be weighed");
        for (batch, step) in [("0", "0.1"), ("100", "0")] {
            let over = lines(&[("50", "60", false)]);
            assert_eq!(rescale(grams(batch), grams(step), &over, 0), None, "{batch} {step}");
        }
    }

    // Worked by hand: of 1000 g 250 g of oil are in so far. They fit into 833 g: 300 × 833 ÷ 1000 = 249.9 g, a step below;
    // they do not into 832 g (249.6 g). The smallest batch is 1000 × 249.9 ÷ 300 = 833 g.
    #[test]
    fn less_is_made_as_long_as_what_is_in_fits() {
        let state = lines(&[("700", "-", false), ("300", "250", false)]);
        let to = |batch| scale_to(grams("1000"), grams("0.1"), &state, grams(batch));
        let half = to("900").unwrap();
        assert_eq!((half.more, half.rest), (placed(&[(1, "20")]), placed(&[(0, "630")])));
        assert_eq!(to("833").unwrap().rest, placed(&[(0, "583.1")]));
        assert_eq!(to("832"), Err(NoRescale::TooMuchIn { line: 1, least: Some(grams("833")) }));
        assert_eq!(to("0"), Err(NoRescale::OutOfRange));
        let none = lines(&[("0", "5", false), ("100", "-", false)]);
        assert_eq!(
            scale_to(grams("100"), grams("0.1"), &none, grams("90")),
            Err(NoRescale::TooMuchIn { line: 0, least: None })
        );
    }

    /// A batch of whole steps in which some lines are in, and the step; far below the most that can be weighed.
    fn state() -> impl Strategy<Value = (Mass, Mass, Vec<LineState>)> {
        let line = (0i64..=15_000, prop::option::of(0i64..=110), -3i64..=3, any::<bool>());
        (prop::collection::vec(line, 1..14), prop::sample::select(vec![1_000, 10_000, 100_000, 1_000_000])).prop_map(
            |(raw, step)| {
                let of = |(steps, part, off, capped): (i64, Option<i64>, i64, bool)| LineState {
                    target: Mass::micrograms(steps * step),
                    actual: part.map(|part| Mass::micrograms(((steps * part / 100 + off) * step).max(0))),
                    capped,
                };
                let lines: Vec<LineState> = raw.into_iter().map(of).collect();
                let batch = lines.iter().map(|line| line.target).sum::<Mass>().max(Mass::micrograms(step));
                (batch, Mass::micrograms(step), lines)
            },
        )
    }

    /// Each line against its exact share, in parts of 1 ÷ batch of a microgram.
    fn holds(found: &Rescale, batch: Mass, step: Mass, lines: &[LineState]) -> Result<(), TestCaseError> {
        let (one, mut total) = (wide(step) * wide(batch), Mass::ZERO);
        for (place, line) in lines.iter().enumerate() {
            let told = |list: &[(usize, Mass)]| list.iter().find(|(at, _)| *at == place).map(|(_, mass)| *mass);
            let (more, rest) = (told(&found.more), told(&found.rest));
            prop_assert_eq!(rest.is_some(), line.actual.is_none(), "each that is not in has its target");
            prop_assert!(more.is_none() || line.actual.is_some());
            let given = more.or(rest).unwrap_or_default();
            prop_assert_eq!(given.units() % step.units(), 0, "whole steps");
            let end = line.actual.unwrap_or_default().plus(given);
            total = total.plus(end);
            let exact = wide(line.target) * wide(found.batch);
            let off = wide(end) * wide(batch) - exact;
            let was_above = line.actual.is_some_and(|actual| wide(actual) * wide(batch) > exact);
            match (line.capped, was_above) {
                (true, _) => prop_assert!(off <= 0 && off > -one, "{} {:?}", place, found),
                (false, true) => prop_assert!(off <= one && given == Mass::ZERO, "{} {:?}", place, found),
                (false, false) => prop_assert!(2 * off.abs() <= one, "{} {:?}", place, found),
            }
        }
        prop_assert_eq!(total, found.total);
        Ok(())
    }

    proptest! {
        #[test]
        fn rescaled_batch_keeps_its_proportions((batch, step, lines) in state(), pick in any::<prop::sample::Index>()) {
            let place = pick.index(lines.len());
            if let Some(found) = rescale(batch, step, &lines, place) {
                holds(&found, batch, step, &lines)?;
                prop_assert_eq!(found.batch.units() % step.units(), 0);
                prop_assert!(found.batch > batch);
                // Where the targets sum to the batch, the total follows it.
                let off = found.total.minus(found.batch).units().abs();
                prop_assert!(off <= step.units() * lines.len() as i64, "{:?}", found);
                let exact = lines.iter().all(|line| !line.capped)
                    && lines.iter().all(|line| line.actual.is_none_or(|actual| {
                        wide(actual) * wide(batch) <= wide(line.target) * wide(found.batch)
                    }));
                prop_assert!(!exact || 2 * off <= step.units() * lines.len() as i64, "{:?}", found);
                // A step less would not do.
                let mut one_less = lines.clone();
                one_less[place].capped = true;
                let less = scale_to(batch, step, &one_less, found.batch.minus(step));
                prop_assert!(less.is_err(), "{:?}", less);
            } else {
                let line = lines[place];
                let none_fits = |line: &LineState| line.target == Mass::ZERO && line.actual > Some(Mass::ZERO);
                prop_assert!(line.actual <= Some(line.target) || lines.iter().any(none_fits), "{:?}", lines);
            }
        }

        #[test]
        fn any_size_keeps_its_proportions_or_names_the_line((batch, step, lines) in state(), permille in 1i64..3_000) {
            let new_batch = Mass::micrograms((batch.units() / 1_000 * permille).clamp(1, Mass::MAX));
            match scale_to(batch, step, &lines, new_batch) {
                Ok(found) => {
                    prop_assert_eq!(found.batch, new_batch);
                    holds(&found, batch, step, &lines)?;
                }
                Err(NoRescale::OutOfRange) => prop_assert!(false, "{:?}", batch),
                Err(NoRescale::TooMuchIn { line, least }) => {
                    prop_assert!(lines[line].actual.is_some());
                    if let Some(least) = least {
                        prop_assert!(least > new_batch);
                        prop_assert!(scale_to(batch, step, &lines, least.minus(step)).is_err(), "a step less would not do");
                        holds(&scale_to(batch, step, &lines, least).unwrap(), batch, step, &lines)?;
                    }
                }
            }
        }

        #[test]
        fn any_numbers_are_scaled_or_refused(
            batch in any::<i64>(), step in any::<i64>(), target in any::<i64>(), actual in any::<i64>(), to in any::<i64>(),
        ) {
            let line = LineState { target: Mass::micrograms(target), actual: Some(Mass::micrograms(actual)), capped: false };
            let (batch, step) = (Mass::micrograms(batch), Mass::micrograms(step));
            let _ = rescale(batch, step, &[line], 0);
            let _ = scale_to(batch, step, &[line], Mass::micrograms(to));
        }
    }
}
