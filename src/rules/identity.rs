//! Ingredients without an INCI name or without a supplier's document.
//!
//! Why it matters: what has no name on a label cannot be sold, and what has no document is known only from a table.
//! Source: custom of the trade, after the records that ISO 22716 asks for.

use super::{Amount, Finding, Grade, Message, Rule, RuleContext};
use crate::facts::{Basis, source_text};

pub(super) const RULE: Rule = Rule { code: "identity", check };

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    let basis = Basis::custom(source_text("custom"));
    let mut bare = 0usize;
    for (_, line, _, entry) in context.known_lines() {
        if entry.inci().is_none() {
            let finding = Finding::said(RULE.code, Grade::Care, Message::NoInci, basis);
            findings.push(finding.on([line.id]).about(entry.label()));
        } else if entry.document().is_none() {
            bare += 1;
        }
    }
    // Said once for the whole formula: a mark at every line would hide the marks that matter.
    if bare > 0 {
        let count = Amount::Count(bare);
        findings.push(Finding::said(RULE.code, Grade::Unknown, Message::NoDocument, basis).found(count));
    }
}
