//! A name that the shelf does not know.
//!
//! Why it matters: it is weighed like any other and checked by its name, but nothing of its own is known: no pH window, no
//! supplier's statement.

use super::{Fact, Finding, Grade, Rule, RuleContext};
use crate::formula::Choice;

pub(super) const RULE: Rule = Rule { code: "off-shelf", check };

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    for (_, line) in context.formula.lines() {
        let name = match &line.choice {
            Choice::Named(name) if !name.trim().is_empty() => name.clone(),
            Choice::Known(id) if context.shelf.entry(id).is_none() => id.as_str().to_owned(),
            _ => continue,
        };
        findings.push(Finding::new(RULE.code, Grade::Unknown, vec![line.id], Fact::OffShelf(name)));
    }
}

impl Finding {
    /// The name that the shelf does not know, where that is what was found.
    pub fn name_off_shelf(&self) -> Option<&str> {
        match &self.fact {
            Fact::OffShelf(name) => Some(name),
            _ => None,
        }
    }
}
