//! A dose that the scale cannot weigh within the accepted error.
//!
//! Why it matters: 0.05 g of a preservative on a kitchen scale that shows 0.1 g may be none or twice as much.
//! Source: see `sheet::least_weighable`.

use super::{Fact, Finding, Grade, Rule, RuleContext};
use crate::sheet::PremixAdvice;

pub(super) const RULE: Rule = Rule { code: "too-small-for-the-scale", check };

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    let Ok(sheet) = &context.sheet.weigh else { return };
    for line in &sheet.lines {
        let Some(advice) = &line.premix else { continue };
        let from = match advice {
            PremixAdvice::Make(_) => None,
            PremixAdvice::LargerBatch(batch) => Some(*batch),
        };
        let fact = Fact::TooSmall { dose: line.exact, weighed: line.mass, least: sheet.least, from };
        findings.push(Finding::new(RULE.code, Grade::Care, vec![line.line], fact));
    }
}
