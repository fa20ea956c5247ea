//! Water without a preservative.
//!
//! Why it matters: bacteria and moulds grow in it within days, seen or unseen, and go into eyes and small wounds.
//! Source: ISO 29621 for what needs none; Regulation (EC) 1223/2009 Annex V for what is one. From how much water it counts
//! is a choice of ours; usual doses are from memory.

use super::{Amount, Case, Finding, Grade, Mend, Rule, Said};
use crate::facts::{IngredientId, Preservative, PreservativeGroup, UseRange, criterion};
use crate::formula::{PaperField, PhaseKind};
use crate::quantity::{Percent, Quantity};
use crate::sheet::Bit;

pub(super) const RULE: Rule = Rule { code: "unpreserved", check };

/// What is proposed: 1 % of a broad blend, below its greatest share.
const DOSE: Percent = Percent::millionths(1_000_000);

fn check(case: Case<'_>, findings: &mut Vec<Finding>) {
    if case.sheet.totals.shares.is_empty() {
        return;
    }
    let water = case.class("water");
    let bound = criterion("water-free");
    let basis = criterion("ph-exempt-low").basis;
    let say = |grade, said| {
        Finding::said(RULE.code, grade, said, basis)
            .found(Amount::Percent(water.most()))
            .against(Amount::Percent(bound.percent()))
    };
    if !case.is_wet() {
        findings.push(say(Grade::Fine, Said::NoWater));
        return;
    }
    if case.is_kept_otherwise() || case.is_bar_soap() && case.ph_above("bar-ph-low") {
        findings.push(say(Grade::Fine, Said::KeptOtherwise));
        return;
    }
    let of = |group: PreservativeGroup| -> Vec<(&Bit, &'static Preservative)> {
        let row = |bit: &Bit| bit.preservative().filter(|row| row.group == group && bit.high.units() > 0);
        case.bits().iter().filter_map(|bit| Some((bit, row(bit)?))).collect()
    };
    let (listed, boosters) = (of(PreservativeGroup::Listed), of(PreservativeGroup::Booster));
    let names = |bits: &[(&Bit, &'static Preservative)]| {
        super::case::names(&bits.iter().map(|(bit, _)| *bit).collect::<Vec<_>>())
    };
    let add = || {
        let id = IngredientId::parse("phenoxyethanol-ethylhexylglycerin").ok();
        id.map(|id| Mend::Add(id, DOSE, PhaseKind::CoolDown))
    };
    if listed.is_empty() {
        let tested = case.formula.papers.said(PaperField::ChallengeTest).is_some();
        findings.push(match (boosters.is_empty(), tested) {
            (true, _) => say(Grade::Stop, Said::Unpreserved).on(water.lines()).mend(add()),
            (false, tested) => say(if tested { Grade::Care } else { Grade::Stop }, Said::OnlyBoosters)
                .on(boosters.iter().map(|(bit, _)| bit.line))
                .about(names(&boosters))
                .mend(add()),
        });
        return;
    }
    // A dose counts from half of the least usual one.
    let enough = |(bit, row): &(&Bit, &'static Preservative)| {
        let least = match row.usual {
            Some(UseRange { low: Some(low), .. }) => low,
            _ => return true,
        };
        let half = criterion("low-dose").millionths;
        let sum: Percent = listed.iter().filter(|(other, _)| other.key == bit.key).map(|(bit, _)| bit.high).sum();
        i128::from(sum.units()) * 1_000_000 >= i128::from(least.units()) * i128::from(half)
    };
    let lines = listed.iter().map(|(bit, _)| bit.line);
    findings.push(if listed.iter().any(enough) {
        say(Grade::Fine, Said::Preserved).on(lines).about(names(&listed))
    } else {
        say(Grade::Stop, Said::TooLittle).if_holds(false).on(lines).about(names(&listed))
    });
}
