//! Acids that peel: how acid they may be, and the warning about the sun.
//!
//! Why it matters: at a low pH they burn, and skin that they thinned burns in the sun for days afterwards.
//! Source: FDA guidance of January 2005 on the warning; CIR on pH 3.5, from memory. From which share an acid counts as
//! more than an adjuster is a choice of ours. The greatest share stands among the capped substances.

use super::{Amount, Case, Finding, Grade, Rule, Said};
use crate::facts::criterion;

pub(super) const RULE: Rule = Rule { code: "aha", check };

fn check(case: Case<'_>, findings: &mut Vec<Finding>) {
    let acids = case.class("aha");
    if acids.most() < criterion("active-aha").percent() {
        return;
    }
    if let Some(ph) = case.ph().filter(|_| case.ph_below("aha-ph")) {
        let low = criterion("aha-ph");
        findings.push(
            Finding::said(RULE.code, Grade::Stop, Said::AhaTooAcid, low.basis)
                .rests_on(criterion("active-aha").basis)
                .on(acids.lines())
                .about(acids.names())
                .found(Amount::Ph(ph))
                .against(Amount::Hundredths(low.hundredths())),
        );
    }
    findings.push(
        Finding::said(RULE.code, Grade::Care, Said::Sunburn, acids.basis)
            .on(acids.lines())
            .about(acids.names())
            .found(Amount::Percent(acids.most())),
    );
}
