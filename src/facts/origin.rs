//! Where a value comes from.

/// Where a value comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Origin {
    /// The built-in table.
    Table {
        /// Where the row was read.
        source: &'static str,
        /// Whether this value was seen there. Only then may a hard Stop rest on it. Texts that no rule rests on say no.
        verified: bool,
    },
    /// The maker, from a supplier's document or from experience.
    Maker,
}
