//! The product's own pH: what skin, soap and some ingredients take.
//!
//! Why it matters: skin is a little acid; far from that it dries and burns. Source: Annex III/15a (d) for lye (below pH 11);
//! IS 6608 and custom for the rest.

use super::context::list;
use super::{Amount, Finding, Grade, Message, Remedy, Rule, RuleContext};
use crate::facts::{Basis, Criterion, SubstanceClass, criteria, criterion};
use crate::quantity::Ph;
use crate::sheet::SubstanceShare;

pub(super) const RULE: Rule = Rule { code: "product-ph", check };

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    if !context.is_wet() && !context.is_bar_soap() {
        return;
    }
    let Some(ph) = context.ph() else {
        if context.leave_on() {
            let basis = criterion(criteria::SKIN_PH_LOW).basis;
            findings.push(Finding::said(RULE.code, Grade::Unknown, Message::NoPh, basis));
        }
        return;
    };
    let mut say = |grade, said, bound: Criterion<Ph>| {
        let finding = Finding::said(RULE.code, grade, said, bound.basis);
        findings.push(finding.found(Amount::Ph(ph)).against(Amount::Ph(bound.value)));
    };
    let eleven = criterion(criteria::BAR_PH_STOP);
    // Law: below pH 11 where lye adjusts it. Soap above it is not finished.
    if context.has_lye() && ph >= eleven.value {
        say(Grade::Stop, Message::LyeTooAlkaline, eleven);
    } else if context.is_bar_soap() {
        let (low, care) = (criterion(criteria::BAR_PH_LOW), criterion(criteria::BAR_PH_CARE));
        match ph {
            ph if ph > care.value => say(Grade::Care, Message::SoapNotCured, care),
            ph if ph < low.value => say(Grade::Care, Message::SoapTooMild, low),
            _ => say(Grade::Fine, Message::SoapPh, care),
        }
    } else if context.leave_on() {
        skin(context, ph, &mut say);
    }
    named(context, ph, findings);
}

fn skin(context: RuleContext<'_>, ph: Ph, say: &mut dyn FnMut(Grade, Message, Criterion<Ph>)) {
    let (low, high) = (criterion(criteria::SKIN_PH_LOW), criterion(criteria::SKIN_PH_HIGH));
    let (lowest, highest) = (criterion(criteria::SKIN_PH_LOW_CARE), criterion(criteria::SKIN_PH_HIGH_CARE));
    if ph < lowest.value {
        say(Grade::Stop, Message::TooAcid { peeling: peels(context) }, lowest);
    } else if ph < low.value {
        say(Grade::Care, Message::TooAcid { peeling: peels(context) }, low);
    } else if ph <= high.value {
        say(Grade::Fine, Message::SkinPh, high);
    } else if ph <= highest.value {
        say(Grade::Care, Message::TooAlkaline { soaps: soaps(context) }, high);
    } else {
        say(Grade::Stop, Message::TooAlkaline { soaps: soaps(context) }, highest);
    }
}

/// The acids for which a product may be this acid: those that peel, as far as their own rule accepts the pH.
fn peels(context: RuleContext<'_>) -> Vec<String> {
    let acids = context.class(SubstanceClass::Aha);
    let accepted = acids.most() >= criterion(criteria::ACTIVE_AHA).value && !context.ph_below(criteria::AHA_PH);
    if accepted { acids.list() } else { Vec::new() }
}

/// The soap for which a product must be this alkaline: as an ingredient, or made in it of a fatty acid and a base.
fn soaps(context: RuleContext<'_>) -> Vec<String> {
    let (soap, acids) = (context.class(SubstanceClass::Soap), context.class(SubstanceClass::FattyAcid));
    let based = !context.class(SubstanceClass::Alkali).is_empty() || !context.class(SubstanceClass::Amine).is_empty();
    let made: &[&SubstanceShare] = if based { &acids.substances } else { &[] };
    list(&soap.substances.iter().chain(made).copied().collect::<Vec<_>>())
}

/// Ingredients that break down outside a range.
fn named(context: RuleContext<'_>, ph: Ph, findings: &mut Vec<Finding>) {
    let mut say = |class: &super::context::Members<'_>, said, bound: Criterion<Ph>, basis: Basis| {
        let goal = bound.value;
        findings.push(
            Finding::said(RULE.code, Grade::Care, said, basis)
                .on(class.lines())
                .about(class.names())
                .found(Amount::Ph(ph))
                .against(Amount::Ph(goal))
                .remedy([Remedy::TargetPh(goal)]),
        );
    };
    let blue = context.class(SubstanceClass::Ultramarine);
    if !blue.is_empty() && context.ph_below(criteria::ULTRAMARINE_PH) {
        say(&blue, Message::UltramarineInAcid, criterion(criteria::ULTRAMARINE_PH), blue.basis);
    }
    let niacinamide = context.class(SubstanceClass::Niacinamide);
    if !niacinamide.is_empty() && context.ph_below(criteria::NIACINAMIDE_PH_LOW) {
        say(&niacinamide, Message::NiacinamidePh, criterion(criteria::NIACINAMIDE_PH_LOW), niacinamide.basis);
    } else if !niacinamide.is_empty() && context.ph_above(criteria::NIACINAMIDE_PH_HIGH) {
        say(&niacinamide, Message::NiacinamidePh, criterion(criteria::NIACINAMIDE_PH_HIGH), niacinamide.basis);
    }
}
