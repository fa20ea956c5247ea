//! The fatty acids of a fat in per cent, and what follows from them for a pure triglyceride.
//!
//! A physical model, hence in floating point; every result is rounded once. For 100 g of fatty acids with mass per cent
//! w, molar masses M and double bonds d: S = Σ w/M mol of acid, D = Σ d·w/M mol of double bonds, and 100 + 12.683·S g of
//! triglyceride carry them, since three acids and one glycerol (92.094) make one triglyceride and three water (18.015).
//! Saponification value = 56105.6·S per g of that, the exact form of AOCS Cd 3a-94 (its arithmetic mean of molar masses
//! is wrong for lauric oils); iodine value = 25380.9·D per g of that, AOCS Cd 1c-85.
//!
//! Not in the model: free acids, mono- and diglycerides, epoxy and cyclopropenoid acids. Unsaponifiables are taken off
//! where the shelf puts a fat together (`shelf::Fat`). Waxes and hydrocarbons are no triglycerides: their profile gives none of these values.

use super::acid_words::{Form, NamedAcid};
use super::fatty_acid::{OXYGEN, molar_mass};
use crate::facts::{Cox, FattyAcid, Iv, Kinship, MolarMass, Sv, criteria, criterion};
use crate::quantity::Percent;

/// g/mol. Sources: IUPAC standard atomic weights (2021), abridged.
const GLYCEROL: f64 = 92.094;
const WATER: f64 = 18.015;
/// mg/mol.
pub(super) const POTASSIUM_HYDROXIDE_MG: f64 = 56_105.6;
/// g/mol of I2, for 100 g.
const IODINE_PER_HUNDRED: f64 = 25_380.9;
/// Relative rates of oxidation of oleic, linoleic and linolenic acid. Source: Fatemi & Hammond 1980, Lipids 15:379, as
/// the usual index has them (from memory).
const COX: [f64; 3] = [1.0, 10.3, 21.6];

/// The relative rate of an acid of so many CH₂ between two double bonds each: the step from linoleic to linolenic goes on
/// with each. That the rate is linear in their number: Cosgrove, Church & Pryor 1987, Lipids 22:299 (from memory); the
/// textbook figure for arachidonic acid, 40, lies above the 32.9 of it. Acids of conjugated double bonds, which oxidise
/// faster still, count like others of as many double bonds; those of one double bond count only as 18:1 does.
pub(super) fn rate(between: u8) -> f64 {
    match between {
        0 => 0.0,
        more => COX[1] + (COX[2] - COX[1]) * f64::from(more - 1),
    }
}

/// Molar mass and double bonds of acids that are not known any closer: those of a mixture as in seed oils.
pub(crate) const UNKNOWN: OtherAcids = OtherAcids { kind: "", molar_mass: 278.0, double_bonds: 0.8, rate: 0.0 };

/// The acids that have no column.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OtherAcids {
    /// What they are, as the table has it: `24:0`, `punicic`; empty if not known.
    pub kind: &'static str,
    pub(super) molar_mass: f64,
    pub(super) double_bonds: f64,
    /// Relative rate of oxidation, as of [`rate`].
    pub(super) rate: f64,
}

impl OtherAcids {
    /// One acid.
    pub(crate) fn of(acid: &NamedAcid) -> Self {
        let plain = molar_mass(acid.carbons, acid.bonds);
        let (molar_mass, between) = match acid.form {
            Form::Plain | Form::Conjugated => (plain, acid.bonds.saturating_sub(1)),
            Form::Apart(between) => (plain, between),
            Form::Hydroxy => (plain + OXYGEN, 0),
            // The ring takes the place of a double bond.
            Form::Epoxy => (molar_mass(acid.carbons, acid.bonds + 1) + OXYGEN, 0),
        };
        Self { kind: acid.kind, molar_mass, double_bonds: f64::from(acid.bonds), rate: rate(between) }
    }

    /// What several acids, each with its mass, are on the mean of their moles.
    pub(crate) fn mean(parts: &[(f64, Self)]) -> Self {
        let moles: f64 = parts.iter().map(|(mass, is)| mass / is.molar_mass).sum();
        if moles <= 0.0 {
            return UNKNOWN;
        }
        let mass: f64 = parts.iter().map(|(mass, _)| mass).sum();
        let bonds: f64 = parts.iter().map(|(mass, is)| mass / is.molar_mass * is.double_bonds).sum();
        let rates: f64 = parts.iter().map(|(mass, is)| mass * is.rate).sum();
        let first = parts.first().map_or("", |(_, is)| is.kind);
        let kind = if parts.iter().all(|(_, is)| is.kind == first) { first } else { "" };
        // The index is of mass, not of moles.
        Self { kind, molar_mass: mass / moles, double_bonds: bonds / moles, rate: rates / mass }
    }
}

/// Fatty acids in mass per cent of all fatty acids.
#[derive(Debug, Clone, PartialEq)]
pub struct Profile {
    acids: [f64; FattyAcid::ALL.len()],
    rest: f64,
    rest_is: OtherAcids,
    /// Of all of them: asked for with every figure.
    total: f64,
    /// What was not understood, not told apart or not named, in per cent of all.
    unknown: f64,
}

impl Profile {
    /// From per cent of fatty acids; nothing if there are none. A sum a little beside 100 is taken as the whole.
    pub(crate) fn new(acids: [f64; FattyAcid::ALL.len()], rest: f64, rest_is: OtherAcids) -> Option<Self> {
        let total = acids.iter().sum::<f64>() + rest;
        (total > 0.0).then_some(Self { acids, rest, rest_is, total, unknown: 0.0 })
    }

    /// The same, of which so many per cent were not understood, not told apart or not named.
    #[must_use]
    pub(crate) fn with_unknown(self, percent: f64) -> Self {
        Self { unknown: percent, ..self }
    }

    /// The same beside fats of whose acids nothing is known, which are this part of both.
    #[must_use]
    pub(crate) fn beside(self, dark: f64) -> Self {
        let unknown = self.unknown * (1.0 - dark) + 100.0 * dark;
        self.with_unknown(unknown)
    }

    /// Of a blend: each part with its mass of fat. Acids mix by the mass of acid that a fat carries.
    pub(crate) fn blend(parts: &[(f64, &Self)]) -> Option<Self> {
        let mut mixed =
            Self { acids: [0.0; FattyAcid::ALL.len()], rest: 0.0, rest_is: UNKNOWN, total: 0.0, unknown: 0.0 };
        let mut all = 0.0;
        let mut rests: Vec<(f64, OtherAcids)> = Vec::new();
        for (mass, part) in parts {
            let mass = mass * part.acid_share() / part.total();
            all += mass * part.total();
            mixed.unknown += mass * part.total() * part.unknown;
            for (sum, percent) in mixed.acids.iter_mut().zip(part.acids) {
                *sum += mass * percent;
            }
            if part.rest > 0.0 {
                mixed.rest += mass * part.rest;
                rests.push((mass * part.rest, part.rest_is));
            }
        }
        mixed.rest_is = OtherAcids::mean(&rests);
        if all <= 0.0 {
            return None;
        }
        let scale = 100.0 / all;
        mixed.acids.iter_mut().for_each(|percent| *percent *= scale);
        mixed.rest *= scale;
        mixed.unknown /= all;
        mixed.total = mixed.acids.iter().sum::<f64>() + mixed.rest;
        Some(mixed)
    }

    /// Mass per cent of one acid, as in the table.
    pub(crate) fn raw(&self, acid: FattyAcid) -> f64 {
        self.acids.get(acid as usize).copied().unwrap_or(0.0)
    }

    /// The acids without a column, in per cent.
    pub(crate) fn raw_rest(&self) -> f64 {
        self.rest
    }

    /// What the acids without a column are.
    pub fn rest_is(&self) -> OtherAcids {
        self.rest_is
    }

    pub(crate) fn total(&self) -> f64 {
        self.total
    }

    /// One acid, to 0.01 % of all.
    pub fn percent(&self, acid: FattyAcid) -> Percent {
        hundredth_percent(self.raw(acid) / self.total())
    }

    /// The acids without a column, to 0.01 % of all.
    pub fn rest(&self) -> Percent {
        hundredth_percent(self.rest / self.total())
    }

    /// What was not understood, not told apart or not named, to 0.01 % of all.
    pub fn unknown(&self) -> Percent {
        hundredth_percent(self.unknown / 100.0)
    }

    /// True if so much of it is known that what follows from its acids tells something.
    pub fn tells(&self) -> bool {
        self.unknown() <= criterion(criteria::UNREAD_ACIDS).value
    }

    /// The acids of one kind, to 0.01 %. What has no column is in none.
    pub fn share(&self, kinship: Kinship) -> Percent {
        let sum: f64 =
            FattyAcid::ALL.into_iter().filter(|acid| acid.kinship() == kinship).map(|acid| self.raw(acid)).sum();
        hundredth_percent(sum / self.total())
    }

    /// Moles of acid and of double bonds in 100 g of acids.
    fn moles(&self) -> (f64, f64) {
        let mut acid = self.rest / self.rest_is.molar_mass;
        let mut bonds = acid * self.rest_is.double_bonds;
        for each in FattyAcid::ALL {
            let moles = self.raw(each) / each.molar_mass();
            acid += moles;
            bonds += moles * f64::from(each.double_bonds());
        }
        let scale = 100.0 / self.total();
        (acid * scale, bonds * scale)
    }

    /// Mass of acids that a triglyceride of them holds, as a part of its own mass: 0.956 at 18 carbons, 0.92 at 8.
    pub(crate) fn acid_share(&self) -> f64 {
        100.0 / self.triglyceride().1
    }

    /// Moles of acid, and the mass of triglyceride that carries 100 g of acids.
    fn triglyceride(&self) -> (f64, f64) {
        let (acid, _) = self.moles();
        (acid, 100.0 + acid * (GLYCEROL - 3.0 * WATER) / 3.0)
    }

    pub(crate) fn raw_saponification(&self) -> f64 {
        let (acid, mass) = self.triglyceride();
        POTASSIUM_HYDROXIDE_MG * acid / mass
    }

    pub(crate) fn raw_iodine(&self) -> f64 {
        IODINE_PER_HUNDRED * self.moles().1 / self.triglyceride().1
    }

    /// Saponification value of the pure triglyceride.
    pub fn saponification(&self) -> Sv {
        Sv::nearest(self.raw_saponification())
    }

    /// The same by the mean of molar masses that AOCS Cd 3a-94 takes, each by the mass of its acid: 3 × 56.1 × 1000 / (3 × mean +
    /// 92.09 − 54). Secondary text has the formula, that its mean is by mass is from memory. Of lauric fats it is some 8 too low.
    pub fn saponification_by_standard(&self) -> Sv {
        let each = |acid: &FattyAcid| self.raw(*acid) * acid.molar_mass();
        let sum: f64 = FattyAcid::ALL.iter().map(each).sum::<f64>() + self.rest * self.rest_is.molar_mass;
        Sv::nearest(3.0 * 56.1 * 1000.0 / (3.0 * sum / self.total() + 92.09 - 54.0))
    }

    /// Iodine value of the pure triglyceride.
    pub fn iodine(&self) -> Iv {
        Iv::nearest(self.raw_iodine())
    }

    /// Mean molar mass of the acids: 100 g divided by the moles in it.
    pub fn mean_molar_mass(&self) -> MolarMass {
        MolarMass::nearest(100.0 / self.moles().0)
    }

    pub(crate) fn raw_oxidizability(&self) -> f64 {
        let linolenic = self.raw(FattyAcid::AlphaLinolenic) + self.raw(FattyAcid::GammaLinolenic);
        let rates = COX[0] * self.raw(FattyAcid::Oleic) + COX[1] * self.raw(FattyAcid::Linoleic) + COX[2] * linolenic;
        (rates + self.rest * self.rest_is.rate) / self.total()
    }

    /// Oxidizability, Cox = (18:1 + 10.3 × 18:2 + 21.6 × 18:3) / 100; of the acids without a column those of two and more
    /// double bonds count too, at 11.3 more for each CH₂ between two of them. It knows nothing of antioxidants, metals,
    /// light or what has oxidised already.
    pub fn oxidizability(&self) -> Cox {
        Cox::nearest(self.raw_oxidizability())
    }
}

fn hundredth_percent(share: f64) -> Percent {
    Percent::millionths((share * 10_000.0 + 0.5).floor() as i64 * 10_000)
}

/// How long a fat of this oxidizability keeps, in four steps. The bounds are this program's own, laid between common
/// oils (high-oleic sunflower 1.3; almond 2.6; sunflower 6.8; evening primrose 9.8), not published ones.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum OxidationOutlook {
    /// Up to 1.5.
    Long,
    /// Up to 3.
    Usual,
    /// Up to 8.
    Short,
    /// Above.
    VeryShort,
}

impl OxidationOutlook {
    /// The outlook of an oxidizability.
    pub fn of(cox: Cox) -> Self {
        match cox.float() {
            ..=1.5 => Self::Long,
            ..=3.0 => Self::Usual,
            ..=8.0 => Self::Short,
            _ => Self::VeryShort,
        }
    }

    /// Its name in files.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Long => "long",
            Self::Usual => "usual",
            Self::Short => "short",
            Self::VeryShort => "very-short",
        }
    }
}
