//! Acid preservatives at a pH at which they do nothing.
//!
//! Why it matters: only the undissociated acid gets into a microbe. Sodium benzoate at pH 6.2 is a salt in water.
//! Source: Steinberg 2005 and the table of acids for the dissociation constants; up to which pH an acid counts is a choice
//! of ours. What counts of other preservatives at a pH is from memory.

use super::{Amount, Case, Finding, Grade, Mend, Rule, Said};
use crate::facts::{Acid, Basis, Preservative, PreservativeGroup, Seen, acid, source_text};
use crate::quantity::{Percent, Ph, Quantity};
use crate::sheet::{Bit, share_at};

pub(super) const RULE: Rule = Rule { code: "preservative-ph", check };

/// Whether a preservative counts at a pH. One of which no range is known counts.
pub(super) fn counts(row: &Preservative, ph: Option<Ph>) -> bool {
    let worst = row.ph_worst.or(row.window.and_then(|window| window.max));
    match (ph, worst) {
        (Some(ph), Some(worst)) => ph <= worst,
        // Without a pH nothing of an acid is sure.
        (None, Some(_)) => row.acid.is_none(),
        (_, None) => true,
    }
}

/// True for a preservative of the list that is allowed in such a product; what must be taken out preserves nothing.
pub(super) fn may_preserve(case: Case<'_>, row: &Preservative) -> bool {
    let limit = if case.leave_on() { row.leave_on } else { row.rinse_off };
    row.group == PreservativeGroup::Listed && limit != Some(Percent::ZERO)
}

/// The pH up to which a preservative works well.
fn bound(row: &Preservative) -> Option<Ph> {
    row.window.and_then(|window| window.max)
}

fn check(case: Case<'_>, findings: &mut Vec<Finding>) {
    if !case.is_wet() || case.is_kept_otherwise() {
        return;
    }
    let ph = case.ph();
    let of = |bit: &Bit| bit.preservative().filter(|row| may_preserve(case, row));
    let present: Vec<(&Bit, &'static Preservative)> =
        case.bits().iter().filter_map(|bit| Some((bit, of(bit)?))).filter(|(bit, _)| bit.high.units() > 0).collect();
    let acids: Vec<_> = present.iter().filter(|(_, row)| row.acid.is_some() && bound(row).is_some()).collect();
    if acids.is_empty() {
        return;
    }
    let cut = Basis { source: source_text("steinberg"), seen: Seen::Custom };
    let seen = |row: &Preservative| row.acid.and_then(acid).and_then(Acid::system).is_some_and(|acid| acid.seen);
    let left = present.iter().any(|(_, row)| counts(row, ph));
    let all_acids = acids.len() == present.len();
    let lines = || acids.iter().map(|(bit, _)| bit.line);
    let lowest = acids.iter().filter_map(|(_, row)| bound(row)).min();
    let subject = super::case::names(&acids.iter().map(|(bit, _)| *bit).collect::<Vec<_>>());
    let Some(ph) = ph else {
        let grade = if all_acids { Grade::Stop } else { Grade::Care };
        let finding = Finding::said(RULE.code, grade, Said::NoPhForAcids, cut).on(lines()).about(subject);
        findings.push(match lowest {
            Some(max) => finding.against(Amount::Ph(max)).mend([Mend::TargetPh(max)]),
            None => finding,
        });
        return;
    };
    if !left {
        let holds = acids.iter().all(|(_, row)| seen(row)) && all_acids;
        let finding = Finding::said(RULE.code, Grade::Stop, Said::NoneWorksAtPh, cut).if_holds(holds).on(lines());
        let finding = finding.about(subject).found(Amount::Ph(ph));
        findings.push(match lowest {
            Some(max) => finding.against(Amount::Ph(max)).mend([Mend::TargetPh(max)]),
            None => finding,
        });
    }
    for (bit, row) in acids {
        let system = row.acid.and_then(acid).and_then(Acid::system);
        let Some(share) = system.and_then(|acid| share_at(acid, ph, row.counts(bit.middle()), false)) else { continue };
        let max = bound(row);
        let (grade, said) = match max {
            Some(max) if ph <= max => (Grade::Fine, Said::AcidWorks),
            _ if counts(row, Some(ph)) => (Grade::Care, Said::AcidWeak),
            _ => (Grade::Care, Said::AcidIdle),
        };
        let mut finding = Finding::said(RULE.code, grade, said, cut)
            .if_holds(seen(row))
            .on([bit.line])
            .about(&*bit.name)
            .found(Amount::Percent(rounded(share.active.units())))
            .more(ph.canonical());
        if let Some(max) = max {
            finding = finding.against(Amount::Ph(max));
            if grade == Grade::Care {
                finding = finding.mend([Mend::TargetPh(max)]);
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
