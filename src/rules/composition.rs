//! A blend with a capped or listed substance in it whose shares nobody stated.
//!
//! Why it matters: no limit of it can be checked; up to the whole line may be that substance.
//! Source: Regulation (EC) 1223/2009 Annexes III and V ask for the sum over all sources.

use super::context::list;
use super::{Amount, Finding, Grade, Message, Rule, RuleContext};
use crate::facts::{Basis, PreservativeGroup, limits, source_text};
use crate::sheet::SubstanceShare;

pub(super) const RULE: Rule = Rule { code: "composition-unknown", check };

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    for line in &context.sheet.composition.open {
        let limited = |substance: &&SubstanceShare| {
            substance.line == *line
                && (substance.preservative().is_some_and(|row| row.group != PreservativeGroup::Booster)
                    || limits().iter().any(|limit| limit.names.iter().any(|(name, _)| *name == substance.key)))
        };
        let substances: Vec<&SubstanceShare> = context.substances().iter().filter(limited).collect();
        let Some(first) = substances.first() else { continue };
        let basis = Basis::verified(source_text("av"));
        let said = Message::CompositionUnknown { substances: list(&substances) };
        findings.push(
            Finding::said(RULE.code, Grade::Care, said, basis)
                .on([*line])
                .about(context.name(*line))
                .found(Amount::Percent(first.high)),
        );
    }
}
