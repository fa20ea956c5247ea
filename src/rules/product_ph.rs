//! The product's own pH: what skin, soap and some ingredients take.
//!
//! Why it matters: skin is a little acid; far from that it dries and burns. Source: Annex III/15a (d) for lye (below pH 11);
//! IS 6608 and custom for the rest.

use super::context::names;
use super::{Amount, Finding, Grade, MessageId, Remedy, Rule, RuleContext};
use crate::facts::{Basis, Criterion, criterion};
use crate::quantity::{Ph, Quantity};
use crate::sheet::SubstanceShare;

pub(super) const RULE: Rule = Rule { code: "product-ph", check };

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    if !context.is_wet() && !context.is_bar_soap() {
        return;
    }
    let Some(ph) = context.ph() else {
        if context.leave_on() {
            let basis = criterion("skin-ph-low").basis;
            findings.push(Finding::said(RULE.code, Grade::Unknown, MessageId::NoPh, basis));
        }
        return;
    };
    let mut say = |grade, said, bound: Criterion| {
        let finding = Finding::said(RULE.code, grade, said, bound.basis)
            .found(Amount::Ph(ph))
            .against(Amount::Hundredths(bound.hundredths()));
        findings.push(match said {
            MessageId::TooAcid => finding.more(peels(context)),
            MessageId::TooAlkaline => finding.more(soap(context)),
            _ => finding,
        });
    };
    let eleven = criterion("bar-ph-stop");
    // Law: below pH 11 where lye adjusts it. Soap above it is not finished.
    if context.has_lye() && ph.units() >= eleven.hundredths() {
        say(Grade::Stop, MessageId::LyeTooAlkaline, eleven);
    } else if context.is_bar_soap() {
        let (low, care) = (criterion("bar-ph-low"), criterion("bar-ph-care"));
        match ph.units() {
            ph if ph > care.hundredths() => say(Grade::Care, MessageId::SoapNotCured, care),
            ph if ph < low.hundredths() => say(Grade::Care, MessageId::SoapTooMild, low),
            _ => say(Grade::Fine, MessageId::SoapPh, care),
        }
    } else if context.leave_on() {
        skin(ph, &mut say);
    }
    named(context, ph, findings);
}

fn skin(ph: Ph, say: &mut dyn FnMut(Grade, MessageId, Criterion)) {
    let (low, high) = (criterion("skin-ph-low"), criterion("skin-ph-high"));
    let (lowest, highest) = (criterion("skin-ph-low-care"), criterion("skin-ph-high-care"));
    let ph = ph.units();
    if ph < lowest.hundredths() {
        say(Grade::Stop, MessageId::TooAcid, lowest);
    } else if ph < low.hundredths() {
        say(Grade::Care, MessageId::TooAcid, low);
    } else if ph <= high.hundredths() {
        say(Grade::Fine, MessageId::SkinPh, high);
    } else if ph <= highest.hundredths() {
        say(Grade::Care, MessageId::TooAlkaline, high);
    } else {
        say(Grade::Stop, MessageId::TooAlkaline, highest);
    }
}

/// The acids for which a product may be this acid: those that peel, as far as their own rule accepts the pH.
fn peels(context: RuleContext<'_>) -> String {
    let acids = context.class("aha");
    let accepted = acids.most() >= criterion("active-aha").percent() && !context.ph_below("aha-ph");
    if accepted { acids.names() } else { String::new() }
}

/// The soap for which a product must be this alkaline: as an ingredient, or made in it of a fatty acid and a base.
fn soap(context: RuleContext<'_>) -> String {
    let (soap, acids) = (context.class("soap"), context.class("fatty-acid"));
    let based = !context.class("alkali").is_empty() || !context.class("amine").is_empty();
    let made: &[&SubstanceShare] = if based { &acids.substances } else { &[] };
    names(&soap.substances.iter().chain(made).copied().collect::<Vec<_>>())
}

/// Ingredients that break down outside a range.
fn named(context: RuleContext<'_>, ph: Ph, findings: &mut Vec<Finding>) {
    let mut say = |class: &super::context::Members<'_>, said, bound: Criterion, basis: Basis| {
        let goal = Ph::from_units(bound.hundredths());
        findings.push(
            Finding::said(RULE.code, Grade::Care, said, basis)
                .on(class.lines())
                .about(class.names())
                .found(Amount::Ph(ph))
                .against(Amount::Ph(goal))
                .remedy([Remedy::TargetPh(goal)]),
        );
    };
    let blue = context.class("ultramarine");
    if !blue.is_empty() && context.ph_below("ultramarine-ph") {
        say(&blue, MessageId::UltramarineInAcid, criterion("ultramarine-ph"), blue.basis);
    }
    let niacinamide = context.class("niacinamide");
    if !niacinamide.is_empty() && context.ph_below("niacinamide-ph-low") {
        say(&niacinamide, MessageId::NiacinamidePh, criterion("niacinamide-ph-low"), niacinamide.basis);
    } else if !niacinamide.is_empty() && context.ph_above("niacinamide-ph-high") {
        say(&niacinamide, MessageId::NiacinamidePh, criterion("niacinamide-ph-high"), niacinamide.basis);
    }
}
