//! Kinds of fat, by chemistry and by touch.

/// What a fat is made of, chemically.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum FatKind {
    /// Three fatty acids on one glycerol. Everything can be computed from its acids.
    #[default]
    Triglyceride,
    /// Fatty acids on fatty alcohols, with free acids and hydrocarbons: it saponifies in part.
    WaxEster,
    /// Fatty acids on sterols: it saponifies in part and slowly.
    SterolEster,
    /// No acid at all: nothing saponifies.
    Hydrocarbon,
}

impl FatKind {
    /// All, in the order in which they are offered.
    pub const ALL: [Self; 4] = [Self::Triglyceride, Self::WaxEster, Self::SterolEster, Self::Hydrocarbon];

    /// Its name in files. Never changes.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Triglyceride => "triglyceride",
            Self::WaxEster => "wax-ester",
            Self::SterolEster => "sterol-ester",
            Self::Hydrocarbon => "hydrocarbon",
        }
    }

    /// The kind of that name.
    pub fn from_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.key() == key)
    }
}

/// How a fat is at room temperature and where it comes from, as makers sort them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FatClass {
    /// Liquid, or nearly.
    Oil,
    /// Solid, soft.
    Butter,
    /// Solid, hard; and soft waxes.
    Wax,
    /// From animals.
    Animal,
}

impl FatClass {
    /// All, in the order in which they are offered.
    pub const ALL: [Self; 4] = [Self::Oil, Self::Butter, Self::Wax, Self::Animal];

    /// Its name in files.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Oil => "oil",
            Self::Butter => "butter",
            Self::Wax => "wax",
            Self::Animal => "animal",
        }
    }

    /// The class of that name.
    pub fn from_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|class| class.key() == key)
    }
}
