//! The emulsifier: what the oils ask, what the emulsifiers give, how much of them there is, and how crowded the drops are.

use super::emulsion_system::{EmulsionSystem, soaps, system};
use super::fats::looks_like_oil;
use super::hlb::blend;
use super::parts::label_names;
use super::{FormulaComposition, Totals};
use crate::facts::{
    Emulsifier, EmulsifierKind, EmulsifierShare, Hlb, RatioOf, Solvent, UsualPhase, criteria, criterion, emulsifier,
    emulsifier_named,
};
use crate::formula::{Formula, LineId, PhaseKind};
use crate::quantity::{Percent, Quantity, mul_div_nearest};
use crate::shelf::{Ingredient, Shelf, dissolves_in};

/// One emulsifier of the formula.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct EmulsifierLine {
    /// Its line.
    pub line: LineId,
    /// Its share of the formula.
    pub share: Percent,
    /// What it is; unknown for the maker's own without an HLB.
    pub kind: Option<EmulsifierKind>,
    /// Its HLB, where that means something.
    pub hlb: Option<Hlb>,
    /// How much of it an oil phase takes.
    pub usual: Option<EmulsifierShare>,
}

/// How the drops lie.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Crowding {
    /// They have room.
    Loose,
    /// More than half: thick, and the order of addition matters.
    Thick,
    /// More than 0.64, where equal spheres jam at random.
    Crowded,
    /// More than π / (3 √2) = 0.7405, where equal spheres touch at their closest: it may turn over.
    BeyondPacking,
}

/// What the share of emulsifier comes to, as the ratio rule sees it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Dose {
    /// Below the least.
    Low,
    /// Between the least and what is usual.
    Lean,
    /// Usual.
    Good,
}

/// All about it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Emulsion {
    /// Oils without emulsifiers and fatty alcohols, of the formula.
    pub oil: Percent,
    /// The emulsifiers.
    pub emulsifiers: Vec<EmulsifierLine>,
    /// All emulsifiers together, of the oils.
    pub share_of_oil: Option<Percent>,
    /// How that compares with what the emulsifiers take; the strictest of them counts.
    pub dose: Option<Dose>,
    /// The polymer whose share of the formula decided that, and not the ratio to the oils.
    pub polymer: Option<EmulsifierLine>,
    /// What holds the drops, by which all else is judged.
    pub system: EmulsionSystem,
    /// Fatty alcohols and their partners together, of the oils, where they build a gel network: then this is what the dose is.
    pub network_of_oil: Option<Percent>,
    /// The HLB that the oil phase asks for, of the lines that have a number.
    pub required: Option<Hlb>,
    /// Oils without a number, and what stands in an oil phase for an oil: with them the required HLB is a part of the truth.
    pub required_unknown: Vec<LineId>,
    /// The HLB of the emulsifiers together. Nothing where it means nothing: see [`Self::no_hlb`].
    pub hlb: Option<Hlb>,
    /// The emulsifiers for which an HLB means nothing, so that the ratio counts instead.
    pub no_hlb: Vec<LineId>,
    /// Volume of the oil phase over that of all, in percent.
    pub dispersed: Option<Percent>,
    /// How crowded that is.
    pub crowding: Option<Crowding>,
    /// Lines whose density is not known: they were taken at 0.91 g/mL in the oil, 1 g/mL in the water.
    pub density_assumed: Vec<LineId>,
}

/// Units of density (1e-6 g/mL) taken where none is known. Common practice, no source.
const OIL_DENSITY: i64 = 910_000;
const WATER_DENSITY: i64 = 1_000_000;
/// Shares of volume, in units of a percent's millionth.
const HALF: Percent = Percent::millionths(50_000_000);
const RANDOM: Percent = Percent::millionths(64_000_000);

impl Emulsion {
    /// What the dose was judged by: how much there is, and how much is usual. Of several emulsifiers together the one that
    /// takes most counts.
    pub fn judged(&self) -> Option<(Percent, EmulsifierShare)> {
        if let Some(part) = &self.polymer {
            return Some((part.share, part.usual?));
        }
        let usual = self.emulsifiers.iter().filter_map(|part| part.usual.filter(|usual| usual.of == RatioOf::Oil));
        Some((self.of_oils()?, usual.max_by_key(|usual| usual.good)?))
    }
}

/// What one line is to the emulsion.
enum EmulsionRole {
    Oil,
    FattyAlcohol,
    Emulsifier(EmulsifierLine),
    Other,
}

/// Computes it; nothing if there is no oil or no emulsifier.
pub fn emulsion(
    formula: &Formula,
    totals: &Totals,
    composition: &FormulaComposition,
    shelf: &Shelf,
) -> Option<Emulsion> {
    let mut found = gather(formula, totals, shelf);
    if found.emulsifiers.iter().all(|part| part.kind.is_none()) {
        for (line, share) in soaps(composition) {
            let kind = Some(EmulsifierKind::Soap);
            found.emulsifiers.retain(|part| part.line != line);
            found.emulsifiers.push(EmulsifierLine { line, share, kind, hlb: None, usual: None });
        }
    }
    if found.oil <= Percent::ZERO || found.emulsifiers.is_empty() {
        return None;
    }
    let (system, network) = system(&found, composition);
    found.system = system;
    if system.is_network() {
        let total = ratio(network, found.oil).max(found.share_of_oil.unwrap_or(Percent::ZERO));
        found.network_of_oil = Some(total);
        found.dose = by_ratio(&found.emulsifiers, total);
    }
    Some(found)
}

/// The HLB that the oils of a formula ask for, of those that have a number, and the oils that have none. An emulsifier need
/// not be there yet.
pub fn required_hlb(formula: &Formula, totals: &Totals, shelf: &Shelf) -> (Option<Hlb>, Vec<LineId>) {
    let found = gather(formula, totals, shelf);
    (found.required, found.required_unknown)
}

/// Volume of the oil phase over that of all, and the oils without emulsifiers and fatty alcohols, of any formula.
pub(super) fn oil_volume(formula: &Formula, totals: &Totals, shelf: &Shelf) -> (Percent, Percent) {
    let found = gather(formula, totals, shelf);
    (found.dispersed.unwrap_or(Percent::ZERO), found.oil)
}

fn gather(formula: &Formula, totals: &Totals, shelf: &Shelf) -> Emulsion {
    let mut found = Emulsion {
        oil: Percent::ZERO,
        emulsifiers: Vec::new(),
        share_of_oil: None,
        dose: None,
        polymer: None,
        system: EmulsionSystem::Unknown,
        network_of_oil: None,
        required: None,
        required_unknown: Vec::new(),
        hlb: None,
        no_hlb: Vec::new(),
        dispersed: None,
        crowding: None,
        density_assumed: Vec::new(),
    };
    let mut asks = Vec::new();
    // Volumes in units of share over density.
    let (mut oil_volume, mut all_volume) = (0i64, 0i64);
    for (phase, line) in formula.lines() {
        let Some(share) = totals.share_of(line.id).filter(|share| *share > Percent::ZERO) else { continue };
        let ingredient = line.choice.id().and_then(|id| shelf.entry(id));
        let part =
            ingredient.as_ref().map_or(EmulsionRole::Other, |ingredient| part(ingredient, line.id, share, phase.kind));
        let in_oil = phase.kind == PhaseKind::Oil || matches!(part, EmulsionRole::Oil | EmulsionRole::FattyAlcohol);
        let density = ingredient.as_ref().and_then(Ingredient::density).map(|density| density.value.units());
        if density.is_none() {
            found.density_assumed.push(line.id);
        }
        let density = density.unwrap_or(if in_oil { OIL_DENSITY } else { WATER_DENSITY });
        let volume = mul_div_nearest(share.units(), WATER_DENSITY, density.max(1));
        all_volume += volume;
        if in_oil {
            oil_volume += volume;
        }
        match part {
            EmulsionRole::Oil | EmulsionRole::FattyAlcohol => {
                match ingredient.as_ref().and_then(Ingredient::required_hlb) {
                    Some(hlb) => asks.push((share, hlb.value)),
                    None => found.required_unknown.push(line.id),
                }
                if matches!(part, EmulsionRole::Oil) {
                    found.oil = found.oil.plus(share);
                }
            }
            EmulsionRole::Emulsifier(emulsifier) => found.emulsifiers.push(emulsifier),
            EmulsionRole::Other if phase.kind == PhaseKind::Oil && looks_like_oil(line, ingredient.as_ref()) => {
                found.required_unknown.push(line.id);
            }
            EmulsionRole::Other => {}
        }
    }
    found.required = blend(&asks);
    found.no_hlb = found.emulsifiers.iter().filter(|part| part.hlb.is_none()).map(|part| part.line).collect();
    if found.no_hlb.is_empty() {
        let parts: Vec<_> = found.emulsifiers.iter().filter_map(|part| Some((part.share, part.hlb?))).collect();
        found.hlb = blend(&parts);
    }
    let all: Percent = found.emulsifiers.iter().map(|part| part.share).sum();
    found.share_of_oil = Some(ratio(all, found.oil));
    (found.dose, found.polymer) = dose(&found.emulsifiers, all, found.oil);
    let dispersed = Percent::from_units(mul_div_nearest(oil_volume, Percent::WHOLE.units(), all_volume.max(1)));
    found.dispersed = Some(dispersed);
    found.crowding = Some(crowding(dispersed));
    found
}

/// An emulsifier's HLB where that means something: for the kinds it was made for, and where the maker has typed one.
pub(super) fn meant_hlb(ingredient: &Ingredient) -> Option<Hlb> {
    let made_for = row(ingredient).is_none_or(|row| row.kind == EmulsifierKind::Griffin);
    let hlb = ingredient.emulsifier_hlb()?;
    (made_for || hlb.provenance.is_makers()).then_some(hlb.value)
}

/// The row of an ingredient; of what a maker describes, that of its INCI name. What is sold as a fatty alcohol with something
/// else brings its own balance.
fn row(ingredient: &Ingredient) -> Option<Emulsifier> {
    if !ingredient.is_own() {
        return emulsifier(ingredient.id().as_str()).copied();
    }
    let mut rows = Vec::new();
    for named in label_names(ingredient) {
        rows.extend(emulsifier_named(&named.name).copied());
    }
    let is_alcohol = |row: &&Emulsifier| row.kind == EmulsifierKind::FattyAlcohol;
    let alcohols = rows.iter().filter(is_alcohol).count();
    let charged = [EmulsifierKind::Cationic, EmulsifierKind::Soap];
    let other = rows.iter().find(|row| !is_alcohol(row));
    match other.copied() {
        Some(row) if alcohols > 0 && !charged.contains(&row.kind) => {
            Some(Emulsifier { kind: EmulsifierKind::SelfEmulsifying, share: None, ..row })
        }
        Some(row) => Some(row),
        None => rows.first().copied(),
    }
}

fn part(ingredient: &Ingredient, line: LineId, share: Percent, phase: PhaseKind) -> EmulsionRole {
    let row = row(ingredient);
    let hlb = ingredient.emulsifier_hlb();
    let own =
        row.is_none() && (hlb.is_some() || ingredient.is_own() && ingredient.has_function("Surfactant - emulsifying"));
    if let Some(row) = row {
        if row.kind == EmulsifierKind::FattyAlcohol {
            return EmulsionRole::FattyAlcohol;
        }
        let hlb = meant_hlb(ingredient);
        return EmulsionRole::Emulsifier(EmulsifierLine { line, share, kind: Some(row.kind), hlb, usual: row.share });
    }
    if own {
        let kind = hlb.is_some().then_some(EmulsifierKind::Griffin);
        return EmulsionRole::Emulsifier(EmulsifierLine {
            line,
            share,
            kind,
            hlb: hlb.map(|hlb| hlb.value),
            usual: None,
        });
    }
    let powder = ingredient.has_function("Colorant") || ingredient.has_function("Absorbent");
    let oily = ingredient.usual_phase().is_some_and(|usual| usual.value == UsualPhase::Oil)
        || dissolves_in(ingredient) == Some(Solvent::Oil);
    let fat = ingredient.required_hlb().is_some() || ingredient.is_fat();
    if !powder && (fat || (phase == PhaseKind::Oil && oily)) { EmulsionRole::Oil } else { EmulsionRole::Other }
}

/// One share of another, in percent; more than 100 % is possible.
fn ratio(part: Percent, of: Percent) -> Percent {
    Percent::from_units(mul_div_nearest(part.units(), Percent::WHOLE.units(), of.units().max(1)))
}

/// Each emulsifier that takes a share of the oil is judged with all the others that do: together they cover the drops. A
/// polymer is judged by its own share of the formula: where that suffices, and where there is nothing but polymers.
fn dose(emulsifiers: &[EmulsifierLine], all: Percent, oil: Percent) -> (Option<Dose>, Option<EmulsifierLine>) {
    let polymer = |part: &EmulsifierLine| part.usual.is_some_and(|usual| usual.of == RatioOf::Formula);
    let best = emulsifiers
        .iter()
        .filter(|part| polymer(part))
        .filter_map(|part| Some((grade(part.share, part.usual?), *part)))
        .max_by_key(|(grade, _)| *grade);
    // A polymer holds the drops by itself at a fraction of what others take.
    if let Some((grade, part)) = best.filter(|(best, _)| *best == Dose::Good || emulsifiers.iter().all(polymer)) {
        return (Some(grade), Some(part));
    }
    (by_ratio(emulsifiers, ratio(all, oil)), None)
}

/// How a share of the oils compares with what the emulsifiers take; the strictest counts.
fn by_ratio(emulsifiers: &[EmulsifierLine], have: Percent) -> Option<Dose> {
    let usual = |part: &EmulsifierLine| part.usual.filter(|usual| usual.of == RatioOf::Oil);
    emulsifiers.iter().filter_map(|part| Some(grade(have, usual(part)?))).min()
}

fn grade(have: Percent, usual: EmulsifierShare) -> Dose {
    match have {
        have if have >= usual.good => Dose::Good,
        have if have >= usual.least => Dose::Lean,
        _ => Dose::Low,
    }
}

/// How crowded drops are that fill so much of the volume.
pub fn crowding(dispersed: Percent) -> Crowding {
    match dispersed {
        part if part > criterion(criteria::CLOSE_PACKING).value => Crowding::BeyondPacking,
        part if part > RANDOM => Crowding::Crowded,
        part if part > HALF => Crowding::Thick,
        _ => Crowding::Loose,
    }
}
