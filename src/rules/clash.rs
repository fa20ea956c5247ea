//! Ingredients that undo each other.
//!
//! Why it matters: the emulsion breaks, the thickener falls out, the preservative is bound, a jar bursts.
//! Source: handbook practice, from memory.

use super::{Amount, Finding, Grade, Message, Rule, RuleContext};
use crate::facts::{SubstanceClass, criteria, criterion};
use crate::quantity::Percent;

pub(super) const RULE: Rule = Rule { code: "clash", check };

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    let mut pair = |a: SubstanceClass, b: SubstanceClass, grade: Grade, said: &dyn Fn(Vec<String>) -> Message| {
        let (a, b) = (context.class(a), context.class(b));
        if !a.is_empty() && !b.is_empty() {
            findings.push(
                Finding::said(RULE.code, grade, said(b.list()), a.basis)
                    .rests_on(b.basis)
                    .on(a.lines().into_iter().chain(b.lines()))
                    .about(a.names())
                    .found(Amount::Percent(a.most())),
            );
        }
    };
    pair(SubstanceClass::Cationic, SubstanceClass::Anionic, Grade::Stop, &|partners| {
        let gums = gums(context, &partners);
        Message::CationicWithAnionic { partners, gums }
    });
    pair(SubstanceClass::IronSensitive, SubstanceClass::Iron, Grade::Care, &|partners| Message::TurnsWithIron {
        partners,
    });
    pair(SubstanceClass::ZincOxide, SubstanceClass::AcidPreservative, Grade::Stop, &|partners| {
        Message::ZincWithAcidPreservative { partners }
    });
    pair(SubstanceClass::Bicarbonate, SubstanceClass::Acid, Grade::Stop, &|partners| Message::Fizzes { partners });
    // An acid that a base was added to is a salt.
    let neutralised = if context.class(SubstanceClass::Alkali).is_empty() {
        Percent::ZERO
    } else {
        context.class(SubstanceClass::Acid).most()
    };
    let salts = context.class(SubstanceClass::SaltLike).most().plus(neutralised);
    if salts > criterion(criteria::CARBOMER_SALT).value {
        let salts = if neutralised > Percent::ZERO { SubstanceClass::Acid } else { SubstanceClass::SaltLike };
        let salts = if context.class(SubstanceClass::SaltLike).is_empty() { salts } else { SubstanceClass::SaltLike };
        pair(SubstanceClass::Carbomer, salts, Grade::Care, &|partners| Message::SaltThinsCarbomer { partners });
    }
    if context.class(SubstanceClass::NonionicBinder).most() > criterion(criteria::BINDER).value {
        pair(SubstanceClass::NonionicBinder, SubstanceClass::BoundPreservative, Grade::Care, &|partners| {
            Message::BindsPreservative { partners }
        });
    }
    let soap = context.class(SubstanceClass::Soap);
    if let Some(ph) = context.ph().filter(|_| context.ph_below(criteria::SOAP_ACID_PH) && !soap.is_empty()) {
        let bound = criterion(criteria::SOAP_ACID_PH);
        findings.push(
            Finding::said(RULE.code, Grade::Stop, Message::SoapInAcid, bound.basis)
                .on(soap.lines())
                .about(soap.names())
                .found(Amount::Ph(ph))
                .against(Amount::Ph(bound.value)),
        );
    }
}

/// Which of the names are gums, in whose place another gum can thicken.
fn gums(context: RuleContext<'_>, names: &[String]) -> Vec<String> {
    let carbomers = context.class(SubstanceClass::Carbomer).list();
    let mut gums = context.class(SubstanceClass::Gum).list();
    gums.retain(|name| names.contains(name) && !carbomers.contains(name));
    gums
}
