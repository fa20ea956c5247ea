//! More of an ingredient than its supplier, or the table, gives as the most.
//!
//! Why it matters: above it something happens that the maker does not want: it stings, crystallises, feels sticky or thins.
//! Source: the supplier's figure on the shelf, else the table's. A supplier's figure stops; the table's asks for care, since
//! what law caps has rules of its own.

use super::{Amount, Case, Finding, Grade, Mend, Rule, Said};
use crate::facts::{Basis, Origin, Seen, fold, limits};

pub(super) const RULE: Rule = Rule { code: "above-most", check };

/// Twenty percent of alcohol is a threshold above which no preservative is asked for, and no ceiling.
const NO_CEILING: &str = "ethanol";

fn check(case: Case<'_>, findings: &mut Vec<Finding>) {
    for (_, line, share, entry) in case.known_lines() {
        let Some(most) = entry.max().filter(|most| share > most.value) else { continue };
        let (grade, basis) = match most.origin {
            Origin::Maker => {
                (Grade::Stop, Basis { source: "the most that you entered on the shelf", seen: Seen::Stored })
            }
            Origin::Table { source, verified } => {
                let capped = entry.inci().is_some_and(|inci| {
                    let key = fold(inci.value);
                    limits().iter().any(|limit| limit.names.iter().any(|(name, _)| *name == key))
                });
                let own_rule = capped || entry.links().preservative.is_some() || entry.has_function("Fragrance");
                if own_rule || entry.id().as_str() == NO_CEILING {
                    continue;
                }
                (Grade::Care, Basis { source, seen: if verified { Seen::Stored } else { Seen::Memory } })
            }
        };
        findings.push(
            Finding::said(RULE.code, grade, Said::AboveMost, basis)
                .on([line.id])
                .about(entry.label())
                .found(Amount::Percent(share))
                .against(Amount::Percent(most.value))
                .document(case.documents(&[line.id]).filter(|_| grade == Grade::Stop))
                .mend([Mend::Share(line.id, most.value)]),
        );
    }
}
