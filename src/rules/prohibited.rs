//! Substances that must not be in a cosmetic at all.
//!
//! Source: Regulation (EC) 1223/2009 Annex II, those of it that a small maker may meet. That a blend or fragrance holds one
//! is known from its label names or its supplier's statement.

use super::{Amount, Finding, Grade, Message, Remedy, Rule, RuleContext};
use crate::facts::{Basis, PreservativeGroup, limits};

pub(super) const RULE: Rule = Rule { code: "prohibited", check };

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    for substance in context.substances() {
        let limit =
            limits().iter().find(|row| row.most.is_none() && row.names.iter().any(|(name, _)| *name == substance.key));
        let row = substance.preservative().filter(|row| row.group == PreservativeGroup::Banned);
        let (basis, source) = match (limit, row) {
            (Some(limit), _) => (limit.basis, limit.basis.source.to_owned()),
            (None, Some(row)) => (Basis { source: "", provenance: row.limit_provenance }, row.sources.join("; ")),
            (None, None) => continue,
        };
        findings.push(
            Finding::said(RULE.code, Grade::Stop, Message::Prohibited, basis)
                .read_in(&source)
                .on([substance.line])
                .about(&*substance.name)
                .found(Amount::Percent(substance.high))
                .document(context.documents(&[substance.line]))
                .by_law(context.region(), None)
                .remedy([Remedy::Remove(substance.line)]),
        );
    }
}
