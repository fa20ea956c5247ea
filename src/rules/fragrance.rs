//! Fragrance and essential oils: within the supplier's certificate, and not too much in all.
//!
//! Why it matters: fragrance is the most usual cause of allergies to cosmetics, and how much of one is fit for which skin
//! only its supplier's certificate says.
//! Source: the supplier's IFRA certificate; SCCS/1681/25 for tea tree oil; the totals are custom.

use super::{Amount, Finding, Grade, Message, Remedy, Rule, RuleContext};
use crate::facts::{Basis, Criterion, Field, SubstanceClass, criteria, criterion, source_text};
use crate::formula::{About, Area, Audience, Use};
use crate::quantity::{Percent, Quantity};
use crate::shelf::read_certificate;

pub(super) const RULE: Rule = Rule { code: "fragrance", check };

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    for scent in &context.sheet.composition.scents {
        certificate(context, scent.line, scent.share, findings);
    }
    total(context, findings);
    tea_tree(context, findings);
}

/// The certificate's category of a product. 5A body, 5B face, 5C hands, 5D babies and 9 rinse-off were read; 1 for lips and
/// 7B for leave-on hair are from memory.
pub fn certificate_category(about: &About) -> &'static str {
    match about.area {
        Area::Nappy => "5D",
        _ if about.audience == Audience::UnderThree => "5D",
        Area::Lip => "1",
        _ if about.purpose != Use::LeaveOn => "9",
        Area::Body => "5A",
        Area::Face => "5B",
        Area::Hand => "5C",
        Area::Hair => "7B",
    }
}

fn certificate(context: RuleContext<'_>, line: crate::formula::LineId, share: Percent, findings: &mut Vec<Finding>) {
    let category = certificate_category(context.about());
    let entry = context.entry(line);
    let typed = entry.as_ref().and_then(|entry| entry.text(Field::Certificate));
    let read = typed.map(|text| read_certificate(text.value)).unwrap_or_default();
    let limit = read.limit(category);
    let basis = Basis::verified(source_text("ifra"));
    let (grade, said) = match limit {
        None => (Grade::Care, Message::NoCertificate { category }),
        Some(limit) if share > limit => (Grade::Stop, Message::AboveCertificate { category }),
        // What was not understood may be the lower limit: nothing is within it before that is mended.
        Some(_) if !read.unread.is_empty() => (Grade::Care, Message::CertificateUnread { category }),
        Some(_) => (Grade::Fine, Message::WithinCertificate { category }),
    };
    let remedy = limit.filter(|limit| share > *limit).map(|limit| Remedy::Share(line, limit));
    let mut finding = Finding::said(RULE.code, grade, said, basis)
        .on([line])
        .about(context.name(line))
        .found(Amount::Percent(share))
        .document(context.documents(&[line]).filter(|_| limit.is_some()))
        .remedy(remedy);
    if let Some(limit) = limit {
        finding = finding.against(Amount::Percent(limit));
    }
    findings.push(finding);
}

/// All scents together. Face, lips and pregnancy get half of what the body may have.
fn total(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    let scents = &context.sheet.composition.scents;
    let total: Percent = scents.iter().map(|scent| scent.share).sum();
    if scents.is_empty() {
        return;
    }
    let (pass, care, soap) =
        (criterion(criteria::FRAGRANCE_PASS), criterion(criteria::FRAGRANCE_CARE), criterion(criteria::FRAGRANCE_SOAP));
    let tender = matches!(context.area(), Area::Face | Area::Lip) || context.about().audience == Audience::Pregnant;
    let of =
        |bound: Criterion<Percent>| if tender { Percent::from_units(bound.value.units() / 2) } else { bound.value };
    let (grade, bound) = if !context.leave_on() {
        (if total <= soap.value { Grade::Fine } else { Grade::Care }, soap.value)
    } else if total <= of(pass) {
        (Grade::Fine, of(pass))
    } else if total <= of(care) {
        (Grade::Care, of(pass))
    } else {
        (Grade::Stop, of(care))
    };
    let said = if grade == Grade::Fine { Message::FragranceModest } else { Message::FragranceMuch };
    findings.push(
        Finding::said(RULE.code, grade, said, pass.basis)
            .on(scents.iter().map(|scent| scent.line))
            .found(Amount::Percent(total))
            .against(Amount::Percent(bound)),
    );
}

fn tea_tree(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    let oil = context.class(SubstanceClass::TeaTree);
    if oil.is_empty() || !context.leave_on() {
        return;
    }
    let bound = criterion(criteria::TEA_TREE_FACE);
    let face = context.area() == Area::Face;
    let (grade, said) = match face {
        true if oil.most() > bound.value => (Grade::Stop, Message::TeaTreeFace),
        true => (Grade::Fine, Message::TeaTreeFaceWithin),
        false => (Grade::Care, Message::TeaTreeNotCovered),
    };
    let mut finding = Finding::said(RULE.code, grade, said, bound.basis)
        .on(oil.lines())
        .about(oil.names())
        .found(Amount::Percent(oil.most()));
    if face {
        finding = finding.against(Amount::Percent(bound.value));
    }
    findings.push(finding);
}
