//! Emulsifiers: their kinds, how much of them holds an emulsion, and the HLB.

mod emulsifier;
mod hlb;

pub use emulsifier::{Emulsifier, EmulsifierKind, EmulsifierShare, RatioOf, emulsifier, emulsifier_named};
pub use hlb::Hlb;
