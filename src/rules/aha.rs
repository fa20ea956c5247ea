//! Acids that peel: how acid they may be, and the warning about the sun.
//!
//! Why it matters: at a low pH they burn, and skin that they thinned burns in the sun for days afterwards.
//! Source: FDA guidance of January 2005 on the warning; CIR on pH 3.5, from memory. From which share an acid counts as
//! more than an adjuster is a choice of ours. The greatest share stands among the capped substances.

use super::{Amount, Finding, Grade, Message, Rule, RuleContext};
use crate::facts::{SubstanceClass, criteria, criterion};

pub(super) const RULE: Rule = Rule { code: "aha", check };

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    let acids = context.class(SubstanceClass::Aha);
    if acids.most() < criterion(criteria::ACTIVE_AHA).value {
        return;
    }
    if let Some(ph) = context.ph().filter(|_| context.ph_below(criteria::AHA_PH)) {
        let low = criterion(criteria::AHA_PH);
        findings.push(
            Finding::said(RULE.code, Grade::Stop, Message::AhaTooAcid, low.basis)
                .rests_on(criterion(criteria::ACTIVE_AHA).basis)
                .on(acids.lines())
                .about(acids.names())
                .found(Amount::Ph(ph))
                .against(Amount::Ph(low.value)),
        );
    }
    findings.push(
        Finding::said(RULE.code, Grade::Care, Message::Sunburn, acids.basis)
            .on(acids.lines())
            .about(acids.names())
            .found(Amount::Percent(acids.most())),
    );
}
