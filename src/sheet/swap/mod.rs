//! Oil swap: which of the other oils, alone or mixed, comes nearest to one, and what changes.
//!
//! A physical model over typical acids: how an oil feels and its antioxidants are not in it. Its price is, as a limit.

mod answer;
mod costs;
mod few;
mod limits;
mod mixture;
mod nearest;
mod offer;
mod replace;
mod simplex;
mod wish;

pub use answer::{offer_of, swap};
pub use few::{MOST as MOST_OILS, nearest_few};
pub use limits::{Limits, OilPool, SwapLimit, Weighting, drying};
pub use mixture::{Constraint, MixtureProblem, OilMixture};
pub use nearest::nearest;
pub use offer::{Hint, LeftOut, NoSwap, Offer, REAL_MATCH, Single, SwapAnswer, WhyLeftOut};
pub use replace::{NewLine, NoReplacement, new_lines, replace};
pub use wish::SwapWish;
