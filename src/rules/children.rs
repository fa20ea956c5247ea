//! Children: what the law keeps from them, and what is left out of their products by custom.
//!
//! Why it matters: a small child has more skin for its weight, a nappy that keeps everything on and damages the skin, and
//! hands that go to the mouth.
//! Source: Regulation (EC) 1223/2009 Annex V (child rules of preservatives) and Annex III/324; SCCS/1681/25; Tisserand and
//! Young 2014 for camphor-like oils; the rest is custom, which an assessor may answer.

use super::{Amount, Case, Finding, Grade, Mend, Rule, Said};
use crate::facts::{Basis, ChildRule, Seen, criterion, fold, in_class, mid_sentence, source_text};
use crate::formula::{Area, Audience, LineId};
use crate::quantity::Percent;

pub(super) const RULE: Rule = Rule { code: "children", check };

fn check(case: Case<'_>, findings: &mut Vec<Finding>) {
    let audience = case.about().audience;
    let small = audience == Audience::UnderThree || case.area() == Area::Nappy;
    if !small && audience != Audience::ChildThreePlus {
        return;
    }
    methyl_salicylate(case, findings);
    let camphor = case.class("camphor-like");
    if !camphor.is_empty() && (small || case.area() == Area::Face) {
        let mut scented: Vec<LineId> = camphor.lines();
        scented.dedup();
        findings.push(
            Finding::said(RULE.code, Grade::Stop, Said::CamphorForChildren, camphor.basis)
                .on(scented)
                .about(camphor.names())
                .found(Amount::Percent(camphor.most())),
        );
    }
    let tea_tree = case.class("tea-tree");
    if !tea_tree.is_empty() {
        findings.push(
            Finding::said(RULE.code, Grade::Stop, Said::TeaTreeForChildren, tea_tree.basis)
                .on(tea_tree.lines())
                .about(tea_tree.names())
                .found(Amount::Percent(tea_tree.most()))
                .mend(tea_tree.lines().into_iter().map(Mend::Remove)),
        );
    }
    if small {
        preservatives(case, findings);
        let taken: Vec<LineId> = camphor.lines().into_iter().chain(tea_tree.lines()).collect();
        customs(case, &taken, findings);
    }
}

fn methyl_salicylate(case: Case<'_>, findings: &mut Vec<Finding>) {
    let bits: Vec<_> = case.bits().iter().filter(|bit| bit.key == fold("Methyl Salicylate")).collect();
    let basis = Basis { source: source_text("a3"), seen: Seen::Stored };
    if let Some(first) = bits.first() {
        findings.push(
            Finding::said(RULE.code, Grade::Stop, Said::NotUnderSix, basis)
                .on(bits.iter().map(|bit| bit.line))
                .about(&*first.name)
                .found(Amount::Percent(bits.iter().map(|bit| bit.high).sum()))
                .by_law(case.region(), ""),
        );
    }
}

/// What Annex V says of products for under-threes.
fn preservatives(case: Case<'_>, findings: &mut Vec<Finding>) {
    for bit in case.bits() {
        let Some((row, rule)) = bit.preservative().and_then(|row| Some((row, row.child?))) else { continue };
        let (rinsed, nappy) = (!case.leave_on(), case.area() == Area::Nappy);
        let (grade, said, basis) = match rule {
            ChildRule::NotUnderThreeButShampoo if rinsed && case.area() == Area::Hair => continue,
            ChildRule::NotUnderThreeButWash if rinsed => continue,
            ChildRule::NotUnderThree | ChildRule::NotUnderThreeButShampoo | ChildRule::NotUnderThreeButWash => {
                (Grade::Stop, Said::NotUnderThree, None)
            }
            ChildRule::NotNappyUnderThree if nappy && !rinsed => (Grade::Stop, Said::NotOnTheNappyArea, None),
            ChildRule::NotNappyUnderThree => continue,
            ChildRule::Avoid => (Grade::Stop, Said::AvoidedUnderThree, Some(custom())),
            ChildRule::AvoidNappy if nappy && !rinsed => (Grade::Care, Said::AvoidedOnTheNappyArea, None),
            ChildRule::AvoidNappy => continue,
        };
        let seen = if row.rules_seen { Seen::Stored } else { Seen::Memory };
        let law = basis.is_none();
        let basis = basis.unwrap_or(Basis { source: "", seen });
        let mut finding = Finding::said(RULE.code, grade, said, basis)
            .on([bit.line])
            .about(&*bit.name)
            .found(Amount::Percent(bit.high))
            .mend([Mend::Remove(bit.line)]);
        if law {
            finding = finding.read_in(&row.sources.join("; ")).by_law(case.region(), "");
        }
        findings.push(finding);
    }
}

fn custom() -> Basis {
    Basis { source: source_text("sccsnotes"), seen: Seen::Custom }
}

/// What is left out by custom.
fn customs(case: Case<'_>, taken: &[LineId], findings: &mut Vec<Finding>) {
    let mut say = |said, lines: Vec<LineId>, subject: String, value, limit: Option<Percent>| {
        if lines.is_empty() {
            return;
        }
        let finding = Finding::said(RULE.code, Grade::Stop, said, custom())
            .mend(lines.iter().copied().map(Mend::Remove))
            .on(lines)
            .about(subject)
            .found(Amount::Percent(value));
        findings.push(match limit {
            Some(limit) => finding.against(Amount::Percent(limit)),
            None => finding,
        });
    };
    for scent in case.sheet.makeup.scents.iter().filter(|scent| !taken.contains(&scent.line)) {
        say(Said::ScentUnderThree, vec![scent.line], case.name(scent.line), scent.share, None);
    }
    let (alcohol, bound) = (case.class("alcohol"), criterion("child-alcohol").percent());
    if alcohol.most() > bound {
        say(Said::AlcoholUnderThree, alcohol.lines(), alcohol.names(), alcohol.most(), Some(bound));
    }
    let acids = case.class("aha");
    if acids.most() >= criterion("active-aha").percent() {
        say(Said::AcidUnderThree, acids.lines(), acids.names(), acids.most(), None);
    }
    let retinoids = case.class("retinoid");
    say(Said::RetinoidUnderThree, retinoids.lines(), retinoids.names(), retinoids.most(), None);
    for (_, line, share, entry) in case.known_lines() {
        let Some(source) = entry.allergen_source().filter(|_| !entry.has_function("Fragrance")) else { continue };
        let flagged = in_class("source-flag", &fold(source.value)).is_some();
        if flagged {
            let finding = Finding::said(RULE.code, Grade::Care, Said::SourceUnderThree, custom());
            let finding = finding
                .on([line.id])
                .about(entry.label())
                .more(mid_sentence(source.value))
                .found(Amount::Percent(share));
            findings.push(finding);
        }
    }
}
