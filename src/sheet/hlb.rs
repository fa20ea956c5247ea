//! The algebra of the hydrophile-lipophile balance: blends and pairs.
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
