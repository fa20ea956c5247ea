//! The two solvents of a lotion.

/// The two liquids that a premix can be made with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Solvent {
    /// Water and what mixes with it.
    Water,
    /// Liquid oil.
    Oil,
}

impl Solvent {
    /// The solvent of a key in the table's `carrier` column.
    pub(crate) fn from_key(key: &str) -> Option<Self> {
        match key {
            "water" => Some(Self::Water),
            "oil" => Some(Self::Oil),
            _ => None,
        }
    }
}
