//! A gum or carbomer strewn dry into water.
//!
//! Why it matters: it clumps, and the clumps never come apart. Source: handbook practice, from memory.

use super::{Amount, Finding, Grade, Message, Rule, RuleContext};
use crate::facts::{Basis, SubstanceClass, fold, in_class};
use crate::formula::PhaseKind;
use crate::shelf::Ingredient;

pub(super) const RULE: Rule = Rule { code: "gum-dry", check };

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    let lines = context.known_lines();
    let is = |class, entry: &Ingredient| -> Option<Basis> { in_class(class, &fold(entry.inci()?.value)) };
    for (phase, line, share, entry) in &lines {
        if phase.kind != PhaseKind::Water {
            continue;
        }
        let Some(basis) = is(SubstanceClass::Gum, entry) else { continue };
        let wetted = lines
            .iter()
            .any(|(other, _, _, entry)| other.id == phase.id && is(SubstanceClass::Wetting, entry).is_some());
        if !wetted {
            findings.push(
                Finding::said(RULE.code, Grade::Care, Message::GumDry, basis)
                    .on([line.id])
                    .about(entry.label())
                    .found(Amount::Percent(*share)),
            );
        }
    }
}
