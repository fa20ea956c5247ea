//! Parabens: each, the long ones together, and all together.
//!
//! Why it matters: propyl- and butylparaben act a little like a hormone, so law caps them far below the short ones.
//! Source: Regulation (EC) 1223/2009 Annex V, entries 12 and 12a.

use super::case::names;
use super::{Amount, Case, Finding, Grade, Rule, Said};
use crate::facts::{Basis, PreservativeGroup, Seen, criterion};
use crate::quantity::{Percent, Quantity};
use crate::sheet::Bit;

pub(super) const RULE: Rule = Rule { code: "parabens", check };

fn check(case: Case<'_>, findings: &mut Vec<Finding>) {
    let of = |ids: &[&str]| -> Vec<&Bit> {
        let within = |bit: &&Bit| {
            bit.preservative().is_some_and(|row| row.group == PreservativeGroup::Listed && ids.contains(&row.id))
        };
        case.bits().iter().filter(within).collect()
    };
    let all = ["methylparaben", "ethylparaben", "propylparaben", "butylparaben"];
    let mut within: Option<(Percent, Percent, Vec<&Bit>)> = None;
    for (ids, key) in [
        (&all[..1], "paraben-short"),
        (&all[1..2], "paraben-short"),
        (&all[2..], "paraben-long"),
        (&all[..], "paraben-all"),
    ] {
        let bits = of(ids);
        let counted = |bit: &Bit| bit.preservative().map_or(Percent::ZERO, |row| row.counts(bit.high));
        let found: Percent = bits.iter().map(|bit| counted(bit)).sum();
        let sure: Percent = bits.iter().filter(|bit| bit.trust.holds()).map(|bit| counted(bit)).sum();
        let bound = criterion(key);
        let near = criterion("near").percent().of(bound.percent());
        let grade = if found > bound.percent() {
            Grade::Stop
        } else if found > near {
            Grade::Care
        } else {
            within = Some((found, bound.percent(), bits));
            continue;
        };
        findings.push(
            Finding::said(RULE.code, grade, Said::Parabens, bound.basis)
                .if_holds(grade != Grade::Stop || sure > bound.percent())
                .on(bits.iter().map(|bit| bit.line))
                .about(names(&bits))
                .found(Amount::Percent(found))
                .against(Amount::Percent(bound.percent()))
                .document(case.documents(&bits.iter().map(|bit| bit.line).collect::<Vec<_>>()))
                .by_law(case.region(), ""),
        );
    }
    if let Some((found, bound, bits)) = within.filter(|(found, ..)| findings.is_empty() && found.units() > 0) {
        let basis = Basis { seen: Seen::Stored, ..criterion("paraben-all").basis };
        findings.push(
            Finding::said(RULE.code, Grade::Fine, Said::ParabensWithin, basis)
                .on(bits.iter().map(|bit| bit.line))
                .about(names(&bits))
                .found(Amount::Percent(found))
                .against(Amount::Percent(bound)),
        );
    }
}
