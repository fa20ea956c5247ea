//! What is wrong or unwise about the lye of a soap.
//!
//! Why it matters: alkali that the fats do not take up stays in the soap and burns.
//! Source: the definitions of `sheet::lye`; saponification ranges of the table of fats.

use super::{Fact, Finding, Grade, Rule, RuleContext};
use crate::sheet::{LyeNote, NoLye};

pub(super) const RULE: Rule = Rule { code: "lye", check };

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    match &context.sheet.lye {
        None => {}
        Some(Ok(lye)) => {
            for note in &lye.notes {
                let grade = match note {
                    // From the same ranges that the amount rests on; those may be unverified, so no Stop.
                    LyeNote::MarginBelowNothing(_)
                    | LyeNote::NoDiscount
                    | LyeNote::AlkaliInFormula(_)
                    | LyeNote::SvApart(..)
                    | LyeNote::SvConfirmed(..)
                    | LyeNote::WaterInFormula { .. } => Grade::Care,
                    LyeNote::PurityAssumed(_)
                    | LyeNote::NotMeasured(_)
                    | LyeNote::NotVerified(_)
                    | LyeNote::AcidNotVerified(_)
                    | LyeNote::InPart(_)
                    | LyeNote::NotCounted(_)
                    | LyeNote::NotAtAll(_) => Grade::Unknown,
                };
                let lines = note.line().into_iter().collect();
                findings.push(Finding::new(RULE.code, grade, lines, Fact::Lye(note.clone())));
            }
        }
        Some(Err(why)) => {
            let grade = match why {
                NoLye::NoMasses(_) | NoLye::NoFats => Grade::Unknown,
                _ => Grade::Care,
            };
            let lines = why.line().into_iter().collect();
            findings.push(Finding::new(RULE.code, grade, lines, Fact::NoLye(why.clone())));
        }
    }
}
