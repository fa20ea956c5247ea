//! A share without a name.
//!
//! Why it matters: nobody can weigh it, and a label cannot list it.

use super::{Case, Fact, Finding, Grade, Rule};

pub(super) const RULE: Rule = Rule { code: "nameless", check };

fn check(case: Case<'_>, findings: &mut Vec<Finding>) {
    for line in &case.sheet.totals.nameless {
        findings.push(Finding::new(RULE.code, Grade::Unknown, vec![*line], Fact::Nameless));
    }
}
