//! What is left out of products for pregnancy and breastfeeding.
//!
//! Why it matters: vitamin A and salicylic acid in quantity, and some essential oils, may harm the unborn child.
//! Source: custom, cautious; tea tree oil after the European Union's proposed class. A midwife or doctor knows the person.

use super::context::names;
use super::counts::counted;
use super::{Amount, Finding, Grade, Message, Remedy, Rule, RuleContext};
use crate::facts::{Basis, SubstanceClass, limits, source_text};
use crate::formula::Audience;
use crate::quantity::Percent;

pub(super) const RULE: Rule = Rule { code: "pregnancy", check };

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    if context.about().audience != Audience::Pregnant {
        return;
    }
    let custom = Basis::custom(source_text("custom"));
    for (class, said) in
        [(SubstanceClass::Retinoid, Message::RetinoidPregnancy), (SubstanceClass::TeaTree, Message::TeaTreePregnancy)]
    {
        let members = context.class(class);
        if !members.is_empty() {
            findings.push(
                Finding::said(RULE.code, Grade::Stop, said, custom)
                    .on(members.lines())
                    .about(members.names())
                    .found(Amount::Percent(members.most()))
                    .remedy(members.lines().into_iter().map(Remedy::Remove)),
            );
        }
    }
    // Above what it may have as a preservative, whatever the area.
    for limit in limits().iter().filter(|limit| limit.id == "salicylic-body") {
        let substances: Vec<_> =
            context.substances().iter().filter(|substance| counted(limit, substance) > Percent::ZERO).collect();
        let found: Percent = substances.iter().map(|substance| counted(limit, substance)).sum();
        if let Some(most) = limit.most.filter(|most| found > *most) {
            findings.push(
                Finding::said(RULE.code, Grade::Stop, Message::SalicylicPregnancy, custom)
                    .if_holds(substances.iter().all(|substance| substance.trust.holds()))
                    .on(substances.iter().map(|substance| substance.line))
                    .about(names(&substances))
                    .found(Amount::Percent(found))
                    .against(Amount::Percent(most)),
            );
        }
    }
    if !context.sheet.composition.scents.is_empty() {
        let scents = &context.sheet.composition.scents;
        findings.push(
            Finding::said(RULE.code, Grade::Care, Message::ScentPregnancy, custom)
                .on(scents.iter().map(|scent| scent.line))
                .found(Amount::Percent(scents.iter().map(|scent| scent.share).sum())),
        );
    }
}
