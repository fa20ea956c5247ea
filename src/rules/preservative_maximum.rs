//! More of a preservative than law allows, all its sources summed, salts counted as acid.
//!
//! Why it matters: above the limit it irritates and sensitises, and the product may not be sold.
//! Source: Regulation (EC) 1223/2009 Annex V. Parabens and salicylic acid, which law caps twice, have their own rules.

use super::context::names;
use super::{Amount, Finding, Grade, Message, Remedy, Rule, RuleContext};
use crate::facts::{Basis, Preservative, PreservativeGroup, criteria, criterion};
use crate::quantity::Percent;
use crate::sheet::SubstanceShare;

pub(super) const RULE: Rule = Rule { code: "preservative-maximum", check };

const ELSEWHERE: [&str; 4] = ["methylparaben", "ethylparaben", "propylparaben", "salicylic-acid"];

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    let row_of =
        |substance: &SubstanceShare| substance.preservative().filter(|row| row.group == PreservativeGroup::Listed);
    let limit_of = |row: &Preservative| if context.leave_on() { row.leave_on } else { row.rinse_off };
    let mut groups: Vec<&'static str> =
        context.substances().iter().filter_map(|substance| Some(row_of(substance)?.sum_with)).collect();
    groups.sort_unstable();
    groups.dedup();
    for group in groups.into_iter().filter(|group| !ELSEWHERE.contains(group)) {
        let member = |substance: &&SubstanceShare| row_of(substance).is_some_and(|row| row.sum_with == group);
        let substances: Vec<&SubstanceShare> = context.substances().iter().filter(member).collect();
        let rows: Vec<&Preservative> = substances.iter().filter_map(|substance| row_of(substance)).collect();
        let Some(row) = rows.first() else { continue };
        let lines: Vec<_> = substances.iter().map(|substance| substance.line).collect();
        let limits: Vec<Percent> = rows.iter().filter_map(|row| limit_of(row)).collect();
        // Nothing where it may not be at all is said by the rule on barred uses.
        let Some(limit) = limits.into_iter().min() else {
            let basis = Basis::memory("");
            let finding = Finding::said(RULE.code, Grade::Unknown, Message::LimitUnread, basis);
            findings.push(finding.read_in(&row.sources.join("; ")).on(lines).about(names(&substances)));
            continue;
        };
        if limit == Percent::ZERO {
            continue;
        }
        let counted =
            |substance: &SubstanceShare| row_of(substance).map_or(Percent::ZERO, |row| row.counts(substance.high));
        let found: Percent = substances.iter().map(|substance| counted(substance)).sum();
        let sure: Percent =
            substances.iter().filter(|substance| substance.trust.holds()).map(|substance| counted(substance)).sum();
        let near = criterion(criteria::NEAR).value.of(limit);
        let as_acid = rows.iter().any(|row| row.counted != Percent::WHOLE);
        let (grade, said) = if found > limit {
            (Grade::Stop, Message::AboveMaximum { as_acid })
        } else if found > near {
            (Grade::Care, Message::NearMaximum { as_acid })
        } else {
            (Grade::Fine, Message::WithinMaximum { as_acid })
        };
        let verified = rows.iter().all(|row| row.limit_provenance.is_verified());
        let basis = if verified { Basis::verified("") } else { Basis::memory("") };
        let only = lines.first().copied().filter(|first| lines.iter().all(|line| line == first) && found > limit);
        let remedy = only.and_then(|line| Some(Remedy::Share(line, context.lower_share(line, found, limit)?)));
        findings.push(
            Finding::said(RULE.code, grade, said, basis)
                .read_in(&row.sources.join("; "))
                .if_holds(grade != Grade::Stop || sure > limit)
                .document(context.documents(&lines))
                .on(lines)
                .about(names(&substances))
                .found(Amount::Percent(found))
                .against(Amount::Percent(limit))
                .by_law(context.region(), None)
                .remedy(remedy),
        );
    }
}
