//! Emulsifier: enough of it for the oil, and of the right balance.
//!
//! Why it matters: too little, or the wrong side of water and oil, and the lotion parts in the jar, its preservative with it.
//! Source: Griffin's HLB system; the doses are those of each emulsifier (common practice), the cut-offs choices of ours: all
//! of it advises. A fatty alcohol or glyceryl stearate with a hydrophilic partner builds a gel network, which holds a cream
//! whatever the balance (Eccleston 1997, from memory). Only for oil in water. Where an HLB is not known, or means nothing,
//! nothing is said of it.

use super::context::Members;
use super::{Amount, Finding, Grade, Message, Rule, RuleContext};
use crate::facts::{Basis, Hlb, RatioOf, SubstanceClass, UsualPhase, criteria, criterion};
use crate::formula::PhaseKind;
use crate::quantity::{Percent, Quantity};
use crate::sheet::{Crowding, Dose, EmulsifierLine, Emulsion};
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
    let network = network(context);
    let lipophilic = emulsion.hlb.filter(|_| network.is_none()).filter(|hlb| is_lipophilic(*hlb));
    match emulsion.polymer {
        Some(part) => polymer(context, emulsion, part, findings),
        None => dose(emulsion, lipophilic.is_some(), findings),
    }
    match lipophilic {
        Some(had) => wrong_side(emulsion, had, water, findings),
        None => balance(context, emulsion, network, findings),
    }
}

/// Up to this HLB an emulsifier holds water in oil.
fn is_lipophilic(hlb: Hlb) -> bool {
    hlb <= criterion(criteria::HLB_WATER_IN_OIL).value
}

/// Oil in drops that are closer than equal spheres can be. What holds water in oil has its drops elsewhere.
fn packing(emulsion: &Emulsion, findings: &mut Vec<Finding>) {
    let (Some(drops), Some(Crowding::BeyondPacking)) = (emulsion.dispersed, emulsion.crowding) else { return };
    if emulsion.hlb.is_some_and(is_lipophilic) {
        return;
    }
    let closest = criterion(criteria::CLOSE_PACKING);
    findings.push(
        Finding::said(RULE.code, Grade::Care, Message::DropsPacked, closest.basis)
            .on(emulsion.emulsifiers.iter().map(|part| part.line))
            .found(Amount::Percent(tenths(drops)))
            .against(Amount::Percent(tenths(closest.value))),
    );
}

/// What builds a gel network in the water and what it needs beside it, if both are there in more than traces.
fn network<'a>(context: RuleContext<'a>) -> Option<(Members<'a>, Members<'a>)> {
    let (formers, partners) = (context.class(SubstanceClass::GelFormer), context.class(SubstanceClass::GelPartner));
    let enough = formers.most() >= criterion(criteria::NETWORK_FORMER).value
        && partners.most() >= criterion(criteria::NETWORK_PARTNER).value.of(formers.most());
    enough.then_some((formers, partners))
}

/// Emulsifiers that hold water in oil, where there is more water than oil.
fn wrong_side(emulsion: &Emulsion, had: Hlb, water: Percent, findings: &mut Vec<Finding>) {
    let bound = criterion(criteria::HLB_WATER_IN_OIL);
    findings.push(
        Finding::said(RULE.code, Grade::Stop, Message::LipophilicOnly { water }, bound.basis)
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
    let emulsifies = |entry: &Ingredient| entry.has_function("Surfactant - emulsifying");
    if lines.iter().any(|(_, _, share, entry)| share.units() > 0 && emulsifies(entry)) {
        return Percent::ZERO;
    }
    lines.iter().filter(|(phase, _, _, entry)| oily(phase.kind, entry)).map(|(_, _, share, _)| *share).sum()
}

/// `lipophilic` says that these emulsifiers cannot hold this emulsion however much there is of them: no dose of them suffices.
fn dose(emulsion: &Emulsion, lipophilic: bool, findings: &mut Vec<Finding>) {
    let Some(share) = emulsion.share_of_oil else { return };
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
    let (grade, said, bound) = match grade {
        Dose::Good if lipophilic => return,
        Dose::Good => (Grade::Fine, Message::EmulsifierEnough { oils }, good),
        Dose::Lean => (Grade::Care, Message::EmulsifierLow { oils }, good),
        Dose::Low => (Grade::Stop, Message::EmulsifierLow { oils }, least),
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
    let oils = emulsion.oil;
    let (grade, said, bound) = match dose {
        Dose::Good => (Grade::Fine, Message::PolymerEnough { oils }, usual.good),
        Dose::Lean => (Grade::Care, Message::PolymerLow { oils }, usual.good),
        Dose::Low => (Grade::Stop, Message::PolymerLow { oils }, usual.least),
    };
    findings.push(
        Finding::said(RULE.code, grade, said, Basis::memory(usual.source))
            .on([part.line])
            .about(context.name(part.line))
            .found(Amount::Percent(part.share))
            .against(Amount::Percent(bound)),
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
    let steadied = context.class(SubstanceClass::Gum).most() >= criterion(criteria::HLB_STABILISER).value;
    let (pass, care) = (criterion(criteria::HLB_PASS), criterion(criteria::HLB_CARE));
    let partners = network.as_ref().map(|(_, partners)| partners.list()).unwrap_or_default();
    let (grade, said) = match off {
        off if off <= pass.value.units() => (Grade::Fine, Message::HlbMeets { partners }),
        _ if network.is_some() => (Grade::Unknown, Message::HlbOff { partners }),
        off if off <= care.value.units() || steadied => (Grade::Care, Message::HlbOff { partners }),
        _ => (Grade::Stop, Message::HlbOff { partners }),
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
