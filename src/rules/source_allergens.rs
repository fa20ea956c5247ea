//! Nuts, sesame, soy, wheat, milk, bees and wool: who is allergic to them must be able to know.
//!
//! Why it matters: proteins of food plants in a cream can make a child allergic to the food.
//! Source: Annex III/306 and 307 for peanut and hydrolysed wheat; the flags are custom.

use super::{Amount, Finding, Grade, Message, Rule, RuleContext};
use crate::facts::{Basis, Field, SubstanceClass, criteria, criterion, fold, in_class, mid_sentence, source_text};
use crate::quantity::Percent;

pub(super) const RULE: Rule = Rule { code: "source-allergens", check };

/// Words in a source that leave it open.
const OPEN: [&str; 1] = [" ask"];

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    let mut flags: Vec<String> = Vec::new();
    let mut flagged = Vec::new();
    for (_, line, share, entry) in context.known_lines() {
        let key = entry.inci().map_or_else(String::new, |inci| fold(inci.value));
        let documented = entry.document().is_some();
        for (class, said) in [
            (SubstanceClass::Peanut, Message::PeanutProtein),
            (SubstanceClass::HydrolysedWheat, Message::WheatProtein { most: criterion(criteria::WHEAT_KDA).value }),
        ] {
            let Some(basis) = in_class(class, &key) else { continue };
            let grade = if documented { Grade::Care } else { Grade::Stop };
            findings.push(
                Finding::said(RULE.code, grade, said, basis)
                    .on([line.id])
                    .about(entry.label())
                    .found(Amount::Percent(share))
                    .document(context.documents(&[line.id]))
                    .by_law(context.region(), None),
            );
        }
        let Some(source) = entry.text(Field::AllergenSource).filter(|_| !entry.has_function("Fragrance")) else {
            continue;
        };
        let folded = fold(source.value);
        if share == Percent::ZERO || in_class(SubstanceClass::SourceFlag, &folded).is_none() {
            continue;
        }
        if OPEN.iter().any(|word| folded.contains(word)) {
            let custom = Basis::custom(source_text("custom"));
            let said = Message::OriginOpen { made_from: mid_sentence(source.value) };
            let finding = Finding::said(RULE.code, Grade::Care, said, custom);
            findings.push(finding.on([line.id]).about(entry.label()).found(Amount::Percent(share)));
        } else {
            flags.push(format!("{} ({})", entry.label(), mid_sentence(source.value)));
            flagged.push(line.id);
        }
    }
    if !flags.is_empty() {
        flags.sort();
        flags.dedup();
        let custom = Basis::custom(source_text("custom"));
        findings.push(
            Finding::said(RULE.code, Grade::Fine, Message::SourceFlags, custom).on(flagged).about(flags.join("; ")),
        );
    }
}
