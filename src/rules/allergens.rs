//! Fragrance allergens that the label must name.
//!
//! Why it matters: who is allergic to one of them can only keep away from it by reading the label.
//! Source: Regulation (EC) 1223/2009 Annex III. What a fragrance or oil holds is on its supplier's allergen statement;
//! without it the label cannot be written.

use super::{Amount, Case, Finding, Grade, Rule, Said};
use crate::facts::{Basis, Seen, source_text};
use crate::formula::Region;

pub(super) const RULE: Rule = Rule { code: "allergens", check };

fn check(case: Case<'_>, findings: &mut Vec<Finding>) {
    let law = Basis { source: source_text("a3"), seen: Seen::Stored };
    let grade = match case.region() {
        Region::Eu | Region::Gb => Grade::Stop,
        Region::Us | Region::Elsewhere => Grade::Unknown,
    };
    for scent in &case.sheet.makeup.scents {
        let (grade, said, more) = match &scent.statement {
            None => (grade, Said::NoStatement, String::new()),
            Some(statement) if !statement.unread.is_empty() => {
                (Grade::Care, Said::StatementUnread, statement.unread.len().to_string())
            }
            Some(_) => continue,
        };
        findings.push(
            Finding::said(RULE.code, grade, said, law)
                .on([scent.line])
                .about(case.name(scent.line))
                .found(Amount::Percent(scent.share))
                .more(more),
        );
    }
    let named: Vec<_> = case.sheet.label.allergens.iter().filter(|sum| sum.named).collect();
    if named.is_empty() {
        return;
    }
    let names: Vec<&str> = named.iter().map(|sum| sum.allergen.name).collect();
    let seen = named.iter().all(|sum| sum.allergen.basis.holds());
    let threshold = named[0].threshold;
    findings.push(
        Finding::said(RULE.code, Grade::Fine, Said::AllergensNamed, law)
            .if_holds(seen)
            .on(named.iter().flat_map(|sum| sum.lines.iter().copied()))
            .about(names.join(", "))
            .against(Amount::Percent(threshold)),
    );
}
