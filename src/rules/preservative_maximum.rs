//! More of a preservative than law allows, all its sources summed, salts counted as acid.
//!
//! Why it matters: above the limit it irritates and sensitises, and the product may not be sold.
//! Source: Regulation (EC) 1223/2009 Annex V. Parabens and salicylic acid, which law caps twice, have their own rules.

use super::case::names;
use super::{Amount, Case, Finding, Grade, Mend, Rule, Said};
use crate::facts::{Basis, Preservative, PreservativeGroup, Seen, criterion};
use crate::quantity::Percent;
use crate::sheet::Bit;

pub(super) const RULE: Rule = Rule { code: "preservative-maximum", check };

const ELSEWHERE: [&str; 4] = ["methylparaben", "ethylparaben", "propylparaben", "salicylic-acid"];

fn check(case: Case<'_>, findings: &mut Vec<Finding>) {
    let row_of = |bit: &Bit| bit.preservative().filter(|row| row.group == PreservativeGroup::Listed);
    let limit_of = |row: &Preservative| if case.leave_on() { row.leave_on } else { row.rinse_off };
    let mut groups: Vec<&'static str> = case.bits().iter().filter_map(|bit| Some(row_of(bit)?.sum_with)).collect();
    groups.sort_unstable();
    groups.dedup();
    for group in groups.into_iter().filter(|group| !ELSEWHERE.contains(group)) {
        let member = |bit: &&Bit| row_of(bit).is_some_and(|row| row.sum_with == group);
        let bits: Vec<&Bit> = case.bits().iter().filter(member).collect();
        let rows: Vec<&Preservative> = bits.iter().filter_map(|bit| row_of(bit)).collect();
        let Some(row) = rows.first() else { continue };
        let lines: Vec<_> = bits.iter().map(|bit| bit.line).collect();
        let limits: Vec<Percent> = rows.iter().filter_map(|row| limit_of(row)).collect();
        // Nothing where it may not be at all is said by the rule on barred uses.
        let Some(limit) = limits.into_iter().min() else {
            let basis = Basis { source: "", seen: Seen::Memory };
            let finding = Finding::said(RULE.code, Grade::Unknown, Said::LimitUnread, basis);
            findings.push(finding.read_in(&row.sources.join("; ")).on(lines).about(names(&bits)));
            continue;
        };
        if limit == Percent::ZERO {
            continue;
        }
        let counted = |bit: &Bit| row_of(bit).map_or(Percent::ZERO, |row| row.counts(bit.high));
        let found: Percent = bits.iter().map(|bit| counted(bit)).sum();
        let sure: Percent = bits.iter().filter(|bit| bit.trust.holds()).map(|bit| counted(bit)).sum();
        let near = criterion("near").percent().of(limit);
        let (grade, said) = if found > limit {
            (Grade::Stop, Said::AboveMaximum)
        } else if found > near {
            (Grade::Care, Said::NearMaximum)
        } else {
            (Grade::Fine, Said::WithinMaximum)
        };
        let seen = if rows.iter().all(|row| row.limit_seen) { Seen::Stored } else { Seen::Memory };
        let as_acid = rows.iter().any(|row| row.counted != Percent::WHOLE);
        let only = lines.first().copied().filter(|first| lines.iter().all(|line| line == first) && found > limit);
        let mend = only.and_then(|line| Some(Mend::Share(line, case.lower_share(line, found, limit)?)));
        findings.push(
            Finding::said(RULE.code, grade, said, Basis { source: "", seen })
                .read_in(&row.sources.join("; "))
                .if_holds(grade != Grade::Stop || sure > limit)
                .document(case.documents(&lines))
                .on(lines)
                .about(names(&bits))
                .found(Amount::Percent(found))
                .against(Amount::Percent(limit))
                .counted_as_acid(as_acid)
                .by_law(case.region(), "")
                .mend(mend),
        );
    }
}
