//! A dose that the scale cannot weigh within the accepted error.
//!
//! Why it matters: 0.05 g of a preservative on a kitchen scale that shows 0.1 g may be none or twice as much.
//! Source: see `sheet::least_weighable`.

use super::{Case, Fact, Finding, Grade, Rule};
use crate::sheet::PremixAdvice;

pub(super) const RULE: Rule = Rule { code: "too-small-for-the-scale", check };

fn check(case: Case<'_>, findings: &mut Vec<Finding>) {
    let Ok(sheet) = &case.sheet.weigh else { return };
    for line in &sheet.lines {
        let Some(advice) = &line.premix else { continue };
        let premix = matches!(advice, PremixAdvice::Make(_));
        let fact = Fact::TooSmall { dose: line.exact, least: sheet.least, premix };
        findings.push(Finding::new(RULE.code, Grade::Care, vec![line.line], fact));
    }
}
