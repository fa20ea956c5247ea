//! Emulsifier: enough of it for the oil, and of the right balance.
//!
//! Why it matters: too little, or the wrong side of water and oil, and the lotion parts in the jar, its preservative with it.
//! Source: Griffin's HLB system; the doses and cut-offs are choices of ours. Only for oil in water. Where an HLB is not
//! known nothing is said of it.

use super::{Amount, Case, Finding, Grade, Rule, Said};
use crate::facts::{Basis, Hlb, Ingredient, Origin, Seen, Sourced, criterion};
use crate::formula::PhaseKind;
use crate::quantity::{Percent, Quantity, mul_div_nearest};

pub(super) const RULE: Rule = Rule { code: "emulsifier", check };

/// Thicken the oil phase and steady the emulsion; they are neither oil to be emulsified nor emulsifier by themselves.
const FATTY_ALCOHOLS: [&str; 4] = ["cetyl-alcohol", "cetearyl-alcohol", "stearyl-alcohol", "stearic-acid"];

fn check(case: Case<'_>, findings: &mut Vec<Finding>) {
    let lines = case.known_lines();
    let emulsifies = |entry: &Ingredient| entry.has_function("Surfactant - emulsifying");
    let fatty = |entry: &Ingredient| FATTY_ALCOHOLS.contains(&entry.id().as_str());
    let oily = |kind: PhaseKind, entry: &Ingredient| {
        let usual = entry.usual_phase().is_some_and(|phase| phase.value == crate::facts::UsualPhase::Oil);
        (entry.links().fat.is_some() || entry.required_hlb().is_some() || (kind == PhaseKind::Oil && usual))
            && !emulsifies(entry)
    };
    let of = |wanted: &dyn Fn(PhaseKind, &Ingredient) -> bool| -> Vec<_> {
        lines.iter().filter(|(phase, _, share, entry)| share.units() > 0 && wanted(phase.kind, entry)).collect()
    };
    let oils = of(&|kind, entry| oily(kind, entry) && !fatty(entry));
    let emulsifiers = of(&|_, entry| emulsifies(entry));
    let oil: Percent = oils.iter().map(|line| line.2).sum();
    let emulsifier: Percent = emulsifiers.iter().map(|line| line.2).sum();
    if oil <= criterion("emulsifier-oil").percent() || case.class("water").most() <= oil || case.is_bar_soap() {
        return;
    }
    let dose = Percent::from_units(mul_div_nearest(emulsifier.units(), Percent::WHOLE.units(), oil.units()));
    let (pass, care) = (criterion("emulsifier-pass"), criterion("emulsifier-care"));
    let (grade, said, bound) = if dose >= pass.percent() {
        (Grade::Fine, Said::EmulsifierEnough, pass)
    } else if dose >= care.percent() {
        (Grade::Care, Said::EmulsifierLow, pass)
    } else if emulsifiers.is_empty() {
        (Grade::Stop, Said::NoEmulsifier, care)
    } else {
        (Grade::Stop, Said::EmulsifierLow, care)
    };
    findings.push(
        Finding::said(RULE.code, grade, said, bound.basis)
            .on(emulsifiers.iter().map(|line| line.1.id))
            .found(Amount::Percent(Percent::from_units((dose.units() + 50_000) / 100_000 * 100_000)))
            .against(Amount::Percent(bound.percent()))
            .more(Amount::Percent(oil).text()),
    );
    // Fatty alcohols have a required HLB of their own and count with the oils here.
    let fats = of(&|kind, entry| oily(kind, entry) || fatty(entry));
    let required = mean(&fats.iter().map(|line| (line.2, line.3.required_hlb())).collect::<Vec<_>>());
    let had = mean(&emulsifiers.iter().map(|line| (line.2, line.3.emulsifier_hlb())).collect::<Vec<_>>());
    let (Some((required, a)), Some((had, b))) = (required, had) else { return };
    let off = (required - had).abs();
    let steadied = case.class("gum").most() >= criterion("hlb-stabiliser").percent();
    let (pass, care) = (criterion("hlb-pass"), criterion("hlb-care"));
    let (grade, said) = match off {
        off if off <= pass.hundredths() => (Grade::Fine, Said::HlbMeets),
        off if off <= care.hundredths() || steadied => (Grade::Care, Said::HlbOff),
        _ => (Grade::Stop, Said::HlbOff),
    };
    findings.push(
        Finding::said(RULE.code, grade, said, Basis { seen: Seen::Custom, ..pass.basis })
            .if_holds(a && b)
            .on(emulsifiers.iter().map(|line| line.1.id))
            .found(Amount::Hundredths(had))
            .against(Amount::Hundredths(required)),
    );
}

/// The mean of HLB values by share, in hundredths, and whether all were seen; `None` if one is not known.
fn mean(values: &[(Percent, Option<Sourced<Hlb>>)]) -> Option<(i64, bool)> {
    let (mut sum, mut weight, mut seen) = (0i128, 0i128, true);
    for (share, value) in values {
        let value = (*value)?;
        sum += i128::from(share.units()) * i128::from(value.value.units());
        weight += i128::from(share.units());
        seen &= !matches!(value.origin, Origin::Table { verified: false, .. });
    }
    let nearest = (sum * 2 + weight).checked_div(weight * 2)?;
    Some((i64::try_from(nearest).ok()?, seen))
}
