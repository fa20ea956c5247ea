//! How far below its nominal content a pack may be.
//!
//! Source: Directive 76/211/EEC Annex I (the average quantity, two tolerable negative errors). A guide for the maker's own
//! check, not an approval. Grams and millilitres are treated alike; a volume is that at 20 °C.

use crate::facts::tolerances;
use crate::quantity::{Mass, Percent, Quantity, mul_div_nearest};

/// Percent rows are rounded up to a tenth of a gram or millilitre. From memory (Annex I).
const TENTH: i64 = 100_000;

/// The bounds of a nominal content. A millilitre stands as a gram.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NominalBounds {
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
pub fn bounds(nominal: Mass) -> Option<NominalBounds> {
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
    Some(NominalBounds { nominal, error, few, none: few.minus(error) })
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
}
