//! What a name was read as, and how sure that is.

use std::borrow::Cow;

use crate::law::AnnexEntry;
use crate::quantity::Percent;

/// What one name stands for.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Meaning {
    /// A row of the table of ingredients, by its id.
    Material(&'static str),
    /// A fragrance allergen that is no ingredient of the table, by its name on labels.
    Allergen(&'static str),
    /// Any other substance, by its INCI name.
    Inci(Cow<'static, str>),
}

impl Meaning {
    /// The id of a row of the table of ingredients.
    pub fn id(&self) -> Option<&'static str> {
        match self {
            Self::Material(id) => Some(id),
            _ => None,
        }
    }

    /// The id, the name on labels or the INCI name.
    pub fn text(&self) -> &str {
        match self {
            Self::Material(text) | Self::Allergen(text) => text,
            Self::Inci(text) => text,
        }
    }
}

/// How a name was recognised, the surest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sureness {
    /// It is a name of the tables, whatever the case, spaces and signs.
    Exact,
    /// By its number in the chemical registry.
    Number,
    /// By another name, or by what is left when remarks are taken away.
    Synonym,
    /// It was misspelt, and only one name is near.
    Spelling,
    /// By a guess; it never decides alone.
    Likely,
}

/// Why nothing is certain.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Doubt {
    /// There is nothing to read.
    Empty,
    /// Nothing that is known here.
    Unknown,
    /// Parts of it are known, this one is not.
    Part(String),
    /// The name belongs to several.
    Several,
    /// It is not quite any name that is known.
    Near,
    /// The check digit of this number is wrong.
    Mistyped(String),
    /// The name says one thing and this number another.
    Disagree(String),
}

/// What a text was read as.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NameReading {
    /// All that it names; nothing unless all of it is certain.
    pub means: Vec<Meaning>,
    /// What it may name, best first, where it is not certain.
    pub candidates: Vec<Meaning>,
    /// How it was recognised: the least sure of its parts.
    pub sureness: Option<Sureness>,
    /// Why it is not certain.
    pub doubt: Option<Doubt>,
    /// The share that the text states.
    pub share: Option<Percent>,
    /// The entries of the annexes of Regulation (EC) No 1223/2009 that list the text as it stands or its number, in their order.
    pub entries: Vec<&'static AnnexEntry>,
}

impl NameReading {
    /// Of a text of which nothing is known.
    pub(super) fn unknown() -> Self {
        Self {
            means: Vec::new(),
            candidates: Vec::new(),
            sureness: None,
            doubt: Some(Doubt::Unknown),
            share: None,
            entries: Vec::new(),
        }
    }

    /// Whether it may decide anything.
    pub fn is_certain(&self) -> bool {
        self.doubt.is_none() && !self.means.is_empty()
    }
}
