//! Ingredients that undo each other.
//!
//! Why it matters: the emulsion breaks, the thickener falls out, the preservative is bound, a jar bursts.
//! Source: handbook practice, from memory.

use super::context::Members;
use super::{Amount, Finding, Grade, MessageId, Rule, RuleContext};
use crate::facts::criterion;

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
    pair(&context.class("cationic"), &context.class("anionic"), Grade::Stop, MessageId::CationicWithAnionic);
    pair(&context.class("iron-sensitive"), &context.class("iron"), Grade::Care, MessageId::TurnsWithIron);
    pair(
        &context.class("zinc-oxide"),
        &context.class("acid-preservative"),
        Grade::Stop,
        MessageId::ZincWithAcidPreservative,
    );
    pair(&context.class("bicarbonate"), &context.class("acid"), Grade::Stop, MessageId::Fizzes);
    if context.class("salt-like").most() > criterion("carbomer-salt").percent() {
        pair(&context.class("carbomer"), &context.class("salt-like"), Grade::Care, MessageId::SaltThinsCarbomer);
    }
    if context.class("nonionic-binder").most() > criterion("binder").percent() {
        pair(
            &context.class("nonionic-binder"),
            &context.class("bound-preservative"),
            Grade::Care,
            MessageId::BindsPreservative,
        );
    }
    let soap = context.class("soap");
    if let Some(ph) = context.ph().filter(|_| context.ph_below("soap-acid-ph") && !soap.is_empty()) {
        let bound = criterion("soap-acid-ph");
        findings.push(
            Finding::said(RULE.code, Grade::Stop, MessageId::SoapInAcid, bound.basis)
                .on(soap.lines())
                .about(soap.names())
                .found(Amount::Ph(ph))
                .against(Amount::Hundredths(bound.hundredths())),
        );
    }
}
