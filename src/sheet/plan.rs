//! How much is to be made, and on which scale: the maker's wishes, as typed.

use crate::formula::LineId;
use crate::quantity::{Count, Density, Mass, MassUnit, Percent, Quantity, Typed, Volume};

/// From what the size of the batch follows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum BatchBasis {
    /// So many jars of so much.
    #[default]
    Jars,
    /// So much in all.
    Mass,
    /// As much as what is in hand allows.
    InHand,
    /// As much as a vessel takes.
    Vessel,
}

impl BatchBasis {
    /// Every basis, in the order in which it is offered.
    pub const ALL: [Self; 4] = [Self::Jars, Self::Mass, Self::InHand, Self::Vessel];

    /// Its name in files. Never changes.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Jars => "jars",
            Self::Mass => "mass",
            Self::InHand => "in-hand",
            Self::Vessel => "vessel",
        }
    }

    /// The basis of that name.
    pub fn from_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|basis| basis.key() == key)
    }
}

/// What goes into one jar.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Fill {
    /// By mass.
    Mass(Typed<Mass>),
    /// By volume, which needs the product's density.
    Volume(Typed<Volume>),
}

impl Default for Fill {
    fn default() -> Self {
        FillBy::Mass.empty()
    }
}

impl Fill {
    /// By which of the two it is.
    pub const fn by(&self) -> FillBy {
        match self {
            Self::Mass(_) => FillBy::Mass,
            Self::Volume(_) => FillBy::Volume,
        }
    }
}

/// By which quantity jars are filled.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FillBy {
    /// By mass.
    Mass,
    /// By volume.
    Volume,
}

impl FillBy {
    /// Both, in the order in which they are offered.
    pub const ALL: &'static [Self] = &[Self::Mass, Self::Volume];

    /// A fill of which nothing is typed yet.
    pub fn empty(self) -> Fill {
        match self {
            Self::Mass => Fill::Mass(Typed::default()),
            Self::Volume => Fill::Volume(Typed::default()),
        }
    }
}

/// How much of one line's ingredient is in hand.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct InHand {
    /// Which line.
    pub line: LineId,
    /// How much there is.
    pub mass: Typed<Mass>,
}

/// The scale steps that are offered: 0.001 g to 5 g.
pub const STEPS: [Mass; 12] = {
    const fn milligrams(mg: i64) -> Mass {
        Mass::micrograms(mg * 1000)
    }
    [
        milligrams(1),
        milligrams(2),
        milligrams(5),
        milligrams(10),
        milligrams(20),
        milligrams(50),
        milligrams(100),
        milligrams(200),
        milligrams(500),
        milligrams(1000),
        milligrams(2000),
        milligrams(5000),
    ]
};

/// Which doses are diluted first, so that a portion of the mix can be weighed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Premixes {
    /// Those that the scale cannot even weigh roughly, where the table says that a premix can be made.
    #[default]
    Needed,
    /// Every one that the scale cannot weigh within the accepted error, where a premix can be made.
    Wanted,
    /// None.
    Without,
}

impl Premixes {
    /// Every choice, in the order in which it is offered.
    pub const ALL: &'static [Self] = &[Self::Needed, Self::Wanted, Self::Without];

    /// Its name in files. Never changes.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Needed => "needed",
            Self::Wanted => "wanted",
            Self::Without => "none",
        }
    }

    /// The choice of that name.
    pub fn from_key(key: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|choice| choice.key() == key)
    }
}

/// A plan for one batch.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Plan {
    /// What the size follows from.
    pub basis: BatchBasis,
    /// Number of jars.
    pub jars: Typed<Count>,
    /// What goes into each.
    pub fill: Fill,
    /// Density of the finished product, for filling or a vessel by volume.
    pub density: Typed<Density>,
    /// What sticks to vessel and tools, as a share added to what is filled. Empty means none.
    pub loss: Typed<Percent>,
    /// The batch in all.
    pub mass: Typed<Mass>,
    /// What is in hand.
    pub in_hand: Vec<InHand>,
    /// What the vessel holds to the brim.
    pub vessel: Typed<Volume>,
    /// The share of the vessel that stays empty. Empty means none.
    pub head_room: Typed<Percent>,
    /// The scale's readability, the smallest step it shows.
    pub step: Typed<Mass>,
    /// How far ten weighings of the same thing scatter on this scale (their standard deviation), where the maker knows it.
    pub repeatability: Typed<Mass>,
    /// The weighing error that the maker accepts on one line, in percent of that line.
    pub tolerance: Typed<Percent>,
    /// Which doses are diluted first.
    pub premixes: Premixes,
    /// The unit in which masses are shown.
    pub unit: MassUnit,
}

/// Default tolerance: 2 % of a line. Common practice, no source.
const TOLERANCE: Percent = Percent::millionths(2_000_000);

impl Default for Plan {
    fn default() -> Self {
        Self {
            basis: BatchBasis::default(),
            jars: Typed::default(),
            fill: Fill::default(),
            density: Typed::default(),
            loss: Typed::default(),
            mass: Typed::default(),
            in_hand: Vec::new(),
            vessel: Typed::default(),
            head_room: Typed::default(),
            step: Typed::of(Mass::micrograms(100_000)),
            repeatability: Typed::default(),
            tolerance: Typed::of(TOLERANCE),
            premixes: Premixes::default(),
            unit: MassUnit::default(),
        }
    }
}

impl Plan {
    /// The scale's step if it is one of [`STEPS`]; scales have no others.
    pub fn step_value(&self) -> Option<Mass> {
        self.step.value().filter(|step| STEPS.contains(step))
    }

    /// The scale's repeatability; nothing where none is typed, and `None` where it cannot be read.
    pub fn repeatability_value(&self) -> Option<Mass> {
        if self.repeatability.is_empty() { Some(Mass::ZERO) } else { self.repeatability.value() }
    }

    /// The accepted weighing error; the default where none is typed.
    pub fn tolerance_value(&self) -> Option<Percent> {
        if self.tolerance.is_empty() {
            Some(TOLERANCE)
        } else {
            self.tolerance.value().filter(|share| share.units() > 0)
        }
    }
}

/// A field of the plan, for messages and for putting the focus there.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum PlanField {
    /// Number of jars.
    Jars,
    /// Filling of one jar.
    Fill,
    /// Density of the product.
    Density,
    /// Loss.
    Loss,
    /// Batch mass.
    Mass,
    /// What is in hand.
    InHand,
    /// Vessel volume.
    Vessel,
    /// Head room.
    HeadRoom,
    /// Readability.
    Step,
    /// Scatter of the scale.
    Repeatability,
    /// Accepted error.
    Tolerance,
}

impl PlanField {
    /// A short name, for ids of elements.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Jars => "jars",
            Self::Fill => "fill",
            Self::Density => "density",
            Self::Loss => "loss",
            Self::Mass => "mass",
            Self::InHand => "in-hand",
            Self::Vessel => "vessel",
            Self::HeadRoom => "head-room",
            Self::Step => "step",
            Self::Repeatability => "repeatability",
            Self::Tolerance => "tolerance",
        }
    }
}
