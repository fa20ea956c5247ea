//! Preservatives of which more is in the formula than its water and oil hold.
//!
//! Why it matters: crystals do not act, feel like sand, and come weeks later in the cold. Source: solubilities and partition
//! coefficients of `facts/partition`; the sum is mass balance.

use super::context::names;
use super::{Amount, Finding, Grade, Message, Rule, RuleContext};
use crate::sheet::{Dissolves, SubstanceShare};

pub(super) const RULE: Rule = Rule { code: "undissolved", check };

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    let Some(preservation) = context.sheet.preservation.as_ref().filter(|_| context.is_wet()) else { return };
    for agent in &preservation.agents {
        let Some(found) = agent.in_water.as_ref().filter(|found| found.dissolves == Dissolves::No) else { continue };
        let finding = Finding::said(RULE.code, Grade::Care, Message::MoreThanDissolves, found.basis);
        let brings = |substance: &&SubstanceShare| {
            substance.preservative().is_some_and(|row| row.sum_with == agent.substance.id)
        };
        let subject = names(&context.substances().iter().filter(brings).collect::<Vec<_>>());
        let finding = finding.on(agent.lines.clone()).about(subject).found(Amount::Percent(agent.counted));
        findings.push(match found.most {
            Some(most) => finding.against(Amount::Percent(most)),
            None => finding,
        });
    }
}
