//! What is not checked where the product is given away or sold.
//!
//! Source: what was read of the law of each region; the law of the European Union is the measure throughout.

use super::{Finding, Grade, Message, Rule, RuleContext};
use crate::facts::{Basis, source_text};
use crate::formula::Region;

pub(super) const RULE: Rule = Rule { code: "region", check };

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    let (said, key) = match context.region() {
        Region::Eu => return,
        Region::Gb => (Message::GreatBritain, "1545"),
        Region::Us => (Message::UnitedStates, "21cfr701"),
        Region::Elsewhere => (Message::Elsewhere, "custom"),
    };
    if !context.sheet.totals.shares.is_empty() {
        let basis = Basis::custom(source_text(key));
        findings.push(Finding::said(RULE.code, Grade::Unknown, said, basis));
    }
}
