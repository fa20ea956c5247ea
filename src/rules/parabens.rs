//! Parabens: each, the long ones together, and all together.
//!
//! Why it matters: propyl- and butylparaben act a little like a hormone, so law caps them far below the short ones.
//! Source: Regulation (EC) 1223/2009 Annex V, entries 12 and 12a.

use super::context::names;
use super::{Amount, Finding, Grade, Message, Rule, RuleContext};
use crate::facts::{Basis, PreservativeGroup, criteria, criterion};
use crate::quantity::{Percent, Quantity};
use crate::sheet::SubstanceShare;

pub(super) const RULE: Rule = Rule { code: "parabens", check };

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    let of = |ids: &[&str]| -> Vec<&SubstanceShare> {
        let within = |substance: &&SubstanceShare| {
            substance.preservative().is_some_and(|row| row.group == PreservativeGroup::Listed && ids.contains(&row.id))
        };
        context.substances().iter().filter(within).collect()
    };
    let all = ["methylparaben", "ethylparaben", "propylparaben", "butylparaben"];
    let mut within: Option<(Percent, Percent, Vec<&SubstanceShare>)> = None;
    for (ids, key) in [
        (&all[..1], criteria::PARABEN_SHORT),
        (&all[1..2], criteria::PARABEN_SHORT),
        (&all[2..], criteria::PARABEN_LONG),
        (&all[..], criteria::PARABEN_ALL),
    ] {
        let substances = of(ids);
        let counted = |substance: &SubstanceShare| {
            substance.preservative().map_or(Percent::ZERO, |row| row.counts(substance.high))
        };
        let found: Percent = substances.iter().map(|substance| counted(substance)).sum();
        let sure: Percent =
            substances.iter().filter(|substance| substance.trust.holds()).map(|substance| counted(substance)).sum();
        let bound = criterion(key);
        let near = criterion(criteria::NEAR).value.of(bound.value);
        let grade = if found > bound.value {
            Grade::Stop
        } else if found > near {
            Grade::Care
        } else {
            within = Some((found, bound.value, substances));
            continue;
        };
        findings.push(
            Finding::said(RULE.code, grade, Message::Parabens, bound.basis)
                .if_holds(grade != Grade::Stop || sure > bound.value)
                .on(substances.iter().map(|substance| substance.line))
                .about(names(&substances))
                .found(Amount::Percent(found))
                .against(Amount::Percent(bound.value))
                .document(context.documents(&substances.iter().map(|substance| substance.line).collect::<Vec<_>>()))
                .by_law(context.region(), None),
        );
    }
    if let Some((found, bound, substances)) = within.filter(|(found, ..)| findings.is_empty() && found.units() > 0) {
        let basis = Basis::verified(criterion(criteria::PARABEN_ALL).basis.source);
        findings.push(
            Finding::said(RULE.code, Grade::Fine, Message::ParabensWithin, basis)
                .on(substances.iter().map(|substance| substance.line))
                .about(names(&substances))
                .found(Amount::Percent(found))
                .against(Amount::Percent(bound)),
        );
    }
}
