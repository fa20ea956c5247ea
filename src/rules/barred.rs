//! Preservatives where they must not be: rinse-off agents left on the skin, some in sprays, on lips or on the whole body.
//!
//! Why it matters: methylisothiazolinone left on the skin made allergies by the thousand; what is breathed in or licked
//! off reaches other places than the skin.
//! Source: Regulation (EC) 1223/2009 Annex V, entries 13, 20, 39, 43, 55, 56, 57.

use super::{Amount, Case, Finding, Grade, Mend, Rule, Said};
use crate::facts::{Barred, Basis, PreservativeGroup, Seen};
use crate::formula::{Area, Pack};
use crate::quantity::Percent;
use crate::sheet::Bit;

pub(super) const RULE: Rule = Rule { code: "barred-use", check };

fn check(case: Case<'_>, findings: &mut Vec<Finding>) {
    // The mixture itself holds what must not be added to it.
    let with_mixture = |bit: &Bit| {
        let is = |other: &Bit| other.line != bit.line && other.preservative().is_some_and(|row| row.id == "cmit-mit");
        case.bits().iter().any(is)
    };
    for bit in case.bits() {
        let Some(row) = bit.preservative().filter(|row| row.group == PreservativeGroup::Listed) else { continue };
        let barred = |what: Barred| row.barred.contains(&what);
        let spray = case.about().pack == Pack::Spray;
        let said = if case.leave_on() && row.leave_on == Some(Percent::ZERO) {
            Said::RinseOffOnly
        } else if spray && (barred(Barred::Spray) || barred(Barred::Inhaled)) {
            Said::NotInSprays
        } else if case.area() == Area::Lip && barred(Barred::Lip) {
            Said::NotOnLips
        } else if case.leave_on() && case.area() == Area::Body && barred(Barred::Body) {
            Said::NotOnTheBody
        } else if barred(Barred::CmitMit) && with_mixture(bit) {
            Said::NotTogether
        } else {
            continue;
        };
        let seen = if row.limit_seen || row.rules_seen { Seen::Stored } else { Seen::Memory };
        let basis = Basis { source: "", seen };
        findings.push(
            Finding::said(RULE.code, Grade::Stop, said, basis)
                .read_in(&row.sources.join("; "))
                // That a blend has it at all follows from its name on the label.
                .if_holds(seen == Seen::Stored)
                .on([bit.line])
                .about(&*bit.name)
                .found(Amount::Percent(bit.high))
                .by_law(case.region(), "")
                .mend([Mend::Remove(bit.line)]),
        );
    }
}
