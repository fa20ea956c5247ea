//! Whether the preservatives that work together hold every kind of microbe.
//!
//! Why it matters: what is weak against one kind lets that kind grow, in a jar with every finger.
//! Source: Steinberg 2005 on what preservatives act against; the grades are from memory, so nothing here stops: only a
//! challenge test tells.

use super::counts::may_preserve;
use super::{Amount, Finding, Grade, Message, Microbe, Remedy, Rule, RuleContext};
use crate::facts::{
    Basis, Cover, Preservative, PreservativeGroup, SubstanceClass, criteria, criterion, preservative, source_text,
};
use crate::formula::{Audience, Pack};
use crate::sheet::{Enough, SubstanceShare, counts_at, enough};

pub(super) const RULE: Rule = Rule { code: "spectrum", check };

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    if !context.is_wet() || context.is_kept_otherwise() {
        return;
    }
    let of = |substance: &SubstanceShare| {
        substance.preservative().filter(|row| may_preserve(context, row) && counts_at(row, context.ph()))
    };
    let dose = |substance: &SubstanceShare, row: &Preservative| enough(&context.sheet.composition, substance, row);
    let working: Vec<(&SubstanceShare, &'static Preservative)> = context
        .substances()
        .iter()
        .filter_map(|substance| Some((substance, of(substance).filter(|row| dose(substance, row) != Enough::No)?)))
        .collect();
    if working.is_empty() {
        return;
    }
    let lines: Vec<_> = working.iter().map(|(substance, _)| substance.line).collect();
    // A blend as sold is graded as a whole: its booster helps.
    let blends = lines.iter().filter_map(|line| {
        let row = preservative(context.entry(*line)?.links().preservative?)?;
        (row.group == PreservativeGroup::Blend).then_some(row.cover?)
    });
    let Some(mut cover) = working.iter().filter_map(|(_, row)| row.cover).chain(blends).reduce(Cover::best) else {
        return;
    };
    if context.class(SubstanceClass::Chelator).most() >= criterion(criteria::CHELATOR_DOSE).value {
        cover.gram_negative = (cover.gram_negative + 1).min(2);
    }
    let all = [
        (cover.gram_positive, Microbe::GramPositive),
        (cover.gram_negative, Microbe::GramNegative),
        (cover.yeast, Microbe::Yeast),
        (cover.mould, Microbe::Mould),
    ];
    let gaps: Vec<Microbe> = all.iter().filter(|(grade, _)| *grade == 0).map(|(_, name)| *name).collect();
    let weak: Vec<Microbe> = all.iter().filter(|(grade, _)| *grade < 2).map(|(_, name)| *name).collect();
    let strong = cover.gram_positive.max(cover.gram_negative) == 2 && cover.yeast.max(cover.mould) == 2;
    let feeders = context.class(SubstanceClass::Feeder);
    let fed = feeders.most() > criterion(criteria::FEEDER).value;
    let exposed = context.about().pack == Pack::Jar || context.about().audience == Audience::UnderThree;
    let level = usize::from(!strong).max(if gaps.is_empty() { 0 } else { 1 + usize::from(exposed) }) + usize::from(fed);
    // Of what may be too little nothing good is said.
    if level == 0 && working.iter().any(|(substance, row)| dose(substance, row) == Enough::Unknown) {
        return;
    }
    let named = if gaps.is_empty() { weak } else { gaps };
    let feeders = if fed { feeders.list() } else { Vec::new() };
    let (grade, said) = match level {
        0 => (Grade::Fine, Message::SpectrumBroad),
        // Everything is held, and fed.
        _ if named.is_empty() => (Grade::Care, Message::SpectrumFed { feeders }),
        1 => (Grade::Care, Message::SpectrumNarrow { feeders }),
        _ => (Grade::Stop, Message::SpectrumNarrow { feeders }),
    };
    let basis = Basis::memory(source_text("steinberg"));
    findings.push(
        Finding::said(RULE.code, grade, said, basis)
            .on(lines)
            .about(super::context::names(&working.iter().map(|(substance, _)| *substance).collect::<Vec<_>>()))
            .found(Amount::Microbes(named))
            .remedy((grade != Grade::Fine && context.about().pack == Pack::Jar).then_some(Remedy::Pack(Pack::Pump))),
    );
}
