//! Substances that law or advice caps, all their sources summed.
//!
//! Why it matters: vitamin A, salicylic acid and some fragrance substances do harm above a share that the whole product,
//! not the single line, must keep.
//! Source: Regulation (EC) 1223/2009 Annex III and its changes, row by row in the table of limits.

use super::case::names;
use super::{Amount, Case, Finding, Grade, Mend, Rule, Said};
use crate::facts::{Limit, criterion, limits};
use crate::quantity::{Percent, Quantity};
use crate::sheet::Bit;

pub(super) const RULE: Rule = Rule { code: "capped", check };

fn check(case: Case<'_>, findings: &mut Vec<Finding>) {
    for limit in limits().iter().filter(|limit| limit.holds_for(case.leave_on(), case.area().key())) {
        let Some(most) = limit.most else { continue };
        let bits: Vec<&Bit> = case.bits().iter().filter(|bit| counted(limit, bit).units() > 0).collect();
        if bits.is_empty() {
            continue;
        }
        let found: Percent = bits.iter().map(|bit| counted(limit, bit)).sum();
        let sure: Percent = bits.iter().filter(|bit| bit.trust.holds()).map(|bit| counted(limit, bit)).sum();
        let near = most.of(criterion("near").percent());
        let (grade, said) = if found > most {
            (Grade::Stop, Said::AboveCap)
        } else if found > near {
            (Grade::Care, Said::NearCap)
        } else {
            (Grade::Fine, Said::WithinCap)
        };
        let lines: Vec<_> = bits.iter().map(|bit| bit.line).collect();
        let mend = (found > most).then(|| lines.first().copied()).flatten().filter(|_| lines.len() == 1);
        let share = mend.and_then(|line| Some(Mend::Share(line, case.lower_share(line, found, most)?)));
        let mut finding = Finding::said(RULE.code, grade, said, limit.basis)
            .if_holds(found <= most || sure > most)
            .on(lines.iter().copied())
            .about(names(&bits))
            .found(Amount::Percent(found))
            .against(Amount::Percent(most))
            .duty(limit.label)
            .document(case.documents(&lines))
            .mend(share);
        // What an expert panel advises is law nowhere, and good advice everywhere.
        if limit.entry.starts_with("II") {
            finding = finding.by_law(case.region(), limit.since);
        }
        findings.push(finding);
    }
}

/// What of a bit counts against a cap.
pub(super) fn counted(limit: &Limit, bit: &Bit) -> Percent {
    limit.names.iter().find(|(name, _)| *name == bit.key).map_or(Percent::ZERO, |(_, part)| bit.high.of(*part))
}
