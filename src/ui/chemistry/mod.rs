//! Chemistry beside the formula: the windows of pH, what preservatives can do, what the oils ask of the emulsifiers.

mod emulsifier;
mod ph;
mod preservation;

use super::benches::{self, names, read};
use super::desk::Desk;
use super::dom::View;

pub(super) use emulsifier::inside as emulsifier;
pub(super) use ph::inside as ph;
pub(super) use preservation::inside as preservatives;

/// Their benches.
pub(super) fn benches(desk: Desk) -> View {
    [ph::bench(desk), preservation::bench(desk), emulsifier::bench(desk)].into_iter().collect()
}
