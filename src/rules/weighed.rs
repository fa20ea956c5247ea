//! What the scale makes of a formula, judged beside what was typed.
//!
//! Why it matters: a scale with coarse steps weighs a preservative as nothing, or as twice what may be used, and the sums in
//! percent look as well as before.
//! Source: arithmetic; the figures are those of the rules that judge it.

use super::{Finding, Grade, Rule, RuleContext};
use crate::formula::{Formula, LineId};
use crate::quantity::Mass;
use crate::sheet::{AnnexCheck, PremixAdvice, Sheet, WeighSheet};

/// The rules that judge how much there is of something that may harm, or that must be there.
const AMOUNTS: [&str; 13] = [
    "capped",
    "aha",
    "annexes",
    "unpreserved",
    "preservative-maximum",
    "parabens",
    "preservative-ph",
    "spectrum",
    "children",
    "formaldehyde",
    "fragrance",
    "phototoxic",
    "above-most",
];

/// How a finding depends on the scale.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OnTheScale {
    /// Its step.
    pub step: Mass,
    /// The batch from which on the scale weighs what it now weighs as nothing; none if it is not about that.
    pub from: Option<Mass>,
}

/// What a rule says: of the shares as typed and, where there is a batch and they matter, of those that will be weighed. The
/// graver of both counts.
pub(super) fn judge(rule: &Rule, context: RuleContext<'_>, weighed: Option<&Sheet>) -> Vec<Finding> {
    let typed = found(rule, context);
    let (Some(weighed), Ok(weigh)) = (weighed.filter(|_| AMOUNTS.contains(&rule.code)), &context.sheet.weigh) else {
        return typed;
    };
    graver(typed, found(rule, RuleContext { sheet: weighed, ..context }), weigh)
}

/// The sheet with the shares that will be weighed, where they are others.
pub(super) fn as_weighed(formula: &Formula, sheet: &Sheet) -> Option<Sheet> {
    let weighed = sheet.as_weighed.as_ref()?;
    let annexes = AnnexCheck::of(&weighed.composition, &formula.about);
    let (totals, composition) = (weighed.totals.clone(), weighed.composition.clone());
    Some(Sheet { totals, composition, annexes, ..sheet.clone() })
}

fn found(rule: &Rule, context: RuleContext<'_>) -> Vec<Finding> {
    let mut found = Vec::new();
    (rule.check)(context, &mut found);
    found.into_iter().map(|one| context.name_lots(one).downgrade()).collect()
}

fn graver(typed: Vec<Finding>, weighed: Vec<Finding>, weigh: &WeighSheet) -> Vec<Finding> {
    let about = |a: &Finding, b: &Finding| a.detail.subject == b.detail.subject && a.lines == b.lines;
    let same = |a: &Finding, b: &Finding| a.says_the_same(b) && about(a, b);
    let kept = |one: &&Finding| match one.grade {
        // What is well is well only if it is so both ways.
        Grade::Fine => weighed.iter().any(|other| same(one, other)),
        _ => !weighed.iter().any(|other| about(one, other) && other.grade < one.grade),
    };
    let shares_a_line = |a: &Finding, b: &Finding| a.lines.iter().any(|line| b.lines.contains(line));
    // Said of the same lines, or of more, and no less gravely.
    let said = |one: &Finding, other: &Finding| {
        let within = other.says_the_same(one) && one.lines.iter().all(|line| other.lines.contains(line));
        other.grade <= one.grade && (within || about(one, other))
    };
    let adds = |one: &&Finding| match one.grade {
        Grade::Fine => {
            !typed.iter().any(|other| same(one, other) || other.grade != Grade::Fine && shares_a_line(one, other))
        }
        _ => !typed.iter().any(|other| said(one, other)),
    };
    let added = weighed.iter().filter(adds).map(|one| on_the_scale(one.clone(), &typed, weigh));
    typed.iter().filter(kept).cloned().chain(added).collect()
}

/// Names the scale, and the batch that it would need: for the lines that the finding is about, or that the rule spoke of
/// as typed. What a rule proposes would change shares, which are not at fault.
fn on_the_scale(mut finding: Finding, typed: &[Finding], weigh: &WeighSheet) -> Finding {
    if finding.grade == Grade::Fine {
        return finding;
    }
    let from = |lines: &[LineId]| {
        let lost = weigh.lines.iter().filter(|line| line.mass == Mass::ZERO && lines.contains(&line.line));
        lost.filter_map(|line| match line.premix {
            Some(PremixAdvice::LargerBatch(batch)) => Some(batch),
            _ => None,
        })
        .max()
    };
    let spoken_of: Vec<LineId> = typed.iter().flat_map(|one| one.lines.iter().copied()).collect();
    let from = from(&finding.lines).or(from(&spoken_of));
    finding.detail.on_the_scale = Some(OnTheScale { step: weigh.step, from });
    finding.detail.remedies.clear();
    finding
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn amounts_are_judged_by_rules_that_there_are() {
        for code in AMOUNTS {
            assert!(crate::rules::RULES.iter().any(|rule| rule.code == code), "{code}");
        }
    }
}
