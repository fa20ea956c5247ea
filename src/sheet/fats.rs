//! The fats of a formula as one blend: acids, saponification and iodine value, oxidizability, required HLB.
//!
//! A physical model, hence in floating point, rounded once at the end. Acids mix by the mass of acid that each fat
//! carries; saponification and iodine values mix by mass of fat, exactly.

use super::Totals;
use crate::facts::nearest_tenth;
use crate::facts::{
    Allergens, Cox, FatKind, FattyAcid, Field, Hlb, Iv, Kinship, MolarMass, OxidationOutlook, Profile, Span, Sv,
    criteria, criterion,
};
use crate::formula::{Choice, Formula, Line, LineId, PhaseKind};
use crate::quantity::{Percent, Quantity};
use crate::shelf::{Fat, Ingredient, Shelf};

/// What is computed for a mixture of triglycerides, or for one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Figures {
    /// Every acid in per cent of all, in the order of [`FattyAcid::ALL`].
    pub acids: [Percent; FattyAcid::ALL.len()],
    /// Acids without a column.
    pub rest: Percent,
    /// Saturated acids, short and long.
    pub saturated: Percent,
    /// Acids of one double bond.
    pub mono: Percent,
    /// Acids of more.
    pub poly: Percent,
    /// Hydroxy acids.
    pub hydroxy: Percent,
    /// What was not understood, not told apart or not named.
    pub unknown: Percent,
    /// What follows from the acids; nothing where too much of them is not known.
    pub reckoned: Option<Reckoned>,
}

/// What follows from acids.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Reckoned {
    /// Mean molar mass of the acids.
    pub mean_molar_mass: MolarMass,
    /// Saponification value of the acids as pure triglyceride.
    pub computed_sv: Sv,
    /// The same by the mean that the standard takes.
    pub standard_sv: Sv,
    /// Iodine value of the acids as pure triglyceride.
    pub computed_iv: Iv,
    /// Oxidizability.
    pub oxidizability: Cox,
    /// What that means for keeping.
    pub outlook: OxidationOutlook,
}

impl Figures {
    /// The figures of a profile.
    pub(crate) fn of(profile: &Profile) -> Self {
        let short = profile.share(Kinship::ShortSaturated);
        Self {
            acids: FattyAcid::ALL.map(|acid| profile.percent(acid)),
            rest: profile.rest(),
            saturated: short.plus(profile.share(Kinship::LongSaturated)),
            mono: profile.share(Kinship::Mono),
            poly: profile.share(Kinship::Poly),
            hydroxy: profile.share(Kinship::Hydroxy),
            unknown: profile.unknown(),
            reckoned: profile.tells().then(|| Reckoned::of(profile)),
        }
    }

    /// Oxidizability, if enough is known.
    pub fn oxidizability(&self) -> Option<Cox> {
        self.reckoned.map(|reckoned| reckoned.oxidizability)
    }

    /// What that means for keeping.
    pub fn outlook(&self) -> Option<OxidationOutlook> {
        self.reckoned.map(|reckoned| reckoned.outlook)
    }

    /// Per cent of acids that are another in `other`: half the sum of the differences. Under about 10 is a close match,
    /// which is this program's working bound and no published one.
    pub fn misplaced(&self, other: &Self) -> Percent {
        let off = |a: Percent, b: Percent| (a.units() - b.units()).abs();
        let acids: i64 = self.acids.iter().zip(other.acids).map(|(a, b)| off(*a, b)).sum();
        Percent::from_units((acids + off(self.rest, other.rest)) / 2)
    }

    /// The same for a profile of which nothing else is wanted.
    pub(super) fn misplaced_in(&self, other: &Profile) -> Percent {
        let off = |a: Percent, b: Percent| (a.units() - b.units()).abs();
        let acids: i64 = FattyAcid::ALL.iter().zip(self.acids).map(|(acid, a)| off(a, other.percent(*acid))).sum();
        Percent::from_units((acids + off(self.rest, other.rest())) / 2)
    }

    /// The acids that are there, in order, for a stacked bar: whole tenths of a percent that sum to exactly 100 %. The
    /// acids without a column are the one without a name.
    pub fn bar(&self) -> Vec<(Option<FattyAcid>, Percent)> {
        let acids = FattyAcid::ALL.into_iter().map(|acid| (Some(acid), self.acid(acid)));
        let parts: Vec<(Option<FattyAcid>, Percent)> = acids.chain([(None, self.rest)]).collect();
        let shares: Vec<i64> = parts.iter().map(|(_, share)| share.units()).collect();
        let steps = super::largest_remainder(&shares, 1_000);
        let tenth = Percent::WHOLE.units() / 1_000;
        let bar = parts.iter().zip(steps).map(|((acid, _), steps)| (*acid, Percent::from_units(steps * tenth)));
        bar.filter(|(_, share)| *share > Percent::ZERO).collect()
    }

    /// The same by double bonds: none, one, more. A hydroxy acid counts with those of one.
    pub fn by_double_bonds(&self) -> [Percent; 3] {
        let mut shares = [Percent::ZERO; 3];
        for (acid, share) in self.bar() {
            let at = match acid.map(FattyAcid::kinship) {
                Some(Kinship::ShortSaturated | Kinship::LongSaturated) => 0,
                Some(Kinship::Mono | Kinship::Hydroxy) => 1,
                Some(Kinship::Poly) => 2,
                None => continue,
            };
            shares[at] = shares[at].plus(share);
        }
        shares
    }

    /// One acid.
    pub fn acid(&self, acid: FattyAcid) -> Percent {
        self.acids.get(acid as usize).copied().unwrap_or_default()
    }
}

impl Reckoned {
    fn of(profile: &Profile) -> Self {
        let oxidizability = profile.oxidizability();
        Self {
            mean_molar_mass: profile.mean_molar_mass(),
            computed_sv: nearest_tenth(profile.raw_saponification()),
            standard_sv: profile.saponification_by_standard(),
            computed_iv: nearest_tenth(profile.raw_iodine()),
            oxidizability,
            outlook: OxidationOutlook::of(oxidizability),
        }
    }
}

/// Measured values of a mixture, each part by its mass. A value is missing where so much of the mixture has none that the
/// others do not tell it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Values {
    /// Saponification value to reckon with.
    pub sv: Option<Sv>,
    /// If every part were at the low end, and at the high.
    pub sv_range: Option<Span<Sv>>,
    /// Iodine value to reckon with.
    pub iv: Option<Iv>,
}

/// Why a line is not in the profile.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WhyUncounted {
    /// A wax, sterol ester or hydrocarbon: it is no triglyceride.
    NotTriglyceride(FatKind),
    /// A fat whose acids are not known.
    NoAcids,
    /// Not known as a fat at all.
    Unknown,
    /// A fat whose share could not be read.
    ShareUnread,
}

impl WhyUncounted {
    /// Its name in files.
    pub const fn key(self) -> &'static str {
        match self {
            Self::NotTriglyceride(kind) => kind.key(),
            Self::NoAcids => "no-fatty-acids",
            Self::Unknown => "no-data",
            Self::ShareUnread => "share-unread",
        }
    }
}

/// The fats of a formula.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OilPhase {
    /// Lines whose acids are counted, with their share of the formula.
    pub counted: Vec<(LineId, Percent)>,
    /// Lines whose acids are not, and why.
    pub uncounted: Vec<(LineId, WhyUncounted)>,
    /// What the counted lines come to; nothing if there is none.
    pub figures: Option<Figures>,
    /// Measured values of all fats that have some, waxes and hydrocarbons too; nothing if there is none.
    pub values: Option<Values>,
    /// Lines of whose acids too much is not known, and how much of them.
    pub untold: Vec<(LineId, Percent)>,
    /// Lines whose acids the oxidation index does not fit.
    pub oxidation_doubtful: Vec<LineId>,
    /// The HLB that the oils ask for, of those that have a number: the same as [`super::Emulsion::required`].
    pub required_hlb: Option<Hlb>,
    /// Oils that have none: the same as [`super::Emulsion::required_unknown`].
    pub hlb_unknown: Vec<LineId>,
    /// Allergens of all fats.
    pub allergens: Allergens,
    /// Fats of which it is not known what they carry.
    pub allergens_unknown: Vec<LineId>,
}

/// Masses and values of the parts of a mixture.
#[derive(Debug, Clone, Copy, Default)]
struct Weighted {
    all: f64,
    with_sv: f64,
    sv: f64,
    low: f64,
    high: f64,
    with_iv: f64,
    iv: f64,
}

impl Weighted {
    fn add(&mut self, mass: f64, fat: &Fat) {
        self.all += mass;
        if let (Some(sv), Some(band)) = (fat.typical_sv(), fat.sv_band()) {
            self.with_sv += mass;
            self.sv += mass * sv.float();
            self.low += mass * band.low.float();
            self.high += mass * band.high.float();
        }
        if let Some(iv) = fat.typical_iv() {
            self.with_iv += mass;
            self.iv += mass * iv.float();
        }
    }

    fn values(self) -> Option<Values> {
        let most = criterion(criteria::UNREAD_ACIDS).value.units() as f64 / Percent::WHOLE.units() as f64;
        let tells = |mass: f64| mass > 0.0 && self.all - mass <= self.all * most;
        let sv = |sum: f64| nearest_tenth(sum / self.with_sv);
        let values = Values {
            sv: tells(self.with_sv).then(|| sv(self.sv)),
            sv_range: tells(self.with_sv).then(|| Span { low: sv(self.low), high: sv(self.high) }),
            iv: tells(self.with_iv).then(|| nearest_tenth(self.iv / self.with_iv)),
        };
        (values.sv.is_some() || values.iv.is_some()).then_some(values)
    }
}

/// The measured values of a mixture of fats by mass.
pub(super) fn values_of(parts: &[(f64, &Fat)]) -> Option<Values> {
    let mut weighted = Weighted::default();
    for (mass, fat) in parts {
        weighted.add(*mass, fat);
    }
    weighted.values()
}

/// Mixes the fats of a formula. A line whose share is not read is left out and named.
pub fn oil_phase(formula: &Formula, totals: &Totals, shelf: &Shelf) -> OilPhase {
    let (required_hlb, hlb_unknown) = super::required_hlb(formula, totals, shelf);
    let mut found = OilPhase {
        counted: Vec::new(),
        uncounted: Vec::new(),
        figures: None,
        values: None,
        untold: Vec::new(),
        oxidation_doubtful: Vec::new(),
        required_hlb,
        hlb_unknown,
        allergens: Allergens::NONE,
        allergens_unknown: Vec::new(),
    };
    let mut fats: Vec<(f64, Fat)> = Vec::new();
    for (phase, line) in formula.lines().filter(|(_, line)| !line.is_blank()) {
        let in_oil = phase.kind == PhaseKind::Oil;
        let entry = line.choice.id().and_then(|id| shelf.entry(id));
        let fat = entry.as_ref().and_then(Ingredient::fat);
        if fat.is_none() && !(in_oil && looks_like_oil(line, entry.as_ref())) {
            continue;
        }
        let Some(share) = totals.share_of(line.id) else {
            found.uncounted.push((line.id, WhyUncounted::ShareUnread));
            continue;
        };
        let Some(fat) = fat else {
            found.uncounted.push((line.id, WhyUncounted::Unknown));
            continue;
        };
        match fat.allergens {
            Some(carried) => found.allergens = found.allergens.with(carried),
            None => found.allergens_unknown.push(line.id),
        }
        found.untold.extend(fat.untold().map(|unknown| (line.id, unknown)));
        if fat.triglyceride().is_some() {
            found.counted.push((line.id, share));
            if fat.doubts.oxidation {
                found.oxidation_doubtful.push(line.id);
            }
        } else if fat.kind == FatKind::Triglyceride {
            found.uncounted.push((line.id, WhyUncounted::NoAcids));
        } else {
            found.uncounted.push((line.id, WhyUncounted::NotTriglyceride(fat.kind)));
        }
        fats.push((share.units() as f64, fat));
    }
    let parts: Vec<(f64, &Fat)> = fats.iter().map(|(mass, fat)| (*mass, fat)).collect();
    let profiles: Vec<(f64, &Profile)> =
        parts.iter().filter_map(|(mass, fat)| Some((*mass, fat.triglyceride()?))).collect();
    // A fat of which no acid is known is in no picture, but what follows from the others is not that of all.
    let dark = |fat: &Fat| fat.kind == FatKind::Triglyceride && fat.triglyceride().is_none();
    let dark: f64 = parts.iter().filter(|(_, fat)| dark(fat)).map(|(mass, _)| mass).sum();
    let told: f64 = profiles.iter().map(|(mass, _)| mass).sum();
    found.figures =
        Profile::blend(&profiles).map(|profile| Figures::of(&profile.beside(dark / (told + dark).max(1.0))));
    found.values = values_of(&parts);
    found
}

/// A line of an oil phase that stands there for an oil: a name that is not on the shelf, or an emollient that is no
/// emulsifier and no fatty alcohol that stands by one.
pub(super) fn looks_like_oil(line: &Line, entry: Option<&Ingredient>) -> bool {
    match (&line.choice, entry) {
        (Choice::Named(name), _) => !name.trim().is_empty(),
        (Choice::Known(_), None) => true,
        (Choice::Known(_), Some(entry)) => {
            let emulsifies = entry.functions().iter().any(|name| name.to_ascii_lowercase().contains("emulsi"));
            let nothing_known = entry.is_own() && entry.text(Field::Functions).is_none();
            (entry.has_function("Emollient") && !emulsifies) || nothing_known
        }
    }
}
