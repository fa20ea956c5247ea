//! Ingredients that undo each other.
//!
//! Why it matters: the emulsion breaks, the thickener falls out, the preservative is bound, a jar bursts.
//! Source: handbook practice, from memory.

use super::case::Members;
use super::{Amount, Case, Finding, Grade, Rule, Said};
use crate::facts::criterion;

pub(super) const RULE: Rule = Rule { code: "clash", check };

fn check(case: Case<'_>, findings: &mut Vec<Finding>) {
    let mut pair = |a: &Members<'_>, b: &Members<'_>, grade: Grade, said: Said| {
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
    pair(&case.class("cationic"), &case.class("anionic"), Grade::Stop, Said::CationicWithAnionic);
    pair(&case.class("iron-sensitive"), &case.class("iron"), Grade::Care, Said::TurnsWithIron);
    pair(&case.class("zinc-oxide"), &case.class("acid-preservative"), Grade::Stop, Said::ZincWithAcidPreservative);
    pair(&case.class("bicarbonate"), &case.class("acid"), Grade::Stop, Said::Fizzes);
    if case.class("salt-like").most() > criterion("carbomer-salt").percent() {
        pair(&case.class("carbomer"), &case.class("salt-like"), Grade::Care, Said::SaltThinsCarbomer);
    }
    if case.class("nonionic-binder").most() > criterion("binder").percent() {
        pair(&case.class("nonionic-binder"), &case.class("bound-preservative"), Grade::Care, Said::BindsPreservative);
    }
    let soap = case.class("soap");
    if let Some(ph) = case.ph().filter(|_| case.ph_below("soap-acid-ph") && !soap.is_empty()) {
        let bound = criterion("soap-acid-ph");
        findings.push(
            Finding::said(RULE.code, Grade::Stop, Said::SoapInAcid, bound.basis)
                .on(soap.lines())
                .about(soap.names())
                .found(Amount::Ph(ph))
                .against(Amount::Hundredths(bound.hundredths())),
        );
    }
}
