//! Which place is shown, and its address.

/// A place.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Screen {
    /// The open formula.
    #[default]
    Formula,
    /// Known ingredients.
    Shelf,
    /// Scaling and weighing.
    Batch,
    /// Stability studies, and how long a batch keeps.
    Proof,
    /// Label, safety sheet and assessor's bundle.
    Papers,
    /// The making of a batch, which fills the screen; it stands in no bar.
    Stove,
}

impl Screen {
    /// Every place, in the order of the bar.
    pub const ALL: [Self; 5] = [Self::Formula, Self::Shelf, Self::Batch, Self::Proof, Self::Papers];

    /// Its address: a fragment.
    pub const fn address(self) -> &'static str {
        match self {
            Self::Formula => "#/formula",
            Self::Shelf => "#/shelf",
            Self::Batch => "#/batch",
            Self::Proof => "#/proof",
            Self::Papers => "#/papers",
            Self::Stove => "#/stove",
        }
    }

    /// The place of an address; the first one for an unknown address.
    pub fn at(address: &str) -> Self {
        Self::ALL.into_iter().chain([Self::Stove]).find(|screen| screen.address() == address).unwrap_or_default()
    }
}
