//! Substances that law or advice caps, all their sources summed.
//!
//! Why it matters: vitamin A, salicylic acid and some fragrance substances do harm above a share that the whole product,
//! not the single line, must keep.
//! Source: Regulation (EC) 1223/2009 Annex III and its changes, row by row in the table of limits.

use super::context::names;
use super::counts::counted;
use super::{Amount, Finding, Grade, Message, Remedy, Rule, RuleContext};
use crate::facts::{criteria, criterion, limits};
use crate::quantity::{Percent, Quantity};
use crate::sheet::SubstanceShare;

pub(super) const RULE: Rule = Rule { code: "capped", check };

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    for limit in limits().iter().filter(|limit| limit.holds_for(context.leave_on(), context.area().key())) {
        let Some(most) = limit.most else { continue };
        let substances: Vec<&SubstanceShare> =
            context.substances().iter().filter(|substance| counted(limit, substance).units() > 0).collect();
        if substances.is_empty() {
            continue;
        }
        let found: Percent = substances.iter().map(|substance| counted(limit, substance)).sum();
        let sure: Percent = substances
            .iter()
            .filter(|substance| substance.trust.holds())
            .map(|substance| counted(limit, substance))
            .sum();
        let near = most.of(criterion(criteria::NEAR).value);
        let (grade, said) = if found > most {
            (Grade::Stop, Message::AboveCap)
        } else if found > near {
            (Grade::Care, Message::NearCap)
        } else {
            (Grade::Fine, Message::WithinCap)
        };
        let lines: Vec<_> = substances.iter().map(|substance| substance.line).collect();
        let remedy = (found > most).then(|| lines.first().copied()).flatten().filter(|_| lines.len() == 1);
        let share = remedy.and_then(|line| Some(Remedy::Share(line, context.lower_share(line, found, most)?)));
        let mut finding = Finding::said(RULE.code, grade, said, limit.basis)
            .if_holds(found <= most || sure > most)
            .on(lines.iter().copied())
            .about(names(&substances))
            .found(Amount::Percent(found))
            .against(Amount::Percent(most))
            .duty(limit.label)
            .document(context.documents(&lines))
            .remedy(share);
        // What an expert panel advises is law nowhere, and good advice everywhere.
        if limit.entry.starts_with("II") {
            finding = finding.by_law(context.region(), limit.since);
        }
        findings.push(finding);
    }
}
