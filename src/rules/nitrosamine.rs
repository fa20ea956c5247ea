//! An amine beside something that makes nitrosamines of it.
//!
//! Why it matters: nitrosamines cause cancer. Source: Annex III/60 to 62, Annex V/20 and 21; the greatest share of
//! triethanolamine stands among the capped substances, diethanolamine among the banned.

use super::{Amount, Finding, Grade, Message, Remedy, Rule, RuleContext};
use crate::facts::SubstanceClass;

pub(super) const RULE: Rule = Rule { code: "nitrosamine", check };

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    let (amines, partners) = (context.class(SubstanceClass::Amine), context.class(SubstanceClass::Nitrosating));
    if amines.is_empty() {
        return;
    }
    let (grade, said) = if partners.is_empty() {
        (Grade::Care, Message::AminePurity)
    } else {
        (Grade::Stop, Message::NitrosaminePair { partners: partners.list() })
    };
    findings.push(
        Finding::said(RULE.code, grade, said, amines.basis)
            .if_holds(amines.hold() && (partners.is_empty() || (partners.basis.holds() && partners.hold())))
            .on(amines.lines().into_iter().chain(partners.lines()))
            .about(amines.names())
            .found(Amount::Percent(amines.most()))
            .by_law(context.region(), None)
            .remedy(partners.lines().into_iter().map(Remedy::Remove)),
    );
}
