//! Preservatives where they must not be: rinse-off agents left on the skin, some in sprays, on lips or on the whole body.
//!
//! Why it matters: methylisothiazolinone left on the skin made allergies by the thousand; what is breathed in or licked
//! off reaches other places than the skin.
//! Source: Regulation (EC) 1223/2009 Annex V, entries 13, 20, 39, 43, 55, 56, 57.

use super::{Amount, Finding, Grade, Message, Remedy, Rule, RuleContext};
use crate::facts::{Barred, Basis, PreservativeGroup};
use crate::formula::{Area, Pack};
use crate::quantity::Percent;
use crate::sheet::SubstanceShare;

pub(super) const RULE: Rule = Rule { code: "barred-use", check };

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    // The mixture itself holds what must not be added to it.
    let with_mixture = |substance: &SubstanceShare| {
        let is = |other: &SubstanceShare| {
            other.line != substance.line && other.preservative().is_some_and(|row| row.id == "cmit-mit")
        };
        context.substances().iter().any(is)
    };
    for substance in context.substances() {
        let Some(row) = substance.preservative().filter(|row| row.group == PreservativeGroup::Listed) else { continue };
        let barred = |what: Barred| row.barred.contains(&what);
        let spray = context.about().pack == Pack::Spray;
        let said = if context.leave_on() && row.leave_on == Some(Percent::ZERO) {
            Message::RinseOffOnly
        } else if spray && (barred(Barred::Spray) || barred(Barred::Inhaled)) {
            Message::NotInSprays
        } else if context.area() == Area::Lip && barred(Barred::Lip) {
            Message::NotOnLips
        } else if context.leave_on() && context.area() == Area::Body && barred(Barred::Body) {
            Message::NotOnTheBody
        } else if barred(Barred::CmitMit) && with_mixture(substance) {
            Message::NotTogether
        } else {
            continue;
        };
        let verified = row.limit_provenance.is_verified() || row.rules_provenance.is_verified();
        let basis = if verified { Basis::verified("") } else { Basis::memory("") };
        findings.push(
            Finding::said(RULE.code, Grade::Stop, said, basis)
                .read_in(&row.sources.join("; "))
                // That a blend has it at all follows from its name on the label.
                .if_holds(verified)
                .on([substance.line])
                .about(&*substance.name)
                .found(Amount::Percent(substance.high))
                .by_law(context.region(), None)
                .remedy([Remedy::Remove(substance.line)]),
        );
    }
}
