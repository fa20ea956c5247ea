//! A target pH that the formula as it stands does not reach, by the estimate for its water.
//!
//! Why it matters: a target says what is wanted, not what will be in the jar. An emulsion of pH 2.5 with a target of 5.2
//! peels skin, and one of pH 8 with benzoate in it goes mouldy. Source: the model of `sheet/ph`; from which distance on it
//! takes care is a choice of ours. An estimate is no measurement: this never stops, and what it could not count makes it
//! Unknown.

use super::{Amount, Finding, Grade, Message, Rule, RuleContext};
use crate::facts::{Adjusts, IngredientId, criteria, criterion, source_text};
use crate::formula::LineId;
use crate::quantity::{Percent, Quantity};
use crate::sheet::ph::Missed;

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
    let told = ReachTold {
        agent: IngredientId::parse(missed.needs.of)
            .ok()
            .and_then(|id| context.shelf.entry(&id))
            .map_or_else(|| missed.needs.of.to_owned(), |entry| entry.label().to_owned()),
        least: missed.needs.least,
        most: missed.needs.most,
        uncounted: named(context, &found.unseen),
    };
    findings.push(
        Finding::said(RULE.code, grade, said(told), criterion(criteria::PH_FAR).basis)
            // Some constants of the model are from memory.
            .if_holds(false)
            .read_in(source_text("ph-model"))
            .on(lines.iter().copied())
            .about(named(context, lines).join(", "))
            .found(Amount::PhRange(found.low, found.high))
            .against(Amount::Ph(target)),
    );
}

/// What the messages tell: about how much of what is needed, and what the estimate could not count.
struct ReachTold {
    agent: String,
    least: Percent,
    most: Percent,
    uncounted: Vec<String>,
}

type OfReach = fn(ReachTold) -> Message;

/// What is to be said, and of which lines.
fn correction(missed: &Missed) -> (OfReach, &[LineId]) {
    let [needs, more, less, instead]: [OfReach; 4] = match missed.way {
        Adjusts::Up => [
            |ReachTold { agent, least, most, uncounted }| Message::NeedsBase { agent, least, most, uncounted },
            |ReachTold { agent, least, most, uncounted }| Message::NeedsMoreBase { agent, least, most, uncounted },
            |ReachTold { uncounted, .. }| Message::AcidTooMuch { uncounted },
            |ReachTold { agent, least, most, uncounted }| Message::BaseNotAcid { agent, least, most, uncounted },
        ],
        Adjusts::Down => [
            |ReachTold { agent, least, most, uncounted }| Message::NeedsAcid { agent, least, most, uncounted },
            |ReachTold { agent, least, most, uncounted }| Message::NeedsMoreAcid { agent, least, most, uncounted },
            |ReachTold { uncounted, .. }| Message::BaseTooMuch { uncounted },
            |ReachTold { agent, least, most, uncounted }| Message::AcidNotBase { agent, least, most, uncounted },
        ],
    };
    match (missed.helpers.as_slice(), missed.opposed.as_slice()) {
        ([], []) => (needs, &[]),
        ([], opposed) if missed.less_is_enough => (less, opposed),
        ([], opposed) => (instead, opposed),
        (helpers, _) => (more, helpers),
    }
}

fn named(context: RuleContext<'_>, lines: &[LineId]) -> Vec<String> {
    let mut names: Vec<String> = lines.iter().map(|line| context.called(*line)).collect();
    names.sort();
    names.dedup();
    names
}
