//! One finding: the facts of it. Its sentence is made in `words`.

use crate::facts::SheetFinding;
use crate::formula::LineId;
use crate::quantity::{Mass, Percent, Problem, Quantity};
use crate::sheet::{LyeNote, NoLye};

/// How grave a finding is, gravest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Grade {
    /// Do not go on before this is mended.
    Stop,
    /// Think before going on.
    Care,
    /// It could not be judged.
    Unknown,
    /// It was checked and is well.
    Fine,
}

impl Grade {
    /// Its name in files.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Stop => "stop",
            Self::Care => "care",
            Self::Unknown => "unknown",
            Self::Fine => "fine",
        }
    }
}

/// What was found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Fact {
    /// The shares sum to exactly 100 %.
    SumWhole,
    /// The shares leave this much to 100 %.
    SumShort(Percent),
    /// The shares are this much over 100 %.
    SumOver(Percent),
    /// A share could not be read.
    Unread {
        /// As typed.
        text: String,
        /// Why; `None` if it could mean two numbers.
        problem: Option<Problem>,
    },
    /// A line has no share yet.
    NoShare,
    /// A line has a share but no name.
    Nameless,
    /// A name that the shelf does not know.
    OffShelf(String),
    /// Something to be said about the lye.
    Lye(LyeNote),
    /// There is no lye, and why.
    NoLye(NoLye),
    /// Values from a supplier's sheet that do not fit together.
    SupplierSheet(SheetFinding),
    /// The scale cannot weigh so little within the accepted error.
    TooSmall {
        /// The dose.
        dose: Mass,
        /// The least it weighs well.
        least: Mass,
        /// A premix is proposed.
        premix: bool,
    },
}

/// One result of a check.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Finding {
    /// The rule's code.
    pub rule: &'static str,
    /// How grave.
    pub grade: Grade,
    /// The lines it concerns; none if it concerns the whole formula.
    pub lines: Vec<LineId>,
    /// What was found.
    pub fact: Fact,
}

impl Finding {
    /// The value that was compared, as canonical text with its unit.
    pub fn value(&self) -> Option<String> {
        match &self.fact {
            Fact::SumWhole => Some("100 %".to_owned()),
            Fact::SumShort(by) => Some(format!("{} %", Percent::WHOLE.minus(*by).canonical())),
            Fact::SumOver(by) => Some(format!("{} %", Percent::WHOLE.plus(*by).canonical())),
            Fact::Unread { text, .. } | Fact::OffShelf(text) => Some(text.clone()),
            Fact::Lye(LyeNote::MarginBelowNothing(share))
            | Fact::NoLye(NoLye::Unacknowledged(share) | NoLye::TooStrong(share)) => {
                Some(format!("{} %", share.canonical()))
            }
            Fact::NoLye(NoLye::SvImpossible(_, value)) => Some(format!("{} mg KOH/g", value.canonical())),
            Fact::NoShare | Fact::Nameless | Fact::Lye(_) | Fact::NoLye(_) | Fact::SupplierSheet(_) => None,
            Fact::TooSmall { dose, .. } => Some(format!("{} g", dose.canonical())),
        }
    }

    /// What it was compared with.
    pub fn limit(&self) -> Option<String> {
        match &self.fact {
            Fact::SumWhole | Fact::SumShort(_) | Fact::SumOver(_) => Some("100 %".to_owned()),
            Fact::TooSmall { least, .. } => Some(format!("{} g", least.canonical())),
            Fact::Lye(LyeNote::MarginBelowNothing(_)) | Fact::NoLye(NoLye::Unacknowledged(_)) => {
                Some("above 0 %".to_owned())
            }
            Fact::NoLye(NoLye::TooStrong(_)) => Some("50 %".to_owned()),
            Fact::NoLye(NoLye::SvImpossible(..)) => Some("155 to 365 mg KOH/g".to_owned()),
            Fact::Unread { .. } | Fact::NoShare | Fact::Nameless | Fact::OffShelf(_) => None,
            Fact::Lye(_) | Fact::NoLye(_) | Fact::SupplierSheet(_) => None,
        }
    }

    /// Where the limit comes from.
    pub const fn source(&self) -> &'static str {
        match &self.fact {
            Fact::TooSmall { .. } => "minimum weight after USP <41>, with the maker's own accepted error",
            Fact::OffShelf(_) | Fact::SupplierSheet(_) => "this shelf",
            Fact::Lye(_) | Fact::NoLye(_) => "saponification values of the table of fats or of the maker's lots",
            _ => "arithmetic: the parts of a formula sum to 100 %",
        }
    }

    /// Whether the source was seen. A Stop rests only on verified ones.
    pub const fn verified(&self) -> bool {
        !matches!(self.fact, Fact::TooSmall { .. } | Fact::Lye(_) | Fact::NoLye(_))
    }
}
