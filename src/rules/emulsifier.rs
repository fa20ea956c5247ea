//! Emulsifier: enough of it for the oil, and of the right balance.
//!
//! Why it matters: too little, or the wrong side of water and oil, and the lotion parts in the jar, its preservative with it.
//! Source: what holds an emulsion is recognised first (`sheet/emulsion_system.rs`), and each kind is judged in its own way:
//! Griffin's HLB system for nonionics alone, and never more than Care; the doses are those of each emulsifier (common
//! practice), the cut-offs choices of ours: all of it advises. Where an HLB is not known, or means nothing, nothing is said
//! of it.

use super::context::Members;
use super::{Amount, Finding, Grade, Message, Rule, RuleContext};
use crate::facts::{Basis, Hlb, RatioOf, SubstanceClass, UsualPhase, criteria, criterion, emulsifier};
use crate::formula::PhaseKind;
use crate::quantity::{Percent, Quantity};
use crate::sheet::{Dose, EmulsifierLine, Emulsion, EmulsionSystem};
use crate::shelf::{Ingredient, Sourced};

pub(super) const RULE: Rule = Rule { code: "emulsifier", check };

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    let found = context.sheet.emulsion.as_ref();
    let oil = found.map_or_else(|| bare_oil(context), |emulsion| emulsion.oil);
    if oil <= criterion(criteria::EMULSIFIER_OIL).value || context.is_bar_soap() {
        return;
    }
    if let Some(emulsion) = found {
        packing(emulsion, findings);
    }
    let water = context.water().most();
    if water <= oil {
        // Less is known of what holds less water than oil: soap is spoken of all the same, since it is made there.
        let soaps = found.filter(|emulsion| emulsion.system == EmulsionSystem::Soap && water > Percent::ZERO);
        soaps.into_iter().for_each(|emulsion| soap(context, emulsion, findings));
        return;
    }
    let Some(emulsion) = found else {
        let least = criterion(criteria::EMULSIFIER_CARE);
        findings.push(
            Finding::said(RULE.code, Grade::Stop, Message::NoEmulsifier { oils: oil }, least.basis)
                .found(Amount::Percent(Percent::ZERO))
                .against(Amount::Percent(least.value)),
        );
        return;
    };
    match emulsion.system {
        EmulsionSystem::WaterInOil => match emulsion.hlb.filter(|hlb| is_lipophilic(*hlb)) {
            // Nothing among them was made for so much water, and no dose of them suffices.
            Some(had) => {
                dose(emulsion, true, findings);
                return wrong_side(emulsion, had, water, findings);
            }
            None => dose(emulsion, false, findings),
        },
        EmulsionSystem::Soap => soap(context, emulsion, findings),
        EmulsionSystem::Polymeric => {
            emulsion.polymer.into_iter().for_each(|part| polymer(context, emulsion, part, findings))
        }
        _ => dose(emulsion, false, findings),
    }
    balance(context, emulsion, network(context, emulsion), findings);
}

/// Up to this HLB an emulsifier holds water in oil.
fn is_lipophilic(hlb: Hlb) -> bool {
    hlb <= criterion(criteria::HLB_WATER_IN_OIL).value
}

/// Drops that are closer than equal spheres can be: of oil, or of water where that is in oil.
fn packing(emulsion: &Emulsion, findings: &mut Vec<Finding>) {
    let Some(oil) = emulsion.dispersed else { return };
    let closest = criterion(criteria::CLOSE_PACKING);
    let system = emulsion.system;
    let water = Percent::WHOLE.minus(oil);
    let (grade, said, drops) = match system {
        EmulsionSystem::WaterInOil if water > closest.value => (Grade::Care, Message::WaterPacked { system }, water),
        EmulsionSystem::WaterInOil if emulsion.is_made_for_water() || water <= oil => {
            (Grade::Fine, Message::WaterInOil { system }, water)
        }
        _ if emulsion.oil_is_packed() => (Grade::Care, Message::DropsPacked, oil),
        _ => return,
    };
    findings.push(
        Finding::said(RULE.code, grade, said, closest.basis)
            .on(emulsion.emulsifiers.iter().map(|part| part.line))
            .found(Amount::Percent(tenths(drops)))
            .against(Amount::Percent(tenths(closest.value))),
    );
}

/// What soap holds: its pH decides, and whether the base was weighed well, which no share of the oils tells.
fn soap(context: RuleContext<'_>, emulsion: &Emulsion, findings: &mut Vec<Finding>) {
    if emulsion.dose.is_some() {
        return dose(emulsion, false, findings);
    }
    let acids = context.class(SubstanceClass::SoapAcid);
    let bases = context.class(SubstanceClass::SoapBase);
    let said = Message::SoapHolds { system: emulsion.system, bases: bases.list() };
    findings.push(
        Finding::said(RULE.code, Grade::Unknown, said, acids.basis)
            .on(acids.lines().into_iter().chain(bases.lines()))
            .about(acids.names()),
    );
}

/// What builds a gel network in the water and what it needs beside it, if that holds the cream.
fn network<'a>(context: RuleContext<'a>, emulsion: &Emulsion) -> Option<(Members<'a>, Members<'a>)> {
    let (formers, partners) = (context.class(SubstanceClass::GelFormer), context.class(SubstanceClass::GelPartner));
    (emulsion.system == EmulsionSystem::GelNetwork).then_some((formers, partners))
}

/// Emulsifiers that hold water in oil, where there is more water than oil.
fn wrong_side(emulsion: &Emulsion, had: Hlb, water: Percent, findings: &mut Vec<Finding>) {
    let bound = criterion(criteria::HLB_WATER_IN_OIL);
    findings.push(
        Finding::said(RULE.code, Grade::Stop, Message::LipophilicOnly { system: emulsion.system, water }, bound.basis)
            .on(emulsion.emulsifiers.iter().map(|part| part.line))
            .found(Amount::Hundredths(had.units()))
            .against(Amount::Hundredths(bound.value.units())),
    );
}

/// To a tenth of a percent.
fn tenths(share: Percent) -> Percent {
    let tenth = 100_000;
    Percent::from_units((share.units() + tenth / 2) / tenth * tenth)
}

/// Oils of a formula without an emulsifier.
fn bare_oil(context: RuleContext<'_>) -> Percent {
    let oily = |kind: PhaseKind, entry: &Ingredient| {
        let usual = entry.usual_phase().is_some_and(|phase| phase.value == UsualPhase::Oil);
        !entry.has_function("Colorant")
            && (entry.is_fat() || entry.required_hlb().is_some() || (kind == PhaseKind::Oil && usual))
    };
    let lines = context.known_lines();
    // Wool fat holds a little water in oil and an amine makes soap of an acid; by itself neither holds oil in water.
    let emulsifies = |entry: &Ingredient| {
        let known = entry.is_own() || emulsifier(entry.id().as_str()).is_some();
        known && entry.has_function("Surfactant - emulsifying")
    };
    if lines.iter().any(|(_, _, share, entry)| share.units() > 0 && emulsifies(entry)) {
        return Percent::ZERO;
    }
    lines.iter().filter(|(phase, _, _, entry)| oily(phase.kind, entry)).map(|(_, _, share, _)| *share).sum()
}

/// `lipophilic` says that these emulsifiers cannot hold this emulsion however much there is of them: no dose of them suffices.
fn dose(emulsion: &Emulsion, lipophilic: bool, findings: &mut Vec<Finding>) {
    let Some(share) = emulsion.of_oils() else { return };
    let (pass, care) = (criterion(criteria::EMULSIFIER_PASS), criterion(criteria::EMULSIFIER_CARE));
    // Each emulsifier's own ratio, where it is known, else the general one; the strictest counts.
    let usual = || emulsion.emulsifiers.iter().filter_map(|part| part.usual).filter(|usual| usual.of == RatioOf::Oil);
    let good = usual().map(|usual| usual.good).max().unwrap_or(pass.value);
    let least = usual().map(|usual| usual.least).max().unwrap_or(care.value);
    let grade = emulsion.dose.unwrap_or(match share {
        share if share >= good => Dose::Good,
        share if share >= least => Dose::Lean,
        _ => Dose::Low,
    });
    let oils = emulsion.oil;
    let system = emulsion.system;
    let (grade, said, bound) = match grade {
        Dose::Good if lipophilic => return,
        Dose::Good => (Grade::Fine, Message::EmulsifierEnough { system, oils }, good),
        Dose::Lean => (Grade::Care, Message::EmulsifierLow { system, oils }, good),
        Dose::Low => (Grade::Stop, Message::EmulsifierLow { system, oils }, least),
    };
    findings.push(
        Finding::said(RULE.code, grade, said, pass.basis)
            .on(emulsion.emulsifiers.iter().map(|part| part.line))
            .found(Amount::Percent(tenths(share)))
            .against(Amount::Percent(bound)),
    );
}

/// A polymer holds the drops by its share of the formula, and the ratio to the oils says nothing of it.
fn polymer(context: RuleContext<'_>, emulsion: &Emulsion, part: EmulsifierLine, findings: &mut Vec<Finding>) {
    let (Some(dose), Some(usual)) = (emulsion.dose, part.usual) else { return };
    let (oils, system) = (emulsion.oil, emulsion.system);
    salted(context, emulsion, part, findings);
    let (grade, said, bound) = match dose {
        Dose::Good => (Grade::Fine, Message::PolymerEnough { system, oils }, usual.good),
        Dose::Lean => (Grade::Care, Message::PolymerLow { system, oils }, usual.good),
        Dose::Low => (Grade::Stop, Message::PolymerLow { system, oils }, usual.least),
    };
    findings.push(
        Finding::said(RULE.code, grade, said, Basis::memory(usual.source))
            .on([part.line])
            .about(context.name(part.line))
            .found(Amount::Percent(part.share))
            .against(Amount::Percent(bound)),
    );
}

/// Salt shields the charges that a polymer stretches by, and with it goes what holds the drops.
fn salted(context: RuleContext<'_>, emulsion: &Emulsion, part: EmulsifierLine, findings: &mut Vec<Finding>) {
    let salts = context.class(SubstanceClass::SaltLike);
    let bound = criterion(criteria::CARBOMER_SALT);
    if emulsion.emulsifiers.len() > 1 || salts.most() <= bound.value {
        return;
    }
    let said = Message::PolymerSalted { system: emulsion.system, partners: salts.list() };
    findings.push(
        Finding::said(RULE.code, Grade::Stop, said, bound.basis)
            .rests_on(salts.basis)
            .on([part.line].into_iter().chain(salts.lines()))
            .about(context.name(part.line))
            .found(Amount::Percent(salts.most()))
            .against(Amount::Percent(bound.value)),
    );
}

/// In a gel network the balance does not decide: that is said instead.
fn balance(
    context: RuleContext<'_>,
    emulsion: &Emulsion,
    network: Option<(Members<'_>, Members<'_>)>,
    findings: &mut Vec<Finding>,
) {
    let (Some(required), Some(had)) = (emulsion.required, emulsion.hlb) else { return };
    if !emulsion.required_unknown.is_empty() {
        return;
    }
    let off = (required.units() - had.units()).abs();
    let pass = criterion(criteria::HLB_PASS);
    let partners = network.as_ref().map(|(_, partners)| partners.list()).unwrap_or_default();
    let (grade, said) = match off {
        off if off <= pass.value.units() => (Grade::Fine, Message::HlbMeets { partners }),
        _ if network.is_some() => (Grade::Unknown, Message::HlbOff { partners }),
        _ => (Grade::Care, Message::HlbOff { partners }),
    };
    let unseen = |hlb: Option<Sourced<Hlb>>| hlb.is_some_and(|hlb| !hlb.provenance.holds());
    let memory = context
        .known_lines()
        .iter()
        .any(|(_, _, _, entry)| unseen(entry.required_hlb()) || unseen(entry.emulsifier_hlb()));
    let mut finding = Finding::said(RULE.code, grade, said, pass.basis)
        .if_holds(!memory)
        .on(emulsion.emulsifiers.iter().map(|part| part.line))
        .found(Amount::Hundredths(had.units()))
        .against(Amount::Hundredths(required.units()));
    if let Some((formers, _)) = network {
        finding = finding.rests_on(formers.basis).about(formers.names());
    }
    findings.push(finding);
}
