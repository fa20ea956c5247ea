//! The lye sheet of a soap: its own paper, which no weigh sheet of a lotion looks like.

use super::weigh_sheet::choice_name;
use crate::facts::{Alkali, AlkaliRow, Span, Sv};
use crate::formula::{Formula, LineId};
use crate::quantity::{Mass, Percent};
use crate::sheet::{Lye, LyeNote, Margins, SvBasis};
use crate::shelf::Shelf;

/// A caution that stands on every lye sheet. All of them always do.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LyeCaution {
    /// What lye does.
    Burns,
    /// What to wear.
    Goggles,
    /// Which into which.
    LyeIntoWater,
    /// Who stays away.
    ChildrenAndPets,
    /// Air.
    Ventilate,
    /// In what.
    Vessels,
    /// Weighing.
    WeighDry,
    /// First aid for eyes.
    Eyes,
    /// First aid for skin.
    Skin,
    /// First aid where it was swallowed.
    Swallowed,
    /// Nothing but water.
    Neutral,
    /// Spills.
    Spills,
    /// Where it is kept.
    Storing,
}

impl LyeCaution {
    /// Every one, in the order in which they stand.
    pub const ALL: [Self; 13] = [
        Self::Burns,
        Self::Goggles,
        Self::LyeIntoWater,
        Self::ChildrenAndPets,
        Self::Ventilate,
        Self::Vessels,
        Self::WeighDry,
        Self::Eyes,
        Self::Skin,
        Self::Swallowed,
        Self::Neutral,
        Self::Spills,
        Self::Storing,
    ];
}

/// A fat on the sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FatRowOnPaper {
    /// Its line.
    pub line: LineId,
    /// Its name.
    pub name: String,
    /// How much of it.
    pub mass: Mass,
    /// Its saponification value.
    pub sv: Span<Sv>,
    /// A typical one.
    pub typical: Sv,
    /// Whether the range was seen in its source, or is that of the maker's own lot.
    pub verified: bool,
}

/// An acid on the sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AcidOnPaper {
    /// Its line.
    pub line: LineId,
    /// Its name.
    pub name: String,
    /// How much of it.
    pub mass: Mass,
    /// What it takes up of each alkali, pure, in the amount that was computed.
    pub takes: Vec<(Alkali, Mass)>,
}

/// An alkali on the sheet.
#[derive(Debug, Clone)]
pub struct AlkaliOnPaper {
    /// Which.
    pub alkali: Alkali,
    /// Its purity.
    pub purity: Percent,
    /// How much to weigh.
    pub weigh: Mass,
    /// Its classification, pH and cure.
    pub row: Option<&'static AlkaliRow>,
}

/// The whole sheet.
#[derive(Debug, Clone)]
pub struct LyeFacts {
    /// The formula's title.
    pub title: String,
    /// The fats.
    pub fats: Vec<FatRowOnPaper>,
    /// Their mass.
    pub fat_mass: Mass,
    /// Acids that take up alkali.
    pub acids: Vec<AcidOnPaper>,
    /// What to weigh.
    pub alkalis: Vec<AlkaliOnPaper>,
    /// Water for the lye.
    pub water: Mass,
    /// Alkali in the solution.
    pub concentration: Percent,
    /// The mass of the lye solution.
    pub solution: Mass,
    /// The discount asked for.
    pub discount: Percent,
    /// From which values.
    pub basis: SvBasis,
    /// What is left over at the ends of the ranges and between.
    pub margins: Margins,
    /// Glycerol that forms.
    pub glycerol: Mass,
    /// Notes with the name of the line they are about, empty if they are about none.
    pub notes: Vec<(LyeNote, String)>,
    /// All cautions.
    pub cautions: [LyeCaution; LyeCaution::ALL.len()],
}

/// Lays out a lye sheet.
pub fn lye_facts(formula: &Formula, lye: &Lye, shelf: &Shelf) -> LyeFacts {
    let name = |id: LineId| formula.line(id).map(|line| choice_name(&line.choice, shelf)).unwrap_or_default();
    let weighed: Mass = lye.alkalis.iter().map(|dose| dose.weigh).sum();
    LyeFacts {
        title: formula.about.title.clone(),
        fats: lye
            .fats
            .iter()
            .map(|fat| FatRowOnPaper {
                line: fat.line,
                name: name(fat.line),
                mass: fat.mass,
                sv: fat.sv,
                typical: fat.typical,
                verified: fat.verified,
            })
            .collect(),
        fat_mass: lye.fat_mass,
        acids: lye
            .acids
            .iter()
            .map(|acid| AcidOnPaper {
                line: acid.line,
                name: name(acid.line),
                mass: acid.mass,
                takes: lye.taken_by(acid),
            })
            .collect(),
        alkalis: lye
            .alkalis
            .iter()
            .map(|dose| AlkaliOnPaper {
                alkali: dose.alkali,
                purity: dose.purity,
                weigh: dose.weigh,
                row: dose.alkali.row(),
            })
            .collect(),
        water: lye.water,
        concentration: lye.concentration,
        solution: weighed.plus(lye.water),
        discount: lye.discount,
        basis: lye.basis,
        margins: lye.margins,
        glycerol: lye.glycerol,
        notes: lye.notes.iter().map(|note| (note.clone(), note.line().map(name).unwrap_or_default())).collect(),
        cautions: LyeCaution::ALL,
    }
}
