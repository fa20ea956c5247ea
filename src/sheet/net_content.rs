//! How far below its nominal content a pack may be, and whether a set of fills keeps to it.
//!
//! Source: Directive 76/211/EEC Annex I (the average quantity, two tolerable negative errors). A guide for the maker's own
//! check, not an approval. Grams and millilitres are treated alike; a volume is that at 20 °C.

use crate::facts::tolerances;
use crate::quantity::{Mass, Percent, Quantity, mul_div_nearest};

/// Percent rows are rounded up to a tenth of a gram or millilitre. From memory (Annex I).
const TENTH: i64 = 100_000;

/// The bounds of a nominal content. A millilitre stands as a gram.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Bounds {
    /// The nominal content.
    pub nominal: Mass,
    /// The tolerable negative error.
    pub error: Mass,
    /// Few packs may be below this.
    pub few: Mass,
    /// No pack may be below this with the sign of the average quantity.
    pub none: Mass,
}

/// The bounds of a nominal content of 5 g to 10 kg (or 5 mL to 10 L); `None` outside, where the directive is silent.
pub fn bounds(nominal: Mass) -> Option<Bounds> {
    let rows = tolerances();
    let first = rows.first()?.from;
    let row = rows.iter().find(|row| nominal <= row.to && nominal >= first)?;
    let error = match (row.share, row.amount) {
        (Some(share), _) => {
            let exact = mul_div_nearest(nominal.units(), share.units(), Percent::WHOLE.units());
            Mass::from_units((exact + TENTH - 1).div_euclid(TENTH) * TENTH)
        }
        (None, amount) => amount?,
    };
    let few = nominal.minus(error);
    Some(Bounds { nominal, error, few, none: few.minus(error) })
}

/// What a set of fills shows.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fills {
    /// How many.
    pub count: usize,
    /// Their mean, to the nearest microgram.
    pub mean: Mass,
    /// True if the mean is at least the nominal content.
    pub mean_holds: bool,
    /// How many are below the first bound.
    pub below_few: usize,
    /// How many may be: one in forty (2.5 %, practice guidance, from memory).
    pub few_allowed: usize,
    /// How many are below the second bound; none may be.
    pub below_none: usize,
}

impl Fills {
    /// True if all three rules of packers hold.
    pub const fn holds(&self) -> bool {
        self.mean_holds && self.below_few <= self.few_allowed && self.below_none == 0
    }
}

/// Checks weighed fills by the three rules; `None` if there are none.
pub fn check_fills(bounds: &Bounds, fills: &[Mass]) -> Option<Fills> {
    let count = i64::try_from(fills.len()).ok().filter(|count| *count > 0)?;
    let sum: Mass = fills.iter().copied().sum();
    Some(Fills {
        count: fills.len(),
        mean: Mass::from_units(mul_div_nearest(sum.units(), 1, count)),
        // Compared as sums, so that rounding of the mean decides nothing.
        mean_holds: i128::from(sum.units()) >= i128::from(bounds.nominal.units()) * i128::from(count),
        below_few: fills.iter().filter(|fill| **fill < bounds.few).count(),
        few_allowed: fills.len() / 40,
        below_none: fills.iter().filter(|fill| **fill < bounds.none).count(),
    })
}

/// The mean to set a filling to so that packs which scatter by `spread` (standard deviation) keep all three rules: 1.96
/// of it above the first bound (2.5 % below it), 3.719 above the second (one in ten thousand), and never below nominal.
pub fn fill_target(bounds: &Bounds, spread: Mass) -> Mass {
    let above = |bound: Mass, thousandths: i64| {
        bound.plus(Mass::from_units(mul_div_nearest(spread.units(), thousandths, 1000)))
    };
    bounds.nominal.max(above(bounds.few, 1960)).max(above(bounds.none, 3719))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn grams(text: &str) -> Mass {
        Mass::from_canonical(text).unwrap()
    }

    // Source: Directive 76/211/EEC Annex I 2.4 (copy at the United Kingdom's legislation archive; the last row from a
    // second page), applied by an independent script: nominal, error, first and second bound.
    #[test]
    fn bounds_are_those_of_the_directive() {
        for (nominal, error, few, none) in [
            ("5", "0.5", "4.5", "4"),
            ("10", "0.9", "9.1", "8.2"),
            ("15", "1.4", "13.6", "12.2"),
            ("30", "2.7", "27.3", "24.6"),
            ("50", "4.5", "45.5", "41"),
            ("60", "4.5", "55.5", "51"),
            ("75", "4.5", "70.5", "66"),
            ("100", "4.5", "95.5", "91"),
            ("118", "5.4", "112.6", "107.2"),
            ("120", "5.4", "114.6", "109.2"),
            ("150", "6.8", "143.2", "136.4"),
            ("200", "9", "191", "182"),
            ("250", "9", "241", "232"),
            ("300", "9", "291", "282"),
            ("400", "12", "388", "376"),
            ("500", "15", "485", "470"),
            ("750", "15", "735", "720"),
            ("1000", "15", "985", "970"),
            ("1500", "22.5", "1477.5", "1455"),
            ("2000", "30", "1970", "1940"),
        ] {
            let found = bounds(grams(nominal)).unwrap_or_else(|| panic!("{nominal}"));
            assert_eq!((found.error, found.few, found.none), (grams(error), grams(few), grams(none)), "{nominal}");
        }
        for outside in ["4.999999", "10000.000001", "0"] {
            assert_eq!(bounds(grams(outside)), None, "{outside}");
        }
    }

    // Source: an independent script with quantiles of the normal distribution (to 0.001 g: 52.157 g and 16.663 g).
    #[test]
    fn fill_target_keeps_the_rules() {
        for (nominal, spread, target) in
            [("50", "0.6", "50"), ("50", "3", "52.157"), ("100", "1", "100"), ("15", "1.2", "16.6628")]
        {
            let bounds = bounds(grams(nominal)).unwrap();
            assert_eq!(fill_target(&bounds, grams(spread)), grams(target), "{nominal} {spread}");
        }
    }

    // Source: an independent script: mean 49.8167 g, one jar below the first bound, none below the second; the plain mean
    // fails although an inspector's sample of twelve would pass.
    #[test]
    fn fills_of_twelve_jars_fail_by_their_mean() {
        let fills = ["50.4", "50.1", "49.6", "50.9", "50.3", "49.2", "50.6", "50.2", "50.8", "49.9", "50.5", "45.3"];
        let found = check_fills(&bounds(grams("50")).unwrap(), &fills.map(grams)).unwrap();
        assert_eq!((found.mean, found.mean_holds), (grams("49.816667"), false));
        assert_eq!((found.below_few, found.below_none, found.holds()), (1, 0, false));
    }

    #[test]
    fn fills_are_judged_by_three_rules() {
        let bounds = bounds(grams("50")).unwrap();
        let check = |fills: &[&str]| {
            let fills: Vec<_> = fills.iter().map(|text| grams(text)).collect();
            check_fills(&bounds, &fills).unwrap()
        };
        assert!(check(&["50", "50", "50"]).holds());
        assert!(!check(&["50", "49.999999"]).mean_holds);
        let low = check(&["45.4", "55", "55"]);
        assert!(low.mean_holds && low.below_few == 1 && !low.holds());
        assert_eq!(check(&["45.5", "54.5"]).below_few, 0, "exactly at the bound is not below it");
        let worst = check(&["40.9", "60", "60"]);
        assert_eq!((worst.below_few, worst.below_none), (1, 1));
        assert_eq!(check_fills(&bounds, &[]), None);
    }
}
