//! The shares do not make the whole, or they do.
//!
//! Why it matters: a formula of 98.7 % or 101 % gives other doses than its numbers say, preservative included.
//! Up to 0.05 % is well, up to 0.5 % wants care; it is weighed only when it is whole. Source: arithmetic; the two bounds
//! are custom.

use super::{Fact, Finding, Grade, Rule, RuleContext};
use crate::facts::{criteria, criterion};
use crate::quantity::Percent;
use crate::sheet::Balance;

pub(super) const RULE: Rule = Rule { code: "sum", check };

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    let totals = &context.sheet.totals;
    if totals.shares.is_empty() {
        return;
    }
    // While a share is open the sum is not final: too much is already wrong, too little is not.
    let (grade, fact) = match totals.balance {
        Balance::Over(by) => (grade(by), Fact::SumOver(by)),
        Balance::Short(by) if totals.complete() => (grade(by), Fact::SumShort(by)),
        Balance::Whole if totals.complete() => (Grade::Fine, Fact::SumWhole),
        Balance::Short(_) | Balance::Whole => return,
    };
    findings.push(Finding::new(RULE.code, grade, Vec::new(), fact));
}

fn grade(off: Percent) -> Grade {
    if off <= criterion(criteria::SUM_PASS).value {
        Grade::Fine
    } else if off <= criterion(criteria::SUM_CARE).value {
        Grade::Care
    } else {
        Grade::Stop
    }
}
