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
    /// The record of the batch that was made last.
    Record,
}

impl Which {
    /// All, in the order in which they are made.
    pub const ALL: [Self; 6] = [Self::Weigh, Self::Lye, Self::Label, Self::Safety, Self::Bundle, Self::Record];
    /// Those that are handed over with a product, and can always be made.
    pub const HANDED_OVER: [Self; 3] = [Self::Label, Self::Safety, Self::Bundle];
    /// Those that the page offers among the papers, in their order.
    pub const OFFERED: [Self; 4] = [Self::Label, Self::Safety, Self::Bundle, Self::Record];

    /// Its name in files and preferences. Never changes.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Label => "label",
            Self::Safety => "safety-sheet",
            Self::Bundle => "bundle",
            Self::Weigh => "weigh-sheet",
            Self::Lye => "lye-sheet",
            Self::Record => "batch-record",
        }
    }

    /// The paper of a name among those that are offered; the label for any other.
    pub fn of(key: &str) -> Self {
        Self::OFFERED.into_iter().find(|which| which.key() == key).unwrap_or_default()
    }
}
