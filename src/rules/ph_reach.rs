//! A target pH that the formula as it stands does not reach, by the estimate for its water.
//!
//! Why it matters: a target says what is wanted, not what will be in the jar. An emulsion of pH 2.5 with a target of 5.2
//! peels skin, and one of pH 8 with benzoate in it goes mouldy. Source: the model of `sheet/ph`; from which distance on it
//! takes care is a choice of ours. An estimate is no measurement: this never stops, and what it could not count makes it
//! Unknown.

use super::{Amount, Finding, Grade, MessageId, Rule, RuleContext};
use crate::facts::{Adjusts, criteria, criterion};
use crate::formula::LineId;
use crate::quantity::{Ph, Quantity};
use crate::sheet::ph::{Missed, Prediction};

pub(super) const RULE: Rule = Rule { code: "ph-reach", check };

/// True if the target lies so far outside of the estimate that a little of what could not be known does not explain it.
pub fn is_far(missed: &Missed) -> bool {
    missed.by > criterion(criteria::PH_FAR).value.units()
}

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    let (Some(missed), Some(found)) = (&context.sheet.ph_missed, &context.sheet.ph) else { return };
    let Some(target) = context.ph().filter(|_| context.is_wet()) else { return };
    let all_counted = found.unseen.is_empty() && context.sheet.totals.complete();
    let grade = if is_far(missed) && all_counted { Grade::Care } else { Grade::Unknown };
    let (said, lines) = correction(missed);
    findings.push(
        Finding::said(RULE.code, grade, said, criterion(criteria::PH_FAR).basis)
            // Some constants of the model are from memory.
            .if_holds(false)
            .read_in("model: charge balance with the table of acids; from where on it takes care is a choice of ours")
            .on(lines.iter().copied())
            .about(named(context, lines))
            .found(Amount::Text(interval(found)))
            .against(Amount::Ph(target))
            .more(named(context, &found.unseen)),
    );
}

/// What is to be said, and of which lines.
fn correction(missed: &Missed) -> (MessageId, &[LineId]) {
    let (needs, more, less, instead) = match missed.way {
        Adjusts::Up => (MessageId::NeedsBase, MessageId::NeedsMoreBase, MessageId::AcidTooMuch, MessageId::BaseNotAcid),
        Adjusts::Down => {
            (MessageId::NeedsAcid, MessageId::NeedsMoreAcid, MessageId::BaseTooMuch, MessageId::AcidNotBase)
        }
    };
    match (missed.helpers.as_slice(), missed.opposed.as_slice()) {
        ([], []) => (needs, &[]),
        ([], opposed) if missed.less_is_enough => (less, opposed),
        ([], opposed) => (instead, opposed),
        (helpers, _) => (more, helpers),
    }
}

fn named(context: RuleContext<'_>, lines: &[LineId]) -> String {
    let mut names: Vec<String> = lines.iter().map(|line| context.called(*line)).collect();
    names.sort();
    names.dedup();
    names.join(", ")
}

fn interval(found: &Prediction) -> String {
    // An estimate is in tenths.
    let tenths = |ph: Ph| format!("{}.{}", ph.units() / 100, ph.units() / 10 % 10);
    format!("{} to {}", tenths(found.low), tenths(found.high))
}
