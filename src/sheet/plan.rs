//! How much is to be made, and on which scale: the maker's wishes, as typed.

use crate::formula::LineId;
use crate::quantity::{Count, Density, Mass, MassUnit, Percent, Quantity, Typed, Volume, keyed};

keyed! {
    /// From what the size of the batch follows.
    #[derive(Default)]
    BatchBasis {
        /// So many jars of so much.
        #[default]
        Jars = "jars",
        /// So much in all.
        Mass = "mass",
        /// As much as what is in hand allows.
        InHand = "in-hand",
        /// As much as a vessel takes.
        Vessel = "vessel",
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

keyed! {
    /// Which doses are diluted first, so that a portion of the mix can be weighed.
    #[derive(Default)]
    Premixes {
        /// Those that the scale cannot even weigh roughly, where the table says that a premix can be made.
        #[default]
        Needed = "needed",
        /// Every one that the scale cannot weigh within the accepted error, where a premix can be made.
        Wanted = "wanted",
        /// None.
        Without = "none",
    }
}

keyed! {
    /// Something that a batch costs beside its materials, or that its price follows from.
    #[derive(Hash)]
    CostField {
        /// What one empty pack costs: a [`crate::quantity::Money`].
        Pack = "pack_cost",
        /// How long the work takes: [`crate::quantity::Minutes`].
        Minutes = "work_minutes",
        /// What an hour of it costs: a [`crate::quantity::Money`].
        Rate = "hour_cost",
        /// What is to be left of the price once everything is paid, a share of the price: a [`Percent`].
        Margin = "margin_percent",
    }
}

/// What was typed of all that, as typed. It is read where the cost is reckoned, in the second part of the program.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct CostTexts([String; 4]);

impl CostTexts {
    /// One of them.
    pub fn text(&self, field: CostField) -> &str {
        self.0.get(field as usize).map_or("", String::as_str)
    }

    /// Keeps one of them.
    pub fn set(&mut self, field: CostField, text: String) {
        if let Some(at) = self.0.get_mut(field as usize) {
            *at = text;
        }
    }

    /// True if nothing was entered.
    pub fn is_empty(&self) -> bool {
        self.0.iter().all(String::is_empty)
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
    /// What it costs beside its materials.
    pub costs: CostTexts,
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
            costs: CostTexts::default(),
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
    /// What it costs beside its materials.
    Cost(CostField),
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
            Self::Cost(field) => field.key(),
        }
    }
}
