//! A share that could not be read.
//!
//! Why it matters: it is left out of every sum, never counted as zero.

use super::{Case, Fact, Finding, Grade, Rule};
use crate::quantity::Reading;

pub(super) const RULE: Rule = Rule { code: "unread", check };

fn check(case: Case<'_>, findings: &mut Vec<Finding>) {
    for (_, line) in case.formula.lines() {
        // A word for filling up is understood; the field itself says when it takes effect.
        let Some(typed) = line.share.typed().filter(|_| !line.share.will_fill_up()) else { continue };
        let problem = match typed.reading() {
            Reading::Unread(problem) => Some(problem.clone()),
            Reading::Ambiguous { .. } => None,
            Reading::Empty | Reading::Value(_) => continue,
        };
        let fact = Fact::Unread { text: typed.text().to_owned(), problem };
        findings.push(Finding::new(RULE.code, Grade::Unknown, vec![line.id], fact));
    }
}
