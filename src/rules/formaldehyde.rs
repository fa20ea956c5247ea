//! Preservatives that release formaldehyde.
//!
//! Why it matters: who is allergic to formaldehyde reacts to what they release.
//! Source: Annex V, preamble 2 after its change of 2022 (label above 0.001 %) and entry 51 (barred from 0.1 %). How much a
//! substance can release is computed from molar masses. Great Britain keeps 0.05 %; since when the label is asked for in the
//! European Union is in `criteria.csv`.

use super::context::names;
use super::{Amount, Finding, Grade, Message, Rule, RuleContext};
use crate::facts::{Criterion, LabelDuty, ShareClass, criteria, criterion, fold, share_in};
use crate::quantity::Percent;
use crate::sheet::SubstanceShare;

pub(super) const RULE: Rule = Rule { code: "formaldehyde", check };

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    let released = |substance: &SubstanceShare| {
        share_in(ShareClass::Releaser, &substance.key).map(|(share, _)| substance.high.of(share))
    };
    let substances: Vec<&SubstanceShare> =
        context.substances().iter().filter(|substance| released(substance).is_some()).collect();
    let total: Percent = substances.iter().filter_map(|substance| released(substance)).sum();
    let (label, stop) = (criterion(criteria::FORMALDEHYDE_LABEL), criterion(criteria::FORMALDEHYDE_STOP));
    let entry_51 = substances.iter().any(|substance| substance.key == fold("Sodium Hydroxymethylglycinate"));
    let mut say = |grade, said, bound: Criterion<Percent>, substances: &[&SubstanceShare]| {
        findings.push(
            Finding::said(RULE.code, grade, said, bound.basis)
                .if_holds(grade != Grade::Stop || substances.iter().all(|substance| substance.trust.holds()))
                .on(substances.iter().map(|substance| substance.line))
                .about(names(substances))
                .found(Amount::Percent(total))
                .against(Amount::Percent(bound.value))
                .by_law(context.region(), bound.since),
        );
    };
    if entry_51 && total >= stop.value {
        say(Grade::Stop, Message::FormaldehydeBarred, stop, &substances);
    } else if total > label.value {
        say(Grade::Care, Message::FormaldehydeLabel, label, &substances);
    }
    // Bronopol and others release an amount that is not in the table.
    let duty = |substance: &SubstanceShare| {
        substance.preservative().is_some_and(|row| row.label == Some(LabelDuty::Formaldehyde))
    };
    let open: Vec<&SubstanceShare> =
        context.substances().iter().filter(|substance| duty(substance) && released(substance).is_none()).collect();
    if !open.is_empty() {
        say(Grade::Care, Message::FormaldehydeUnknown, label, &open);
    }
}
