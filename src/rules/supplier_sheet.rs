//! A maker's own fat whose values from the supplier's sheet do not fit together.
//!
//! Why it matters: a swap or a lye that rests on a slip of the pen is wrong without looking so.
//! Source: arithmetic, and the errors of the methods as `shelf::Fat` has them.

use super::{Fact, Finding, Grade, Rule, RuleContext};
use crate::formula::LineId;
use crate::shelf::{Ingredient, SheetFinding};

pub(super) const RULE: Rule = Rule { code: "supplier-sheet", check };

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    // The rule on lye says it beside what it does to the lye.
    let said_of_lye = |line: LineId| {
        let Some(Ok(lye)) = &context.sheet.lye else { return false };
        lye.notes.iter().any(|note| note.is_of_a_value() && note.line() == Some(line))
    };
    for (_, line) in context.formula.lines() {
        let fat = line.choice.id().and_then(|id| context.shelf.entry(id)).as_ref().and_then(Ingredient::fat);
        for odd in fat.into_iter().flat_map(|fat| fat.findings) {
            if odd.is_remark() || matches!(odd, SheetFinding::SvApart(..)) && said_of_lye(line.id) {
                continue;
            }
            let grade = if odd.blocks() { Grade::Unknown } else { Grade::Care };
            findings.push(Finding::new(RULE.code, grade, vec![line.id], Fact::SupplierSheet(odd)));
        }
    }
}
