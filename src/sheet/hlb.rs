//! The algebra of the hydrophile-lipophile balance: blends, pairs, and the least change to a blend of several.
//!
//! Sources: Griffin 1949 and 1954, J Soc Cosmet Chem 1, 311 and 5, 249: the balance of a blend is the mean by mass of its
//! parts', and so is the one that an oil phase asks for. Many published values are computed, not measured, and the
//! additivity of what oils ask was not shown (Pasquali, Taurozzi and Bregni 2008, Int J Pharm 356, 44): a rough guide.

use crate::facts::Hlb;
use crate::quantity::{Percent, Quantity, mul_div_nearest};

/// The mean by mass; nothing of nothing.
pub fn blend(parts: &[(Percent, Hlb)]) -> Option<Hlb> {
    let mass: i128 = parts.iter().map(|(share, _)| i128::from(share.units())).sum();
    let moment: i128 = parts.iter().map(|(share, hlb)| i128::from(share.units()) * i128::from(hlb.units())).sum();
    (mass > 0).then(|| Hlb::from_units(((moment * 2 + mass) / (mass * 2)) as i64))
}

/// How much of two emulsifiers makes a balance, or why they cannot.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pair {
    /// So much of the higher and of the lower one.
    Shares {
        /// Of the one with the higher balance.
        high: Percent,
        /// Of the one with the lower.
        low: Percent,
    },
    /// Both lie below what is wanted: take another for the higher one.
    TooLow,
    /// Both lie above it: take another for the lower one.
    TooHigh,
}

/// Splits a total over two emulsifiers so that their blend has the wanted balance.
pub fn pair(high: Hlb, low: Hlb, wanted: Hlb, total: Percent) -> Pair {
    if wanted > high {
        return Pair::TooLow;
    }
    if wanted < low {
        return Pair::TooHigh;
    }
    let (above, span) = (wanted.units() - low.units(), high.units() - low.units());
    let of_high = if span == 0 { total } else { Percent::from_units(mul_div_nearest(total.units(), above, span)) };
    Pair::Shares { high: of_high, low: total.minus(of_high) }
}

/// The shares nearest to the preferred ones (least sum of squares) that sum to 1 and blend to the wanted balance, none
/// below nothing. Nothing if the wanted balance lies outside theirs.
///
/// Each share is the preferred one plus a + b × balance, cut at nothing. Both numbers are found by bisection: the sum
/// rises with a, and along the right sum the blend's balance rises with b.
pub fn least_change(balances: &[f64], preferred: &[f64], wanted: f64) -> Option<Vec<f64>> {
    let least = balances.iter().copied().fold(f64::INFINITY, f64::min);
    let most = balances.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    if balances.len() != preferred.len() || !(least..=most).contains(&wanted) {
        return None;
    }
    let shares = |a: f64, b: f64| -> Vec<f64> {
        balances.iter().zip(preferred).map(|(balance, share)| (share + a + b * (balance - wanted)).max(0.0)).collect()
    };
    let bisect = |(mut low, mut high): (f64, f64), too_low: &dyn Fn(f64) -> bool| {
        for _ in 0..100 {
            let middle = f64::midpoint(low, high);
            if too_low(middle) { low = middle } else { high = middle }
        }
        f64::midpoint(low, high)
    };
    // For any slope a level between these makes the sum 1: at the low end all are cut, at the high end one is 1.
    let level = |b: f64| {
        let reach = 2.0 + b.abs() * (most - least);
        bisect((-reach, reach), &|a| shares(a, b).iter().sum::<f64>() < 1.0)
    };
    let blend =
        |b: f64| -> f64 { shares(level(b), b).iter().zip(balances).map(|(share, balance)| share * balance).sum() };
    let slope = bisect((-1e3, 1e3), &|b| blend(b) < wanted);
    Some(shares(level(slope), slope))
}

/// Griffin's balance of a nonionic from molar masses: 20 × that of its water-loving part over all of it.
pub fn griffin_mass(water_loving: f64, all: f64) -> f64 {
    20.0 * water_loving / all
}

/// Griffin's balance of a fatty ester: 20 (1 - saponification value of the ester / acid value of the acid).
pub fn griffin_ester(saponification: f64, acid: f64) -> f64 {
    20.0 * (1.0 - saponification / acid)
}
