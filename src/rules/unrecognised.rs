//! Names that nobody here knows, or that may be one of several.
//!
//! Why it matters: no limit, no pH, no water and no allergen of them was checked, and where a rule says nothing that looks as if
//! all were well.
//! Source: none; that a name is not recognised is no fact about the substance.

use super::{Finding, Grade, Message, Rule, RuleContext};
use crate::facts::{Basis, source_text};
use crate::sheet::{Recognition, SubstanceShare};

pub(super) const RULE: Rule = Rule { code: "unrecognised", check };

/// How many characters of a name are told: what is typed may be anything.
const LONGEST: usize = 60;

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    let all: Vec<&SubstanceShare> =
        context.sheet.composition.unrecognised().into_iter().map(|(substance, _)| substance).collect();
    type ByDoubt = (fn(&Recognition) -> bool, fn(Vec<String>) -> Message);
    let kinds: [ByDoubt; 3] = [
        (|known| *known == Recognition::Unknown, |names| Message::Unrecognised { names }),
        (|known| matches!(known, Recognition::Asked(_)), |names| Message::OnlyLikely { names }),
        (|known| *known == Recognition::NotLookedUp, |names| Message::NotLookedUp { names }),
    ];
    for (is, said) in kinds {
        let some: Vec<&SubstanceShare> = all.iter().copied().filter(|one| is(&one.recognition)).collect();
        if some.is_empty() {
            continue;
        }
        let names = some.iter().map(|one| one.name.chars().take(LONGEST).collect()).collect();
        let basis = Basis::verified(source_text("own-shelf"));
        let finding = Finding::said(RULE.code, Grade::Unknown, said(names), basis);
        findings.push(finding.on(some.iter().map(|one| one.line)));
    }
}
