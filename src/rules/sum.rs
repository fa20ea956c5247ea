//! The shares do not make the whole, or they do.
//!
//! Why it matters: a formula of 98.7 % or 101 % gives other doses than its numbers say, preservative included.
//! Source: arithmetic.

use super::{Case, Fact, Finding, Grade, Rule};
use crate::sheet::Balance;

pub(super) const RULE: Rule = Rule { code: "sum", check };

fn check(case: Case<'_>, findings: &mut Vec<Finding>) {
    let totals = &case.sheet.totals;
    if totals.shares.is_empty() {
        return;
    }
    // While a share is open the sum is not final: too much is already wrong, too little is not.
    let (grade, fact) = match totals.balance {
        Balance::Over(by) => (Grade::Stop, Fact::SumOver(by)),
        Balance::Short(by) if totals.complete() => (Grade::Stop, Fact::SumShort(by)),
        Balance::Whole if totals.complete() => (Grade::Fine, Fact::SumWhole),
        Balance::Short(_) | Balance::Whole => return,
    };
    findings.push(Finding { rule: RULE.code, grade, lines: Vec::new(), fact });
}
