//! The jars of a batch against their nominal content, each by itself.
//!
//! Source: Directive 76/211/EEC Annex I 1.1 to 1.3, read in a copy at the United Kingdom's legislation archive: the average
//! is not below the nominal content; few packs are below it by more than the tolerable negative error; none that bears the
//! sign of the average quantity is below it by more than twice that. The errors themselves are in `facts`, how they are
//! rounded (from memory) in [`bounds`]. The directive's test takes samples of large lots; where every jar is weighed there is
//! nothing to be taken, so each is judged. A guide for the maker's own check, not an approval.

use crate::quantity::{Mass, Quantity};
use crate::sheet::bounds;

/// The contents of all jars, judged.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fills {
    /// Their average, rounded down to a microgram: never told as more than it is.
    pub average: Mass,
    /// The least.
    pub least: Mass,
    /// The greatest.
    pub greatest: Mass,
    /// The tolerable negative error of the nominal content; none outside of 5 g to 10 kg, where the directive is silent.
    pub tolerable_error: Option<Mass>,
    /// Places of the jars that are below the nominal content by more than the tolerable error, those in `far_below` too.
    pub below: Vec<usize>,
    /// Places of the jars that are below it by more than twice that, and must not bear the sign of the average quantity.
    pub far_below: Vec<usize>,
    /// True where the average is below the nominal content.
    pub average_below: bool,
}

/// Judges the contents of jars, in the order in which they were filled. `None` where there are none.
pub fn judge_fills(nominal: Mass, fills: &[Mass]) -> Option<Fills> {
    let (least, greatest) = (*fills.iter().min()?, *fills.iter().max()?);
    let sum: i128 = fills.iter().map(|fill| i128::from(fill.units())).sum();
    let average = sum.div_euclid(i128::try_from(fills.len()).ok()?);
    let bounds = bounds(nominal);
    let under = |least: Option<Mass>| {
        let is_under = |(place, fill): (usize, &Mass)| least.filter(|least| fill < least).map(|_| place);
        fills.iter().enumerate().filter_map(is_under).collect()
    };
    Some(Fills {
        average: Mass::micrograms(i64::try_from(average).ok()?),
        least,
        greatest,
        tolerable_error: bounds.map(|bounds| bounds.error),
        below: under(bounds.map(|bounds| bounds.few)),
        far_below: under(bounds.map(|bounds| bounds.none)),
        average_below: average < i128::from(nominal.units()),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn grams(text: &str) -> Mass {
        Mass::from_canonical(text).unwrap()
    }

    fn judge(nominal: &str, fills: &[&str]) -> Fills {
        let fills: Vec<Mass> = fills.iter().map(|text| grams(text)).collect();
        judge_fills(grams(nominal), &fills).unwrap()
    }

    // Source: Directive 76/211/EEC Annex I 2.4, by hand: of 50 g 9 % are 4.5 g, so the bounds are 45.5 and 41.0 g. A jar at a
    // bound has no greater error than that.
    #[test]
    fn each_jar_is_judged_by_itself() {
        let found = judge("50", &["50.4", "45.5", "45.499999", "41", "40.9", "72.2"]);
        assert_eq!(found.tolerable_error, Some(grams("4.5")));
        assert_eq!((found.below, found.far_below), (vec![2, 3, 4], vec![4]));
        assert_eq!((found.least, found.greatest), (grams("40.9"), grams("72.2")));
        // 295.499999 ÷ 6 = 49.2499998…
        assert_eq!((found.average, found.average_below), (grams("49.249999"), true));
    }

    // Source: the same, by hand: of 15 g 9 % are 1.35 g, rounded up 1.4 g (13.6 and 12.2 g); of 150 g 4.5 % are 6.75 g, rounded
    // up 6.8 g; of 250 g it is 9 g.
    #[test]
    fn tolerable_error_follows_the_nominal_content() {
        for (nominal, fill, error, below) in [
            ("15", "13.6", "1.4", false),
            ("15", "13.5", "1.4", true),
            ("100", "95.5", "4.5", false),
            ("150", "143.2", "6.8", false),
            ("150", "143.1", "6.8", true),
            ("250", "240.9", "9", true),
        ] {
            let found = judge(nominal, &[fill]);
            assert_eq!((found.tolerable_error, !found.below.is_empty()), (Some(grams(error)), below), "{nominal}");
            assert_eq!(found.far_below, Vec::<usize>::new());
        }
    }

    #[test]
    fn average_is_compared_exactly() {
        assert!(judge("30", &["30", "29.999999"]).average_below);
        assert!(!judge("30", &["30.000001", "29.999999"]).average_below);
    }

    #[test]
    fn outside_of_the_directive_only_the_average_is_judged() {
        for nominal in ["4.9", "10000.1"] {
            let found = judge(nominal, &["1", "2"]);
            assert_eq!((found.tolerable_error, found.below, found.far_below), (None, vec![], vec![]), "{nominal}");
            assert!(found.average_below);
        }
        assert_eq!(judge_fills(grams("50"), &[]), None);
    }

    proptest! {
        #[test]
        fn judgement_is_that_of_each_jar(
            nominal in 4_000_000i64..=11_000_000_000, parts in prop::collection::vec(700i64..=1_200, 1..40),
        ) {
            let nominal = Mass::micrograms(nominal);
            let fills: Vec<Mass> =
                parts.iter().map(|part| Mass::micrograms(nominal.units() / 1_000 * part)).collect();
            let found = judge_fills(nominal, &fills).unwrap();
            for (place, fill) in fills.iter().enumerate() {
                let missing = nominal.minus(*fill);
                let beyond = |times: i64| {
                    found.tolerable_error.is_some_and(|error| missing.units() > error.units() * times)
                };
                prop_assert_eq!(found.below.contains(&place), beyond(1));
                prop_assert_eq!(found.far_below.contains(&place), beyond(2));
            }
            prop_assert!(found.least <= found.average && found.average <= found.greatest);
            prop_assert_eq!(found.average_below, found.average < nominal);
        }

        #[test]
        fn any_numbers_are_judged(nominal in any::<i64>(), fills in prop::collection::vec(any::<i64>(), 0..5)) {
            let fills: Vec<Mass> = fills.into_iter().map(Mass::micrograms).collect();
            judge_fills(Mass::micrograms(nominal), &fills);
        }
    }
}
