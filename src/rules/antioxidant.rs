//! Oils that turn rancid sooner than most, and nothing that slows it.
//!
//! Why it matters: rancid oil smells, irritates, and makes sensitising peroxides.
//! Source: the oxidizability of a fat's acids, and the bound to it, as `facts::Profile` has them; where the acids are not
//! known or do not tell, a list of names from memory. The share from which it matters is a choice of ours.

use super::{Amount, Case, Finding, Grade, Mend, Rule, Said};
use crate::facts::{Basis, Ingredient, IngredientId, Outlook, Seen, criterion};
use crate::formula::{LineId, PhaseKind};
use crate::quantity::Percent;

pub(super) const RULE: Rule = Rule { code: "no-antioxidant", check };

/// What is proposed: 0.3 % of mixed tocopherols, inside their usual range.
const DOSE: Percent = Percent::millionths(300_000);

/// The rates are from memory, see [`crate::facts::Profile::oxidizability`].
const BY_ACIDS: Basis = Basis {
    source: "fatty acids of the table of fats or of the supplier's sheet; rates of oxidation after Fatemi & Hammond 1980",
    seen: Seen::Memory,
};

fn check(case: Case<'_>, findings: &mut Vec<Finding>) {
    let listed = case.class("fast-oxidising");
    let (mut most, mut lines, mut names) = (Percent::ZERO, Vec::new(), Vec::new());
    let mut basis = listed.basis;
    let mut told: Vec<LineId> = Vec::new();
    for (_, line, share, entry) in case.known_lines() {
        let Some(outlook) = outlook(&entry) else { continue };
        told.push(line.id);
        if outlook >= Outlook::Short {
            basis = BY_ACIDS;
            most = most.plus(share);
            lines.push(line.id);
            names.push(entry.label().to_owned());
        }
    }
    for bit in listed.bits.iter().filter(|bit| !told.contains(&bit.line)) {
        most = most.plus(bit.high);
        lines.push(bit.line);
        names.push(bit.name.clone());
    }
    let bound = criterion("antioxidant-oil");
    if most < bound.percent() || !case.class("antioxidant").is_empty() {
        return;
    }
    names.sort_unstable();
    names.dedup();
    let add = IngredientId::parse("tocopherol").ok().map(|id| Mend::Add(id, DOSE, PhaseKind::CoolDown));
    findings.push(
        Finding::said(RULE.code, Grade::Care, Said::NoAntioxidant, basis)
            .on(lines)
            .about(names.join(", "))
            .found(Amount::Percent(most))
            .against(Amount::Percent(bound.percent()))
            .mend(add),
    );
}

/// How long its acids let it keep, if they are known and tell.
fn outlook(entry: &Ingredient) -> Option<Outlook> {
    let fat = entry.fat()?;
    let profile = fat.triglyceride().filter(|_| !fat.doubts.oxidation)?;
    Some(Outlook::of(profile.oxidizability()))
}
