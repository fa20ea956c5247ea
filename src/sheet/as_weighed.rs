//! The shares that will really be in the batch: what the scale makes of the typed ones.

use super::{FormulaComposition, NoSheet, Totals, WeighSheet, composition};
use crate::formula::{Formula, LineId};
use crate::quantity::{Mass, Percent, Quantity, mul_div_floor};
use crate::shelf::Shelf;

/// What a batch will be, line by line and substance by substance.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AsWeighed {
    /// The sums, with the share that each line has of the weighed batch, rounded up to the next millionth of a percent.
    pub totals: Totals,
    /// What it then consists of.
    pub composition: FormulaComposition,
}

/// The shares of a batch as it will be weighed; nothing where there is no batch, or where it has the shares as typed.
pub(super) fn as_weighed(
    formula: &Formula,
    totals: &Totals,
    weigh: &Result<WeighSheet, NoSheet>,
    shelf: &Shelf,
) -> Option<AsWeighed> {
    let sheet = weigh.as_ref().ok()?;
    let share = |mass: Mass| share_of(mass, sheet.batch.mass);
    let shares: Vec<(LineId, Percent)> = sheet.lines.iter().map(|line| (line.line, share(line.mass))).collect();
    if shares == totals.shares {
        return None;
    }
    let totals = Totals { shares, ..totals.clone() };
    Some(AsWeighed { composition: composition(formula, &totals, shelf), totals })
}

/// Up, so that no cap is kept by rounding: a mass that is no more than a share of the batch is no more than that share.
fn share_of(mass: Mass, batch: Mass) -> Percent {
    let whole = Percent::WHOLE.units();
    Percent::from_units(-mul_div_floor(-mass.units(), whole, batch.units().max(1)))
}

#[cfg(test)]
mod tests {
    use super::*;

    // Worked by hand: 1 g of 57 g is 1.754385964… %, 1 g of 100 g is 1 %.
    #[test]
    fn share_of_a_batch_is_rounded_up() {
        let grams = |grams: i64| Mass::micrograms(grams * 1_000_000);
        assert_eq!(share_of(grams(1), grams(57)), Percent::millionths(1_754_386));
        assert_eq!(share_of(grams(1), grams(100)), Percent::millionths(1_000_000));
        assert_eq!(share_of(grams(0), grams(57)), Percent::ZERO);
    }
}
