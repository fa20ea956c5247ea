//! Fragrance allergens that the label must name.
//!
//! Why it matters: who is allergic to one of them can only keep away from it by reading the label.
//! Source: Regulation (EC) 1223/2009 Annex III. What a fragrance or oil holds is on its supplier's allergen statement;
//! without it the label cannot be written. A name on it that is not recognised may be one of them.

use super::{Amount, Finding, Grade, Message, Rule, RuleContext};
use crate::facts::{Basis, SubstanceClass, source_text};
use crate::formula::Region;
use crate::shelf::Composition;

pub(super) const RULE: Rule = Rule { code: "allergens", check };

/// How many characters of a name are told: what is pasted may be anything.
const LONGEST: usize = 60;

/// The names of a statement of which nobody here knows what they are, each once.
fn unrecognised(read: &Composition) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for name in read.unrecognised().map(|item| item.name.chars().take(LONGEST).collect::<String>()) {
        if !names.contains(&name) {
            names.push(name);
        }
    }
    names
}

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    let law = Basis::verified(source_text("a3"));
    let grade = match context.region() {
        Region::Eu | Region::Gb => Grade::Stop,
        Region::Us | Region::Elsewhere => Grade::Unknown,
    };
    for scent in &context.sheet.composition.scents {
        if scent.statement.is_none() {
            findings.push(
                Finding::said(RULE.code, grade, Message::NoStatement, law)
                    .on([scent.line])
                    .about(context.name(scent.line))
                    .found(Amount::Percent(scent.share)),
            );
        }
    }
    let waters = context.class(SubstanceClass::AromaticWater);
    for substance in &waters.substances {
        if context.sheet.composition.statements.iter().all(|stated| stated.line != substance.line) {
            let said = Message::AromaticWater;
            findings.push(
                Finding::said(RULE.code, Grade::Unknown, said, waters.basis)
                    .on([substance.line])
                    .about(context.called(substance.line))
                    .found(Amount::Percent(substance.high)),
            );
        }
    }
    for stated in &context.sheet.composition.statements {
        let mut say = |grade, said: Message| {
            findings.push(
                Finding::said(RULE.code, grade, said, law)
                    .on([stated.line])
                    .about(context.name(stated.line))
                    .found(Amount::Percent(stated.share)),
            );
        };
        if !stated.read.unread.is_empty() {
            say(Grade::Care, Message::StatementUnread { lines: stated.read.unread.len() });
        }
        let names = unrecognised(&stated.read);
        if !names.is_empty() {
            say(Grade::Unknown, Message::NamesUnrecognised { names });
        }
    }
    let named: Vec<_> = context.sheet.label.allergens.iter().filter(|sum| sum.named).collect();
    if named.is_empty() {
        return;
    }
    let names: Vec<&str> = named.iter().map(|sum| sum.allergen.name).collect();
    let seen = named.iter().all(|sum| sum.allergen.basis.holds());
    let threshold = named[0].threshold;
    findings.push(
        Finding::said(RULE.code, Grade::Fine, Message::AllergensNamed, law)
            .if_holds(seen)
            .on(named.iter().flat_map(|sum| sum.lines.iter().copied()))
            .about(names.join(", "))
            .against(Amount::Percent(threshold)),
    );
}
