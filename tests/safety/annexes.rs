//! Whatever the annexes forbid or limit is a finding, whether a rule by hand says it or the rule on the annexes.
//!
//! Source: Annexes II to VI of Regulation (EC) No 1223/2009, the Commission's export of 28 August 2026, entry by entry.

use crate::made::*;
use hundred_parts::compliance::LawOutcome;
use hundred_parts::facts::Field;
use hundred_parts::law;
use hundred_parts::rules::Grade;

/// A preserved lotion, left on the body, with an ingredient of the maker's own.
fn lotion(inci: &str, share: &str) -> Made {
    let mut made = Made::of(&["water fill-up", "phenoxyethanol 0.9"]);
    let id = made.shelf.add_own("From the new supplier");
    made.shelf.set(&id, Field::Inci, inci);
    made.with(&format!("{id} {share}"))
}

#[test]
fn annexes_that_forbid_or_limit_are_heard_of_every_entry() {
    let law = law::shipped().unwrap();
    let (mut grave, mut silent) = (0, Vec::new());
    for entry in law.entries().iter().filter(|entry| !entry.is_gone()) {
        let Some(name) = entry.ingredient_names().next() else { continue };
        let (_, sheet, findings) = lotion(name, "5").derive();
        let check = sheet.annexes.unwrap();
        let heard =
            |line| findings.iter().any(|found| found.detail.asked == Some(Grade::Stop) && found.lines.contains(&line));
        for found in check.entries() {
            let of_own: Vec<_> = check.substances(found).filter(|one| one.name != "Phenoxyethanol").collect();
            let breaks = matches!(found.outcome(), LawOutcome::Prohibited | LawOutcome::Above);
            if !breaks || of_own.is_empty() {
                continue;
            }
            grave += 1;
            if !of_own.iter().any(|one| heard(one.line)) {
                silent.push(format!("{}: {name}", found.entry.short_title()));
            }
        }
    }
    assert!(grave > 400, "{grave}");
    assert_eq!(silent, Vec::<String>::new());
}

// Annex V/44 allows 0.1 % to preserve; Annex III/286 speaks of other purposes, and not of products left on the body.
#[test]
fn annexes_leave_open_for_what_a_preservative_is_there() {
    let made = lotion("Cetrimonium Chloride", "0.1");
    made.says("annexes-open", Grade::Unknown);
    made.silent("annex-bars");
    lotion("Cetrimonium Chloride", "0.6").says("annex-bars", Grade::Stop);
}
