//! Water without a preservative.
//!
//! Why it matters: bacteria and moulds grow in it within days, seen or unseen, and go into eyes and small wounds.
//! Source: ISO 29621 for what needs none; Regulation (EC) 1223/2009 Annex V for what is one. Up to how much water nothing
//! is asked is a choice of ours that only spares, and so is that four fifths of the least usual dose suffice: usual doses are
//! from memory, and may show that a product is preserved, never that it needs no preservative.

use super::context::names;
use super::{Amount, Finding, Grade, Message, Remedy, Rule, RuleContext};
use crate::facts::{IngredientId, PreservativeGroup, criteria, criterion, fold};
use crate::formula::{LineId, PaperField, PhaseKind};
use crate::quantity::Percent;
use crate::sheet::{Enough, Named, SubstanceShare, consists_of, counts_at, enough};

pub(super) const RULE: Rule = Rule { code: "unpreserved", check };

/// What is proposed: 1 % of a broad blend, below its greatest share.
const DOSE: Percent = Percent::millionths(1_000_000);

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    if context.sheet.totals.shares.is_empty() {
        return;
    }
    let water = context.water();
    let bound = criterion(criteria::WATER_FREE);
    let basis = criterion(criteria::PH_EXEMPT_LOW).basis;
    let say = |grade, said| {
        let finding = Finding::said(RULE.code, grade, said, basis).rests_on(bound.basis);
        // That soap keeps by its alkali is custom, and so is from which pH on.
        if context.is_bar_soap() { finding.rests_on(criterion(criteria::BAR_PH_LOW).basis) } else { finding }
            .found(Amount::Percent(context.most_water()))
            .against(Amount::Percent(bound.value))
    };
    let uncounted = if context.is_wet() { Vec::new() } else { uncounted(context, water.most()) };
    let open_lye = context.lye_water().is_none();
    if !context.is_wet() && uncounted.is_empty() && !open_lye {
        findings.push(say(Grade::Fine, Message::NoWater));
        return;
    }
    if context.is_kept_otherwise() || context.is_bar_soap() && context.ph_above(criteria::BAR_PH_LOW) {
        findings.push(say(Grade::Fine, Message::KeptOtherwise));
        return;
    }
    if !context.is_wet() {
        let mut subject: Vec<String> = uncounted.iter().map(|line| context.called(*line)).collect();
        subject.sort();
        subject.dedup();
        subject.extend(open_lye.then(|| "the water of its lye".to_owned()));
        findings.push(say(Grade::Unknown, Message::WaterUnknown).on(uncounted).about(subject.join(", ")));
        return;
    }
    let of = |group: PreservativeGroup| -> Vec<&SubstanceShare> {
        let is = |substance: &&SubstanceShare| substance.preservative().is_some_and(|row| row.group == group);
        context.substances().iter().filter(is).collect()
    };
    let (listed, boosters) = (of(PreservativeGroup::Listed), of(PreservativeGroup::Booster));
    let is_enough = |substance: &SubstanceShare| {
        substance.preservative().map_or(Enough::No, |row| enough(&context.sheet.composition, substance, row))
    };
    let dosed = |dose: Enough| -> Vec<&SubstanceShare> {
        listed.iter().copied().filter(|substance| is_enough(substance) == dose).collect()
    };
    let lines = |substances: &[&SubstanceShare]| substances.iter().map(|substance| substance.line).collect::<Vec<_>>();
    let add = || {
        let id = IngredientId::parse("phenoxyethanol-ethylhexylglycerin").ok();
        id.map(|id| Remedy::Add(id, DOSE, PhaseKind::CoolDown))
    };
    let preserving = dosed(Enough::Yes);
    if !preserving.is_empty() {
        // That none of them works at the pH is said by the rule on that.
        let counts = |substance: &&&SubstanceShare| {
            substance.preservative().is_some_and(|row| context.ph().is_none() || counts_at(row, context.ph()))
        };
        let at_work: Vec<&SubstanceShare> = preserving.iter().filter(counts).copied().collect();
        if !at_work.is_empty() {
            findings.push(say(Grade::Fine, Message::Preserved).on(lines(&at_work)).about(names(&at_work)));
        }
        return;
    }
    let unsure = dosed(Enough::Unknown);
    // What a fragrance brings was not put there to preserve.
    let little: Vec<&SubstanceShare> = listed.iter().copied().filter(|substance| !substance.inside).collect();
    let tested = context.formula.papers.said(PaperField::ChallengeTest).is_some();
    let stop = if tested { Grade::Care } else { Grade::Stop };
    let (grade, said, substances) = if !unsure.is_empty() {
        (Grade::Care, Message::DoseUnknown, unsure)
    } else if !little.is_empty() {
        (stop, Message::TooLittle, little)
    } else if !boosters.is_empty() {
        (stop, Message::OnlyBoosters, boosters)
    } else {
        findings.push(say(Grade::Stop, Message::Unpreserved).on(water.lines()).remedy(add()));
        return;
    };
    findings.push(say(grade, said).on(lines(&substances)).about(names(&substances)).remedy(add()));
}

/// Lines of which nobody knows how much water they bring, if that may be more than is free of care beside what is known:
/// their share cannot be read, or nobody is certain what they are. A powder is no water, whatever it is.
fn uncounted(context: RuleContext<'_>, known: Percent) -> Vec<LineId> {
    let mut most = Some(known);
    let mut lines = Vec::new();
    for line in context.formula.lines().map(|(_, line)| line).filter(|line| !line.is_blank()) {
        if context.entry(line.id).is_some_and(|entry| entry.fat().is_some()) {
            continue;
        }
        let unknown = |named: &Named| !named.recognition.is_certain() && !context.is_dry(line.id, &fold(&named.name));
        let parts = consists_of(&line.choice, context.shelf);
        match context.sheet.totals.share_of(line.id) {
            Some(share) => {
                let open = if parts.is_empty() { share } else { open_share(context, line.id) };
                if open == Percent::ZERO {
                    continue;
                }
                most = most.map(|most| most.plus(open));
            }
            None if parts.is_empty() => most = None,
            None if parts.iter().any(|part| unknown(part) || context.is_water(line.id, &fold(&part.name))) => {
                most = None
            }
            None => continue,
        }
        lines.push(line.id);
    }
    if most.is_some_and(|most| most <= criterion(criteria::WATER_FREE).value) { Vec::new() } else { lines }
}

/// How much of a line may be anything.
fn open_share(context: RuleContext<'_>, line: LineId) -> Percent {
    let open = |substance: &&SubstanceShare| {
        let of_line = substance.line == line && !substance.inside;
        of_line && !substance.recognition.is_certain() && !context.is_dry(line, &substance.key)
    };
    context.substances().iter().filter(open).map(|substance| substance.high).sum()
}
