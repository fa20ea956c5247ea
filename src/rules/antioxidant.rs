//! Oils that go rancid fast, and nothing that slows it.
//!
//! Why it matters: rancid oil smells, irritates, and makes sensitising peroxides.
//! Source: which oils are fast is common knowledge of the trade, from memory; the share from which it matters is a choice
//! of ours.

use super::{Amount, Case, Finding, Grade, Mend, Rule, Said};
use crate::facts::{IngredientId, criterion};
use crate::formula::PhaseKind;
use crate::quantity::Percent;

pub(super) const RULE: Rule = Rule { code: "no-antioxidant", check };

/// What is proposed: 0.3 % of mixed tocopherols, inside their usual range.
const DOSE: Percent = Percent::millionths(300_000);

fn check(case: Case<'_>, findings: &mut Vec<Finding>) {
    let oils = case.class("fast-oxidising");
    let bound = criterion("antioxidant-oil");
    if oils.most() < bound.percent() || !case.class("antioxidant").is_empty() {
        return;
    }
    let add = IngredientId::parse("tocopherol").ok().map(|id| Mend::Add(id, DOSE, PhaseKind::CoolDown));
    findings.push(
        Finding::said(RULE.code, Grade::Care, Said::NoAntioxidant, oils.basis)
            .on(oils.lines())
            .about(oils.names())
            .found(Amount::Percent(oils.most()))
            .against(Amount::Percent(bound.percent()))
            .mend(add),
    );
}
