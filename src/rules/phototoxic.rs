//! Expressed citrus oils and others that burn skin in the sun.
//!
//! Why it matters: a few drops of bergamot in a body oil and a day in the sun leave blisters and brown stains.
//! Source: CIR 2016 (5-methoxypsoralen at most 0.0015 %); the shares of oil that come to it are from memory. Oils that are
//! distilled or freed of furocoumarins, by their name on the shelf, do not count.

use super::context::names;
use super::{Amount, Finding, Grade, Message, Rule, RuleContext};
use crate::facts::{ShareClass, criteria, criterion, fold, share_in};
use crate::formula::Area;
use crate::quantity::{Percent, Quantity, mul_div_nearest};
use crate::sheet::SubstanceShare;

pub(super) const RULE: Rule = Rule { code: "phototoxic", check };

/// Words on a bottle that say that the oil does not burn.
const FREE: [&str; 4] = [" fcf", " distilled", " furocoumarin free", " bergapten free"];

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    if !context.leave_on() || context.area() == Area::Nappy {
        return;
    }
    let free = |substance: &SubstanceShare| {
        let name = fold(&context.name(substance.line));
        FREE.iter().any(|word| name.contains(word))
    };
    let limit = |substance: &SubstanceShare| share_in(ShareClass::Furocoumarin, &substance.key);
    let counts = |substance: &&SubstanceShare| limit(substance).is_some() && !free(substance);
    let substances: Vec<&SubstanceShare> = context.substances().iter().filter(counts).collect();
    if substances.is_empty() {
        return;
    }
    let part = |substance: &SubstanceShare| {
        limit(substance).map_or(0, |(most, _)| mul_div_nearest(substance.high.units(), 1_000_000, most.units()))
    };
    let sum: i64 = substances.iter().map(|substance| part(substance)).sum();
    let (care, stop) = (criterion(criteria::PHOTOTOXIC_CARE), criterion(criteria::PHOTOTOXIC_STOP));
    let oils: Percent = substances.iter().map(|substance| substance.high).sum();
    let (grade, said) = if sum > stop.value.units() {
        (Grade::Stop, Message::Phototoxic { oils })
    } else if sum > care.value.units() {
        (Grade::Care, Message::Phototoxic { oils })
    } else {
        (Grade::Fine, Message::PhototoxicWithin { oils })
    };
    let seen = substances.iter().all(|substance| limit(substance).is_some_and(|(_, basis)| basis.holds()));
    findings.push(
        Finding::said(RULE.code, grade, said, stop.basis)
            .if_holds(seen)
            .on(substances.iter().map(|substance| substance.line))
            .about(names(&substances))
            .found(Amount::Hundredths((sum + 5_000) / 10_000))
            .against(Amount::Hundredths(stop.value.units() / 10_000)),
    );
}
