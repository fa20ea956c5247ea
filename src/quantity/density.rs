//! Mass per volume.

use super::{Scale, quantity};

/// In units of 0.000001 g/mL, above 0 to 25 g/mL (no liquid or powder of the trade is denser).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Density(i64);

quantity! {
    Density: Density, 6, 1, 25_000_000,
    |unit| matches!(unit.to_ascii_lowercase().as_str(), "" | "g/ml").then_some(Scale::exact(1_000_000))
}
