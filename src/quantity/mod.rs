//! Exact quantities, and the text they were typed as.
//!
//! Every quantity is an integer count of a smallest unit that its type names, so sums are exact and equality means
//! equality. Reading typed text never fails: it gives a [`Parsed`], and [`Typed`] keeps the text beside it.
//! There is no floating point, no clock and no locale here; the decimal sign on screen is a matter for `words`.

mod count;
mod decimal;
mod decimal_text;
mod declare;
mod density;
mod mass;
mod minutes;
mod money;
mod order;
mod percent;
mod ph;
mod scale;
mod temperature;
mod time;
mod typed;
mod volume;

pub use count::Count;
pub use decimal::{Number, read_number};
pub use decimal_text::Decimal;
use declare::summed;
pub(crate) use declare::{keyed, quantity, unitless};
pub use density::Density;
pub use mass::{Mass, MassUnit};
pub use minutes::Minutes;
pub use money::{Money, NoMoney};
pub use order::{ordered, sort_by};
pub use percent::Percent;
pub use ph::Ph;
pub use scale::{Kind, Quantity, Scale, mul_div_floor, mul_div_nearest};
pub use temperature::Celsius;
pub use time::{Day, Timestamp};
pub use typed::{ParseProblem, Parsed, Typed};
pub use volume::Volume;
