//! Lye: how much alkali and water turn fats into soap, without there being too much of it.
//!
//! Alkali in terms of KOH is the sum of mass × saponification value; NaOH is that × 39.9971 / 56.1056. A discount s is a
//! share of what the fats could take up, not grams of one oil: soap making spares none. Acids among the lines take up theirs
//! first, and in full. Weighed alkali is pure alkali ÷
//! purity, rounded down to what the scale shows. Exact integers throughout, in micrograms and millionths of a percent.
//!
//! The default rests on the low end of each fat's measured range, so that fats of a low saponification value are not
//! overdosed; what that leaves at the typical values and at the high end is said too.

use super::lye_acids::{LyeAcid, water_in};
use super::lye_lines::{GatheredLines, gather};
use super::lye_plan::{AlkaliChoice, LyeField, LyePlan, Saponified, SvBasis, WaterBy};
use super::ph::WaterPhase;
use super::{LyeNote, NoLye, NoSheet, WeighSheet};
use crate::facts::{Alkali, FatKind, Span, Sv, strongest_lye};
use crate::formula::{Formula, LineId, Use};
use crate::quantity::{Mass, Percent, Quantity, Typed, mul_div_floor, mul_div_nearest};
use crate::shelf::Shelf;

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
    /// Acids that take up alkali before any fat does, and free fatty acids.
    pub acids: Vec<LyeAcid>,
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

impl Lye {
    /// What an acid takes up of each alkali, pure, as far as that was computed: of two alkalis each takes its share of the
    /// moles.
    pub fn taken_by(&self, acid: &LyeAcid) -> Vec<(Alkali, Mass)> {
        let takes = match self.basis {
            SvBasis::Low => acid.takes.low,
            SvBasis::Typical => acid.typical,
        };
        let all: Mass = self.alkalis.iter().map(|dose| as_potassium(dose.alkali, dose.pure)).sum();
        let of = |dose: &AlkaliDose| {
            let part = mul_div_nearest(takes.units(), as_potassium(dose.alkali, dose.pure).units(), all.units().max(1));
            let mass = mul_div_nearest(part, dose.alkali.molar_mass(), Alkali::Potassium.molar_mass());
            (dose.alkali, Mass::from_units(mass))
        };
        self.alkalis.iter().map(of).collect()
    }
}

/// Whether lye is asked for: the formula is a soap, or lines of it are to be saponified.
pub fn asks_for_lye(formula: &Formula, plan: &LyePlan) -> bool {
    plan.part != Saponified::Soap || formula.about.purpose == Use::Soap
}

/// The lye of a formula; nothing where none is asked for.
pub fn lye(
    formula: &Formula,
    weigh: &Result<WeighSheet, NoSheet>,
    plan: &LyePlan,
    water: &WaterPhase,
    shelf: &Shelf,
) -> Option<Result<Lye, NoLye>> {
    let wanted = match &plan.part {
        Saponified::Soap if formula.about.purpose == Use::Soap => None,
        Saponified::Soap => return None,
        Saponified::Lines(lines) => Some(lines.as_slice()),
    };
    Some(weigh.as_ref().map_err(|why| NoLye::NoMasses(why.clone())).and_then(|sheet| {
        let GatheredLines { fats, acids, mut notes } = gather(formula, sheet, wanted, water, shelf)?;
        let mut lye = from_fats_and_acids(fats, acids, plan, sheet.step)?;
        // What stands out comes before what is only not known.
        let (mut first, mut last): (Vec<_>, Vec<_>) = notes.drain(..).partition(|note| note.is_of_a_value());
        first.append(&mut lye.notes);
        first.append(&mut last);
        lye.notes = first;
        if wanted.is_none() {
            lye.notes.extend(water_note(water_in(sheet.batch.mass, water, sheet.step), &lye));
        }
        Ok(lye)
    }))
}

/// Water of the formula is that of the lye: it must not be weighed twice.
fn water_note(there: Mass, lye: &Lye) -> Option<LyeNote> {
    if there <= Mass::ZERO {
        return None;
    }
    let more = lye.water.minus(there).max(Mass::ZERO);
    let weighed: Mass = lye.alkalis.iter().map(|dose| dose.weigh).sum();
    let solution = weighed.plus(lye.water.max(there));
    let concentration = mul_div_nearest(weighed.units(), Percent::WHOLE.units(), solution.units());
    Some(LyeNote::WaterInFormula { there, more, concentration: Percent::from_units(concentration) })
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
    from_fats_and_acids(fats, Vec::new(), plan, step)
}

/// What fats, and what free fatty acids and other acids, take up in terms of KOH.
#[derive(Clone, Copy)]
struct Appetite {
    /// What makes soap: the discount is of this.
    soap: Mass,
    /// Other acids: they take theirs before any fat does.
    acids: Mass,
}

/// The same beside acids. The discount is of what makes soap; what other acids take up comes in full on top.
///
/// # Errors
/// Why there is none. Nothing is ever computed past a guard.
pub fn from_fats_and_acids(fats: Vec<LyeFat>, acids: Vec<LyeAcid>, plan: &LyePlan, step: Mass) -> Result<Lye, NoLye> {
    if fats.is_empty() && !acids.iter().any(|acid| acid.fatty) {
        return Err(NoLye::NoFats);
    }
    let discount = or_default(&plan.discount, LyePlan::DISCOUNT, LyeField::Discount)?;
    let discount = Percent::from_units(discount.units());
    if discount <= Percent::ZERO && !plan.no_margin.is_given() {
        return Err(NoLye::Unacknowledged(discount));
    }
    let of_fats =
        [appetite(&fats, |fat| fat.sv.low), appetite(&fats, |fat| fat.typical), appetite(&fats, |fat| fat.sv.high)];
    let ends: [fn(&LyeAcid) -> Mass; 3] = [|acid| acid.takes.low, |acid| acid.typical, |acid| acid.takes.high];
    let of_acids = |fatty: bool, end: fn(&LyeAcid) -> Mass| -> Mass {
        acids.iter().filter(|acid| acid.fatty == fatty).map(end).sum()
    };
    let both = |n: usize| Appetite { soap: of_fats[n].plus(of_acids(true, ends[n])), acids: of_acids(false, ends[n]) };
    let [low, typical, high] = [both(0), both(1), both(2)];
    let basis = match plan.basis {
        SvBasis::Low => low,
        SvBasis::Typical => typical,
    };
    if basis.soap <= Mass::ZERO {
        return Err(NoLye::NothingSaponifies);
    }
    let mut notes = notes_on(&fats);
    notes.extend(acids.iter().filter(|acid| !acid.verified).map(|acid| LyeNote::AcidNotVerified(acid.line)));
    let asked = basis.soap.share(Percent::WHOLE.minus(discount)).plus(basis.acids);
    let alkalis = doses(plan, asked, step, &mut notes)?;
    if alkalis.iter().any(|dose| dose.weigh <= Mass::ZERO) {
        return Err(NoLye::TooSmall(step));
    }
    let (water, concentration) = water(plan, &alkalis, step)?;
    // What really goes in, after rounding down.
    let used: Mass = alkalis.iter().map(|dose| as_potassium(dose.alkali, dose.weigh.share(dose.purity))).sum();
    let margins = Margins { low: margin(low, used), typical: margin(typical, used), high: margin(high, used) };
    let free = typical.acids.plus(of_acids(true, ends[1]));
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
        acids,
        alkalis,
        water,
        concentration,
        margins,
        // Free acids take theirs first and bring no glycerol.
        glycerol: glycerol(used.minus(free).max(Mass::ZERO).min(of_fats[1])),
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

fn margin(appetite: Appetite, used: Mass) -> Percent {
    if appetite.soap <= Mass::ZERO {
        return Percent::ZERO;
    }
    let used = used.minus(appetite.acids).max(Mass::ZERO);
    let left = appetite.soap.minus(used).units();
    Percent::from_units(mul_div_nearest(left, Percent::WHOLE.units(), appetite.soap.units()))
}

/// One glycerol for three alkali: 92.094 g for 3 × 56.1056 g of KOH. Source of the masses: IUPAC standard atomic weights
/// (2021), abridged.
fn glycerol(used: Mass) -> Mass {
    Mass::from_units(mul_div_nearest(used.units(), 920_940, 3 * Alkali::Potassium.molar_mass()))
}
