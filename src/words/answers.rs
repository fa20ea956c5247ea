//! What can be done about a finding: the changes that it proposes, and the answers to one that stops.

use super::safety::ended;
use super::{DecimalSign, answered, choice_name, narrow, number, page, with_unit};
use crate::facts::Provenance;
use crate::formula::{Formula, LineId};
use crate::quantity::Quantity;
use crate::rules::{Finding, Grade, Remedy, Standing};
use crate::shelf::Shelf;

/// A proposed change, as the text of its button.
pub fn remedy(remedy: &Remedy, formula: &Formula, shelf: &Shelf, sign: DecimalSign) -> String {
    let name = |id: LineId| formula.line(id).map(|line| choice_name(&line.choice, shelf)).unwrap_or_default();
    match remedy {
        Remedy::Share(id, share) => format!("Set {} to {}", name(*id), with_unit(*share, "%", sign)),
        Remedy::Remove(id) => format!("Remove {}", name(*id)),
        Remedy::ToCoolDown(id) => format!("Move {} to the cool-down phase", name(*id)),
        Remedy::Add(id, share, _) => {
            let name = shelf.entry(id).map_or_else(|| id.as_str().to_owned(), |entry| entry.label().to_owned());
            format!("Add {} {name}", with_unit(*share, "%", sign))
        }
        Remedy::TargetPh(ph) => format!("Set the target pH to {}", number(&ph.canonical(), sign)),
        Remedy::FillUp(id) => format!("Make {} the fill-up line", name(*id)),
        Remedy::Pack(pack) => format!("Change the pack to a {}", page::pack(*pack)),
    }
}

/// Where a finding's limit comes from, as a footnote: the source, what of it was verified, the supplier's document.
pub fn footnote(finding: &Finding) -> String {
    let document = finding
        .detail
        .document
        .as_ref()
        .map_or_else(String::new, |text| format!(" Supplier\u{2019}s document: {}.", ended(text)));
    format!("{}{}. {}{document}", page::SOURCE, finding.source().trim_end_matches('.'), verification(finding))
}

/// What of a finding was verified.
pub const fn verification(finding: &Finding) -> &'static str {
    match finding.detail.provenance {
        Some(Provenance::Verified | Provenance::Maker) if finding.verified() => "Verified: the source was read.",
        Some(Provenance::Custom) if finding.verified() => "No law sets this, so there is nothing to verify.",
        Some(Provenance::Allowance) if finding.verified() => {
            "Verified: the source was read. Where it is not applied is a choice of this program."
        }
        Some(Provenance::Verified | Provenance::Maker | Provenance::Allowance) => {
            "Verified in part: the limit was read in its source, but the amount in this formula rests on a usual composition or on figures whose source was not read."
        }
        Some(Provenance::Custom) => {
            "Not verified: a cautious choice of this program, and the amount in this formula rests on a usual composition or on figures whose source was not read."
        }
        Some(Provenance::Mixed) => "Not verified: the source was read only in part.",
        Some(Provenance::Checked | Provenance::Memory) => "Not verified: no source was read.",
        None if finding.verified() => "Verified: it follows from what you typed.",
        None => "Not verified: no source was read.",
    }
}

/// Where a Stop stands with the maker; `now` is what was found this time.
pub fn standing(standing: &Standing<'_>, now: &str) -> String {
    match standing {
        Standing::Open => "Not answered yet.".to_owned(),
        Standing::Answered(answer) => answered(answer),
        Standing::Unfinished(_) => {
            "The answer has no reason or no name. It does not count until it has both.".to_owned()
        }
        Standing::Lapsed(answer) if answer.value.is_empty() || now.is_empty() => {
            "This finding has changed since the answer was given. Look again, then confirm the answer or change the formula."
                .to_owned()
        }
        Standing::Lapsed(answer) => {
            format!(
                "The answer was given at {}; the value is now {}. Look again, then confirm the answer or change the formula.",
                narrow(&answer.value),
                narrow(now)
            )
        }
    }
}

/// The button that adds a name to the shelf.
pub fn add_to_shelf(name: &str) -> String {
    format!("Add {name} to the shelf")
}

/// How many findings have a grade.
pub fn graded(count: usize, grade: Grade) -> String {
    format!("{count}\u{a0}{}", page::grade(grade))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::demo;
    use crate::facts::IngredientId;
    use crate::formula::{Answer, Pack, PhaseKind};
    use crate::quantity::{Day, Percent, Ph};

    #[test]
    fn mend_names_the_thing_the_number_and_the_unit() {
        let (formula, shelf) = (demo().state.formula, Shelf::default());
        let glycerin = formula.lines().nth(1).map(|(_, line)| line.id).unwrap();
        let text = |one: Remedy| remedy(&one, &formula, &shelf, DecimalSign::Comma);
        assert_eq!(
            text(Remedy::Share(glycerin, Percent::millionths(1_500_000))),
            "Set Glycerin (vegetable) to 1,5\u{202f}%"
        );
        assert_eq!(text(Remedy::Remove(glycerin)), "Remove Glycerin (vegetable)");
        assert_eq!(text(Remedy::FillUp(glycerin)), "Make Glycerin (vegetable) the fill-up line");
        assert_eq!(text(Remedy::TargetPh(Ph::from_units(550))), "Set the target pH to 5,5");
        assert_eq!(text(Remedy::Pack(Pack::Pump)), "Change the pack to a pump");
        let add =
            Remedy::Add(IngredientId::parse("phenoxyethanol").unwrap(), Percent::millionths(900_000), PhaseKind::Water);
        assert_eq!(text(add), "Add 0,9\u{202f}% Phenoxyethanol");
    }

    #[test]
    fn standing_says_who_took_it_on_and_at_which_value_it_lapsed() {
        let answer = Answer {
            value: "1.2 %".into(),
            reason: "Tested at this share.".into(),
            person: "Ada Marsh".into(),
            day: Day::read("2026-11-25"),
            ..Answer::default()
        };
        assert_eq!(
            standing(&Standing::Answered(&answer), "1.2 %"),
            "Accepted by Ada Marsh, 2026-11-25: Tested at this share."
        );
        let lapsed = standing(&Standing::Lapsed(&answer), "1.3 %");
        assert!(lapsed.contains("at 1.2\u{202f}%") && lapsed.contains("is now 1.3\u{202f}%"), "{lapsed}");
    }

    #[test]
    fn verification_tells_read_chosen_and_remembered_apart() {
        let mut finding = Finding::new("rule", Grade::Care, Vec::new(), crate::rules::Fact::NoShare);
        let mut told = Vec::new();
        let known = [Provenance::Verified, Provenance::Allowance, Provenance::Custom, Provenance::Memory];
        for known in known.map(Some).into_iter().chain([None]) {
            finding.detail.provenance = known;
            finding.fact = match known {
                None => crate::rules::Fact::NoShare,
                Some(_) => crate::rules::Fact::Message(crate::rules::Message::Preserved),
            };
            for verified in [true, false] {
                finding.detail.verified = verified;
                told.push(verification(&finding).split(':').next().unwrap_or_default());
            }
        }
        let (memory, law) = ("Not verified", "No law sets this, so there is nothing to verify.");
        let (seen, part) = ("Verified", "Verified in part");
        assert_eq!(told, [seen, part, seen, part, law, memory, memory, memory, seen, seen]);
    }
}
