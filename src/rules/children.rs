//! Children: what the law keeps from them, and what is left out of their products by custom.
//!
//! Why it matters: a small child has more skin for its weight, a nappy that keeps everything on and damages the skin, and
//! hands that go to the mouth.
//! Source: Regulation (EC) 1223/2009 Annex V (child rules of preservatives) and Annex III/324; SCCS/1681/25; Tisserand and
//! Young 2014 for camphor-like oils; the rest is custom, which an assessor may answer.

use super::{Amount, Finding, Grade, Message, Remedy, Rule, RuleContext};
use crate::facts::{Basis, ChildRule, SubstanceClass, criteria, criterion, fold, in_class, mid_sentence, source_text};
use crate::formula::{Area, Audience, LineId};
use crate::quantity::Percent;

pub(super) const RULE: Rule = Rule { code: "children", check };

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    let audience = context.about().audience;
    let small = audience == Audience::UnderThree || context.area() == Area::Nappy;
    if !small && audience != Audience::ChildThreePlus {
        return;
    }
    methyl_salicylate(context, findings);
    let camphor = context.class(SubstanceClass::CamphorLike);
    if !camphor.is_empty() && (small || context.area() == Area::Face) {
        let mut scented: Vec<LineId> = camphor.lines();
        scented.dedup();
        findings.push(
            Finding::said(RULE.code, Grade::Stop, Message::CamphorForChildren, camphor.basis)
                .on(scented)
                .about(camphor.names())
                .found(Amount::Percent(camphor.most())),
        );
    }
    let tea_tree = context.class(SubstanceClass::TeaTree);
    if !tea_tree.is_empty() {
        findings.push(
            Finding::said(RULE.code, Grade::Stop, Message::TeaTreeForChildren, tea_tree.basis)
                .on(tea_tree.lines())
                .about(tea_tree.names())
                .found(Amount::Percent(tea_tree.most()))
                .remedy(tea_tree.lines().into_iter().map(Remedy::Remove)),
        );
    }
    if small {
        preservatives(context, findings);
        let taken: Vec<LineId> = camphor.lines().into_iter().chain(tea_tree.lines()).collect();
        customs(context, &taken, findings);
    }
}

fn methyl_salicylate(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    let substances: Vec<_> =
        context.substances().iter().filter(|substance| substance.key == fold("Methyl Salicylate")).collect();
    let basis = Basis::verified(source_text("a3"));
    if let Some(first) = substances.first() {
        findings.push(
            Finding::said(RULE.code, Grade::Stop, Message::NotUnderSix, basis)
                .on(substances.iter().map(|substance| substance.line))
                .about(&*first.name)
                .found(Amount::Percent(substances.iter().map(|substance| substance.high).sum()))
                .by_law(context.region(), None),
        );
    }
}

/// What Annex V says of products for under-threes.
fn preservatives(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    for substance in context.substances() {
        let Some((row, rule)) = substance.preservative().and_then(|row| Some((row, row.child?))) else { continue };
        let (rinsed, nappy) = (!context.leave_on(), context.area() == Area::Nappy);
        let (grade, said, basis) = match rule {
            ChildRule::NotUnderThreeButShampoo if rinsed && context.area() == Area::Hair => continue,
            ChildRule::NotUnderThreeButWash if rinsed => continue,
            ChildRule::NotUnderThree | ChildRule::NotUnderThreeButShampoo | ChildRule::NotUnderThreeButWash => {
                (Grade::Stop, Message::NotUnderThree, None)
            }
            ChildRule::NotNappyUnderThree if nappy && !rinsed => (Grade::Stop, Message::NotOnTheNappyArea, None),
            ChildRule::NotNappyUnderThree => continue,
            ChildRule::Avoid => (Grade::Stop, Message::AvoidedUnderThree, Some(custom())),
            ChildRule::AvoidNappy if nappy && !rinsed => {
                (Grade::Care, Message::AvoidedOnTheNappyArea, Some(Basis::memory(source_text("nappy12"))))
            }
            ChildRule::AvoidNappy => continue,
        };
        let law = basis.is_none();
        let basis = basis.unwrap_or(Basis { source: "", provenance: row.rules_provenance });
        let mut finding = Finding::said(RULE.code, grade, said, basis)
            .on([substance.line])
            .about(&*substance.name)
            .found(Amount::Percent(substance.high))
            .remedy([Remedy::Remove(substance.line)]);
        if law {
            finding = finding.read_in(&row.sources.join("; ")).by_law(context.region(), None);
        }
        findings.push(finding);
    }
}

fn custom() -> Basis {
    Basis::custom(source_text("sccsnotes"))
}

/// What is left out by custom.
fn customs(context: RuleContext<'_>, taken: &[LineId], findings: &mut Vec<Finding>) {
    let mut say = |said, lines: Vec<LineId>, subject: String, value, limit: Option<Percent>| {
        if lines.is_empty() {
            return;
        }
        let finding = Finding::said(RULE.code, Grade::Stop, said, custom())
            .remedy(lines.iter().copied().map(Remedy::Remove))
            .on(lines)
            .about(subject)
            .found(Amount::Percent(value));
        findings.push(match limit {
            Some(limit) => finding.against(Amount::Percent(limit)),
            None => finding,
        });
    };
    for scent in context.sheet.composition.scents.iter().filter(|scent| !taken.contains(&scent.line)) {
        say(Message::ScentUnderThree, vec![scent.line], context.name(scent.line), scent.share, None);
    }
    let (alcohol, bound) = (context.class(SubstanceClass::Alcohol), criterion(criteria::CHILD_ALCOHOL).value);
    if alcohol.most() > bound {
        say(Message::AlcoholUnderThree, alcohol.lines(), alcohol.names(), alcohol.most(), Some(bound));
    }
    let acids = context.class(SubstanceClass::Aha);
    if acids.most() >= criterion(criteria::ACTIVE_AHA).value {
        say(Message::AcidUnderThree, acids.lines(), acids.names(), acids.most(), None);
    }
    let retinoids = context.class(SubstanceClass::Retinoid);
    say(Message::RetinoidUnderThree, retinoids.lines(), retinoids.names(), retinoids.most(), None);
    for (_, line, share, entry) in context.known_lines() {
        let Some(source) = entry.allergen_source().filter(|_| !entry.has_function("Fragrance")) else { continue };
        let flagged = in_class(SubstanceClass::SourceFlag, &fold(source.value)).is_some();
        if flagged {
            let said = Message::SourceUnderThree { made_from: mid_sentence(source.value) };
            let finding = Finding::said(RULE.code, Grade::Care, said, custom());
            findings.push(finding.on([line.id]).about(entry.label()).found(Amount::Percent(share)));
        }
    }
}
