//! Ingredients that undo each other.
//!
//! Why it matters: the emulsion breaks, the thickener falls out, the preservative is bound, a jar bursts.
//! Source: handbook practice, from memory.

use super::context::Members;
use super::{Amount, Finding, Grade, MessageId, Rule, RuleContext};
use crate::facts::{SubstanceClass, criteria, criterion};

pub(super) const RULE: Rule = Rule { code: "clash", check };

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    let mut pair = |a: &Members<'_>, b: &Members<'_>, grade: Grade, said: MessageId| {
        if !a.is_empty() && !b.is_empty() {
            findings.push(
                Finding::said(RULE.code, grade, said, a.basis)
                    .rests_on(b.basis)
                    .on(a.lines().into_iter().chain(b.lines()))
                    .about(a.names())
                    .more(b.names())
                    .found(Amount::Percent(a.most())),
            );
        }
    };
    pair(
        &context.class(SubstanceClass::Cationic),
        &context.class(SubstanceClass::Anionic),
        Grade::Stop,
        MessageId::CationicWithAnionic,
    );
    pair(
        &context.class(SubstanceClass::IronSensitive),
        &context.class(SubstanceClass::Iron),
        Grade::Care,
        MessageId::TurnsWithIron,
    );
    pair(
        &context.class(SubstanceClass::ZincOxide),
        &context.class(SubstanceClass::AcidPreservative),
        Grade::Stop,
        MessageId::ZincWithAcidPreservative,
    );
    pair(
        &context.class(SubstanceClass::Bicarbonate),
        &context.class(SubstanceClass::Acid),
        Grade::Stop,
        MessageId::Fizzes,
    );
    if context.class(SubstanceClass::SaltLike).most() > criterion(criteria::CARBOMER_SALT).value {
        pair(
            &context.class(SubstanceClass::Carbomer),
            &context.class(SubstanceClass::SaltLike),
            Grade::Care,
            MessageId::SaltThinsCarbomer,
        );
    }
    if context.class(SubstanceClass::NonionicBinder).most() > criterion(criteria::BINDER).value {
        pair(
            &context.class(SubstanceClass::NonionicBinder),
            &context.class(SubstanceClass::BoundPreservative),
            Grade::Care,
            MessageId::BindsPreservative,
        );
    }
    let soap = context.class(SubstanceClass::Soap);
    if let Some(ph) = context.ph().filter(|_| context.ph_below(criteria::SOAP_ACID_PH) && !soap.is_empty()) {
        let bound = criterion(criteria::SOAP_ACID_PH);
        findings.push(
            Finding::said(RULE.code, Grade::Stop, MessageId::SoapInAcid, bound.basis)
                .on(soap.lines())
                .about(soap.names())
                .found(Amount::Ph(ph))
                .against(Amount::Ph(bound.value)),
        );
    }
}
