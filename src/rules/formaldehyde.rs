//! Preservatives that release formaldehyde.
//!
//! Why it matters: who is allergic to formaldehyde reacts to what they release.
//! Source: Annex V, preamble 2 after its change of 2022 (label above 0.001 %) and entry 51 (barred from 0.1 %). How much a
//! substance can release is computed from molar masses.

use super::case::names;
use super::{Amount, Case, Finding, Grade, Rule, Said};
use crate::facts::{LabelDuty, criterion, fold, share_in};
use crate::quantity::Percent;
use crate::sheet::Bit;

pub(super) const RULE: Rule = Rule { code: "formaldehyde", check };

/// The change of 2022 is law in the European Union since this day; Great Britain keeps 0.05 %.
const SINCE: &str = "2024-07-31";

fn check(case: Case<'_>, findings: &mut Vec<Finding>) {
    let released = |bit: &Bit| share_in("releaser", &bit.key).map(|(share, _)| bit.high.of(share));
    let bits: Vec<&Bit> = case.bits().iter().filter(|bit| released(bit).is_some()).collect();
    let total: Percent = bits.iter().filter_map(|bit| released(bit)).sum();
    let (label, stop) = (criterion("formaldehyde-label"), criterion("formaldehyde-stop"));
    let entry_51 = bits.iter().any(|bit| bit.key == fold("Sodium Hydroxymethylglycinate"));
    let mut say = |grade, said, bound: crate::facts::Criterion, bits: &[&Bit], since| {
        findings.push(
            Finding::said(RULE.code, grade, said, bound.basis)
                .if_holds(grade != Grade::Stop || bits.iter().all(|bit| bit.trust.holds()))
                .on(bits.iter().map(|bit| bit.line))
                .about(names(bits))
                .found(Amount::Percent(total))
                .against(Amount::Percent(bound.percent()))
                .by_law(case.region(), since),
        );
    };
    if entry_51 && total >= stop.percent() {
        say(Grade::Stop, Said::FormaldehydeBarred, stop, &bits, "");
    } else if total > label.percent() {
        say(Grade::Care, Said::FormaldehydeLabel, label, &bits, SINCE);
    }
    // Bronopol and others release an amount that is not in the table.
    let duty = |bit: &Bit| bit.preservative().is_some_and(|row| row.label == Some(LabelDuty::Formaldehyde));
    let open: Vec<&Bit> = case.bits().iter().filter(|bit| duty(bit) && released(bit).is_none()).collect();
    if !open.is_empty() {
        say(Grade::Care, Said::FormaldehydeUnknown, label, &open, SINCE);
    }
}
