//! What is left out of products for pregnancy and breastfeeding.
//!
//! Why it matters: vitamin A and salicylic acid in quantity, and some essential oils, may harm the unborn child.
//! Source: custom, cautious; tea tree oil after the European Union's proposed class. A midwife or doctor knows the person.

use super::capped::counted;
use super::case::names;
use super::{Amount, Case, Finding, Grade, Mend, Rule, Said};
use crate::facts::{Basis, Seen, limits, source_text};
use crate::formula::Audience;
use crate::quantity::Percent;

pub(super) const RULE: Rule = Rule { code: "pregnancy", check };

fn check(case: Case<'_>, findings: &mut Vec<Finding>) {
    if case.about().audience != Audience::Pregnant {
        return;
    }
    let custom = Basis { source: source_text("custom"), seen: Seen::Custom };
    for (class, said) in [("retinoid", Said::RetinoidPregnancy), ("tea-tree", Said::TeaTreePregnancy)] {
        let members = case.class(class);
        if !members.is_empty() {
            findings.push(
                Finding::said(RULE.code, Grade::Stop, said, custom)
                    .on(members.lines())
                    .about(members.names())
                    .found(Amount::Percent(members.most()))
                    .mend(members.lines().into_iter().map(Mend::Remove)),
            );
        }
    }
    // Above what it may have as a preservative, whatever the area.
    for limit in limits().iter().filter(|limit| limit.id == "salicylic-body") {
        let bits: Vec<_> = case.bits().iter().filter(|bit| counted(limit, bit) > Percent::ZERO).collect();
        let found: Percent = bits.iter().map(|bit| counted(limit, bit)).sum();
        if let Some(most) = limit.most.filter(|most| found > *most) {
            findings.push(
                Finding::said(RULE.code, Grade::Stop, Said::SalicylicPregnancy, custom)
                    .if_holds(bits.iter().all(|bit| bit.trust.holds()))
                    .on(bits.iter().map(|bit| bit.line))
                    .about(names(&bits))
                    .found(Amount::Percent(found))
                    .against(Amount::Percent(most)),
            );
        }
    }
    if !case.sheet.makeup.scents.is_empty() {
        let scents = &case.sheet.makeup.scents;
        findings.push(
            Finding::said(RULE.code, Grade::Care, Said::ScentPregnancy, custom)
                .on(scents.iter().map(|scent| scent.line))
                .found(Amount::Percent(scents.iter().map(|scent| scent.share).sum())),
        );
    }
}
