//! A line without a share.

use super::{Case, Fact, Finding, Grade, Rule};

pub(super) const RULE: Rule = Rule { code: "no-share", check };

fn check(case: Case<'_>, findings: &mut Vec<Finding>) {
    for line in &case.sheet.totals.missing {
        findings.push(Finding::new(RULE.code, Grade::Unknown, vec![*line], Fact::NoShare));
    }
}
