//! A line without a share.

use super::{Fact, Finding, Grade, Rule, RuleContext};

pub(super) const RULE: Rule = Rule { code: "no-share", check };

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    for line in &context.sheet.totals.missing {
        findings.push(Finding::new(RULE.code, Grade::Unknown, vec![*line], Fact::NoShare));
    }
}
