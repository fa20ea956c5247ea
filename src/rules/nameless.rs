//! A share without a name.
//!
//! Why it matters: nobody can weigh it, and a label cannot list it.

use super::{Fact, Finding, Grade, Rule, RuleContext};

pub(super) const RULE: Rule = Rule { code: "nameless", check };

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    for line in &context.sheet.totals.nameless {
        findings.push(Finding::new(RULE.code, Grade::Unknown, vec![*line], Fact::Nameless));
    }
}
