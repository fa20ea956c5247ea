//! Which papers there are.

/// One of the papers that are handed over.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Which {
    /// The label, on a sheet of labels.
    #[default]
    Label,
    /// The safety sheet.
    Safety,
    /// The assessor's bundle.
    Bundle,
}

impl Which {
    /// All, in the order in which they are offered.
    pub const ALL: [Self; 3] = [Self::Label, Self::Safety, Self::Bundle];

    /// Its name in files and preferences. Never changes.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Label => "label",
            Self::Safety => "safety-sheet",
            Self::Bundle => "bundle",
        }
    }

    /// The paper of a name; the label for an unknown one.
    pub fn of(key: &str) -> Self {
        Self::ALL.into_iter().find(|which| which.key() == key).unwrap_or_default()
    }
}
