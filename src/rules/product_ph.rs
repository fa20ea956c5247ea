//! The product's own pH: what skin, soap and some ingredients take.
//!
//! Why it matters: skin is a little acid; far from that it dries and burns. Source: Annex III/15a (d) for lye (below pH 11);
//! IS 6608 and custom for the rest.

use super::case::names;
use super::{Amount, Case, Finding, Grade, Mend, Rule, Said};
use crate::facts::{Basis, Criterion, criterion};
use crate::quantity::{Ph, Quantity};
use crate::sheet::Bit;

pub(super) const RULE: Rule = Rule { code: "product-ph", check };

fn check(case: Case<'_>, findings: &mut Vec<Finding>) {
    if !case.is_wet() && !case.is_bar_soap() {
        return;
    }
    let Some(ph) = case.ph() else {
        if case.leave_on() {
            let basis = criterion("skin-ph-low").basis;
            findings.push(Finding::said(RULE.code, Grade::Unknown, Said::NoPh, basis));
        }
        return;
    };
    let mut say = |grade, said, bound: Criterion| {
        let finding = Finding::said(RULE.code, grade, said, bound.basis)
            .found(Amount::Ph(ph))
            .against(Amount::Hundredths(bound.hundredths()));
        findings.push(match said {
            Said::TooAcid => finding.more(peels(case)),
            Said::TooAlkaline => finding.more(soap(case)),
            _ => finding,
        });
    };
    let eleven = criterion("bar-ph-stop");
    // Law: below pH 11 where lye adjusts it. Soap above it is not finished.
    if case.has_lye() && ph.units() >= eleven.hundredths() {
        say(Grade::Stop, Said::LyeTooAlkaline, eleven);
    } else if case.is_bar_soap() {
        let (low, care) = (criterion("bar-ph-low"), criterion("bar-ph-care"));
        match ph.units() {
            ph if ph > care.hundredths() => say(Grade::Care, Said::SoapNotCured, care),
            ph if ph < low.hundredths() => say(Grade::Care, Said::SoapTooMild, low),
            _ => say(Grade::Fine, Said::SoapPh, care),
        }
    } else if case.leave_on() {
        skin(ph, &mut say);
    }
    named(case, ph, findings);
}

fn skin(ph: Ph, say: &mut dyn FnMut(Grade, Said, Criterion)) {
    let (low, high) = (criterion("skin-ph-low"), criterion("skin-ph-high"));
    let (lowest, highest) = (criterion("skin-ph-low-care"), criterion("skin-ph-high-care"));
    let ph = ph.units();
    if ph < lowest.hundredths() {
        say(Grade::Stop, Said::TooAcid, lowest);
    } else if ph < low.hundredths() {
        say(Grade::Care, Said::TooAcid, low);
    } else if ph <= high.hundredths() {
        say(Grade::Fine, Said::SkinPh, high);
    } else if ph <= highest.hundredths() {
        say(Grade::Care, Said::TooAlkaline, high);
    } else {
        say(Grade::Stop, Said::TooAlkaline, highest);
    }
}

/// The acids for which a product may be this acid: those that peel, as far as their own rule accepts the pH.
fn peels(case: Case<'_>) -> String {
    let acids = case.class("aha");
    let accepted = acids.most() >= criterion("active-aha").percent() && !case.ph_below("aha-ph");
    if accepted { acids.names() } else { String::new() }
}

/// The soap for which a product must be this alkaline: as an ingredient, or made in it of a fatty acid and a base.
fn soap(case: Case<'_>) -> String {
    let (soap, acids) = (case.class("soap"), case.class("fatty-acid"));
    let based = !case.class("alkali").is_empty() || !case.class("amine").is_empty();
    let made: &[&Bit] = if based { &acids.bits } else { &[] };
    names(&soap.bits.iter().chain(made).copied().collect::<Vec<_>>())
}

/// Ingredients that break down outside a range.
fn named(case: Case<'_>, ph: Ph, findings: &mut Vec<Finding>) {
    let mut say = |class: &super::case::Members<'_>, said, bound: Criterion, basis: Basis| {
        let goal = Ph::from_units(bound.hundredths());
        findings.push(
            Finding::said(RULE.code, Grade::Care, said, basis)
                .on(class.lines())
                .about(class.names())
                .found(Amount::Ph(ph))
                .against(Amount::Ph(goal))
                .mend([Mend::TargetPh(goal)]),
        );
    };
    let blue = case.class("ultramarine");
    if !blue.is_empty() && case.ph_below("ultramarine-ph") {
        say(&blue, Said::UltramarineInAcid, criterion("ultramarine-ph"), blue.basis);
    }
    let niacinamide = case.class("niacinamide");
    if !niacinamide.is_empty() && case.ph_below("niacinamide-ph-low") {
        say(&niacinamide, Said::NiacinamidePh, criterion("niacinamide-ph-low"), niacinamide.basis);
    } else if !niacinamide.is_empty() && case.ph_above("niacinamide-ph-high") {
        say(&niacinamide, Said::NiacinamidePh, criterion("niacinamide-ph-high"), niacinamide.basis);
    }
}
