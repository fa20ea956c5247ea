//! Water without a chelator.
//!
//! Why it matters: traces of metal turn oils rancid and colours muddy, and Gram-negative bacteria withstand preservatives
//! better. Source: custom of the trade.

use super::{Amount, Finding, Grade, Message, Remedy, Rule, RuleContext};
use crate::facts::{IngredientId, SubstanceClass, criteria, criterion};
use crate::formula::PhaseKind;
use crate::quantity::Percent;

pub(super) const RULE: Rule = Rule { code: "no-chelator", check };

/// What is proposed: 0.2 % of sodium phytate solution, inside its usual range.
const DOSE: Percent = Percent::millionths(200_000);

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    let (water, bound) = (context.water(), criterion(criteria::CHELATOR_WATER));
    let wet = water.most() >= bound.value;
    if !wet
        || context.class(SubstanceClass::Chelator).most() >= criterion(criteria::CHELATOR_DOSE).value
        || context.is_bar_soap()
    {
        return;
    }
    let add = IngredientId::parse("sodium-phytate").ok().map(|id| Remedy::Add(id, DOSE, PhaseKind::Water));
    findings.push(
        Finding::said(RULE.code, Grade::Care, Message::NoChelator, bound.basis)
            .found(Amount::Percent(water.most()))
            .against(Amount::Percent(bound.value))
            .remedy(add),
    );
}
