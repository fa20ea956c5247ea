//! Acid preservatives at a pH at which they do nothing.
//!
//! Why it matters: only the undissociated acid gets into a microbe. Sodium benzoate at pH 6.2 is a salt in water.
//! Source: Steinberg 2005 and the table of acids for the dissociation constants; up to which pH an acid counts is a choice
//! of ours, which only spares. What counts of other preservatives at a pH is from memory.

use super::counts::may_preserve;
use super::{Amount, Finding, Grade, Message, Remedy, Rule, RuleContext};
use crate::facts::{Acid, Basis, Preservative, Provenance, acid, source_text};
use crate::quantity::{Percent, Ph, Quantity};
use crate::sheet::{Enough, SubstanceShare, counts_at, enough, share_at};

pub(super) const RULE: Rule = Rule { code: "preservative-ph", check };

/// The pH up to which a preservative works well.
fn bound(row: &Preservative) -> Option<Ph> {
    row.window.and_then(|window| window.max)
}

/// The pH from which a preservative works.
fn least(row: &Preservative) -> Option<Ph> {
    row.window.and_then(|window| window.min)
}

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    if !context.is_wet() || context.is_kept_otherwise() {
        return;
    }
    let ph = context.ph();
    let of = |substance: &SubstanceShare| substance.preservative().filter(|row| may_preserve(context, row));
    // Of a trace nobody asks at which pH it works.
    let able = |substance: &SubstanceShare, row: &Preservative| {
        enough(&context.sheet.composition, substance, row) != Enough::No
    };
    let present: Vec<(&SubstanceShare, &'static Preservative)> = context
        .substances()
        .iter()
        .filter_map(|substance| Some((substance, of(substance).filter(|row| able(substance, row))?)))
        .collect();
    let acids: Vec<_> = present.iter().filter(|(_, row)| row.acid.is_some() && bound(row).is_some()).collect();
    // Up to which pH one counts is a choice of ours, which spares: what stops is water in which none is left to act.
    let cut = Basis { source: source_text("steinberg"), provenance: Provenance::Allowance };
    let seen = |row: &Preservative| {
        row.acid.and_then(acid).and_then(Acid::system).is_some_and(|acid| acid.provenance.is_verified())
    };
    let all_acids = acids.len() == present.len();
    let named = |of: &[&(&SubstanceShare, &'static Preservative)]| {
        super::context::names(&of.iter().map(|(substance, _)| *substance).collect::<Vec<_>>())
    };
    let lines = |of: &[&(&SubstanceShare, &'static Preservative)]| {
        of.iter().map(|(substance, _)| substance.line).collect::<Vec<_>>()
    };
    let Some(ph) = ph else {
        let Some(lowest) = acids.iter().filter_map(|(_, row)| bound(row)).min() else { return };
        let grade = if all_acids { Grade::Stop } else { Grade::Care };
        let finding =
            Finding::said(RULE.code, grade, Message::NoPhForAcids, cut).on(lines(&acids)).about(named(&acids));
        findings.push(finding.against(Amount::Ph(lowest)).remedy([Remedy::TargetPh(lowest)]));
        return;
    };
    if !present.is_empty() && !present.iter().any(|(_, row)| counts_at(row, Some(ph))) {
        let holds = all_acids && acids.iter().all(|(_, row)| seen(row));
        let too_high: Vec<_> = present.iter().filter(|(_, row)| bound(row).is_some_and(|max| ph > max)).collect();
        let too_low: Vec<_> = present.iter().filter(|(_, row)| least(row).is_some_and(|min| ph < min)).collect();
        let say = |said, of: &[&(&SubstanceShare, &'static Preservative)], end: Ph| {
            let finding = Finding::said(RULE.code, Grade::Stop, said, cut).if_holds(holds).on(lines(of));
            finding.about(named(of)).found(Amount::Ph(ph)).against(Amount::Ph(end))
        };
        if let Some(max) = too_high.iter().filter_map(|(_, row)| bound(row)).min() {
            findings.push(say(Message::NoneWorksAtPh, &too_high, max).remedy([Remedy::TargetPh(max)]));
        } else if let Some(min) = too_low.iter().filter_map(|(_, row)| least(row)).max() {
            // That skin takes so high a pH is another question: no change is proposed.
            findings.push(say(Message::NoneWorksBelow, &too_low, min));
        }
    }
    for (substance, row) in acids {
        let system = row.acid.and_then(acid).and_then(Acid::system);
        let Some(share) = system.and_then(|acid| share_at(acid, ph, row.counts(substance.middle()), false)) else {
            continue;
        };
        let max = bound(row);
        let (grade, said) = match max {
            Some(max) if ph <= max => (Grade::Fine, Message::AcidWorks { ph }),
            _ if counts_at(row, Some(ph)) => (Grade::Care, Message::AcidWeak { ph }),
            _ => (Grade::Care, Message::AcidIdle { ph }),
        };
        let mut finding = Finding::said(RULE.code, grade, said, cut)
            .if_holds(seen(row))
            .on([substance.line])
            .about(&*substance.name)
            .found(Amount::Percent(rounded(share.active.units())));
        if let Some(max) = max {
            finding = finding.against(Amount::Ph(max));
            if grade == Grade::Care {
                finding = finding.remedy([Remedy::TargetPh(max)]);
            }
        }
        findings.push(finding);
    }
}

/// To 0.001 %, more than the model knows.
fn rounded(units: i64) -> Percent {
    Percent::from_units((units + 500) / 1_000 * 1_000)
}

#[cfg(test)]
mod tests {
    use super::*;

    // Source: Steinberg 2005, J Cosmet Sci 56(5):361-362, table of undissociated acid in percent, recomputed there from the
    // constants of that table; here with the constants of the table of acids, which differ a little.
    #[test]
    fn undissociated_share_agrees_with_the_published_table() {
        for (id, ph, percent) in [
            ("dehydroacetic-acid", 300, 99.0),
            ("dehydroacetic-acid", 400, 95.0),
            ("dehydroacetic-acid", 500, 65.0),
            ("dehydroacetic-acid", 600, 16.0),
            ("dehydroacetic-acid", 700, 1.8),
            ("sorbic-acid", 300, 98.0),
            ("sorbic-acid", 400, 85.0),
            ("sorbic-acid", 500, 37.0),
            ("sorbic-acid", 600, 5.4),
            ("propionic-acid", 500, 43.0),
            ("propionic-acid", 600, 6.9),
            ("benzoic-acid", 300, 94.0),
            ("benzoic-acid", 400, 60.0),
            ("benzoic-acid", 500, 13.0),
            ("benzoic-acid", 600, 1.5),
            ("levulinic-acid", 500, 29.0),
            ("anisic-acid", 500, 23.0),
        ] {
            let share = share_at(acid(id).unwrap(), Ph::from_units(ph), Percent::WHOLE, false).unwrap();
            let share = share.share.units() as f64 / 1e6;
            assert!((share - percent).abs() <= percent * 0.08 + 0.6, "{id} at {ph}: {share} against {percent}");
        }
    }
}
