//! Expressed citrus oils and others that burn skin in the sun.
//!
//! Why it matters: a few drops of bergamot in a body oil and a day in the sun leave blisters and brown stains.
//! Source: CIR 2016 (5-methoxypsoralen at most 0.0015 %); the shares of oil that come to it are from memory. Oils that are
//! distilled or freed of furocoumarins, by their name on the shelf, do not count.

use super::case::names;
use super::{Amount, Case, Finding, Grade, Rule, Said};
use crate::facts::{criterion, fold, share_in};
use crate::formula::Area;
use crate::quantity::{Percent, Quantity, mul_div_nearest};
use crate::sheet::Bit;

pub(super) const RULE: Rule = Rule { code: "phototoxic", check };

/// Words on a bottle that say that the oil does not burn.
const FREE: [&str; 4] = [" fcf", " distilled", " furocoumarin free", " bergapten free"];

fn check(case: Case<'_>, findings: &mut Vec<Finding>) {
    if !case.leave_on() || case.area() == Area::Nappy {
        return;
    }
    let free = |bit: &Bit| {
        let name = fold(&case.name(bit.line));
        FREE.iter().any(|word| name.contains(word))
    };
    let limit = |bit: &Bit| share_in("furocoumarin", &bit.key);
    let counts = |bit: &&Bit| limit(bit).is_some() && !free(bit);
    let bits: Vec<&Bit> = case.bits().iter().filter(counts).collect();
    if bits.is_empty() {
        return;
    }
    let part = |bit: &Bit| limit(bit).map_or(0, |(most, _)| mul_div_nearest(bit.high.units(), 1_000_000, most.units()));
    let sum: i64 = bits.iter().map(|bit| part(bit)).sum();
    let (care, stop) = (criterion("phototoxic-care"), criterion("phototoxic-stop"));
    let (grade, said) = if sum > stop.millionths {
        (Grade::Stop, Said::Phototoxic)
    } else if sum > care.millionths {
        (Grade::Care, Said::Phototoxic)
    } else {
        (Grade::Fine, Said::PhototoxicWithin)
    };
    let seen = bits.iter().all(|bit| limit(bit).is_some_and(|(_, basis)| basis.holds()));
    findings.push(
        Finding::said(RULE.code, grade, said, stop.basis)
            .if_holds(seen)
            .on(bits.iter().map(|bit| bit.line))
            .about(names(&bits))
            .found(Amount::Hundredths((sum + 5_000) / 10_000))
            .against(Amount::Hundredths(stop.hundredths()))
            .more(Amount::Percent(bits.iter().map(|bit| bit.high).sum::<Percent>()).text()),
    );
}
