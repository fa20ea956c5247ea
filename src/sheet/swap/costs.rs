//! What a swap may cost: limits on the price of a kilogram. Prices are those of the shelf (`shelf/prices.rs`), exact sums; an oil
//! without one cannot be shown to keep such a limit, so it is left out.

use super::{Limits, SwapLimit, WhyLeftOut};
use crate::quantity::{Mass, Money, Percent, Quantity};
use crate::shelf::{Ingredient, NoPrice};

/// What a kilogram of an oil costs, or why nobody knows.
pub(super) type OilPrice = Result<Money, NoPrice>;

/// A limit on the price of a kilogram, as a sum.
pub(super) struct CostBound {
    /// Which limit it is.
    pub(super) limit: SwapLimit,
    /// The most.
    most: Money,
}

/// The price of a kilogram of an oil: that of its lot that counts, else that of its card.
pub(super) fn oil_price(ingredient: &Ingredient) -> OilPrice {
    ingredient.unit_price("")?.of(Mass::KILOGRAM).ok_or(NoPrice::ForHowMuch)
}

/// The limits on cost that are set, for an old oil of this price.
pub(super) fn bounds(limits: &Limits, old: &OilPrice) -> Vec<CostBound> {
    let now = old.as_ref().ok().filter(|_| limits.no_dearer);
    let now = now.map(|most| CostBound { limit: SwapLimit::NoDearer, most: most.clone() });
    let stated = limits.cost.as_ref();
    let stated = stated.map(|most| CostBound { limit: SwapLimit::CostAtMost(most.clone()), most: most.clone() });
    now.into_iter().chain(stated).collect()
}

/// Why an oil cannot be held against these limits.
pub(super) fn no_cost(price: &OilPrice, bounds: &[CostBound]) -> Option<WhyLeftOut> {
    if bounds.is_empty() {
        return None;
    }
    match price {
        Err(why) => Some(WhyLeftOut::NoPrice(*why)),
        Ok(price) => {
            let other = bounds.iter().any(|bound| bound.most.with_currency(price).is_none());
            other.then_some(WhyLeftOut::OtherCurrency)
        }
    }
}

impl CostBound {
    /// By how much a kilogram of each oil is above the limit, or below it, in millionths.
    pub(super) fn over<'a>(&self, prices: impl Iterator<Item = &'a OilPrice>) -> Vec<i64> {
        let over = |price: &OilPrice| price.as_ref().map_or(0, |price| price.micros).saturating_sub(self.most.micros);
        prices.map(over).collect()
    }

    /// Whether a mixture costs more, to the millionth to which it is shown at the finest.
    pub(super) fn is_broken<'a>(&self, parts: impl Iterator<Item = (&'a OilPrice, Percent)>) -> bool {
        let mut sum = 0i128;
        for (price, share) in parts {
            let Ok(price) = price else { return true };
            sum += i128::from(price.micros) * i128::from(share.units());
        }
        let whole = i128::from(Percent::WHOLE.units());
        (sum * 2 + whole).div_euclid(whole * 2) > i128::from(self.most.micros)
    }
}
