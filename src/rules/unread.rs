//! A share that could not be read.
//!
//! Why it matters: it is left out of every sum, never counted as zero.

use super::{Fact, Finding, Grade, Rule, RuleContext};
use crate::quantity::Parsed;

pub(super) const RULE: Rule = Rule { code: "unread", check };

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    for (_, line) in context.formula.lines() {
        // A word for filling up is understood; the field itself says when it takes effect.
        let Some(typed) = line.share.typed().filter(|_| !line.share.will_fill_up()) else { continue };
        let problem = match typed.reading() {
            Parsed::Unread(problem) => Some(problem.clone()),
            Parsed::Ambiguous { .. } => None,
            Parsed::Empty | Parsed::Value(_) => continue,
        };
        let fact = Fact::Unread { text: typed.text().to_owned(), problem };
        findings.push(Finding::new(RULE.code, Grade::Unknown, vec![line.id], fact));
    }
}
