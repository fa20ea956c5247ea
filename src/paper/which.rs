//! Which papers there are.

/// One of the papers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Which {
    /// The label, on a sheet of labels.
    #[default]
    Label,
    /// The safety sheet.
    Safety,
    /// The assessor's bundle.
    Bundle,
    /// The weigh sheet, which is carried to the bench.
    Weigh,
    /// The lye sheet of a soap.
    Lye,
}

impl Which {
    /// All, in the order in which they are made.
    pub const ALL: [Self; 5] = [Self::Weigh, Self::Lye, Self::Label, Self::Safety, Self::Bundle];
    /// Those that are handed over with a product, in the order in which the page offers them.
    pub const HANDED_OVER: [Self; 3] = [Self::Label, Self::Safety, Self::Bundle];

    /// Its name in files and preferences. Never changes.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Label => "label",
            Self::Safety => "safety-sheet",
            Self::Bundle => "bundle",
            Self::Weigh => "weigh-sheet",
            Self::Lye => "lye-sheet",
        }
    }

    /// The paper of a name among those that are handed over; the label for any other.
    pub fn of(key: &str) -> Self {
        Self::HANDED_OVER.into_iter().find(|which| which.key() == key).unwrap_or_default()
    }
}
