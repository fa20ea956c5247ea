//! What the annexes of the law forbid or limit, where no rule of its own speaks of it.
//!
//! Why it matters: the tables by hand hold some forty entries that makers meet often; the law has two thousand.
//! Source: Regulation (EC) No 1223/2009 Annexes II to VI whole, as the Commission exports them. What a program cannot tell is
//! Unknown, and the words stand in the card of the annexes.

use super::context::names;
use super::{Amount, Finding, Grade, Message, Remedy, Rule, RuleContext};
use crate::compliance::{EntryCheck, LawOutcome};
use crate::facts::{Basis, LegalLimit, PreservativeGroup, limits, source_text};
use crate::law::{Annex, AnnexEntry};
use crate::quantity::{Day, Percent};
use crate::sheet::{AnnexCheck, SubstanceShare};

pub(super) const RULE: Rule = Rule { code: "annexes", check };

/// Great Britain left the common law at the end of this year.
const LAST_COMMON_YEAR: u16 = 2020;

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    if context.substances().is_empty() {
        return;
    }
    let law = Basis::verified(source_text("annexes"));
    let Some(annexes) = &context.sheet.annexes else {
        findings.push(Finding::said(RULE.code, Grade::Unknown, Message::AnnexesNotHere, law));
        return;
    };
    let mut open: Vec<&EntryCheck> = Vec::new();
    for entry in annexes.entries().into_iter().filter(|entry| !is_said_by_hand(context, annexes, entry)) {
        let title = entry.entry.short_title();
        let (grade, said) = match entry.outcome() {
            LawOutcome::Prohibited if entry.entry.annex == Annex::II => {
                (Grade::Stop, Message::AnnexProhibits { entry: title })
            }
            LawOutcome::Prohibited => (Grade::Stop, Message::AnnexBars { entry: title }),
            LawOutcome::Above => (Grade::Stop, Message::AnnexAbove { entry: title }),
            LawOutcome::MayBeAbove => (Grade::Care, Message::AnnexMayBeAbove { entry: title }),
            LawOutcome::Unknown => {
                open.push(entry);
                continue;
            }
            LawOutcome::Within | LawOutcome::Indicate | LawOutcome::Print => continue,
        };
        findings.push(said_of(context, annexes, entry, grade, said));
    }
    if !open.is_empty() {
        let entries = open.iter().map(|entry| entry.entry.short_title()).collect();
        let lines = open.iter().flat_map(|entry| annexes.substances(entry)).map(|one| one.line);
        findings.push(Finding::said(RULE.code, Grade::Unknown, Message::AnnexesOpen { entries }, law).on(lines));
    }
}

fn said_of(context: RuleContext<'_>, annexes: &AnnexCheck, entry: &EntryCheck, grade: Grade, said: Message) -> Finding {
    let law = Basis::verified(source_text("annexes"));
    let substances: Vec<&SubstanceShare> = annexes.substances(entry).collect();
    let gravest = entry.says.iter().max_by_key(|said| said.outcome);
    let mut lines: Vec<_> = substances.iter().map(|one| one.line).collect();
    lines.dedup();
    let mut finding = Finding::said(RULE.code, grade, said, law)
        .if_holds(annexes.rests_on_facts(entry))
        .on(lines.iter().copied())
        .about(names(&substances))
        .found(Amount::Percent(entry.reckoned.unwrap_or(entry.high)))
        .document(context.documents(&lines))
        .by_law(context.region(), gravest.and_then(|said| said.placed_from).or_else(|| since(entry.entry)));
    if let Some(limit) = gravest.and_then(|said| said.limit) {
        finding = finding.against(Amount::Percent(limit));
    }
    match lines.as_slice() {
        [only] if entry.outcome() == LawOutcome::Prohibited => finding.remedy([Remedy::Remove(*only)]),
        _ => finding,
    }
}

/// The year of an act that came after Great Britain had left; what it changed may not be law there.
fn since(entry: &AnnexEntry) -> Option<Day> {
    let years = entry.regulation.split("(EU) ").skip(1).filter_map(|act| act.get(..4)?.parse::<u16>().ok());
    let latest = years.filter(|year| *year > LAST_COMMON_YEAR).max()?;
    Day::from_calendar(latest.into(), 1, 1)
}

/// Whether rules by hand, which have words and remedies of their own, say as much of each substance under an entry.
fn is_said_by_hand(context: RuleContext<'_>, annexes: &AnnexCheck, entry: &EntryCheck) -> bool {
    let most = entry.says.iter().filter(|said| said.outcome == entry.outcome()).filter_map(|said| said.limit).min();
    annexes.substances(entry).all(|substance| match entry.outcome() {
        LawOutcome::Prohibited => is_barred_by_hand(substance),
        LawOutcome::Above | LawOutcome::MayBeAbove => {
            is_barred_by_hand(substance) || most.is_some_and(|most| is_capped_by_hand(context, substance, most))
        }
        LawOutcome::Within | LawOutcome::Indicate | LawOutcome::Print | LawOutcome::Unknown => false,
    })
}

fn is_barred_by_hand(substance: &SubstanceShare) -> bool {
    let banned = limits().iter().any(|limit| limit.most.is_none() && names_it(limit, substance));
    let row = substance.preservative();
    banned || row.is_some_and(|row| row.group == PreservativeGroup::Banned || !row.barred.is_empty())
}

/// Whether a table by hand allows no more of it than this.
fn is_capped_by_hand(context: RuleContext<'_>, substance: &SubstanceShare, most: Percent) -> bool {
    let holds =
        |limit: &LegalLimit| limit.holds_for(context.leave_on(), context.area().key()) && names_it(limit, substance);
    let capped = limits().iter().any(|limit| limit.most.is_some_and(|own| own <= most) && holds(limit));
    let listed = substance.preservative().filter(|row| row.group == PreservativeGroup::Listed);
    let allowed = listed.and_then(|row| if context.leave_on() { row.leave_on } else { row.rinse_off });
    capped || allowed.is_some_and(|own| own <= most)
}

fn names_it(limit: &LegalLimit, substance: &SubstanceShare) -> bool {
    limit.names.iter().any(|(name, _)| *name == substance.key)
}
