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
    /// Label, safety sheet and assessor's bundle.
    Papers,
}

impl Screen {
    /// Every place, in the order of the bar.
    pub const ALL: [Self; 4] = [Self::Formula, Self::Shelf, Self::Batch, Self::Papers];

    /// Its address: a fragment.
    pub const fn address(self) -> &'static str {
        match self {
            Self::Formula => "#/formula",
            Self::Shelf => "#/shelf",
            Self::Batch => "#/batch",
            Self::Papers => "#/papers",
        }
    }

    /// The place of an address; the first one for an unknown address.
    pub fn at(address: &str) -> Self {
        Self::ALL.into_iter().find(|screen| screen.address() == address).unwrap_or_default()
    }
}
