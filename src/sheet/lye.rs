//! Lye: how much alkali and water turn fats into soap, without there being too much of it.
//!
//! Alkali in terms of KOH is the sum of mass × saponification value; NaOH is that × 39.9971 / 56.1056. A discount s is a
//! share of what the fats could take up, not grams of one oil: soap making spares none. Weighed alkali is pure alkali ÷
//! purity, rounded down to what the scale shows. Exact integers throughout, in micrograms and millionths of a percent.
//!
//! The default rests on the low end of each fat's measured range, so that fats of a low saponification value are not
//! overdosed; what that leaves at the typical values and at the high end is said too.

use super::lye_plan::{AlkaliChoice, LyeField, LyePlan, Saponified, SvBasis, WaterBy};
use super::{LyeNote, NoLye, NoSheet, WeighSheet};
use crate::facts::{
    Alkali, Fat, FatKind, Field, Ingredient, SheetFinding, Shelf, Solvent, Span, Sv, TRIGLYCERIDE_SV, UsualPhase,
    dissolves_in, strongest_lye,
};
use crate::formula::{Formula, LineId, PhaseKind, Use};
use crate::quantity::{Mass, Percent, Quantity, Typed, mul_div_floor, mul_div_nearest};

/// A fat that is saponified.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LyeFat {
    /// Its line.
    pub line: LineId,
    /// How much of it.
    pub mass: Mass,
    /// Its saponification value: low, typical, high.
    pub sv: Span<Sv>,
    /// The typical one.
    pub typical: Sv,
    /// Its kind.
    pub kind: FatKind,
    /// True if the range was measured, false if it was put around a computed value.
    pub measured: bool,
    /// True if the range was seen in its source, or is that of the maker's own lot.
    pub verified: bool,
}

/// An alkali to weigh.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct AlkaliDose {
    /// Which.
    pub alkali: Alkali,
    /// Its purity.
    pub purity: Percent,
    /// How much of it there must be, pure.
    pub pure: Mass,
    /// How much to weigh, in whole steps of the scale, rounded down.
    pub weigh: Mass,
}

/// What is left over of the fats' appetite for alkali, in percent of it: the true discount. Under nothing, alkali is
/// left in the soap.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Margins {
    /// If every fat is at the low end of its range.
    pub low: Percent,
    /// If every fat is typical.
    pub typical: Percent,
    /// If every fat is at the high end.
    pub high: Percent,
}

/// The lye of one batch.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lye {
    /// The fats.
    pub fats: Vec<LyeFat>,
    /// Their mass.
    pub fat_mass: Mass,
    /// The discount asked for; may be under nothing.
    pub discount: Percent,
    /// From which values.
    pub basis: SvBasis,
    /// What to weigh.
    pub alkalis: Vec<AlkaliDose>,
    /// Water for the lye, in whole steps of the scale.
    pub water: Mass,
    /// Alkali as weighed in the solution as weighed.
    pub concentration: Percent,
    /// What is left over.
    pub margins: Margins,
    /// Glycerol that forms and stays in the soap.
    pub glycerol: Mass,
    /// What else there is to say.
    pub notes: Vec<LyeNote>,
}

/// The lye of a formula; nothing where none is asked for.
pub fn lye(
    formula: &Formula,
    weigh: &Result<WeighSheet, NoSheet>,
    plan: &LyePlan,
    shelf: &Shelf,
) -> Option<Result<Lye, NoLye>> {
    let wanted = match &plan.part {
        Saponified::Soap if formula.about.purpose == Use::Soap => None,
        Saponified::Soap => return None,
        Saponified::Lines(lines) => Some(lines.as_slice()),
    };
    Some(weigh.as_ref().map_err(|why| NoLye::NoMasses(why.clone())).and_then(|sheet| {
        let (fats, mut notes) = gather(formula, sheet, wanted, shelf)?;
        let mut lye = from_fats(fats, plan, sheet.step)?;
        lye.notes.append(&mut notes);
        Ok(lye)
    }))
}

type Gathered = (Vec<LyeFat>, Vec<LyeNote>);

/// The fats among the lines, and what is odd about the others.
fn gather(formula: &Formula, sheet: &WeighSheet, wanted: Option<&[LineId]>, shelf: &Shelf) -> Result<Gathered, NoLye> {
    let (mut fats, mut notes) = (Vec::new(), Vec::new());
    for weighed in &sheet.lines {
        let asked = wanted.is_none_or(|lines| lines.contains(&weighed.line));
        let id = formula.line(weighed.line).and_then(|line| line.choice.id());
        let alkali = id.is_some_and(|id| Alkali::ALL.iter().any(|alkali| alkali.id() == id.as_str()));
        if alkali {
            notes.push(LyeNote::AlkaliInFormula(weighed.line));
        }
        if !asked {
            continue;
        }
        let entry = id.and_then(|id| shelf.entry(id));
        let fat = entry.as_ref().and_then(Ingredient::fat);
        let in_oil = formula.lines().any(|(phase, line)| line.id == weighed.line && phase.kind == PhaseKind::Oil);
        match (fat, wanted) {
            (Some(fat), _) => fats.push(one_fat(weighed.line, weighed.mass, &fat)?),
            // A line that was picked on purpose must not be left out in silence.
            (None, Some(_)) => return Err(NoLye::SvUnknown(weighed.line)),
            (None, None) if !alkali && weighed.share > Percent::ZERO && may_saponify(in_oil, entry.as_ref()) => {
                notes.push(LyeNote::NotCounted(weighed.line));
            }
            (None, None) => {}
        }
    }
    Ok((fats, notes))
}

/// Whether a line that is no fat of the shelf may take up lye all the same: what is not on the shelf, what belongs to
/// oil, and what stands in an oil phase and is not known to dissolve in water.
fn may_saponify(in_oil: bool, entry: Option<&Ingredient>) -> bool {
    let Some(entry) = entry else { return true };
    let powder = entry.has_function("Colorant") || entry.has_function("Absorbent");
    let usual = entry.usual_phase().map(|usual| usual.value);
    let solvent = dissolves_in(entry);
    !powder
        && (usual == Some(UsualPhase::Oil)
            || solvent == Some(Solvent::Oil)
            || (in_oil && solvent != Some(Solvent::Water)))
}

fn one_fat(line: LineId, mass: Mass, fat: &Fat) -> Result<LyeFat, NoLye> {
    let unread = |finding: &SheetFinding| {
        use SheetFinding::{EndsReversed, LowEndMissing, ValueUnread};
        matches!(finding, ValueUnread(_) | EndsReversed(_) | LowEndMissing(Field::SvLow))
    };
    let (Some(sv), Some(typical), false) = (fat.sv_band(), fat.typical_sv(), fat.findings.iter().any(unread)) else {
        return Err(NoLye::SvUnknown(line));
    };
    if fat.kind == FatKind::Triglyceride {
        for end in [sv.low, sv.high] {
            if TRIGLYCERIDE_SV.clip(end) != end {
                return Err(NoLye::SvImpossible(line, end));
            }
        }
    }
    let verified = fat.sv_evidence.is_some_and(|evidence| evidence.status.is_settled());
    Ok(LyeFat { line, mass, sv, typical, kind: fat.kind, measured: fat.sv.is_some(), verified })
}

/// What the fats take up, in terms of KOH.
fn appetite(fats: &[LyeFat], value: impl Fn(&LyeFat) -> Sv) -> Mass {
    // Hundredths of milligrams per gram are parts of 100 000.
    fats.iter().map(|fat| Mass::from_units(mul_div_nearest(fat.mass.units(), value(fat).units(), 100_000))).sum()
}

/// The lye for known fats, weighed in steps of a scale.
///
/// # Errors
/// Why there is none. Nothing is ever computed past a guard.
pub fn from_fats(fats: Vec<LyeFat>, plan: &LyePlan, step: Mass) -> Result<Lye, NoLye> {
    if fats.is_empty() {
        return Err(NoLye::NoFats);
    }
    let discount = or_default(&plan.discount, LyePlan::DISCOUNT, LyeField::Discount)?;
    let discount = Percent::from_units(discount.units());
    if discount <= Percent::ZERO && !plan.acknowledged {
        return Err(NoLye::Unacknowledged(discount));
    }
    let [low, typical, high] =
        [appetite(&fats, |fat| fat.sv.low), appetite(&fats, |fat| fat.typical), appetite(&fats, |fat| fat.sv.high)];
    let basis = match plan.basis {
        SvBasis::Low => low,
        SvBasis::Typical => typical,
    };
    if basis <= Mass::ZERO {
        return Err(NoLye::NothingSaponifies);
    }
    let mut notes = notes_on(&fats);
    let asked = basis.share(Percent::WHOLE.minus(discount));
    let alkalis = doses(plan, asked, step, &mut notes)?;
    if alkalis.iter().any(|dose| dose.weigh <= Mass::ZERO) {
        return Err(NoLye::TooSmall(step));
    }
    let (water, concentration) = water(plan, &alkalis, step)?;
    // What really goes in, after rounding down.
    let used: Mass = alkalis.iter().map(|dose| as_potassium(dose.alkali, dose.weigh.share(dose.purity))).sum();
    let margins = Margins { low: margin(low, used), typical: margin(typical, used), high: margin(high, used) };
    if margins.low < Percent::ZERO {
        notes.insert(0, LyeNote::MarginBelowNothing(margins.low));
    }
    if discount <= Percent::ZERO {
        notes.insert(0, LyeNote::NoDiscount);
    }
    Ok(Lye {
        fat_mass: fats.iter().map(|fat| fat.mass).sum(),
        fats,
        discount,
        basis: plan.basis,
        alkalis,
        water,
        concentration,
        margins,
        glycerol: glycerol(used.min(typical)),
        notes,
    })
}

fn notes_on(fats: &[LyeFat]) -> Vec<LyeNote> {
    let mut notes = Vec::new();
    for fat in fats {
        match fat.kind {
            FatKind::Triglyceride => {}
            FatKind::WaxEster | FatKind::SterolEster => notes.push(LyeNote::InPart(fat.line)),
            FatKind::Hydrocarbon => {
                notes.push(LyeNote::NotAtAll(fat.line));
                continue;
            }
        }
        if !fat.measured {
            notes.push(LyeNote::NotMeasured(fat.line));
        } else if !fat.verified {
            notes.push(LyeNote::NotVerified(fat.line));
        }
    }
    notes
}

fn or_default<T: Quantity>(typed: &Typed<T>, default: T, field: LyeField) -> Result<T, NoLye> {
    if typed.is_empty() { Ok(default) } else { typed.value().ok_or(NoLye::Unread(field)) }
}

/// Divides what is asked for, in terms of KOH, among the alkalis.
fn doses(plan: &LyePlan, asked: Mass, step: Mass, notes: &mut Vec<LyeNote>) -> Result<Vec<AlkaliDose>, NoLye> {
    let sodium = match plan.alkali {
        AlkaliChoice::Sodium => Percent::WHOLE,
        AlkaliChoice::Potassium => Percent::ZERO,
        AlkaliChoice::Both => plan.sodium_share.value().ok_or(NoLye::Unread(LyeField::SodiumShare))?,
    };
    let mut doses = Vec::new();
    // Moles divide like their KOH equivalents.
    for (alkali, share, field) in [
        (Alkali::Sodium, sodium, LyeField::SodiumPurity),
        (Alkali::Potassium, Percent::WHOLE.minus(sodium), LyeField::PotassiumPurity),
    ] {
        if share <= Percent::ZERO {
            continue;
        }
        let purity = or_default(plan.purity(alkali), Percent::WHOLE, field)?;
        // Alkali of less than half its weight is a solution or spoilt, and no flakes.
        if purity.units() < Percent::WHOLE.units() / 2 {
            return Err(NoLye::Unread(field));
        }
        if plan.purity(alkali).is_empty() {
            notes.push(LyeNote::PurityAssumed(alkali));
        }
        let pure = mul_div_nearest(asked.share(share).units(), alkali.molar_mass(), Alkali::Potassium.molar_mass());
        let weigh = mul_div_floor(pure, Percent::WHOLE.units(), purity.units());
        let steps = weigh / step.units();
        let weigh = Mass::from_units(steps * step.units());
        doses.push(AlkaliDose { alkali, purity, pure: Mass::from_units(pure), weigh });
    }
    Ok(doses)
}

/// Water to the nearest step, and the alkali in per cent of the solution, both as weighed.
fn water(plan: &LyePlan, alkalis: &[AlkaliDose], step: Mass) -> Result<(Mass, Percent), NoLye> {
    let weighed: Mass = alkalis.iter().map(|dose| dose.weigh).sum();
    let whole = Percent::WHOLE.units();
    let solution_of = |alkali: Mass| {
        let asked = or_default(&plan.concentration, LyePlan::CONCENTRATION, LyeField::Concentration)?;
        if asked <= Percent::ZERO {
            return Err(NoLye::Unread(LyeField::Concentration));
        }
        Ok(mul_div_nearest(alkali.units(), whole, asked.units()))
    };
    let water = match plan.water_by {
        WaterBy::Concentration => solution_of(weighed)? - weighed.units(),
        WaterBy::PureConcentration => {
            let pure: Mass = alkalis.iter().map(|dose| dose.weigh.share(dose.purity)).sum();
            solution_of(pure)? - weighed.units()
        }
        WaterBy::Ratio => {
            let ratio = or_default(&plan.ratio, LyePlan::RATIO, LyeField::Ratio)?;
            mul_div_nearest(weighed.units(), ratio.units(), 1_000)
        }
    };
    let water = mul_div_nearest(water.max(0), 1, step.units()).saturating_mul(step.units());
    let solution = weighed.units().saturating_add(water);
    let concentration = Percent::from_units(mul_div_nearest(weighed.units(), whole, solution));
    // A dose without a row would be one without its limit, which a test of the table rules out.
    let most = strongest_lye(alkalis.iter().map(|dose| dose.alkali)).unwrap_or_default();
    if concentration > most {
        return Err(NoLye::TooStrong { concentration, most });
    }
    Ok((Mass::from_units(water), concentration))
}

fn as_potassium(alkali: Alkali, pure: Mass) -> Mass {
    Mass::from_units(mul_div_nearest(pure.units(), Alkali::Potassium.molar_mass(), alkali.molar_mass()))
}

fn margin(appetite: Mass, used: Mass) -> Percent {
    if appetite <= Mass::ZERO {
        return Percent::ZERO;
    }
    let left = appetite.minus(used).units();
    Percent::from_units(mul_div_nearest(left, Percent::WHOLE.units(), appetite.units()))
}

/// One glycerol for three alkali: 92.094 g for 3 × 56.1056 g of KOH. Source of the masses: IUPAC standard atomic weights
/// (2021), abridged.
fn glycerol(used: Mass) -> Mass {
    Mass::from_units(mul_div_nearest(used.units(), 920_940, 3 * Alkali::Potassium.molar_mass()))
}
