//! A blend with a capped or listed substance in it whose shares nobody stated.
//!
//! Why it matters: no limit of it can be checked; up to the whole line may be that substance.
//! Source: Regulation (EC) 1223/2009 Annexes III and V ask for the sum over all sources.

use super::case::names;
use super::{Amount, Case, Finding, Grade, Rule, Said};
use crate::facts::{Basis, PreservativeGroup, Seen, limits, source_text};
use crate::sheet::Bit;

pub(super) const RULE: Rule = Rule { code: "composition-unknown", check };

fn check(case: Case<'_>, findings: &mut Vec<Finding>) {
    for line in &case.sheet.makeup.open {
        let limited = |bit: &&Bit| {
            bit.line == *line
                && (bit.preservative().is_some_and(|row| row.group != PreservativeGroup::Booster)
                    || limits().iter().any(|limit| limit.names.iter().any(|(name, _)| *name == bit.key)))
        };
        let bits: Vec<&Bit> = case.bits().iter().filter(limited).collect();
        let Some(first) = bits.first() else { continue };
        let basis = Basis { source: source_text("av"), seen: Seen::Stored };
        findings.push(
            Finding::said(RULE.code, Grade::Care, Said::CompositionUnknown, basis)
                .on([*line])
                .about(case.name(*line))
                .more(names(&bits))
                .found(Amount::Percent(first.high)),
        );
    }
}
